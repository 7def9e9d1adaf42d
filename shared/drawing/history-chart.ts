import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { chartRung, chartSvg, chartText, LINE, TEXT, type ChartWords } from './chart-parts.ts';
import { element } from './svg-text.ts';

export interface HistoryLine {
  name: string;
  timesS: readonly number[];
  temperaturesC: readonly number[];
}

export interface HistoryWords extends ChartWords {
  /** Below the time. */
  seconds: string;
  /** How a temperature is written, with its unit. */
  temperature: (celsius: number) => string;
}

const PLOT = { left: 74, top: 16, width: 520, height: 280 };
const DASHES = [undefined, '8 4', '2 4', '10 3 2 3', '14 5'];

/**
 * Temperatures over time, one line for each, told apart by their dashes and named below.
 *
 * @param chart lines of rising times, in seconds and °C; flowC, to which the target is brought, or null
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 */
export function historyChart({
  lines,
  flowC,
  words,
}: {
  lines: readonly HistoryLine[];
  flowC: number | null;
  words: HistoryWords;
}): string {
  const foot = PLOT.top + PLOT.height;
  const right = scaleLinear(
    [0, Math.max(1, ...lines.flatMap(({ timesS }) => timesS))],
    [PLOT.left, PLOT.left + PLOT.width],
  ).nice();
  const up = scaleLinear(
    [0, Math.max(100, flowC ?? 0, ...lines.flatMap(({ temperaturesC }) => temperaturesC))],
    [foot, PLOT.top],
  ).nice();
  return chartSvg(
    { width: PLOT.left + PLOT.width + 24, height: foot + 44 + lines.length * LINE, words },
    ...up
      .ticks(8)
      .flatMap((celsius) => [
        chartRung({ x1: PLOT.left, y1: up(celsius), x2: PLOT.left + PLOT.width, y2: up(celsius) }),
        chartText(words.temperature(celsius), { x: PLOT.left - 8, y: up(celsius) + TEXT * 0.36, anchor: 'end' }),
      ]),
    ...right.ticks(8).map((timeS) => chartText(String(timeS), { x: right(timeS), y: foot + LINE, anchor: 'middle' })),
    chartText(words.seconds, { x: PLOT.left + PLOT.width, y: foot + LINE * 1.9, anchor: 'end' }),
    ...(flowC === null
      ? []
      : [
          element('line', {
            class: 'ladder-flow',
            x1: PLOT.left,
            y1: up(flowC),
            x2: PLOT.left + PLOT.width,
            y2: up(flowC),
            'stroke-dasharray': '7 4',
          }),
        ]),
    ...lines.flatMap(({ name, timesS, temperaturesC }, index) => {
      const dashes = DASHES[index % DASHES.length];
      const d =
        line<number>(
          (timeS) => right(timeS),
          (_, at) => up(temperaturesC[at]!),
        ).digits(2)(timesS as number[]) ?? '';
      const row = foot + 40 + index * LINE;
      return [
        element('path', { d, 'stroke-width': index === 0 ? 2.4 : 1.6, 'stroke-dasharray': dashes }),
        element('line', {
          x1: PLOT.left,
          y1: row,
          x2: PLOT.left + 46,
          y2: row,
          'stroke-width': index === 0 ? 2.4 : 1.6,
          'stroke-dasharray': dashes,
        }),
        chartText(name, { x: PLOT.left + 56, y: row + TEXT * 0.36, anchor: 'start' }),
      ];
    }),
  );
}
