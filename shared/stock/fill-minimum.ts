import { EngineInputError } from '../engine-input-error.ts';

/** A product of one supplier, as its order point and rate have it. */
export interface OrderCandidate {
  id: string;
  /** On hand + on order − held. */
  positionG: number;
  orderPointG: number;
  rateGPerWeek: number;
  /** How much is ordered when it is: within the horizon of its use, in whole packs. */
  orderG: number;
  /** What that costs. */
  costMinor: number;
}

export interface FilledOrder {
  lines: { id: string; because: 'at_its_point' | 'companion'; positionToPoint: number | null }[];
  totalMinor: number;
  minimumMet: boolean;
}

/**
 * What to order together from a supplier with a minimum.
 *
 * Every product at its point or under is ordered. While the total is short of the minimum, the product nearest its point comes
 * with them, by position ÷ point, each in its own quantity and once: a minimum is never filled with more of one product than its
 * horizon uses, and never with one that is not used. Where that is not enough the minimum stays unmet, and says so.
 *
 * @throws {EngineInputError} for a minimum or a cost below 0
 * @source none: a rule of this house, worked by hand in its test
 */
export function fillMinimum(candidates: readonly OrderCandidate[], minimumMinor: number): FilledOrder {
  for (const [quantity, given] of [
    ['minimumMinor', minimumMinor] as const,
    ...candidates.map(({ id, costMinor }) => [`${id}.costMinor`, costMinor] as const),
  ]) {
    if (!(given >= 0 && given < Infinity)) throw new EngineInputError(quantity, given, '0 or more');
  }
  const due = candidates.filter(({ positionG, orderPointG }) => positionG <= orderPointG);
  const companions = candidates
    .filter(({ positionG, orderPointG, rateGPerWeek }) => positionG > orderPointG && orderPointG > 0 && rateGPerWeek > 0)
    .toSorted((a, b) => ratio(a) - ratio(b));
  const lines: FilledOrder['lines'] = due.map((one) => ({ id: one.id, because: 'at_its_point', positionToPoint: shown(one) }));
  let totalMinor = due.reduce((total, { costMinor }) => total + costMinor, 0);
  for (const one of due.length > 0 ? companions : []) {
    if (totalMinor >= minimumMinor) break;
    lines.push({ id: one.id, because: 'companion', positionToPoint: shown(one) });
    totalMinor += one.costMinor;
  }
  return { lines, totalMinor, minimumMet: totalMinor >= minimumMinor };
}

function ratio({ positionG, orderPointG }: OrderCandidate): number {
  return positionG / orderPointG;
}

function shown(candidate: OrderCandidate): number | null {
  return candidate.orderPointG > 0 ? Number(ratio(candidate).toPrecision(6)) : null;
}
