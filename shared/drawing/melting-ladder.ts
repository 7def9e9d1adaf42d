import { scaleLinear } from 'd3-scale';
import { chartRung, chartSvg, chartText, TEXT, type ChartWords } from './chart-parts.ts';
import { element, linesOf, units } from './svg-text.ts';

/** One earlier joint in a heat: its own window, and how hot it is predicted to get. */
export interface LadderJoint {
  name: string;
  /** As in the drawing of the piece. */
  number: number;
  solidusC: number;
  liquidusC: number;
  peakC: number;
  uncertaintyK: number;
  /** What is predicted of it, in the reader's language, below its name. */
  says: string;
  /** For the colours of a screen; in print it is told by the dot. */
  verdict: 'solid' | 'softens' | 'runs';
}

export interface LadderWords extends ChartWords {
  /** Beside the line at the temperature the heat is brought to. */
  flow: string;
  /** How a temperature is written, with its unit. */
  temperature: (celsius: number) => string;
}

const LEFT = 74;
/** Beside the last joint, for what the heat is brought to. */
const RIGHT = 118;
const COLUMN = 132;
const TOP = 26;
const HEIGHT = 300;
const STROKE = 1.4;
/** Closer than in other charts: under each joint there are many. */
const LINE = 16;
const MOST_LETTERS = 17;
/** At least so much is shown, so that two ladders beside each other do not look alike when they are not. */
const LEAST_SPAN_K = 120;

/**
 * What one heat does to every earlier joint in the fire: temperature upward, the melting window of each joint as a bracket from its
 * solidus to its liquidus, the predicted peak as a dot with its uncertainty. A dot below the bracket is predicted to stay solid;
 * inside, soft; above, running. The dot is filled while solid, hollow when soft, a cross when it runs.
 *
 * @param flowC to which the target is brought; null when it does not flow
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 */
export function meltingLadder({
  flowC,
  joints,
  words,
}: {
  flowC: number | null;
  joints: readonly LadderJoint[];
  words: LadderWords;
}): string {
  const scale = scaleOf(flowC, joints);
  const width = LEFT + Math.max(joints.length, 1) * COLUMN + RIGHT;
  const foot = TOP + HEIGHT + 14;
  const labels = joints.map((joint) => [...linesOf(joint.name, MOST_LETTERS), ...linesOf(joint.says, MOST_LETTERS)]);
  const bottom = foot + LINE * (2 + Math.max(0, ...labels.map(({ length }) => length)));
  return chartSvg(
    { width, height: bottom, words },
    ...scale.ticks.flatMap((celsius) => rung(celsius, { scale, width, label: words.temperature(celsius) })),
    ...(flowC === null ? [] : flowLine(flowC, { scale, width, label: words.flow })),
    ...joints.map((joint, index) => column(joint, { scale, x: LEFT + (index + 0.5) * COLUMN, foot, lines: labels[index]! })),
  );
}

interface Scale {
  y: (celsius: number) => number;
  ticks: number[];
}

function scaleOf(flowC: number | null, joints: readonly LadderJoint[]): Scale {
  const shown = [
    ...(flowC === null ? [] : [flowC]),
    ...joints.flatMap(({ solidusC, liquidusC, peakC, uncertaintyK }) => [
      solidusC,
      liquidusC,
      peakC - uncertaintyK,
      peakC + uncertaintyK,
    ]),
  ];
  const [least, most] = shown.length === 0 ? [600, 800] : [Math.min(...shown), Math.max(...shown)];
  const middle = (least + most) / 2;
  const half = Math.max((most - least) * 0.55, LEAST_SPAN_K / 2);
  const y = scaleLinear([middle - half, middle + half], [TOP + HEIGHT, TOP]).nice();
  return { y, ticks: y.ticks(8) };
}

function rung(celsius: number, { scale, width, label }: { scale: Scale; width: number; label: string }): string[] {
  const y = scale.y(celsius);
  return [
    chartRung({ x1: LEFT, y1: y, x2: width - 8, y2: y }),
    chartText(label, { x: LEFT - 8, y: y + TEXT * 0.36, anchor: 'end' }),
  ];
}

function flowLine(flowC: number, { scale, width, label }: { scale: Scale; width: number; label: string }): string[] {
  const y = scale.y(flowC);
  const lines = linesOf(label, MOST_LETTERS);
  return [
    element('line', {
      class: 'ladder-flow',
      x1: LEFT,
      y1: y,
      x2: width - 8,
      y2: y,
      'stroke-width': STROKE,
      'stroke-dasharray': '7 4',
    }),
    ...lines.map((line, index) =>
      chartText(line, { x: width - RIGHT + 6, y: y - 6 - (lines.length - 1 - index) * LINE, anchor: 'start' }),
    ),
  ];
}

function column(
  { number, solidusC, liquidusC, peakC, uncertaintyK, verdict }: LadderJoint,
  { scale, x, foot, lines }: { scale: Scale; x: number; foot: number; lines: readonly string[] },
): string {
  const [top, bottom, dot] = [scale.y(liquidusC), scale.y(solidusC), scale.y(peakC)];
  const [high, low] = [scale.y(peakC + uncertaintyK), scale.y(peakC - uncertaintyK)];
  return element(
    'g',
    { class: `ladder-${verdict}` },
    // The window: two arms that hold what is between solidus and liquidus.
    element('path', {
      class: 'ladder-window',
      d: `M${units(x - 12)} ${units(top)}h-18V${units(bottom)}h18M${units(x + 12)} ${units(top)}h18V${units(bottom)}h-18`,
      'stroke-width': 2.4,
    }),
    element('path', {
      d: `M${units(x)} ${units(high)}V${units(low)}M${units(x - 6)} ${units(high)}h12M${units(x - 6)} ${units(low)}h12`,
      'stroke-width': STROKE,
    }),
    verdict === 'runs'
      ? element('path', {
          class: 'ladder-dot',
          d: `M${units(x - 7)} ${units(dot - 7)}l14 14M${units(x - 7)} ${units(dot + 7)}l14 -14`,
          'stroke-width': 3.2,
        })
      : element('circle', {
          class: `ladder-dot${verdict === 'solid' ? ' ladder-filled' : ''}`,
          cx: x,
          cy: dot,
          r: 7,
          fill: verdict === 'solid' ? '#000' : '#fff',
          'stroke-width': 2.4,
        }),
    element('circle', { cx: x, cy: foot + LINE * 0.6, r: 11, 'stroke-width': 1.2 }),
    element(
      'g',
      { 'font-weight': 'bold' },
      chartText(String(number), { x, y: foot + LINE * 0.6 + TEXT * 0.36, anchor: 'middle' }),
    ),
    ...lines.map((line, index) => chartText(line, { x, y: foot + LINE * (2.4 + index), anchor: 'middle' })),
  );
}
