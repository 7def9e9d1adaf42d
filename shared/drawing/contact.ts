import type { Form, Joint, Place } from '../design/design.ts';
import { ORIGIN, type Point } from './geometry.ts';
import {
  isPlate,
  isRod,
  isRound,
  lumpSizeMm,
  plateSize,
  ringSize,
  rodSize,
  type Band,
  type Plate,
  type Ring,
  type Rod,
  type View,
} from './part-shape.ts';

/** Where a part is touched, about its own middle: on its rim, facing outward, or on its face, seen from above. */
export interface Contact {
  at: Point;
  /** Of length 1; null on a face. */
  outward: Point | null;
}

/** How a part is touched: by the one that was drawn before it, or by one that is drawn on it. */
export type Side = 'below' | 'above';

/** What is joined, and how; a loose contact counts as a spot. */
export type JointKind = Joint['kind'] | 'loose';

/** From a rim this share of half the width belongs to the rim. */
const RIM_SHARE = 0.15;
const END_MM = 0.5;

const UP: Point = { xMm: 0, yMm: 1 };
const DOWN: Point = { xMm: 0, yMm: -1 };
const facing = (side: Side): Point => (side === 'above' ? UP : DOWN);

/** @param side of a part that has two alike, the one that is touched: above on what is drawn, below of what is drawn on it */
export function contactOf(form: Form, { view, place, kind, side }: Touch): Contact {
  if (isPlate(form)) return view === 'side' ? onPlateEdge(form, place, side) : onPlate(form, place, kind);
  if (isRod(form)) return view === 'end' ? onFace(ORIGIN) : onRod(form, place, { kind, side });
  if (form.kind === 'band' && view === 'side') return onBandSide(form, place, side);
  if (isRound(form)) return kind === 'loop_base' ? onFace(ORIGIN) : onRing(form, place, kind);
  const outward = facing(side);
  return { at: scaled(outward, lumpSizeMm(form) / 2), outward };
}

export interface Touch {
  view: View;
  place: Place;
  kind: JointKind;
  side: Side;
}

/** Whether a rod is touched at one of its ends. */
export function isAtEnd(form: Rod, { alongMm = 0 }: Place): boolean {
  const wholeMm = form.kind === 'cone' ? form.slantMm : rodSize(form).lengthMm;
  return alongMm <= END_MM || alongMm >= wholeMm - END_MM;
}

/** Whether the edge of a band is meant, all round, and not a spot of its wall. */
export function standsOnEdge({ alongMm, acrossMm }: Place): boolean {
  return alongMm === undefined && acrossMm !== undefined;
}

/** A spot on the mean circle of a ring or band: the seam at the bottom, counted to the right. */
export function onCircle(form: Ring | Band, alongMm: number): { at: Point; outward: Point } {
  const { insideMm, outsideMm } = ringSize(form);
  const meanMm = (insideMm + outsideMm) / 2;
  const angle = (2 * alongMm) / meanMm - Math.PI / 2;
  const outward = { xMm: Math.cos(angle), yMm: Math.sin(angle) };
  return { at: scaled(outward, meanMm / 2), outward };
}

/** A place on a plate from its middle; a sheet counts from a corner. */
export function onPlateFace(form: Plate, { xMm, yMm }: Place): Point {
  const { lengthMm, widthMm } = plateSize(form);
  return form.kind === 'sheet'
    ? { xMm: (xMm ?? lengthMm / 2) - lengthMm / 2, yMm: (yMm ?? widthMm / 2) - widthMm / 2 }
    : { xMm: xMm ?? 0, yMm: yMm ?? 0 };
}

function onPlate(form: Plate, place: Place, kind: JointKind): Contact {
  const at = onPlateFace(form, place);
  if (kind === 'loop_base' || kind === 'lap') return onFace(at);
  const { lengthMm, widthMm, round } = plateSize(form);
  const reachMm = (RIM_SHARE * Math.min(lengthMm, widthMm)) / 2;
  if (round) {
    const fromCentreMm = Math.hypot(at.xMm, at.yMm);
    return fromCentreMm > 0 && fromCentreMm >= lengthMm / 2 - reachMm
      ? { at, outward: scaled(at, 1 / fromCentreMm) }
      : onFace(at);
  }
  const inside = [
    { leftMm: lengthMm / 2 - at.xMm, outward: { xMm: 1, yMm: 0 } },
    { leftMm: lengthMm / 2 + at.xMm, outward: { xMm: -1, yMm: 0 } },
    { leftMm: widthMm / 2 - at.yMm, outward: UP },
    { leftMm: widthMm / 2 + at.yMm, outward: DOWN },
  ].toSorted((a, b) => a.leftMm - b.leftMm)[0]!;
  return inside.leftMm <= reachMm ? { at, outward: inside.outward } : onFace(at);
}

/** Seen from its edge, a plate is touched on the face that is turned to the other part. */
function onPlateEdge(form: Plate, place: Place, side: Side): Contact {
  const outward = facing(side);
  return { at: { xMm: onPlateFace(form, place).xMm, yMm: (outward.yMm * plateSize(form).thicknessMm) / 2 }, outward };
}

function onBandSide(form: Band, place: Place, side: Side): Contact {
  const { alongMm, acrossMm } = place;
  const halfMm = form.heightMm / 2;
  if (alongMm === undefined) {
    const outward = acrossMm === undefined ? facing(side) : acrossMm < halfMm ? DOWN : UP;
    return { at: scaled(outward, halfMm), outward };
  }
  return onFace({ xMm: onCircle(form, alongMm).at.xMm, yMm: (acrossMm ?? halfMm) - halfMm });
}

/** Links that hang in each other overlap by their wire. */
function onRing(form: Ring | Band, { alongMm = 0 }: Place, kind: JointKind): Contact {
  const { at, outward } = onCircle(form, alongMm);
  return kind === 'loose' ? { at, outward } : { at: scaled(outward, ringSize(form).outsideMm / 2), outward };
}

function onRod(form: Rod, place: Place, { kind, side }: { kind: JointKind; side: Side }): Contact {
  const { lengthMm, startMm, endMm } = rodSize(form);
  const share = (place.alongMm ?? 0) / (form.kind === 'cone' ? form.slantMm : lengthMm);
  const xMm = lengthMm * (share - 0.5);
  if (kind === 'lap') return onFace({ xMm, yMm: 0 });
  if (isAtEnd(form, place)) return { at: { xMm, yMm: 0 }, outward: { xMm: share < 0.5 ? -1 : 1, yMm: 0 } };
  const outward = facing(side);
  return { at: { xMm, yMm: (outward.yMm * (startMm + share * (endMm - startMm))) / 2 }, outward };
}

function onFace(at: Point): Contact {
  return { at, outward: null };
}

function scaled({ xMm, yMm }: Point, by: number): Point {
  return { xMm: xMm * by, yMm: yMm * by };
}
