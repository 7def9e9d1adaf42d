import type { LabelLine } from './label.ts';

/** A line of words where it stands, in mm from the left and the top of the room. */
interface SetLine {
  text: string;
  bold: boolean;
  sizeMm: number;
  widthMm: number;
  baselineMm: number;
}

/** How wide words are at a size of 1. */
export type Measure = (text: string, bold: boolean) => number;

const LEADING = 1.16;
const ASCENT = 0.8;
const STEP = 0.97;
const MOST_SIZE_MM = 9;
const LEAST_SIZE_MM = 0.5;

/** Words as large as the room lets them be, broken between words but not at a no-break space; one that is wider than the room alone is broken in itself. */
export function setLines(lines: readonly LabelLine[], room: { widthMm: number; heightMm: number }, measure: Measure): SetLine[] {
  for (let sizeMm = MOST_SIZE_MM; ; sizeMm *= STEP) {
    const last = sizeMm * STEP < LEAST_SIZE_MM;
    const broken = lines.map((one) => breakWords(one, { sizeMm: sizeMm * one.size, widthMm: room.widthMm, measure, last }));
    const rows = broken.flatMap((row) => row ?? []);
    const heightMm = rows.reduce((sum, row) => sum + row.sizeMm * LEADING, 0);
    if (!last && (broken.includes(undefined) || heightMm > room.heightMm)) continue;
    let top = Math.max(0, (room.heightMm - heightMm) / 2);
    return rows.map((row) => {
      const baselineMm = top + row.sizeMm * (ASCENT + (LEADING - 1) / 2);
      top += row.sizeMm * LEADING;
      return { ...row, baselineMm };
    });
  }
}

function breakWords(
  { text, bold }: LabelLine,
  { sizeMm, widthMm, measure, last }: { sizeMm: number; widthMm: number; measure: Measure; last: boolean },
): Omit<SetLine, 'baselineMm'>[] | undefined {
  const widthOf = (words: string) => measure(words, bold) * sizeMm;
  const rows: string[] = [];
  for (const word of text.split(' ')) {
    const longer = rows.length === 0 ? word : `${rows.at(-1)} ${word}`;
    if (widthOf(longer) <= widthMm) rows[Math.max(0, rows.length - 1)] = longer;
    else if (widthOf(word) <= widthMm || last) rows.push(word);
    else return undefined;
  }
  return rows.map((row) => ({ text: row, bold, sizeMm, widthMm: widthOf(row) }));
}
