import type { Design, Place } from '../design/design.ts';
import type { Flame, Heat, Protection } from '../design/plan.ts';
import { contactOf } from './contact.ts';
import { boundsOf, posed, type Point, type Stroke } from './geometry.ts';
import { layOutParts, type Layout } from './lay-out-parts.ts';
import { element, escapeMarkup, units } from './svg-text.ts';

export interface HeatDrawingWords {
  title: string;
  /** What lies in the fire and what stands where, for those who cannot see it. */
  description: string;
}

const SIZE = { width: 420, height: 320 };
const MARGIN = 46;
const TEXT = 13;

/**
 * One heat on the piece, to scale: what lies in the fire in full lines and all else faint; its own joints as filled numbers, those
 * made before as hollow ones; where the flame points, and each sink, shield and anti-flow where it sits. Marks are told by shape:
 * a flame for the flame, a clamp for a sink, a hatched band for a shield, a ring of dots for anti-flow.
 *
 * A design of single parts (expandDesign()); a flame nobody aimed points between its joints.
 *
 * @returns SVG with a viewBox and no size of its own, black unless a stylesheet says otherwise
 * @throws {EngineInputError} as drawDesign() does
 */
export function drawHeat(
  design: Design,
  { heat, inFire, made, words }: { heat: Heat; inFire: readonly string[]; made: readonly string[]; words: HeatDrawingWords },
): string {
  const layout = layOutParts(design);
  const page = pageOf(layout);
  const fire = new Set(inFire);
  const targets = new Set(heat.joints);
  const before = new Set(made);
  const [cold, hot] = [false, true].map((isHot) =>
    layout.parts
      .filter(({ part }) => fire.has(part.id) === isHot)
      .flatMap(({ strokes }) => strokes.map((one) => lineOf(one, page))),
  );
  const joints = layout.joints.flatMap(({ joint, at }, index) => {
    const isTarget = targets.has(joint.id);
    return isTarget || before.has(joint.id) ? [jointMark(page.at(at), index + 1, isTarget)] : [];
  });
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${units(page.width)} ${units(page.height)}`,
      role: 'img',
      class: 'heat-drawing',
      fill: 'none',
      stroke: '#000',
      'stroke-width': 1.6,
      'stroke-linejoin': 'round',
      'font-family': 'DejaVu Sans, sans-serif',
      'font-size': TEXT,
    },
    element('title', {}, escapeMarkup(words.title)),
    element('desc', {}, escapeMarkup(words.description)),
    element('g', { class: 'heat-cold', stroke: '#bbb', 'stroke-width': 1, 'stroke-dasharray': '3 3' }, ...cold!),
    element('g', { class: 'heat-hot' }, ...hot!),
    ...(heat.protections ?? []).flatMap((one) => protectionMark(one, { layout, page })),
    flameMark({ heat, layout, page }),
    ...joints,
  );
}

interface Page {
  width: number;
  height: number;
  at: (point: Point) => { x: number; y: number };
  scale: number;
}

function pageOf({ parts, joints }: Layout): Page {
  const { leftMm, rightMm, bottomMm, topMm } = boundsOf(
    parts.flatMap(({ strokes }) => strokes),
    joints.map(({ at }) => at),
  );
  const scale = Math.min(SIZE.width / Math.max(rightMm - leftMm, 1), SIZE.height / Math.max(topMm - bottomMm, 1));
  return {
    width: (rightMm - leftMm) * scale + 2 * MARGIN,
    height: (topMm - bottomMm) * scale + 2 * MARGIN,
    scale,
    at: ({ xMm, yMm }) => ({ x: MARGIN + (xMm - leftMm) * scale, y: MARGIN + (topMm - yMm) * scale }),
  };
}

function lineOf(stroke: Stroke, { at, scale }: Page): string {
  if (stroke.kind === 'circle') {
    const { x, y } = at(stroke.centre);
    return element('circle', { cx: x, cy: y, r: stroke.radiusMm * scale });
  }
  const points = stroke.points.map((point) => {
    const { x, y } = at(point);
    return `${units(x)},${units(y)}`;
  });
  return element(stroke.closed ? 'polygon' : 'polyline', { points: points.join(' ') });
}

function jointMark({ x, y }: { x: number; y: number }, number: number, isTarget: boolean): string {
  return element(
    'g',
    { class: isTarget ? 'heat-target' : 'heat-made' },
    element('circle', { cx: x, cy: y, r: 10, fill: isTarget ? '#000' : '#fff', 'stroke-width': 1.4 }),
    element(
      'text',
      { x, y: y + TEXT * 0.36, 'text-anchor': 'middle', 'font-weight': 'bold', fill: isTarget ? '#fff' : '#000', stroke: 'none' },
      String(number),
    ),
  );
}

/** Where a joint, or the middle of a part, lies on the page. */
function placeOf(id: string, { layout, page }: { layout: Layout; page: Page }): { x: number; y: number } | undefined {
  const joint = layout.joints.find((one) => one.joint.id === id);
  if (joint) return page.at(joint.at);
  const part = layout.parts.find((one) => one.part.id === id);
  if (!part) return undefined;
  const { leftMm, rightMm, bottomMm, topMm } = boundsOf(part.strokes);
  return page.at({ xMm: (leftMm + rightMm) / 2, yMm: (bottomMm + topMm) / 2 });
}

function protectionMark(protection: Protection, on: { layout: Layout; page: Page }): string[] {
  const guarded =
    protection.kind === 'sink' ? ('joint' in protection.at ? protection.at.joint : protection.at.part) : protection.guards;
  const place = placeOf(guarded, on);
  if (!place) return [];
  const { x, y } = place;
  switch (protection.kind) {
    case 'sink':
      return [
        element('path', {
          class: 'heat-sink',
          d: `M${units(x - 30)} ${units(y - 26)}L${units(x - 7)} ${units(y - 12)}M${units(x - 22)} ${units(y - 34)}L${units(x - 2)} ${units(y - 14)}`,
          'stroke-width': 4,
          'stroke-linecap': 'round',
        }),
      ];
    case 'shield':
      return [
        element('rect', { class: 'heat-shield', x: x - 20, y: y + 12, width: 40, height: 10 }),
        element('path', {
          class: 'heat-shield',
          d: [-16, -8, 0, 8, 16].map((step) => `M${units(x + step - 3)} ${units(y + 22)}l6 -10`).join(''),
        }),
      ];
    case 'anti_flow':
      return [
        element('circle', {
          class: 'heat-anti-flow',
          cx: x,
          cy: y,
          r: 16,
          'stroke-width': 3,
          'stroke-dasharray': '0.1 6',
          'stroke-linecap': 'round',
        }),
      ];
  }
}

/** Where the flame points, and from where it comes when it is tilted. */
function flameMark({ heat: { joints, flame = {} }, layout, page }: { heat: Heat; layout: Layout; page: Page }): string {
  const places = joints.flatMap((id) => placeOf(id, { layout, page }) ?? []);
  const aimed = aimedAt(flame.aim, { layout, page });
  const at = aimed ?? { x: mean(places.map(({ x }) => x)), y: mean(places.map(({ y }) => y)) };
  const { dx, dy } = leaning(flame, at, { layout, page });
  const [tipX, tipY] = [at.x + dx * 16, at.y + dy * 16];
  const [backX, backY] = [at.x + dx * 52, at.y + dy * 52];
  const [sideX, sideY] = [-dy * 11, dx * 11];
  return element('path', {
    class: 'heat-flame',
    d: `M${units(tipX)} ${units(tipY)}Q${units(backX + sideX * 1.6 - dx * 14)} ${units(backY + sideY * 1.6 - dy * 14)} ${units(backX + sideX)} ${units(backY + sideY)}L${units(backX - sideX)} ${units(backY - sideY)}Q${units(backX - sideX * 1.6 - dx * 14)} ${units(backY - sideY * 1.6 - dy * 14)} ${units(tipX)} ${units(tipY)}Z`,
    fill: '#fff',
    'stroke-width': 2,
  });
}

function aimedAt(aim: Place | undefined, { layout, page }: { layout: Layout; page: Page }): { x: number; y: number } | undefined {
  const one = layout.parts.find(({ part }) => part.id === aim?.part);
  if (!aim || !one) return undefined;
  return page.at(posed(contactOf(one.part.form, { view: one.view, place: aim, kind: 'loose', side: 'above' }).at, one.pose));
}

/** Away from the target, to where the torch is: straight up the page when nobody tilts it. */
function leaning(flame: Flame, at: { x: number; y: number }, on: { layout: Layout; page: Page }): { dx: number; dy: number } {
  const [named, way] = flame.awayFrom ? [flame.awayFrom, 1] : [flame.towards, -1];
  const place = named === undefined ? undefined : placeOf(named, on);
  // A flame that points away from something comes over it.
  const [x, y] = place ? [(place.x - at.x) * way, (place.y - at.y) * way] : [0.35, -1];
  const length = Math.hypot(x, y);
  return length < 1 && place ? { dx: 0, dy: -1 } : { dx: x / length, dy: y / length };
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? MARGIN : values.reduce((sum, one) => sum + one, 0) / values.length;
}
