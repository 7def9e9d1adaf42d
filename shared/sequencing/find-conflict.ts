/** The least of a piece that cannot be made: few joints, and the rules without which they could. */

import { restricted } from './restricted-problem.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import { canBeMade, isSpent, type Posed, type Purse } from './trial.ts';

/** A question that can be put with some of its rules let go. */
export interface Posable {
  /** Names of the rules, those that a maker gives up last first. */
  rules: readonly string[];
  /** With some rules let go; the joints keep their places. */
  pose: (letGo: ReadonlySet<string>) => Posed;
}

export interface FoundConflict {
  joints: readonly number[];
  rules: string[];
}

/** Share of the purse after which small sets are no longer tried one by one. */
const SETS_FRACTION = 0.4;
/** Sets of one size that are kept. */
const MOST_SETS = 5000;

/**
 * Sets of joints that hang together are tried by size, so that what is found first is smallest; where that takes too long, joints are
 * left out of the whole one by one as long as the rest cannot be made. Then rules are let go in the same way. Every step is a search
 * with runs of the oracle, so the conflict is one, and without any one of its rules it is none; nor without one of its joints.
 *
 * @param purse what it may spend; what is left of it stays in it
 * @returns null where the purse did not last to find any
 */
export function* findConflict(piece: Posable, purse: Purse): Generator<void, FoundConflict | null> {
  const posed = piece.pose(new Set());
  const joints = (yield* smallestSet(posed, purse)) ?? (yield* thinnedSet(posed, purse));
  return joints && { joints, rules: yield* neededRules(piece, joints, purse) };
}

function* smallestSet(posed: Posed, purse: Purse): Generator<void, readonly number[] | null> {
  const least = purse.workUnits * (1 - SETS_FRACTION);
  const near = neighbours(posed.problem);
  let sets: readonly (readonly number[])[] = posed.problem.joints.map((_, j) => [j]);
  while (sets.length > 0 && sets.length <= MOST_SETS) {
    for (const set of sets) {
      if (purse.workUnits < least) return null;
      const made = yield* canBeMade(posed, purse, set);
      if (made === false) return set;
      if (made === null) return null;
    }
    const larger = new Map<string, readonly number[]>();
    for (const set of sets) {
      for (const next of new Set(set.flatMap((j) => near[j]!))) {
        if (set.includes(next)) continue;
        const grown = [...set, next].sort((a, b) => a - b);
        larger.set(grown.join(), grown);
        if (larger.size > MOST_SETS) return null;
      }
    }
    sets = [...larger.values()];
  }
  return null;
}

/** By joint, those that it can stand in the way of: through a part, a rule of order or the same small stock. */
function neighbours({ joints, made, contacts = [], after, together, apart, grades }: SequenceProblem): number[][] {
  const leader = new Map<string, string>();
  const find = (id: string): string => {
    let root = id;
    while (leader.has(root)) root = leader.get(root)!;
    return root;
  };
  for (const [a, b] of [...contacts, ...made.map(({ parts }) => parts)]) if (find(a) !== find(b)) leader.set(find(a), find(b));
  const isShort = grades.map(({ availableG }, g) => joints.reduce((sum, { needG }) => sum + (needG[g] ?? 0), 0) > availableG);
  const touches = (a: number, b: number): boolean =>
    joints[a]!.parts.some((part) => joints[b]!.parts.some((other) => find(part) === find(other)));
  const ruled = (a: number, b: number): boolean =>
    after[a]!.includes(b) ||
    after[b]!.includes(a) ||
    apart[a]!.includes(b) ||
    together.some((g) => g.includes(a) && g.includes(b));
  const shares = (a: number, b: number): boolean =>
    isShort.some((short, g) => short && ((joints[a]!.allowed & joints[b]!.allowed) >> g) % 2 === 1);
  return joints.map((_, a) => [...joints.keys()].filter((b) => a !== b && (touches(a, b) || ruled(a, b) || shares(a, b))));
}

function* thinnedSet(posed: Posed, purse: Purse): Generator<void, readonly number[] | null> {
  let left: readonly number[] = [...posed.problem.joints.keys()];
  if ((yield* canBeMade(posed, purse)) !== false) return null;
  for (const j of left) {
    if (isSpent(purse)) break;
    const rest = left.filter((other) => other !== j);
    if ((yield* canBeMade(posed, purse, rest)) === false) left = rest;
  }
  return left;
}

/** Those that are left when rules are let go one by one for good, as long as the joints still cannot be made. */
function* neededRules(piece: Posable, joints: readonly number[], purse: Purse): Generator<void, string[]> {
  const letGo = new Set<string>();
  const asked = (posed: Posed): string => JSON.stringify(restricted(posed.problem, joints));
  let now = asked(piece.pose(letGo));
  const needed: string[] = [];
  for (const rule of piece.rules) {
    const looser = piece.pose(new Set([...letGo, rule]));
    const then = asked(looser);
    if (then === now) {
      letGo.add(rule);
      continue;
    }
    if ((yield* canBeMade(looser, purse, joints)) === false) {
      letGo.add(rule);
      now = then;
    } else needed.push(rule);
  }
  return needed;
}
