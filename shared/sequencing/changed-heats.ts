/** Two checks of nearly the same plan, heat by heat: what is otherwise. */

import type { Heat } from '../design/plan.ts';
import type { EarlierJoint, HeatCheck, WarmedPart } from './plan-check-answer.ts';

/** What is said of a joint or part in one heat; margins in K. */
export type JointReading = Pick<EarlierJoint, 'peakC' | 'solidMarginK' | 'runMarginK' | 'verdict' | 'says'>;
export type PartReading = Pick<WarmedPart, 'peakC' | 'limitC' | 'verdict' | 'says'>;

/** Null: it is not in that fire. */
export interface ChangedJoint {
  joint: string;
  before: JointReading | null;
  after: JointReading | null;
}

export interface ChangedPart {
  part: string;
  before: PartReading | null;
  after: PartReading | null;
}

export interface ChangedHeat {
  /** Its number before and after the edits; null: there is no such heat. */
  before: number | null;
  after: number | null;
  /** Those it makes after the edits, or made before them. */
  joints: string[];
  flow: { before: HeatCheck['flow'] | null; after: HeatCheck['flow'] | null };
  timeToFlowS: { before: number | null; after: number | null };
  /** Whether the heat itself is done otherwise: other joints, solder, torch, flame or protections. */
  isEdited: boolean;
  earlierJoints: ChangedJoint[];
  parts: ChangedPart[];
}

export interface CheckedPlan {
  heats: readonly Heat[];
  checks: readonly HeatCheck[];
}

/** Below this a temperature is the same. */
const LEAST_K = 1;
/** Below this a flow time is the same. */
const LEAST_S = 0.5;

/**
 * The heats that differ. Heats belong together that make most of the same joints; what differs is told from 1 K and 0.5 s on, verdicts
 * always. A heat that only has another number is the same.
 */
export function changedHeats(before: CheckedPlan, after: CheckedPlan): ChangedHeat[] {
  const partners = partnersOf(before.heats, after.heats);
  const kept = after.heats.map((_, a) => changedHeat(before, after, partners[a]!, a));
  const gone = before.heats.flatMap((_, b) => (partners.includes(b) ? [] : [changedHeat(before, after, null, null, b)]));
  return [...kept, ...gone].filter(differs);
}

/** How much another solder takes from the likeness of two heats: less than any joint does. */
const OTHER_SOLDER_FRACTION = 0.999;

/** For each heat after, the heat before that it comes from; null for a new one. */
function partnersOf(before: readonly Heat[], after: readonly Heat[]): (number | null)[] {
  const pairs = after.flatMap((heat, a) =>
    before.map((other, b) => ({ a, b, likeness: likeness(heat, other), apart: Math.abs(a - b) })),
  );
  const partners = after.map((): number | null => null);
  for (const { a, b, likeness } of pairs.toSorted((x, y) => y.likeness - x.likeness || x.apart - y.apart || x.a - y.a)) {
    if (likeness > 0 && partners[a] === null && !partners.includes(b)) partners[a] = b;
  }
  return partners;
}

/** Share of their joints that both make; an anneal is like an anneal alone. */
function likeness(a: Heat, b: Heat): number {
  if ((a.purpose === 'anneal') !== (b.purpose === 'anneal')) return 0;
  const all = new Set([...a.joints, ...b.joints]);
  const shared = all.size === 0 ? 1 : a.joints.filter((id) => b.joints.includes(id)).length / all.size;
  // Of two that came together the one goes on whose solder is used.
  return a.solder === b.solder ? shared : shared * OTHER_SOLDER_FRACTION;
}

function changedHeat(before: CheckedPlan, after: CheckedPlan, partner: number | null, a: number | null, gone = -1): ChangedHeat {
  const [was, is] = [before.checks[partner ?? gone], a === null ? undefined : after.checks[a]];
  const [planned, edited] = [before.heats[partner ?? gone], a === null ? undefined : after.heats[a]];
  return {
    before: was?.heat ?? null,
    after: is?.heat ?? null,
    joints: (is ?? was)!.joints,
    flow: { before: was?.flow ?? null, after: is?.flow ?? null },
    timeToFlowS: { before: was?.timeToFlowS ?? null, after: is?.timeToFlowS ?? null },
    isEdited: JSON.stringify(planned) !== JSON.stringify(edited),
    earlierJoints: pairsOf(was?.earlierJoints ?? [], is?.earlierJoints ?? [], ({ joint }) => joint)
      .map(({ id, was, is }) => ({ joint: id, before: jointReading(was), after: jointReading(is) }))
      .filter(jointDiffers),
    parts: pairsOf(was?.parts ?? [], is?.parts ?? [], ({ part }) => part)
      .map(({ id, was, is }) => ({ part: id, before: partReading(was), after: partReading(is) }))
      .filter(partDiffers),
  };
}

function pairsOf<T>(was: readonly T[], is: readonly T[], idOf: (one: T) => string): { id: string; was?: T; is?: T }[] {
  const before = new Map(was.map((one) => [idOf(one), one]));
  const after = new Map(is.map((one) => [idOf(one), one]));
  return [...new Set([...before.keys(), ...after.keys()])].map((id) => {
    const [one, other] = [before.get(id), after.get(id)];
    return { id, ...(one && { was: one }), ...(other && { is: other }) };
  });
}

function jointReading(of: EarlierJoint | undefined): JointReading | null {
  if (!of) return null;
  const { peakC, solidMarginK, runMarginK, verdict, says } = of;
  return { peakC, solidMarginK, runMarginK, verdict, says };
}

function partReading(of: WarmedPart | undefined): PartReading | null {
  if (!of) return null;
  const { peakC, limitC, verdict, says } = of;
  return { peakC, limitC, verdict, says };
}

const isOff = (a: number, b: number, least: number): boolean => Math.abs(a - b) >= least;

function jointDiffers({ before, after }: ChangedJoint): boolean {
  if (!before || !after) return true;
  return (
    before.verdict !== after.verdict ||
    isOff(before.solidMarginK, after.solidMarginK, LEAST_K) ||
    isOff(before.runMarginK, after.runMarginK, LEAST_K)
  );
}

function partDiffers({ before, after }: ChangedPart): boolean {
  if (!before || !after) return true;
  return before.verdict !== after.verdict || isOff(before.limitC - before.peakC, after.limitC - after.peakC, LEAST_K);
}

function differs({ flow, timeToFlowS, isEdited, earlierJoints, parts }: ChangedHeat): boolean {
  const [was, is] = [timeToFlowS.before, timeToFlowS.after];
  const timeIsOff = was === null || is === null ? was !== is : isOff(was, is, LEAST_S);
  return isEdited || flow.before !== flow.after || timeIsOff || earlierJoints.length > 0 || parts.length > 0;
}
