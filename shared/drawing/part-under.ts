import { boundsOf, type Point, type Stroke } from './geometry.ts';
import type { PlacedPart } from './lay-out-parts.ts';

/**
 * The part under a spot of the drawing: of several that lie over each other the smallest, since the larger can be reached beside it.
 *
 * @param nearMm how far beside a line still counts as on it
 */
export function partUnder(parts: readonly PlacedPart[], spot: Point, nearMm: number): PlacedPart | undefined {
  return parts
    .filter(({ strokes }) => isOn(strokes, spot, nearMm))
    .toSorted((a, b) => boundsArea(a.strokes) - boundsArea(b.strokes))[0];
}

/** Inside the outline, and not in the hole that a second circle leaves. */
function isOn([outline, inner]: readonly Stroke[], spot: Point, nearMm: number): boolean {
  if (outline!.kind === 'circle') {
    const farMm = far(outline!.centre, spot);
    const isInHole = inner?.kind === 'circle' && farMm < inner.radiusMm - nearMm;
    return farMm <= outline!.radiusMm + nearMm && !isInHole;
  }
  const { points } = outline!;
  const edges = points.map((from, index) => [from, points[(index + 1) % points.length]!] as const);
  return (
    edges.reduce((inside, edge) => (crosses(edge, spot) ? !inside : inside), false) ||
    edges.some((edge) => fromEdge(edge, spot) <= nearMm)
  );
}

/** Whether a ray to the right of the spot meets the edge. */
function crosses([a, b]: readonly [Point, Point], { xMm, yMm }: Point): boolean {
  return a.yMm > yMm !== b.yMm > yMm && xMm < a.xMm + ((yMm - a.yMm) / (b.yMm - a.yMm)) * (b.xMm - a.xMm);
}

function fromEdge([a, b]: readonly [Point, Point], spot: Point): number {
  const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm];
  const squared = dx * dx + dy * dy;
  const share = squared === 0 ? 0 : Math.min(Math.max(((spot.xMm - a.xMm) * dx + (spot.yMm - a.yMm) * dy) / squared, 0), 1);
  return far({ xMm: a.xMm + share * dx, yMm: a.yMm + share * dy }, spot);
}

function far(a: Point, b: Point): number {
  return Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
}

function boundsArea(strokes: readonly Stroke[]): number {
  const { leftMm, rightMm, bottomMm, topMm } = boundsOf(strokes);
  return (rightMm - leftMm) * (topMm - bottomMm);
}
