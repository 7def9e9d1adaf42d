import { scaleBand, scaleLinear } from 'd3-scale';
import { stack, stackOffsetDiverging } from 'd3-shape';
import {
  chartRung,
  chartSvg,
  chartText,
  filledBox,
  fitted,
  legend,
  LINE,
  TEXT,
  textWidth,
  type ChartWords,
} from './chart-parts.ts';

const PLOT = { top: 24, height: 220 };

/**
 * Columns made of parts one on the other, with the sum of each above it and the scale at the left.
 *
 * @param chart a value of a column for each of the kinds; figure writes a value of the scale with its unit; width in units of the page
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 */
export function stackedColumns({
  columns,
  kinds,
  figure,
  words,
  width,
}: {
  columns: readonly { name: string; values: readonly number[] }[];
  kinds: readonly string[];
  figure: (value: number) => string;
  words: ChartWords;
  width: number;
}): string {
  const foot = PLOT.top + PLOT.height;
  const layers = stack<(typeof columns)[number], number>()
    .keys(kinds.map((_, kind) => kind))
    .value(({ values }, kind) => values[kind] ?? 0)
    .offset(stackOffsetDiverging)([...columns]);
  const ends = layers.flatMap((layer) => layer.flatMap(([low, high]) => [low, high]));
  const up = scaleLinear([Math.min(0, ...ends), Math.max(0, ...ends) || 1], [foot, PLOT.top]).nice(5);
  const ticks = up.ticks(5);
  const left = Math.max(...ticks.map((tick) => textWidth(figure(tick)))) + 10;
  const across = scaleBand<number>(
    columns.map((_, index) => index),
    [left, width - 4],
  ).padding(0.3);
  const sums = columns.map(({ values }) => figure(values.reduce((sum, value) => sum + value, 0)));
  // Where the columns are narrower than what is written at them, only some are named.
  const room = Math.max(across.step(), 1);
  const widest = Math.max(0, ...columns.map(({ name }) => textWidth(name)), ...sums.map(textWidth));
  const each = Math.min(Math.max(1, columns.length), Math.ceil((widest + 6) / room));
  const shown = legend(kinds, { top: foot + LINE + 12, width });
  return chartSvg(
    { width, height: foot + LINE + 16 + shown.height, words },
    ...ticks.flatMap((tick) => [
      chartRung({ x1: left, y1: up(tick), x2: width - 4, y2: up(tick) }),
      chartText(figure(tick), { x: left - 6, y: up(tick) + TEXT * 0.36, anchor: 'end' }),
    ]),
    ...layers.flatMap((layer, kind) =>
      layer.flatMap(([low, high], index) =>
        high - low === 0
          ? []
          : [filledBox({ x: across(index)!, y: up(high), width: across.bandwidth(), height: up(low) - up(high) }, kind)],
      ),
    ),
    ...columns.flatMap(({ name }, index) => {
      if (index % each !== 0) return [];
      const top = Math.min(...layers.map((layer) => up(layer[index]![1])));
      const at = (text: string, y: number) =>
        chartText(text, { ...inside(text, across(index)! + across.bandwidth() / 2, width), y });
      return [at(sums[index]!, top - 5), at(fitted(name, room * each), foot + LINE)];
    }),
    ...shown.svg,
  );
}

/** In the middle of its column, unless it would stand out of the picture there. */
function inside(text: string, middle: number, width: number): { x: number; anchor: 'middle' | 'end' } {
  return middle + textWidth(text) / 2 > width ? { x: width - 1, anchor: 'end' } : { x: middle, anchor: 'middle' };
}
