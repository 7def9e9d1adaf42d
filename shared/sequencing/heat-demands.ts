/** What one heat asks of everything it warms, at a margin level: which guards let it stand, by the solder it is of. */

import type { HeatTemperatures, Reached } from './heat-oracle.ts';
import { MARGIN_TOLERANCE_K, type JointLimit } from './sequence-problem.ts';

/**
 * By what is warmed, then by grade: a bit for every combination of guards with which it stands the heat. What is no open joint has the
 * same for every grade.
 */
export type Demands = Uint8Array;

/** What is warmed by a heat and must stand it: an earlier joint, one that existed, or a part with a limit. */
export interface Warmed {
  id: string;
  /** Of an open joint that is made by then; −1 otherwise. */
  joint: number;
  isPart: boolean;
  /** By grade, for an open joint; else the one it has. */
  limits: readonly JointLimit[];
  /** Guards that may be laid on it in this heat, one bit a kind. */
  guards: number;
}

const ANTI_FLOW = 4;
const THERMAL = 3;

/** Kelvin that are left up to a limit, with or without anti-flow; −Infinity where anti-flow does not hold so long. */
export function marginK(limit: JointLimit, reached: Reached, held: boolean): number {
  if (!held) return limit.limitC - reached.peakC - reached.uncertaintyK;
  if (!limit.held) return Number.NEGATIVE_INFINITY;
  if (reached.secondsAbove(limit.held.secondsOverC) > limit.held.budgetS) return Number.NEGATIVE_INFINITY;
  return limit.held.limitC - reached.peakC - reached.uncertaintyK;
}

/**
 * @param all what the heat warms
 * @param levelK margin that all keep beyond their uncertainty; −Infinity: whatever happens
 * @param run the temperatures with guards of these kinds on everything that can take them; null for an unknown solder
 * @returns null where the targets do not flow or a part begins to melt
 */
export function demandsOf(
  all: readonly Warmed[],
  grades: number,
  levelK: number,
  run: (guards: number) => HeatTemperatures | null,
): Demands | null {
  const plain = run(0);
  if (!plain) return null;
  const demands = new Uint8Array(all.length * grades);
  if (levelK === Number.NEGATIVE_INFINITY) return demands.fill(255);
  if (!plain.possible) return null;
  const note = (thermal: number, temperatures: HeatTemperatures): void => {
    for (const [i, warmed] of all.entries()) {
      if ((thermal & ~warmed.guards) !== 0) continue;
      const reached = warmed.isPart ? temperatures.part(warmed.id) : temperatures.joint(warmed.id);
      for (let g = 0; g < grades; g++) {
        const limit = warmed.limits[g] ?? warmed.limits[0]!;
        demands[i * grades + g]! |= combinations(warmed, limit, reached, thermal, levelK);
      }
    }
  };
  note(0, plain);
  const falls = (i: number): boolean => demands.subarray(i * grades, (i + 1) * grades).some((family) => (family & 1) === 0);
  const short = all.filter(({ guards }, i) => guards !== 0 && falls(i));
  const kinds = short.reduce((mask, { guards }) => mask | (guards & THERMAL), 0);
  for (let thermal = 1; thermal <= THERMAL; thermal++) {
    if ((thermal & ~kinds) === 0) note(thermal, run(thermal)!);
  }
  return demands;
}

function combinations({ guards }: Warmed, limit: JointLimit, reached: Reached, thermal: number, levelK: number): number {
  const least = levelK - MARGIN_TOLERANCE_K;
  const bare = marginK(limit, reached, false) >= least;
  const held = bare || ((guards & ANTI_FLOW) !== 0 && marginK(limit, reached, true) >= least);
  return (bare ? 1 << thermal : 0) | (held && (guards & ANTI_FLOW) !== 0 ? 1 << (thermal | ANTI_FLOW) : 0);
}
