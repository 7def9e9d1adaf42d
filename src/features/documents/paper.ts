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
  /** Under every page, where pages may come apart. */
  footer?: string;
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
  | {
      kind: 'table';
      head: readonly string[];
      rows: readonly (readonly string[])[];
      total?: readonly string[];
      /** The last column is of amounts. */
      amounts: boolean;
      /** Its empty cells are written in by hand. */
      toWriteIn?: boolean;
      /** Of the width, by column, on paper; by a rule of its own when absent. */
      shares?: readonly number[];
    }
  /** Something that is done at the bench, read there from an arm's length: its number, what it is, what has to be known, lines to write on. */
  | { kind: 'step'; mark: string; title: string; rows: readonly Fact[]; blanks: readonly string[] }
  /** @param svg made by qrPicture() */
  | { kind: 'square'; svg: string; caption: string }
  /** Lines to write on, each after its words. */
  | { kind: 'blanks'; labels: readonly string[] }
  /** @param svg made by drawDesign() */
  | { kind: 'drawing'; svg: string; caption: string };

export interface Fact {
  label: string;
  value: string;
  strong?: boolean;
}
