import type { PaperSize } from '../documents/index.ts';
import type { Label, LabelSize } from './label.ts';

/** Labels in the order they are printed, and on what. */
export interface LabelRun {
  labels: readonly Label[];
  size: LabelSize;
  /** Absent: each label is a page. */
  sheet?: LabelSheet;
  /** How many places of the first sheet are used already. */
  used: number;
}

export interface LabelSheet {
  /** Of the paper. */
  widthMm: number;
  heightMm: number;
  columns: number;
  rows: number;
  topMm: number;
  leftMm: number;
  columnGapMm: number;
  label: LabelSize;
}

/** Two layouts that label sheets are sold in everywhere; common practice, no source. */
export const SHEETS: Readonly<Record<PaperSize, LabelSheet>> = {
  A4: {
    widthMm: 210,
    heightMm: 297,
    columns: 3,
    rows: 7,
    topMm: 15.15,
    leftMm: 7.25,
    columnGapMm: 2.5,
    label: { widthMm: 63.5, heightMm: 38.1 },
  },
  letter: {
    widthMm: 215.9,
    heightMm: 279.4,
    columns: 3,
    rows: 10,
    topMm: 12.7,
    leftMm: 4.7625,
    columnGapMm: 3.175,
    label: { widthMm: 66.675, heightMm: 25.4 },
  },
};

/** The labels page by page; null stands for a place that is left empty. */
export function pagesOf({ labels, sheet, used }: LabelRun): (Label | null)[][] {
  if (!sheet) return labels.map((label) => [label]);
  const places = [...Array.from({ length: used }, () => null), ...labels];
  const perPage = sheet.columns * sheet.rows;
  return Array.from({ length: Math.ceil(places.length / perPage) }, (_page, index) =>
    places.slice(index * perPage, (index + 1) * perPage),
  );
}
