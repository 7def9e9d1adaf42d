import { scaleLinear } from 'd3-scale';
import { element } from './svg-text.ts';
import { chartSvg, chartText, filledBox, fitted, legend, LINE, TEXT, textWidth, type ChartWords } from './chart-parts.ts';

const BAR = 14;
const GAP = 10;

/**
 * Bars from a common zero, some for each group, its name above them and the figure beside each.
 *
 * @param chart a value of a group for each of the kinds, null: not known; figure writes a value with its unit; width in units of the page
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 */
export function pairedBars({
  groups,
  kinds,
  figure,
  words,
  width,
}: {
  groups: readonly { name: string; values: readonly (number | null)[] }[];
  /** One alone needs no legend. */
  kinds: readonly string[];
  figure: (value: number) => string;
  words: ChartWords;
  width: number;
}): string {
  const known = groups.flatMap(({ values }) => values.filter((value) => value !== null));
  const gutter = Math.max(0, ...known.map((value) => textWidth(figure(value)))) + 10;
  const right = scaleLinear([Math.min(0, ...known), Math.max(0, ...known) || 1], [2, Math.max(40, width - gutter)]);
  const perGroup = LINE + 2 + kinds.length * (BAR + 4) + GAP;
  const foot = groups.length * perGroup;
  const shown = kinds.length > 1 ? legend(kinds, { top: foot + 4, width }) : { height: 0, svg: [] };
  return chartSvg(
    { width, height: Math.max(LINE, foot + 6 + shown.height), words },
    ...groups.flatMap(({ name, values }, index) => {
      const top = index * perGroup;
      return [
        chartText(fitted(name, width - 4), { x: 2, y: top + TEXT + 2, anchor: 'start' }),
        ...values.flatMap((value, kind) => {
          if (value === null) return [];
          const y = top + LINE + 2 + kind * (BAR + 4);
          const [from, to] = [right(Math.min(0, value)), right(Math.max(0, value))];
          return [
            filledBox({ x: from, y, width: to - from, height: BAR }, kind),
            chartText(figure(value), { x: to + 6, y: y + BAR / 2 + TEXT * 0.36, anchor: 'start' }),
          ];
        }),
      ];
    }),
    ...groups.map((_, index) => {
      const top = index * perGroup + LINE;
      return element('line', { class: 'chart-zero', x1: right(0), y1: top, x2: right(0), y2: top + perGroup - LINE - GAP });
    }),
    ...shown.svg,
  );
}
