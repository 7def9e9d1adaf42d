/**
 * Order rules over three years of use that comes in lumps, after a first year that all of them know: ours, a fixed point, and the
 * textbook's point for a demand that is normal. Counted: pieces that the drawer could not finish when their turn came, and grams lying
 * in it. The rules differ in nothing but the point and what they look at; order cost, packs, lead times and quantities are the same.
 */

import { orderQuantity } from '../../../shared/stock/order-quantity.ts';
import { reorderPoint } from '../../../shared/stock/reorder-point.ts';
import { normalOrderPoint } from '../../support/normal-order-point.ts';
import { round } from './measure.ts';
import { SHAPES, seeded, workOf, type Work } from './stock-use.ts';

const SEEDS = 60;
const KNOWN_WEEKS = 52;
const WEEKS = KNOWN_WEEKS + 3 * 52;
const LEAD_WEEKS = 2;
const REVIEW_WEEKS = 1;
/** In the drawer when the three years begin. */
const FIRST_G = 10;
/** Cheap metal is bought for a year, so its point is seldom met; dear metal is bought in small lots, and the point is met often. */
const TERMS = {
  silver: { packG: 5, priceMinorPerG: 185, orderCostMinor: 1400, holdingFraction: 0.2, horizonWeeks: 52 },
  gold: { packG: 1, priceMinorPerG: 4500, orderCostMinor: 1400, holdingFraction: 0.2, horizonWeeks: 52 },
} as const;

type Terms = (typeof TERMS)[keyof typeof TERMS];

/** What a rule sees on a Monday. */
interface Seen {
  weeklyUseG: number[];
  largestPieceG: number;
  onHandG: number;
  onOrderG: number;
  heldG: number;
}

type Rule = (seen: Seen) => number;
type MakeRule = (terms: Terms) => Rule;

/** Ours, with what is held for accepted work, or blind to it. */
const ours =
  (looksAtHeld: boolean): MakeRule =>
  (terms) =>
  (seen) => {
    const heldG = looksAtHeld ? seen.heldG : 0;
    const { orderNow, orderG } = reorderPoint({ ...terms, ...seen, heldG, leadWeeks: LEAD_WEEKS, reviewWeeks: REVIEW_WEEKS });
    return orderNow ? orderG : 0;
  };

/** Mean and deviation of the weeks on record, as if they were normal: Heizer & Render, inventory chapter. */
const normal =
  (looksAtHeld: boolean): MakeRule =>
  (terms) =>
  ({ weeklyUseG, onHandG, onOrderG, heldG }) => {
    const mean = meanOf(weeklyUseG);
    const deviation = Math.sqrt(meanOf(weeklyUseG.map((useG) => (useG - mean) ** 2)));
    const weeks = LEAD_WEEKS + REVIEW_WEEKS;
    const point = normalOrderPoint({ mean: mean * weeks, deviation: deviation * Math.sqrt(weeks) });
    return onHandG + onOrderG - (looksAtHeld ? heldG : 0) <= point ? orderQuantity({ ...terms, rateGPerWeek: mean }).orderG : 0;
  };

/** Set once by the first year, its use of a lead time and a pack, and never looked at again. */
const fixed: MakeRule = (terms) => {
  let set: { point: number; orderG: number } | undefined;
  return ({ weeklyUseG, onHandG, onOrderG }) => {
    const mean = meanOf(weeklyUseG);
    set ??= {
      point: mean * (LEAD_WEEKS + REVIEW_WEEKS) + terms.packG,
      orderG: orderQuantity({ ...terms, rateGPerWeek: mean }).orderG,
    };
    return onHandG + onOrderG <= set.point ? set.orderG : 0;
  };
};

const RULES: Readonly<Record<string, MakeRule>> = {
  'ours, with what is held': ours(true),
  'ours, blind to it': ours(false),
  'normal demand, with what is held': normal(true),
  'normal demand, blind to it': normal(false),
  'fixed point': fixed,
};

interface Outcome {
  pieces: number;
  stoppedPieces: number;
  meanOnHandG: number;
  orders: number;
}

function live(work: readonly Work[], rule: Rule, random: () => number): Outcome {
  let onHandG = FIRST_G;
  let onTheWay: { inWeek: number; grams: number }[] = [];
  let waiting: Work[] = [];
  let [pieces, stoppedPieces, orders, gramWeeks] = [0, 0, 0, 0];
  const usedG = Array.from({ length: WEEKS }, () => 0);
  for (let week = 0; week < WEEKS; week++) {
    const isKnown = week < KNOWN_WEEKS;
    for (const { grams } of onTheWay.filter(({ inWeek }) => inWeek <= week)) onHandG += grams;
    onTheWay = onTheWay.filter(({ inWeek }) => inWeek > week);
    const due = work.filter((piece) => piece.week === week);
    if (isKnown) {
      for (const { grams } of due) usedG[week]! += grams;
      continue;
    }
    pieces += due.length;
    const stillWaiting: Work[] = [];
    for (const piece of [...waiting, ...due]) {
      if (piece.grams <= onHandG) {
        onHandG -= piece.grams;
        usedG[week]! += piece.grams;
      } else {
        if (piece.week === week) stoppedPieces += 1;
        stillWaiting.push(piece);
      }
    }
    waiting = stillWaiting;
    gramWeeks += onHandG;
    const held = [...waiting, ...work.filter((piece) => piece.acceptedInWeek <= week && piece.week > week)];
    const since = Math.max(0, week - 51);
    const grams = rule({
      weeklyUseG: usedG.slice(since, week + 1),
      largestPieceG: Math.max(
        0,
        ...[...held, ...work.filter((one) => one.week >= since && one.week <= week)].map((one) => one.grams),
      ),
      onHandG,
      onOrderG: onTheWay.reduce((sum, one) => sum + one.grams, 0),
      heldG: held.reduce((sum, one) => sum + one.grams, 0),
    });
    // A supplier that says two weeks takes three one time in five.
    if (grams > 0) onTheWay.push({ inWeek: week + LEAD_WEEKS + (random() < 0.2 ? 1 : 0), grams });
    if (grams > 0) orders += 1;
  }
  return { pieces, stoppedPieces, meanOnHandG: gramWeeks / (WEEKS - KNOWN_WEEKS), orders };
}

interface Measured {
  rule: string;
  stoppedAYear: number;
  grams: number;
}

export function run(): void {
  for (const [metal, terms] of Object.entries(TERMS)) {
    console.log(`\nsolder as ${metal} is bought: packs of ${terms.packG} g at ${terms.priceMinorPerG / 100} a gram`);
    for (const shape of SHAPES) {
      const measured = Object.entries(RULES).map(([rule, make]): Measured & Record<string, unknown> => {
        const outcomes = Array.from({ length: SEEDS }, (_, seed) =>
          live(workOf(shape, { seed: 1000 + seed, weeks: WEEKS }), make(terms), seeded(seed)),
        );
        const mean = (pick: (one: Outcome) => number) => meanOf(outcomes.map(pick));
        const stopped = mean(({ stoppedPieces }) => stoppedPieces);
        return {
          rule,
          stoppedAYear: round(stopped / 3),
          ofAHundred: round(
            (100 * stopped) /
              Math.max(
                1,
                mean(({ pieces }) => pieces),
              ),
          ),
          grams: round(mean(({ meanOnHandG }) => meanOnHandG)),
          ordersAYear: round(mean(({ orders }) => orders) / 3),
        };
      });
      console.log(`\n${shape.what}`);
      console.table(measured);
      console.log(verdict(measured));
    }
  }
}

/** Where another rule stops no more pieces with less in the drawer, ours has lost. */
function verdict([own, ...others]: Measured[]): string {
  const better = others.filter(({ stoppedAYear, grams }) => stoppedAYear <= own!.stoppedAYear && grams < own!.grams);
  if (better.length === 0) return 'No other rule stops as few pieces with less in the drawer.';
  return `OURS LOSES to ${better.map(({ rule, grams }) => `${rule} (${round(own!.grams - grams)} g less)`).join(', ')}.`;
}

function meanOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
