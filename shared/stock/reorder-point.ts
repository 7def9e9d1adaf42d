import { EngineInputError } from '../engine-input-error.ts';
import { intermittentRate, type IntermittentRate } from './intermittent-rate.ts';
import { orderQuantity, type OrderQuantity } from './order-quantity.ts';

export interface ReorderRequest {
  /** Grams used in each week, oldest first, zeros included. */
  weeklyUseG: readonly number[];
  /** What the biggest single piece took; while history is short, the biggest planned piece. */
  largestPieceG: number;
  leadWeeks: number;
  reviewWeeks: number;
  onHandG: number;
  onOrderG: number;
  heldG: number;
  packG: number;
  priceMinorPerG: number;
  orderCostMinor: number;
  /** Share of its price that keeping a gram for a year costs. */
  holdingFraction: number;
  /** Weeks that an order may last: 52; for paste, until its use-by date. */
  horizonWeeks: number;
}

export interface ReorderPoint {
  orderPointG: number;
  decidedBy: 'use' | 'largest_piece' | 'short_history';
  rateGPerWeek: number;
  /** How much to order when it is ordered. */
  orderG: number;
  orderNow: boolean;
  /** How it came about, a sentence a step. */
  working: string[];
}

const LEAST_WEEKS = 12;
const SERVICE_FRACTION = 0.95;
const SMOOTHING_WEIGHT = 0.15;

/**
 * When to order a thing that is used in lumps, and how much.
 *
 * The point is the larger of what a window of lead and review weeks used, 19 times in 20 (nearest rank over every sliding
 * window), and what one piece can take, so that nothing runs out in the middle of a piece. With under 12 weeks of history, or
 * fewer than a window, it is the biggest planned piece and a pack. Order when on hand + on order − held is at the point or under.
 *
 * @throws {EngineInputError} for a use, a price or a time that is negative (on hand may be, by the error of a scale), no whole
 *   window, or a pack of nothing
 * @source rank: Hyndman & Fan, American Statistician 50 (1996) 361–365, definition 1; rate and quantity as in
 *   intermittentRate() and orderQuantity()
 */
export function reorderPoint(request: ReorderRequest): ReorderPoint {
  const { weeklyUseG, largestPieceG, onHandG, onOrderG, heldG, packG } = request;
  for (const quantity of ['largestPieceG', 'leadWeeks', 'reviewWeeks', 'onOrderG', 'heldG'] as const) {
    if (!(request[quantity] >= 0 && request[quantity] < Infinity))
      throw new EngineInputError(quantity, request[quantity], '0 or more');
  }
  if (!Number.isFinite(onHandG)) throw new EngineInputError('onHandG', onHandG, 'a finite number');
  const windowWeeks = Math.ceil(request.leadWeeks + request.reviewWeeks);
  if (windowWeeks < 1) throw new EngineInputError('leadWeeks', request.leadWeeks, 'with the review weeks, a week at least');

  const rate = intermittentRate(weeklyUseG, SMOOTHING_WEIGHT);
  const quantity = orderQuantity({ ...request, rateGPerWeek: rate.rateGPerWeek });
  const point = pointOf({ weeklyUseG, windowWeeks, largestPieceG, packG });
  const positionG = tidy(onHandG + onOrderG - heldG);
  const orderNow = positionG <= point.orderPointG;
  const position = `On hand ${onHandG} + on order ${onOrderG} − held ${heldG} = ${positionG} g`;
  const pointG = print(point.orderPointG);
  return {
    orderPointG: point.orderPointG,
    decidedBy: point.decidedBy,
    rateGPerWeek: rate.rateGPerWeek,
    orderG: quantity.orderG,
    orderNow,
    working: [
      ...point.working,
      rateSentence(rate),
      quantitySentence(quantity, request),
      orderNow
        ? `${position}, at or under the point of ${pointG} g: order now.`
        : `${position}, over the point of ${pointG} g: do not order now.`,
    ],
  };
}

function pointOf({
  weeklyUseG,
  windowWeeks,
  largestPieceG,
  packG,
}: {
  weeklyUseG: readonly number[];
  windowWeeks: number;
  largestPieceG: number;
  packG: number;
}): Pick<ReorderPoint, 'orderPointG' | 'decidedBy' | 'working'> {
  if (weeklyUseG.length < Math.max(LEAST_WEEKS, windowWeeks)) {
    const orderPointG = tidy(largestPieceG + packG);
    const weeks =
      weeklyUseG.length === 1
        ? '1 week of use is too few to judge by'
        : `${weeklyUseG.length} weeks of use are too few to judge by`;
    const says = `${weeks}: the point is the biggest planned piece, ${largestPieceG} g, and a pack of ${packG} g, ${orderPointG} g.`;
    return { orderPointG, decidedBy: 'short_history', working: [says] };
  }
  const windows = slidingSums(weeklyUseG, windowWeeks).sort((a, b) => a - b);
  const rank = Math.ceil(SERVICE_FRACTION * windows.length);
  const usedG = windows[rank - 1]!;
  const decidedBy = largestPieceG > usedG ? 'largest_piece' : 'use';
  const biggest = `The biggest piece took ${largestPieceG} g`;
  return {
    orderPointG: Math.max(usedG, largestPieceG),
    decidedBy,
    working: [
      `${weeklyUseG.length} weeks hold ${windows.length} windows of ${windowWeeks} weeks; number ${rank} by size, the 95 % point, used ${print(usedG)} g.`,
      decidedBy === 'use'
        ? `${biggest}: the window decides, the point is ${print(usedG)} g.`
        : `${biggest}: the piece decides, the point is ${print(largestPieceG)} g.`,
    ],
  };
}

function slidingSums(weeklyUseG: readonly number[], windowWeeks: number): number[] {
  return Array.from({ length: weeklyUseG.length - windowWeeks + 1 }, (_, first) =>
    tidy(weeklyUseG.slice(first, first + windowWeeks).reduce((total, useG) => total + useG, 0)),
  );
}

function rateSentence({ sizeG, gapWeeks, rateGPerWeek }: IntermittentRate): string {
  if (gapWeeks === 0) return 'Nothing was used yet.';
  return `A use is ${print(sizeG)} g, ${print(gapWeeks)} weeks after the one before: ${print(rateGPerWeek)} g a week.`;
}

function quantitySentence({ economicG, capG, orderG }: OrderQuantity, { packG, horizonWeeks }: ReorderRequest): string {
  const cheapest = economicG === Infinity ? 'The cheapest order has no end' : `The cheapest order is ${print(economicG)} g`;
  return `${cheapest}, ${horizonWeeks} weeks of use are ${print(capG)} g: ${orderG} g in packs of ${packG} g.`;
}

/** Sums of typed decimals, without the last bits that binary adds. */
function tidy(grams: number): number {
  return Number(grams.toPrecision(12));
}

function print(value: number): number {
  return Number(value.toPrecision(6));
}
