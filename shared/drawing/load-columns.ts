import { scaleLinear } from 'd3-scale';
import { element } from './svg-text.ts';
import { chartRung, chartSvg, chartText, filledBox, legend, LINE, TEXT, textWidth, type ChartWords } from './chart-parts.ts';

const PLOT = { top: 14, height: 180 };

/**
 * A hollow column for what each day has and a full one in it for what is taken; days on which nobody works stay empty.
 *
 * @param chart one day after the other; its name stands below it where it has one; width in units of the page
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 */
export function loadColumns({
  days,
  kinds,
  figure,
  words,
  width,
}: {
  days: readonly { name: string | null; capacityMinutes: number; takenMinutes: number }[];
  /** What the full and the hollow one are called. */
  kinds: readonly [taken: string, capacity: string];
  figure: (minutes: number) => string;
  words: ChartWords;
  width: number;
}): string {
  const foot = PLOT.top + PLOT.height;
  const most = Math.max(60, ...days.flatMap(({ capacityMinutes, takenMinutes }) => [capacityMinutes, takenMinutes]));
  // In hours, so that the scale has round ones.
  const hours = scaleLinear([0, most / 60], [foot, PLOT.top]).nice(4);
  const up = (minutes: number) => hours(minutes / 60);
  const ticks = hours.ticks(4).map((hour) => hour * 60);
  const left = Math.max(...ticks.map((tick) => textWidth(figure(tick)))) + 10;
  const step = (width - 4 - left) / Math.max(1, days.length);
  const shown = legend(kinds, { top: foot + LINE + 10, width });
  return chartSvg(
    { width, height: foot + LINE + 14 + shown.height, words },
    ...ticks.flatMap((tick) => [
      chartRung({ x1: left, y1: up(tick), x2: width - 4, y2: up(tick) }),
      chartText(figure(tick), { x: left - 6, y: up(tick) + TEXT * 0.36, anchor: 'end' }),
    ]),
    ...days.flatMap(({ name, capacityMinutes, takenMinutes }, index) => {
      const box = (minutes: number) => ({
        x: left + index * step + step * 0.1,
        y: up(minutes),
        width: step * 0.8,
        height: foot - up(minutes),
      });
      const x = left + index * step;
      return [
        ...(capacityMinutes > 0 ? [filledBox(box(capacityMinutes), 1)] : []),
        ...(takenMinutes > 0 ? [filledBox(box(takenMinutes), 0)] : []),
        ...(name === null || x + textWidth(name) > width
          ? []
          : [
              element('line', { x1: x, y1: foot, x2: x, y2: foot + 6 }),
              chartText(name, { x: x + 2, y: foot + LINE, anchor: 'start' }),
            ]),
      ];
    }),
    element('line', { x1: left, y1: foot, x2: width - 4, y2: foot }),
    ...shown.svg,
  );
}
