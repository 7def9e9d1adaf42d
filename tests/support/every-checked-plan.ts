/**
 * Every plan of a small piece, one by one, through the check of a plan: what the best of them comes to, level by level. Shares nothing
 * with the search but the heats simulated.
 */

import type { Design } from '../../shared/design/design.ts';
import type { Bench, Heat } from '../../shared/design/plan.ts';
import type { Solder } from '../../shared/design/solder.ts';
import { checkPlan } from '../../shared/sequencing/check-plan.ts';
import type { HeatPhysics } from '../../shared/sequencing/heat-physics.ts';
import type { PlanCheck } from '../../shared/sequencing/plan-check-answer.ts';

export interface CheckedPiece {
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
}

/** The margin counted downward, protections, heats, solders, ranks: the less the better, in this order. */
export type Comes = readonly number[];

interface EveryPlan {
  stay_solid: Comes | null;
  do_not_run: Comes | null;
  /** Plans without a fault. */
  checked: number;
}

type Guard = Pick<Heat, 'flame' | 'protections'>;

/** Ordered ways to split joints into heats. */
function splits(joints: readonly string[]): string[][][] {
  if (joints.length === 0) return [[]];
  return Array.from({ length: 2 ** joints.length - 1 }, (_, i) => joints.filter((__, j) => ((i + 1) >> j) & 1)).flatMap((first) =>
    splits(joints.filter((id) => !first.includes(id))).map((rest) => [first, ...rest]),
  );
}

/** Ways to spare one joint in a heat. */
const guardsOf = (id: string): Guard[] => [
  { flame: { tiltDeg: 45, awayFrom: id } },
  { protections: [{ kind: 'shield', guards: id }] },
  { protections: [{ kind: 'sink', sink: 'tweezers', at: { joint: id } }] },
  { protections: [{ kind: 'anti_flow', guards: id }] },
];

/** The heats as they are, and with each single protection of an earlier joint in each of them. */
function* withOneGuard(heats: readonly Heat[]): Generator<Heat[]> {
  for (const [i, heat] of heats.entries()) {
    for (const id of heats.slice(0, i).flatMap(({ joints }) => joints)) {
      for (const guard of guardsOf(id)) yield heats.map((each, k) => (k === i ? { ...heat, ...guard } : each));
    }
  }
}

/** Least margin beyond the uncertainty; below zero where something of the plan is a problem. K */
function slackK({ design }: CheckedPiece, check: PlanCheck, staysSolid: boolean): number {
  if (check.problems.length > 0) return -1;
  let leastK = Infinity;
  for (const { earlierJoints } of check.heats) {
    for (const { joint, verdict, uncertaintyK, solidMarginK, runMarginK } of earlierJoints) {
      const isLoaded = (design.joints.find(({ id }) => id === joint)!.load ?? 'none') !== 'none';
      if (staysSolid || isLoaded) leastK = Math.min(leastK, solidMarginK - uncertaintyK);
      // Anti-flow holds up to 40 °C over the liquidus, as the check words it.
      else leastK = Math.min(leastK, runMarginK - uncertaintyK + (verdict === 'held' ? 40 : 0));
    }
  }
  return leastK;
}

/** Every check lays a design out anew; heats are remembered by the first of them, which are all alike. */
function asOneDesign(physics: HeatPhysics): HeatPhysics {
  let first: Design | null = null;
  return {
    ...physics,
    simulate(question) {
      first ??= question.design;
      return physics.simulate({ ...question, design: first });
    },
  };
}

export const isBetter = (one: Comes, other: Comes | null): boolean => {
  if (!other) return true;
  const i = one.findIndex((value, level) => value !== other[level]);
  return i >= 0 && one[i]! < other[i]!;
};

/**
 * @param mostGuards 1: every plan is tried bare, and with any one protection of any one earlier joint in any one heat
 * @returns by policy what the best plan comes to, and how many were checked; null where no plan keeps a margin of nothing
 */
export function everyCheckedPlan(
  piece: CheckedPiece,
  { targetK, mostGuards, physics }: { targetK: number; mostGuards: 0 | 1; physics: HeatPhysics },
): EveryPlan {
  const remembered = asOneDesign(physics);
  const order = piece.solders.toSorted((a, b) => b.liquidusC - a.liquidusC);
  const best: EveryPlan = { stay_solid: null, do_not_run: null, checked: 0 };
  const tryOne = (heats: Heat[], guards: number): void => {
    const outcome = checkPlan({ ...piece, plan: { heats } }, { physics: remembered, isStopped: () => true });
    if (outcome.outcome === 'faults') return;
    best.checked++;
    const solders = heats.map(({ solder }) => order.findIndex(({ id }) => id === solder));
    const ranks = heats.reduce((sum, { joints }, i) => sum + joints.length * solders[i]!, 0);
    for (const policy of ['stay_solid', 'do_not_run'] as const) {
      const least = slackK(piece, outcome.check, policy === 'stay_solid');
      if (least < 0) continue;
      const comes = [-Math.min(targetK, Math.floor(least / 5) * 5), guards, heats.length, new Set(solders).size, ranks];
      if (isBetter(comes, best[policy])) best[policy] = comes;
    }
  };
  for (const split of splits(piece.design.joints.flatMap(({ id, made }) => (made ? [] : [id])))) {
    for (let code = 0; code < order.length ** split.length; code++) {
      const heats = split.map((joints, i): Heat => ({
        joints,
        solder: order[Math.floor(code / order.length ** i) % order.length]!.id,
      }));
      tryOne(heats, 0);
      if (mostGuards === 1) for (const guarded of withOneGuard(heats)) tryOne(guarded, 1);
    }
  }
  return best;
}
