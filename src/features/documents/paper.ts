/** A paper as words and figures in order, before it is set for screen or print. Nothing in it is markup but the drawing. */
export interface Paper {
  /** BCP 47. */
  language: string;
  title: string;
  /** The studio. */
  author: string;
  size: PaperSize;
  /** The moment the paper is of, RFC 3339: the only time in it, so that the same paper is the same bytes. */
  writtenAt: string;
  blocks: readonly Block[];
}

export type PaperSize = 'A4' | 'letter';

export type Block =
  /** Who writes: name and lines below it. */
  | { kind: 'letterhead'; name: string; lines: readonly string[] }
  /** To whom. */
  | { kind: 'address'; lines: readonly string[] }
  | { kind: 'title'; text: string }
  | { kind: 'heading'; text: string }
  | { kind: 'paragraph'; text: string }
  /** Said apart, such as that this is a draft. */
  | { kind: 'notice'; text: string }
  | { kind: 'list'; items: readonly string[] }
  /** Boxes to tick by hand. */
  | { kind: 'checks'; items: readonly string[] }
  /** What is what; the rows marked carry weight. */
  | { kind: 'facts'; rows: readonly Fact[] }
  | { kind: 'table'; head: readonly string[]; rows: readonly (readonly string[])[]; total?: readonly string[]; amounts: boolean }
  /** Lines to write on, each after its words. */
  | { kind: 'blanks'; labels: readonly string[] }
  /** @param svg made by drawDesign() */
  | { kind: 'drawing'; svg: string; caption: string };

export interface Fact {
  label: string;
  value: string;
  strong?: boolean;
}
