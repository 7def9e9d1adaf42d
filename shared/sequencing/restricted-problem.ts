import { MEANS_KINDS, type HeatOracle } from './heat-oracle.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** The problem of some of the joints alone: the rest of the piece is never made. Rules that name others as well are let go. */
export function restricted(problem: SequenceProblem, kept: readonly number[]): SequenceProblem {
  const packed = (joints: readonly number[]): number[] => joints.map((j) => kept.indexOf(j)).filter((k) => k >= 0);
  const has = (part: string, joints: Iterable<number>): number =>
    [...joints].filter((j) => problem.joints[j]!.parts.includes(part)).length;
  return {
    ...problem,
    joints: kept.map((j) => problem.joints[j]!),
    after: kept.map((j) => packed(problem.after[j]!)),
    apart: kept.map((j) => packed(problem.apart[j]!)),
    together: problem.together.filter((group) => group.every((j) => kept.includes(j))).map(packed),
    parts: problem.parts.map((part) => ({
      ...part,
      closes: part.closes && has(part.id, kept) === has(part.id, problem.joints.keys()),
    })),
  };
}

/**
 * The same, asked for what these joints alone cost one another, so that what several such sets cost may be added up: of what other
 * joints may share, a flame that is turned away and what is spared of existing joints and limited parts, nothing is counted where
 * heats may be shared.
 */
export function windowProblem(problem: SequenceProblem, kept: readonly number[]): SequenceProblem {
  const { together: _together, ...alone } = restricted(problem, kept);
  const isShared = problem.maxJointsPerHeat > 1;
  const free = { limitC: Infinity, held: null };
  return {
    ...alone,
    together: [],
    made: isShared ? problem.made.map((joint) => ({ ...joint, limit: free })) : problem.made,
    parts: problem.parts.map((part) => ({ ...part, closes: false, limitC: isShared ? Infinity : part.limitC })),
    maxMeans: isShared ? { ...problem.maxMeans, flame_away: 0 } : problem.maxMeans,
  };
}

/** The oracle of such a set: every heat with the flame turned away, for nothing, where heats may be shared. */
export function windowOracle({ maxJointsPerHeat, maxMeans }: SequenceProblem, oracle: HeatOracle): HeatOracle {
  if (maxJointsPerHeat === 1 || maxMeans.flame_away === 0) return oracle;
  const flame = MEANS_KINDS[0]!;
  return {
    ...oracle,
    run: (section, technique) => oracle.run(section, [...technique, { kind: flame, guards: '', reach: 'section' }]),
  };
}
