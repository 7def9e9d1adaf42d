import type { Design, Joint, Part, Place } from '../design/design.ts';
import { contactEndsOf, endsOf } from '../design/joint-ends.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { formSize } from '../forms/form-size.ts';
import { contactOf, isAtEnd, onCircle, standsOnEdge, type Contact, type JointKind } from './contact.ts';
import { boundsOf, ORIGIN, posed, posedStroke, turned, type Bounds, type Point, type Pose, type Stroke } from './geometry.ts';
import { familyOf, isPlate, isRod, isRound, ringSize, strokesOf, type View } from './part-shape.ts';

/** A part in the drawing. */
export interface PlacedPart {
  part: Part;
  view: View;
  pose: Pose;
  strokes: Stroke[];
}

export interface Layout {
  /** In the order of the design. */
  parts: PlacedPart[];
  /** Where each joint lies, in the order of the design. */
  joints: { joint: Joint; at: Point }[];
  /** How many sets of parts hang together; 0 of no parts. */
  groups: number;
}

interface Tie {
  kind: JointKind;
  between: readonly [Place, Place];
}

/** Loop bases are marked on the left of their circle, away from seam and top. */
const MARK_TURN = 0.42;

/**
 * Places every part where its joints hold it: the largest part first, each neighbour at the place of its joint. Parts that
 * nothing joins to the rest go beside. One drawn part stands for all its count.
 *
 * @throws {EngineInputError} for sizes that formSize() refuses, or a joint on a part that the design lacks
 */
export function layOutParts(design: Design): Layout {
  const parts = new Map(design.parts.map((part) => [part.id, part]));
  const known = (id: string): Part => {
    const part = parts.get(id);
    if (!part) throw new EngineInputError('part', id, `one of ${[...parts.keys()].join(', ')}`);
    return part;
  };
  for (const joint of design.joints) endsOf(joint).forEach(known);
  for (const contact of design.contacts ?? []) contactEndsOf(contact).forEach(known);
  const ties = tiesOf(design);
  const placed = new Map<string, PlacedPart>();
  const groups: PlacedPart[][] = [];
  for (const root of bySize(design.parts)) {
    if (placed.has(root.id)) continue;
    groups.push(hangTogether(root, { ties, known, placed }));
  }
  const shifts = setBeside(groups.map((group) => boundsOf(group.flatMap(({ strokes }) => strokes))));
  groups.forEach((group, index) => group.forEach((one) => placed.set(one.part.id, shifted(one, shifts[index]!))));
  return {
    parts: design.parts.map(({ id }) => placed.get(id)!),
    joints: design.joints.map((joint) => ({ joint, at: placeOf(joint, placed) })),
    groups: groups.length,
  };
}

function tiesOf(design: Design): Tie[] {
  const joined = design.joints.flatMap((joint): Tie[] =>
    joint.closes === undefined ? [{ kind: joint.kind, between: joint.between }] : [],
  );
  return [...joined, ...(design.contacts ?? []).map(({ between }): Tie => ({ kind: 'loose', between }))];
}

function bySize(parts: readonly Part[]): Part[] {
  const areas = new Map(parts.map(({ id, form }) => [id, formSize(form, id).areaMm2.toNumber()]));
  return parts.toSorted((a, b) => areas.get(b.id)! - areas.get(a.id)!);
}

/** The part and all that hangs on it, in the order in which they are reached. */
function hangTogether(
  root: Part,
  { ties, known, placed }: { ties: readonly Tie[]; known: (id: string) => Part; placed: Map<string, PlacedPart> },
): PlacedPart[] {
  const group = [drawn(root, 'above', { ...ORIGIN, turnRad: 0 })];
  placed.set(root.id, group[0]!);
  // Grows while it is walked: whoever is placed is asked for neighbours in turn.
  for (const one of group) {
    for (const { kind, between } of ties) {
      const [a, b] = between[0].part === one.part.id ? between : [between[1], between[0]];
      if (a.part !== one.part.id || placed.has(b.part)) continue;
      const next = attached(one, known(b.part), { kind, on: a, by: b });
      placed.set(b.part, next);
      group.push(next);
    }
  }
  return group;
}

function drawn(part: Part, view: View, pose: Pose): PlacedPart {
  return { part, view, pose, strokes: strokesOf(part.form, view).map((stroke) => posedStroke(stroke, pose)) };
}

function attached(to: PlacedPart, part: Part, { kind, on, by }: { kind: JointKind; on: Place; by: Place }): PlacedPart {
  const there = contactOf(to.part.form, { view: to.view, place: on, kind, side: 'above' });
  const view = viewOf(part, { to, there, kind, by });
  const own = contactOf(part.form, { view, place: by, kind, side: 'below' });
  const point = posed(there.at, to.pose);
  // On a face, a ring leans outward so that it stays seen; anything else covers its place.
  const leans = familyOf(part.form) === 'ring';
  const outward = there.outward ? turned(there.outward, to.pose.turnRad) : leans ? awayFrom(to.pose, point) : null;
  const at = outward === null && own.outward !== null ? { xMm: isRod(part.form) ? own.at.xMm : 0, yMm: 0 } : own.at;
  const turnRad = outward && own.outward ? angleOf(outward) + Math.PI - angleOf(own.outward) : 0;
  const back = turned(at, turnRad);
  return drawn(part, view, { xMm: point.xMm - back.xMm, yMm: point.yMm - back.yMm, turnRad });
}

/** From where a part is seen, that is joined to one drawn already. */
function viewOf({ form }: Part, { to, there, kind, by }: { to: PlacedPart; there: Contact; kind: JointKind; by: Place }): View {
  if (isPlate(form) && kind !== 'lap') {
    const byFace = contactOf(form, { view: 'above', place: by, kind, side: 'below' }).outward === null;
    if (there.outward === null) return byFace ? 'above' : 'side';
    return byFace && !(isPlate(to.part.form) && to.view === 'above') ? 'side' : 'above';
  }
  if (form.kind === 'band') {
    if (kind === 'loop_base') return to.view === 'side' ? 'side' : 'above';
    return there.outward === null || standsOnEdge(by) ? 'side' : 'above';
  }
  const stands = isRod(form) && there.outward === null && kind !== 'lap' && (kind === 'post' || isAtEnd(form, by));
  return stands ? 'end' : 'above';
}

function awayFrom(centre: Point, point: Point): Point {
  const [xMm, yMm] = [point.xMm - centre.xMm, point.yMm - centre.yMm];
  const farMm = Math.hypot(xMm, yMm);
  return farMm < 1e-9 ? { xMm: 0, yMm: 1 } : { xMm: xMm / farMm, yMm: yMm / farMm };
}

function angleOf({ xMm, yMm }: Point): number {
  return Math.atan2(yMm, xMm);
}

function placeOf(joint: Joint, placed: ReadonlyMap<string, PlacedPart>): Point {
  if (joint.closes !== undefined) {
    const one = placed.get(joint.closes)!;
    return posed(seamOf(one), one.pose);
  }
  const sides = joint.between.map((place) => ({ place, one: placed.get(place.part)! }));
  if (joint.kind === 'loop_base') {
    for (const { one } of sides) {
      const { form } = one.part;
      if (!isRound(form) || one.view !== 'above') continue;
      const { insideMm, outsideMm } = ringSize(form);
      return posed(onCircle(form, (-MARK_TURN * Math.PI * (insideMm + outsideMm)) / 4).at, one.pose);
    }
  }
  const { place, one } = sides[0]!;
  return posed(contactOf(one.part.form, { view: one.view, place, kind: joint.kind, side: 'above' }).at, one.pose);
}

/** A ring is closed at its seam; what is seen from its side, in front; anything else in its middle. */
function seamOf({ part: { form }, view }: PlacedPart): Point {
  return view === 'above' && isRound(form) ? onCircle(form, 0).at : ORIGIN;
}

function shifted({ part, view, pose }: PlacedPart, by: Point): PlacedPart {
  return drawn(part, view, { ...pose, xMm: pose.xMm + by.xMm, yMm: pose.yMm + by.yMm });
}

/** Space between what does not hang together, as a share of the widest. */
const GAP_SHARE = 0.12;
/** Of a drawing whose parts lie beside each other, width over height, roughly. */
const WIDE = 1.4;

/** Rows from the top, in order, each as wide as the whole is to be; how far each group moves. */
function setBeside(groups: readonly Bounds[]): Point[] {
  const sizes = groups.map((one) => ({ widthMm: one.rightMm - one.leftMm, heightMm: one.topMm - one.bottomMm }));
  const widestMm = Math.max(...sizes.map(({ widthMm }) => widthMm));
  const gapMm = GAP_SHARE * Math.max(widestMm, ...sizes.map(({ heightMm }) => heightMm));
  const areaMm2 = sizes.reduce((sum, { widthMm, heightMm }) => sum + (widthMm + gapMm) * (heightMm + gapMm), 0);
  const rowMm = Math.max(widestMm, Math.sqrt(areaMm2 * WIDE));
  let [xMm, yMm, lowestMm] = [0, 0, 0];
  return sizes.map(({ widthMm, heightMm }, index) => {
    if (xMm > 0 && xMm + widthMm > rowMm) [xMm, yMm] = [0, yMm - lowestMm - gapMm];
    if (xMm === 0) lowestMm = 0;
    lowestMm = Math.max(lowestMm, heightMm);
    const { leftMm, topMm } = groups[index]!;
    const shift = { xMm: xMm - leftMm, yMm: yMm - topMm };
    xMm += widthMm + gapMm;
    return shift;
  });
}
