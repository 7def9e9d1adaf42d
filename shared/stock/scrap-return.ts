import { fraction, physics, price } from '../costing/inputs.ts';
import { Decimal } from '../decimal.ts';

/** A jar that was melted, assayed and paid for. Money is decimal text of one currency. */
export interface ScrapTerms {
  jarG: number;
  meltLossFraction: number;
  assayFraction: number;
  payFraction: number;
  finePricePerG: string;
  feeFixed: string;
  feePerG: string;
}

export interface ScrapReturn {
  barG: number;
  fineG: number;
  /** To six places. */
  paid: string;
  fees: string;
  /** What comes of it: paid − fees, each rounded to the currency's places first; below 0, it cost money. */
  credit: string;
}

/**
 * What a jar of scrap brings.
 *
 * bar = jar · (1 − melt loss); fine = bar · assay; paid = fine · pay · price; fees = fixed + a gram · jar; credit = paid − fees.
 *
 * @param digits decimal places of the currency
 * @throws {EngineInputError} for a weight, price or fee below 0, or a fraction outside 0–1
 * @source how refiners settle, by their published terms; arithmetic
 */
export function scrapReturn(terms: ScrapTerms, digits: number): ScrapReturn {
  const jarG = physics('jarG', terms.jarG, { from: 0 });
  const barG = jarG.times(new Decimal(1).minus(fraction('meltLossFraction', terms.meltLossFraction)));
  const fineG = barG.times(fraction('assayFraction', terms.assayFraction));
  const paid = fineG.times(fraction('payFraction', terms.payFraction)).times(price('finePricePerG', terms.finePricePerG));
  const fees = price('feeFixed', terms.feeFixed).plus(price('feePerG', terms.feePerG).times(jarG));
  const shown = (amount: Decimal): Decimal => amount.toDecimalPlaces(digits, Decimal.ROUND_HALF_UP);
  return {
    barG: barG.toNumber(),
    fineG: fineG.toNumber(),
    paid: shown(paid).toFixed(digits),
    fees: shown(fees).toFixed(digits),
    credit: shown(paid).minus(shown(fees)).toFixed(digits),
  };
}

/**
 * Whether a jar is worth sending: what it would bring should be five times what sending it costs.
 *
 * @param jar fine grams expected in it, the share a refiner pays, the price of fine metal and the fees of one return
 * @throws {EngineInputError} as scrapReturn()
 * @source common practice: a small jar is eaten by its fee
 */
export function jarIsWorthSending(jar: { fineG: number; payFraction: number; finePricePerG: string; fees: string }): {
  worth: string;
  timesFees: number | null;
  send: boolean;
} {
  const worth = physics('fineG', jar.fineG, { from: 0 })
    .times(fraction('payFraction', jar.payFraction))
    .times(price('finePricePerG', jar.finePricePerG));
  const fees = price('fees', jar.fees);
  return {
    worth: worth.toFixed(6),
    timesFees: fees.isZero() ? null : worth.div(fees).toNumber(),
    send: worth.gte(fees.times(ENOUGH_FEES)),
  };
}

const ENOUGH_FEES = 5;
