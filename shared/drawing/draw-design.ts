import type { Design, Joint, Part } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { LINE, setInColumn, type Callout, type Column, type SetCallout } from './callouts.ts';
import { boundsOf, type Bounds, type Point, type Stroke } from './geometry.ts';
import { layOutParts, type PlacedPart } from './lay-out-parts.ts';
import { partSizes } from './part-sizes.ts';
import { element, escapeMarkup, linesOf, units } from './svg-text.ts';

export interface DrawingWords {
  /** What is drawn, for those who cannot see it, in the reader's language. */
  title: string;
  description: string;
}

export interface DrawingOptions {
  words: DrawingWords;
  /**
   * With the numbers and names of joints, and the names and sizes of parts; a client's letter goes without. True when absent. 'numbers': with
   * the numbers of joints alone, as large beside the drawing as they are read at arm's length.
   */
  labelled?: boolean | 'numbers';
}

interface Page {
  /** Units of the page for a millimetre. */
  scale: number;
  /** What is drawn, in mm. */
  bounds: Bounds;
  /** Where it begins on the page. */
  left: number;
  top: number;
}

/** The page: a column of joints, the drawing, a column of parts. */
const FULL = { column: 210, width: 520, height: 420 };
const NUMBERED = { column: 24, width: 330, height: 240 };
const MARGIN = 24;
const MOST_LETTERS = 22;
const FOOT = 40;
const TEXT = 13;

/**
 * A design as one drawing in black lines, to scale, as SVG with a viewBox and no size of its own.
 *
 * Parts are seen from above and lie where their joints hold them; what stands on the rim of a ring is seen from its side. An
 * outline is the square of its area and a dome its blank, in broken lines, since their shape is not known. Joints are
 * numbered in the order of the design. The same design gives the same text, whatever the machine.
 *
 * @throws {EngineInputError} for a design without parts, for sizes that formSize() refuses, or a joint on a part it lacks
 */
export function drawDesign(design: Design, { words, labelled = true }: DrawingOptions): string {
  if (design.parts.length === 0) throw new EngineInputError('parts', 'none', 'at least one');
  const { parts, joints } = layOutParts(design);
  const bounds = boundsOf(
    parts.flatMap(({ strokes }) => strokes),
    labelled ? joints.map(({ at }) => at) : [],
  );
  const [widthMm, heightMm] = [bounds.rightMm - bounds.leftMm, bounds.topMm - bounds.bottomMm];
  const room = labelled === 'numbers' ? NUMBERED : FULL;
  const scale = Math.min(room.width / widthMm, room.height / heightMm);
  const side = labelled ? room.column + MARGIN : MARGIN;
  const width = room.width + 2 * side;
  const height = Math.max(heightMm * scale, 60);
  const page: Page = {
    scale,
    bounds,
    left: side + (room.width - widthMm * scale) / 2,
    top: MARGIN + (height - heightMm * scale) / 2,
  };
  const numbered = joints.map(jointCallout(page));
  const callouts =
    labelled === 'numbers'
      ? numbered.map((one) => ({ ...one, lines: [] }))
      : labelled
        ? [...numbered, ...parts.map(partCallout(page))]
        : [];
  const [onLeft, onRight] = ([-1, 1] as const).map((way) =>
    setInColumn(
      callouts.filter((one) => one.way === way),
      { top: MARGIN, height },
    ),
  ) as [Column, Column];
  const bottom = Math.max(onLeft.bottom, onRight.bottom);
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${units(width)} ${units(bottom + FOOT + MARGIN)}`,
      role: 'img',
      fill: 'none',
      stroke: '#000',
      'stroke-width': 1.4,
      'stroke-linejoin': 'round',
      'font-family': 'DejaVu Sans, sans-serif',
      'font-size': TEXT,
    },
    element('title', {}, escapeMarkup(words.title)),
    element('desc', {}, escapeMarkup(words.description)),
    ...parts.flatMap(({ strokes }) => strokes.map((stroke) => lineOf(stroke, page))),
    ...onLeft.callouts.map((one) => calloutOf(one, room.column)),
    ...onRight.callouts.map((one) => calloutOf(one, width - room.column)),
    ...scaleBar({ scale, left: side, y: bottom + FOOT, mostMm: room.width / 3 / scale }),
  );
}

function onPage({ xMm, yMm }: Point, { scale, bounds, left, top }: Page): { x: number; y: number } {
  return { x: left + (xMm - bounds.leftMm) * scale, y: top + (bounds.topMm - yMm) * scale };
}

function lineOf(stroke: Stroke, page: Page): string {
  const broken = stroke.broken ? '5 4' : undefined;
  if (stroke.kind === 'circle') {
    const { x, y } = onPage(stroke.centre, page);
    return element('circle', { cx: x, cy: y, r: stroke.radiusMm * page.scale, 'stroke-dasharray': broken });
  }
  const points = stroke.points.map((point) => {
    const { x, y } = onPage(point, page);
    return `${units(x)},${units(y)}`;
  });
  return element(stroke.closed ? 'polygon' : 'polyline', { points: points.join(' '), 'stroke-dasharray': broken });
}

/** Of the width of what is drawn: joints further right are named on the right, parts further left on the left. */
const RIGHT_SHARE = 0.65;
const LEFT_SHARE = 0.35;

function jointCallout(page: Page): (one: { joint: Joint; at: Point }, index: number) => Callout {
  return ({ joint, at }, index) => ({
    at: onPage(at, page),
    number: index + 1,
    lines: linesOf(named(joint), MOST_LETTERS),
    way: shareAcross(at, page) > RIGHT_SHARE ? 1 : -1,
  });
}

function partCallout(page: Page): (one: PlacedPart) => Callout {
  return ({ part, strokes, pose }) => {
    const way = shareAcross(pose, page) < LEFT_SHARE ? -1 : 1;
    return {
      at: onPage(pointedAt(strokes, way), page),
      lines: [...linesOf(named(part), MOST_LETTERS), partSizes(part.form)],
      way,
    };
  };
}

function shareAcross({ xMm }: Point, { bounds: { leftMm, rightMm } }: Page): number {
  return (xMm - leftMm) / (rightMm - leftMm);
}

function named({ id, name, count = 1 }: Part | Joint): string {
  return `${name ?? id}${count === 1 ? '' : ` × ${count}`}`;
}

/** A spot on the outline of a part, on the side of its text and a little up. */
function pointedAt([outline]: readonly Stroke[], way: -1 | 1): Point {
  if (outline!.kind === 'circle') {
    const { centre, radiusMm } = outline!;
    return { xMm: centre.xMm + way * radiusMm * Math.cos(0.6), yMm: centre.yMm + radiusMm * Math.sin(0.6) };
  }
  const middles = edges(outline!.points).map(([a, b]) => middle(a, b));
  return middles.toSorted((a, b) => way * (b.xMm - a.xMm) || b.yMm - a.yMm)[0]!;
}

function edges(points: readonly Point[]): [Point, Point][] {
  return points.map((point, index) => [point, points[(index + 1) % points.length]!]);
}

function middle(a: Point, b: Point): Point {
  return { xMm: (a.xMm + b.xMm) / 2, yMm: (a.yMm + b.yMm) / 2 };
}

/** @param edge of its column, to the drawing */
function calloutOf({ at, y, lines, number, way }: SetCallout, edge: number): string {
  const radius = 11;
  const textX = edge + way * (number === undefined ? 6 : 2 * radius + 6) - (number === undefined ? 0 : way * radius);
  const firstLine = y - ((lines.length - 1) * LINE) / 2 + TEXT * 0.36;
  const leader = { x1: edge + (number === undefined ? 0 : -way * radius), y1: y, x2: at.x, y2: at.y };
  return element(
    'g',
    { 'stroke-width': 0.7 },
    element('line', leader),
    element('circle', { cx: at.x, cy: at.y, r: 2.6, fill: '#000', stroke: 'none' }),
    ...(number === undefined
      ? []
      : [
          element('circle', { cx: edge, cy: y, r: radius, 'stroke-width': 1.2 }),
          text(String(number), { x: edge, y: y + TEXT * 0.36, anchor: 'middle', bold: true }),
        ]),
    ...lines.map((line, index) =>
      text(line, { x: textX, y: firstLine + index * LINE, anchor: way === -1 ? 'end' : 'start', bold: false }),
    ),
  );
}

function text(words: string, { x, y, anchor, bold }: { x: number; y: number; anchor: string; bold: boolean }): string {
  const weight = bold ? 'bold' : undefined;
  return element(
    'text',
    { x, y, 'text-anchor': anchor, 'font-weight': weight, fill: '#000', stroke: 'none' },
    escapeMarkup(words),
  );
}

/** As long as a round number of millimetres comes to on the page, at most a third of the drawing. */
function scaleBar({ scale, left, y, mostMm }: { scale: number; left: number; y: number; mostMm: number }): string[] {
  const power = 10 ** Math.floor(Math.log10(mostMm));
  const lengthMm = ([5, 2].find((step) => step * power <= mostMm) ?? 1) * power;
  const end = left + lengthMm * scale;
  return [
    element('path', {
      d: `M${units(left)} ${units(y - 5)}v10M${units(left)} ${units(y)}H${units(end)}M${units(end)} ${units(y - 5)}v10`,
    }),
    text(`${Number(lengthMm.toPrecision(1))} mm`, { x: end + 8, y: y + TEXT * 0.36, anchor: 'start', bold: false }),
  ];
}
