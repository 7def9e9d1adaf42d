/** Why each heat is as it is: one line each, from its check and from what would come of doing it otherwise, which is tried. */

import type { Heat } from '../design/plan.ts';
import { toFive } from '../thermal/to-five.ts';
import { checkHeat } from './heat-check.ts';
import { jointsBefore, type CheckContext } from './heat-question.ts';
import { fireOf } from './piece-graph.ts';
import type { EarlierJoint, HeatCheck } from './plan-check-answer.ts';
import { isAnneal, type PlanToCheck } from './plan-to-check.ts';
import { refusal } from './rule-faults.ts';

/** Heats played otherwise for one plan. */
const MOST_TRIED = 120;

type Verdict = EarlierJoint['verdict'];

/** The worst first. */
const WORDS: Readonly<Record<Verdict, string>> = {
  runs: 'would run',
  may_run: 'may run',
  held: 'would be held',
  softens: 'would soften',
  may_soften: 'may soften',
  stays_solid: 'would stay solid',
};
const TO_IT: Readonly<Record<Verdict, string>> = {
  runs: 'would run',
  may_run: 'may run',
  held: 'would soften',
  softens: 'would soften',
  may_soften: 'may soften',
  stays_solid: 'would spare',
};
const worstFirst = Object.keys(WORDS) as Verdict[];
const badness = ({ verdict }: Pick<EarlierJoint, 'verdict'>): number => worstFirst.indexOf(verdict);

interface Plan {
  context: CheckContext & Pick<PlanToCheck, 'given'>;
  heats: readonly Heat[];
  checks: readonly HeatCheck[];
  /** Plays a heat after others, without protections; null where it cannot be done, or nothing more is tried. */
  play: (heat: Heat, before: readonly Heat[]) => HeatCheck | null;
}

/**
 * @param heats in the ids of the expanded design, the plan that was checked
 * @param isStopped asked before each heat that is tried otherwise; true: no more are
 */
export function* whyLines(
  context: Plan['context'],
  heats: readonly Heat[],
  checks: readonly HeatCheck[],
  isStopped: () => boolean = () => false,
): Generator<void, string[]> {
  let left = MOST_TRIED;
  const play: Plan['play'] = ({ joints, solder, torch, support }, before) => {
    const made = jointsBefore(context, before, before.length);
    if (left === 0 || isStopped() || fireOf(context.design, made.keys(), joints).apart.length > 0) return null;
    left--;
    const bare = { joints, ...(solder && { solder }), ...(torch && { torch }), ...(support && { support }) };
    return checkHeat(context, bare, before.length + 1, made);
  };
  const lines: string[] = [];
  for (const i of heats.keys()) {
    lines.push(lineOf({ context, heats, checks, play }, i));
    yield;
  }
  return lines;
}

function lineOf(plan: Plan, i: number): string {
  const [heat, check] = [plan.heats[i]!, plan.checks[i]!];
  const made = isAnneal(heat) ? `${listed(heat.joints)} annealed` : `${listed(heat.joints)} with ${heat.solder}`;
  const head = `Heat ${i + 1}, ${made}`;
  if (check.flow === 'does_not_flow') return `${head}: predicted not to flow with this torch`;
  const tightest = check.earlierJoints.toSorted((a, b) => a.solidMarginK - b.solidMarginK)[0];
  if (!tightest) return `${head}: no earlier joint is in the fire${isAnneal(heat) ? '' : (laterInstead(plan, i) ?? '')}`;
  const guarded = (heat.protections?.length ?? 0) + (heat.flame?.awayFrom === undefined ? 0 : 1);
  const otherwise = isAnneal(heat) ? [] : otherwiseIn(plan, i, tightest);
  return [`${head}: ${withProtections(leaves(tightest), guarded)}`, ...otherwise].join('; ');
}

function withProtections(says: string, count: number): string {
  if (count === 0) return says;
  return count === 1 ? `${says}, with one protection` : `${says}, with ${count} protections`;
}

/** Of protections, order, solder and company what would be worse otherwise, at most two; where nothing is, that the order is free. */
function otherwiseIn(plan: Plan, i: number, tightest: EarlierJoint): string[] {
  const turned = otherWayRound(plan, i, tightest);
  const isWorse = turned !== null && badness(turned) < badness(tightest);
  const order = isWorse ? [`the other way round ${turned.joint} ${WORDS[turned.verdict]}`] : [];
  const worse = [
    ...(unguarded(plan, i, tightest) ?? []),
    ...order,
    ...(higherSolder(plan, i, tightest) ?? []),
    ...(apart(plan, i) ?? []),
  ].slice(0, 2);
  if (worse.length > 0 || turned === null) return worse;
  return [badness(turned) === badness(tightest) ? 'the other way round is as good' : 'the other way round would spare more'];
}

/** What the heat of the earlier joint would do to what this one makes, were this made first. */
function otherWayRound({ heats, play }: Plan, i: number, { joint }: EarlierJoint): EarlierJoint | null {
  const e = heats.findIndex((heat, k) => k < i && !isAnneal(heat) && heat.joints.includes(joint));
  if (e < 0) return null;
  return worstOf(play(heats[e]!, [...heats.slice(0, e), ...heats.slice(e + 1, i + 1)]), heats[i]!.joints);
}

/** This heat without its protections. */
function unguarded({ heats, play }: Plan, i: number, tightest: EarlierJoint): string[] | null {
  const heat = heats[i]!;
  const count = (heat.protections?.length ?? 0) + (heat.flame ? 1 : 0);
  const worst = count === 0 ? null : worstOf(play(heat, heats.slice(0, i)));
  if (!worst || badness(worst) >= badness(tightest)) return null;
  const becomes = WORDS[worst.verdict];
  return [count === 1 ? `without it ${worst.joint} ${becomes}` : `without them ${worst.joint} ${becomes}`];
}

/** This heat with the next solder that melts higher. */
function higherSolder({ context, heats, play }: Plan, i: number, tightest: EarlierJoint): string[] | null {
  const heat = heats[i]!;
  const own = context.solders.find(({ id }) => id === heat.solder)!;
  const higher = context.solders
    .filter(
      ({ liquidusC, id }) => liquidusC > own.liquidusC && heat.joints.every((joint) => refusal(context, joint, id) === null),
    )
    .toSorted((a, b) => a.liquidusC - b.liquidusC)[0];
  if (!higher || (heat.protections ?? heat.flame)) return null;
  const check = play({ ...heat, solder: higher.id }, heats.slice(0, i));
  if (check?.flow === 'does_not_flow') return [`with ${higher.id} it does not flow`];
  const worst = worstOf(check);
  return worst && badness(worst) < badness(tightest) ? [`with ${higher.id} ${worst.joint} ${WORDS[worst.verdict]}`] : null;
}

/** The joints of this heat one after the other: what the rest would do to one made first, whichever it is. */
function apart({ heats, play }: Plan, i: number): string[] | null {
  const heat = heats[i]!;
  if (heat.joints.length < 2 || (heat.protections ?? heat.flame)) return null;
  const ends = heat.joints.slice(0, 2).map((first) => {
    const rest = { ...heat, joints: heat.joints.filter((id) => id !== first) };
    return worstOf(play(rest, [...heats.slice(0, i), { ...heat, joints: [first] }]), [first]);
  });
  if (ends.some((end) => end === null)) return null;
  const best = ends.toSorted((a, b) => badness(b!) - badness(a!))[0]!;
  return best.verdict === 'stays_solid' ? null : [`one after the other ${best.joint} ${WORDS[best.verdict]}`];
}

/** Of a heat without company: what it would do to the joint of the later heat that first draws it into its fire, were it made after. */
function laterInstead({ context, heats, play }: Plan, i: number): string | null {
  const { joints } = heats[i]!;
  const later = heats.findIndex((heat, k) => {
    if (k <= i || isAnneal(heat)) return false;
    const made = jointsBefore(context, heats, k);
    return fireOf(context.design, made.keys(), heat.joints).made.some((id) => joints.includes(id));
  });
  if (later < 0) return ', in this or any later heat: it may be made at any time';
  const before = [...heats.slice(0, i), ...heats.slice(i + 1, later + 1)];
  const worst = worstOf(play(heats[i]!, before), heats[later]!.joints);
  if (!worst) return null;
  if (worst.verdict === 'stays_solid') return `; made after ${worst.joint} it would leave that solid too`;
  return `; made afterwards it ${TO_IT[worst.verdict]} ${worst.joint}`;
}

function worstOf(check: HeatCheck | null, among?: readonly string[]): EarlierJoint | null {
  const warmed = check?.earlierJoints.filter(({ joint }) => !among || among.includes(joint)) ?? [];
  return warmed.toSorted((a, b) => badness(a) - badness(b) || a.runMarginK - b.runMarginK)[0] ?? null;
}

const sizeK = (differenceK: number): number => toFive(Math.abs(differenceK));

function leaves({ joint, verdict, solidMarginK, runMarginK }: EarlierJoint): string {
  switch (verdict) {
    case 'stays_solid':
    case 'may_soften':
      return `${joint} is left about ${sizeK(solidMarginK)} °C under its solidus`;
    case 'softens':
      return `${joint} softens, about ${sizeK(runMarginK)} °C short of running`;
    case 'held':
      return `${joint} is held by anti-flow`;
    case 'may_run':
      return `${joint} may run, about ${sizeK(runMarginK)} °C short of it`;
    case 'runs':
      return `${joint} runs, about ${sizeK(runMarginK)} °C over its liquidus`;
  }
}

const listed = (ids: readonly string[]): string => ids.join(', ');
