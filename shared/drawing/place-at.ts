import type { Form, Place } from '../design/design.ts';
import type { JointKind } from './contact.ts';
import { turned, type Point } from './geometry.ts';
import type { PlacedPart } from './lay-out-parts.ts';
import {
  isPlate,
  isRod,
  isRound,
  plateSize,
  ringSize,
  rodSize,
  type Band,
  type Plate,
  type Ring,
  type View,
} from './part-shape.ts';

interface Asked {
  kind: JointKind;
  /** A spot no farther than this from a middle, an end, a rim or a quarter is meant to be on it; 0: as it is. */
  snapMm: number;
}

/**
 * The place on a part that a spot of its drawing shows, to the hundredth of a millimetre: what contactOf() draws, read back.
 *
 * A spot off the metal counts as the nearest on it. What a view does not show is left out, so that it stands in the middle; a loop base
 * stands on the edge of a band, so it has no place round it.
 *
 * @param spot of the drawing, in mm
 * @param snapMm 0 or more
 */
export function placeAt({ part: { id, form }, view, pose }: PlacedPart, spot: Point, { kind, snapMm }: Asked): Place {
  const local = turned({ xMm: spot.xMm - pose.xMm, yMm: spot.yMm - pose.yMm }, -pose.turnRad);
  const place: Omit<Place, 'part'> = isPlate(form)
    ? onPlate(form, { local, view, snapMm })
    : isRod(form)
      ? view === 'end'
        ? {}
        : { alongMm: alongRod(form, local, snapMm) }
      : isRound(form)
        ? onRound(form, { local, view, kind, snapMm })
        : {};
  return { part: id, ...place };
}

/** Whether a part seen so shows where on it a spot is. */
export function showsPlaces(form: Form, view: View): boolean {
  return view === 'above' || (view === 'side' && form.kind === 'band');
}

interface Seen {
  local: Point;
  view: View;
  snapMm: number;
}

function onPlate(form: Plate, { local, view, snapMm }: Seen): Omit<Place, 'part'> {
  const { lengthMm, widthMm, round } = plateSize(form);
  if (view === 'side') return { xMm: along(local.xMm, lengthMm, snapMm) - (form.kind === 'sheet' ? 0 : lengthMm / 2) };
  if (round) return onDisc(local, { outsideMm: lengthMm, holeMm: form.kind === 'washer' ? form.insideDiameterMm : 0, snapMm });
  const xMm = along(local.xMm, lengthMm, snapMm);
  const yMm = along(local.yMm, widthMm, snapMm);
  // A sheet counts from its corner, an outline from its middle.
  return form.kind === 'sheet' ? { xMm, yMm } : { xMm: hundredth(xMm - lengthMm / 2), yMm: hundredth(yMm - widthMm / 2) };
}

function onDisc(
  { xMm, yMm }: Point,
  { outsideMm, holeMm, snapMm }: { outsideMm: number; holeMm: number; snapMm: number },
): Omit<Place, 'part'> {
  const [rimMm, innerMm] = [outsideMm / 2, holeMm / 2];
  const farMm = Math.hypot(xMm, yMm);
  if (innerMm === 0 && farMm <= snapMm) return { xMm: 0, yMm: 0 };
  const toMm = farMm >= rimMm - snapMm ? rimMm : farMm < innerMm + snapMm ? innerMm : farMm;
  // From the middle of a hole every way is as near; to the right is one.
  const [cos, sin] = farMm === 0 ? [1, 0] : [xMm / farMm, yMm / farMm];
  return { xMm: hundredth(toMm * cos), yMm: hundredth(toMm * sin) };
}

function alongRod(form: Parameters<typeof rodSize>[0], { xMm }: Point, snapMm: number): number {
  const { lengthMm } = rodSize(form);
  const wholeMm = form.kind === 'cone' ? form.slantMm : lengthMm;
  return along((xMm * wholeMm) / lengthMm, wholeMm, snapMm);
}

/** Counted from an end, of what is counted from the middle. */
function along(fromMiddleMm: number, wholeMm: number, snapMm: number): number {
  const atMm = Math.min(Math.max(fromMiddleMm + wholeMm / 2, 0), wholeMm);
  return hundredth([wholeMm / 2, 0, wholeMm].find((mm) => Math.abs(atMm - mm) <= snapMm) ?? atMm);
}

function onRound(form: Ring | Band, { local, view, kind, snapMm }: Seen & { kind: JointKind }): Omit<Place, 'part'> {
  const { insideMm, outsideMm } = ringSize(form);
  const radiusMm = (insideMm + outsideMm) / 4;
  if (form.kind === 'band' && view === 'side') {
    const acrossMm = along(local.yMm, form.heightMm, snapMm);
    if (kind === 'loop_base') return { acrossMm: acrossMm < form.heightMm / 2 ? 0 : form.heightMm };
    // Of the two walls that lie behind each other the one in front is meant, with the seam in its middle.
    const share = Math.min(Math.max(local.xMm / radiusMm, -1), 1);
    return { alongMm: round(radiusMm * Math.asin(share), radiusMm, snapMm), acrossMm };
  }
  if (kind === 'loop_base') return form.kind === 'band' ? { acrossMm: 0 } : { alongMm: 0 };
  const turnRad = Math.atan2(local.yMm, local.xMm) + Math.PI / 2;
  const alongMm = round(radiusMm * turnRad, radiusMm, snapMm);
  return form.kind === 'band' ? { alongMm, acrossMm: hundredth(form.heightMm / 2) } : { alongMm };
}

/** Counted on from the seam, never back. */
function round(alongMm: number, radiusMm: number, snapMm: number): number {
  const wholeMm = 2 * Math.PI * radiusMm;
  const atMm = (alongMm + wholeMm) % wholeMm;
  const quarter = Math.round((4 * atMm) / wholeMm);
  return hundredth(Math.abs(atMm - (quarter * wholeMm) / 4) <= snapMm ? ((quarter % 4) * wholeMm) / 4 : atMm);
}

function hundredth(mm: number): number {
  return Number(mm.toFixed(2)) + 0;
}
