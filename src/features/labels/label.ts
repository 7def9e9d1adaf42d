/** What stands on one label, in order, and where its square leads. */
export interface Label {
  /** What it is of, in one line: for those who have it read to them. */
  title: string;
  lines: readonly LabelLine[];
  /** In the square (ISO/IEC 18004). */
  address: string;
}

export interface LabelLine {
  text: string;
  /** Against the other lines; 1 is plain. */
  size: number;
  bold: boolean;
}

export interface LabelSize {
  widthMm: number;
  heightMm: number;
}

export function line(text: string, size = 1): LabelLine {
  return { text, size, bold: false };
}

export function strong(text: string, size = 1): LabelLine {
  return { text, size, bold: true };
}
