import type { Design, Joint, Place } from '../design/design.ts';
import { endsOf } from '../design/joint-ends.ts';
import type { SinkPlace } from '../design/plan.ts';
import { awayMm, farthestPlace, type WayIn } from '../thermal/far-place.ts';
import type { HeatPhysics } from './heat-physics.ts';

/** A sink moved by less than this is where it was. */
const LEAST_MOVE_MM = 3;

export interface SinkMove {
  to: SinkPlace;
  /** In words: where it goes. */
  where: string;
  fartherMm: number;
}

interface Fire {
  design: Design;
  /** Joints in the fire: those made before, and those being made. */
  made: readonly string[];
  targets: readonly string[];
  physics: Pick<HeatPhysics, 'distanceMm'>;
}

/**
 * Where a sink may be moved to, farther from every target along the metal: the far end of the part it is on (of the two parts of the
 * joint it is at, the farther), and the farthest other joint in the fire. Nearest first.
 */
export function sinkMoves(fire: Fire, from: SinkPlace): SinkMove[] {
  const { design, made, targets, physics } = fire;
  const fromTargetsMm = (joint: string): number =>
    Math.min(...targets.map((target) => physics.distanceMm(design, target, joint)));
  const jointAt = 'joint' in from ? design.joints.find(({ id }) => id === from.joint)! : null;
  const partsHeld = jointAt ? [...new Set(endsOf(jointAt))] : 'part' in from ? [from.part] : [];
  const ways = (part: string): WayIn[] =>
    [...targets, ...made].flatMap((id) => {
      const joint = design.joints.find((each) => each.id === id)!;
      const place = placeOn(joint, part);
      return place ? [{ at: place, beforeMm: fromTargetsMm(id) }] : [];
    });
  const formOf = (part: string) => design.parts.find(({ id }) => id === part)!.form;
  const presentMm = 'part' in from ? awayMm(formOf(from.part), ways(from.part), from) : fromTargetsMm(from.joint);
  const ends = partsHeld.flatMap((part) => {
    const far = farthestPlace(formOf(part), ways(part));
    return far ? [{ to: { part, ...far.at }, where: `the far end of ${part}`, fartherMm: far.awayMm - presentMm }] : [];
  });
  const joints = made
    .filter((id) => id !== jointAt?.id)
    .map((id) => ({ to: { joint: id }, where: id, fartherMm: fromTargetsMm(id) - presentMm }));
  return [farthest(ends), farthest(joints)]
    .flatMap((move) => (move && move.fartherMm >= LEAST_MOVE_MM && move.fartherMm < Infinity ? [move] : []))
    .sort((a, b) => a.fartherMm - b.fartherMm);
}

function farthest(moves: readonly SinkMove[]): SinkMove | undefined {
  return moves.reduce<SinkMove | undefined>((far, move) => (far && far.fartherMm >= move.fartherMm ? far : move), undefined);
}

/** Where a joint lies on a part; null where it does not. A closing joint is where a ring or bar begins. */
function placeOn(joint: Joint, part: string): Partial<Place> | null {
  if (joint.closes !== undefined) return joint.closes === part ? { alongMm: 0 } : null;
  return joint.between.find((place) => place.part === part) ?? null;
}
