import { element, escapeMarkup, linesOf, units } from './svg-text.ts';

export interface ChartWords {
  title: string;
  /** Read out in place of the picture. */
  description: string;
}

export const TEXT = 13;
export const LINE = 18;
/** Units that a letter takes at most, on average: no font is asked. */
const LETTER = TEXT * 0.62;

/** The SVG of a chart, with a viewBox and no size of its own, black unless a stylesheet says otherwise. */
export function chartSvg(
  { width, height, words }: { width: number; height: number; words: ChartWords },
  ...children: readonly string[]
): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${units(width)} ${units(height)}`,
      role: 'img',
      class: 'chart',
      fill: 'none',
      stroke: '#000',
      'stroke-width': 1,
      'font-family': 'DejaVu Sans, sans-serif',
      'font-size': TEXT,
    },
    element('title', {}, escapeMarkup(words.title)),
    element('desc', {}, escapeMarkup(words.description)),
    ...children,
  );
}

export function chartText(words: string, { x, y, anchor }: { x: number; y: number; anchor: 'start' | 'middle' | 'end' }): string {
  return element('text', { x, y, 'text-anchor': anchor, fill: '#000', stroke: 'none' }, escapeMarkup(words));
}

/** A line of the scale, across or up. */
export function chartRung({ x1, y1, x2, y2 }: { x1: number; y1: number; x2: number; y2: number }): string {
  return element('line', { class: 'chart-rung', x1, y1, x2, y2, stroke: '#bbb' });
}

/** Units that a text takes at most. */
export function textWidth(text: string): number {
  return Array.from(text).length * LETTER;
}

/** A text cut to the room there is. */
export function fitted(text: string, room: number): string {
  const most = Math.max(2, Math.floor(room / LETTER));
  const letters = Array.from(text);
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join('')}…`;
}

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A bar of the nth of several kinds: full, hollow, hatched along, hatched across, grey, hatched both ways, and so again. */
export function filledBox({ x, y, width, height }: Box, kind: number): string {
  const way = kind % 6;
  const along = way === 2 || way === 5 ? steps(height).map((at) => hatch(x, y + at, x + width, y + at)) : [];
  const across = way === 3 || way === 5 ? steps(width).map((at) => hatch(x + at, y, x + at, y + height)) : [];
  const fill = way === 0 ? '#000' : way === 4 ? '#999' : '#fff';
  return element(
    'g',
    { class: `chart-fill chart-fill-${way}` },
    element('rect', { x, y, width, height, fill }),
    ...along,
    ...across,
  );
}

const HATCH = 4;

function steps(length: number): number[] {
  return Array.from({ length: Math.max(0, Math.ceil(length / HATCH) - 1) }, (_, index) => (index + 1) * HATCH);
}

function hatch(x1: number, y1: number, x2: number, y2: number): string {
  return element('line', { x1, y1, x2, y2 });
}

/** What each kind of bar stands for, one below the other; with its height. */
export function legend(
  names: readonly string[],
  { top, width }: { top: number; width: number },
): { height: number; svg: string[] } {
  const room = width - 36;
  let row = top;
  const svg = names.flatMap((name, kind) => {
    const lines = linesOf(name, Math.floor(room / LETTER));
    const drawn = [
      filledBox({ x: 2, y: row + 3, width: 20, height: 12 }, kind),
      ...lines.map((line, index) => chartText(line, { x: 30, y: row + TEXT + index * LINE, anchor: 'start' })),
    ];
    row += lines.length * LINE;
    return drawn;
  });
  return { height: row - top, svg };
}
