import { playHeat } from './heat-control.ts';
import type { HeatProgram } from './heat-control.ts';
import { coldestProbe, readProbe } from './probes.ts';
import type { Probes } from './probes.ts';

const ROUNDS = 6;
const EVEN_K = 3;
/** Of the steps while weights are sought: moves them by thousandths, and the temperatures they lead to by hundredths of a kelvin. */
const COARSE_TOL_K = 8;
const LEAST_WEIGHT = 0.02;
/** How strongly the first round answers a colder target; later rounds learn it. */
const FIRST_GAIN = 2;
const GAIN_RANGE = [0.5, 40] as const;

function coldestPointsC(targets: readonly Probes[], temperaturesC: Float64Array): number[] {
  return targets.map((probes) => readProbe(probes, coldestProbe(probes, temperaturesC), temperaturesC));
}

/** How far apart the coldest points of several targets are, K. */
export function spreadK(targets: readonly Probes[], temperaturesC: Float64Array): number {
  const coldest = coldestPointsC(targets, temperaturesC);
  return Math.max(...coldest) - Math.min(...coldest);
}

/**
 * How long the flame stays with each of several targets, so that all arrive together: weights that sum to 1.
 *
 * Each round plays the heat to flow and moves weight to the colder targets, w ← w·exp(−gain·(T − mean)/mean), the gain corrected by
 * what the last round achieved; it ends within 3 K, or after six rounds with the most even of them, when no play of the flame brings
 * them together and the coldest alone decides.
 *
 * @param targets points of each target, in the order of the flame's fields
 */
export function evenWeights(
  fieldCount: number,
  targets: readonly Probes[],
  programFor: (weights: readonly number[]) => HeatProgram,
): number[] {
  let weights = Array.from({ length: fieldCount }, () => 1 / fieldCount);
  if (fieldCount === 1) return weights;
  let best = weights;
  let leastK = Infinity;
  let gain = FIRST_GAIN;
  let before: number[] | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const program = programFor(weights);
    const { flows, end } = playHeat({ ...program, watched: [], parts: [], playOut: false, tolK: COARSE_TOL_K });
    const { temperaturesC } = flows.findLast((event) => event !== undefined) ?? end;
    const coldest = coldestPointsC(targets, temperaturesC);
    const apartK = spreadK(targets, temperaturesC);
    if (apartK < leastK) [leastK, best] = [apartK, weights];
    if (apartK <= EVEN_K) break;
    const meanC = coldest.reduce((a, b) => a + b, 0) / coldest.length;
    const off = coldest.map((t) => (t - meanC) / meanC);
    if (before) {
      // Share of the last round's unevenness that is left along its own direction: the secant on the gain.
      const square = before.reduce((sum, x) => sum + x * x, 0);
      const left = before.reduce((sum, x, t) => sum + x * off[t]!, 0) / square;
      gain = Math.max(GAIN_RANGE[0], Math.min(GAIN_RANGE[1], left < 1 ? gain / Math.max(0.05, 1 - left) : GAIN_RANGE[1]));
    }
    before = off;
    const pulled = weights.map((weight, t) => Math.max(LEAST_WEIGHT, weight * Math.exp(-gain * off[t]!)));
    const sum = pulled.reduce((a, b) => a + b, 0);
    weights = pulled.map((weight) => weight / sum);
  }
  return best;
}
