import { scaleLinear, scaleLog } from 'd3-scale';
import { element } from './svg-text.ts';
import { chartRung, chartSvg, chartText, fitted, LINE, TEXT, textWidth, type ChartWords } from './chart-parts.ts';

export interface Spread {
  name: string;
  /** What is written at its end, with its unit. */
  figure: string;
  /** Null: nothing is known of it. */
  middle: number | null;
  low?: number | null;
  high?: number | null;
  /** What it was told from, one by one. */
  points?: readonly number[];
}

const TRACK = 26;
const GAP = 8;

/**
 * A dot for each row on a common scale, with a bar from the least to the most that it may be.
 *
 * @param chart from and to: the ends of the scale, both above 0 where it goes by ratio; width in units of the page
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 */
export function spreadChart({
  rows,
  from,
  to,
  byRatio = false,
  tick,
  words,
  width,
}: {
  rows: readonly Spread[];
  from: number;
  to: number;
  /** Equal steps are equal ratios. */
  byRatio?: boolean;
  tick: (value: number) => string;
  words: ChartWords;
  width: number;
}): string {
  const edge = Math.max(textWidth(tick(from)), textWidth(tick(to))) / 2 + 4;
  const range = [edge, width - edge];
  const linear = scaleLinear([from, to], range).clamp(true);
  const ratio = scaleLog([from, to], range).base(2).clamp(true);
  const at = (value: number) => (byRatio ? ratio(value) : linear(value));
  const perRow = LINE + TRACK + GAP;
  const foot = rows.length * perRow;
  return chartSvg(
    { width, height: foot + LINE + 8, words },
    ...(byRatio ? ratio : linear).ticks(4).flatMap((value) => [
      ...rows.map((_, index) => {
        const top = index * perRow + LINE;
        return chartRung({ x1: at(value), y1: top + 3, x2: at(value), y2: top + TRACK });
      }),
      chartText(tick(value), { x: at(value), y: foot + TEXT, anchor: 'middle' }),
    ]),
    ...rows.flatMap((row, index) => {
      const top = index * perRow;
      const room = width - textWidth(row.figure) - 16;
      return [
        chartText(fitted(row.name, room), { x: 2, y: top + TEXT, anchor: 'start' }),
        chartText(row.figure, { x: width - 2, y: top + TEXT, anchor: 'end' }),
        ...spread(row, { at, y: top + LINE + TRACK / 2 + 1 }),
      ];
    }),
  );
}

function spread({ middle, low, high, points = [] }: Spread, { at, y }: { at: (value: number) => number; y: number }): string[] {
  const known = low !== null && low !== undefined && high !== null && high !== undefined;
  return [
    ...points.map((value) => element('circle', { class: 'chart-point', cx: at(value), cy: y, r: 3, fill: '#fff' })),
    ...(known ? [bar(at(low), y, at(high), y), bar(at(low), y - 6, at(low), y + 6), bar(at(high), y - 6, at(high), y + 6)] : []),
    ...(middle === null ? [] : [element('circle', { class: 'chart-middle', cx: at(middle), cy: y, r: 5, fill: '#000' })]),
  ];
}

function bar(x1: number, y1: number, x2: number, y2: number): string {
  return element('line', { class: 'chart-spread', x1, y1, x2, y2, 'stroke-width': 2 });
}
