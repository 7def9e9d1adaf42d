import type { Decimal } from '../decimal.ts';
import type { EstimatePolicy } from './estimate-request.ts';
import { fraction, physics } from './inputs.ts';

export type ScrapCredit = NonNullable<EstimatePolicy['scrapCredit']>;

/**
 * What is caught of offcuts and filings, and paid for them, where the studio has not said.
 *
 * @source common practice, no published source
 */
export const USUAL_SCRAP: ScrapCredit = {
  offcutKeptFraction: 0.98,
  offcutPayFraction: 0.9,
  filingsKeptFraction: 0.85,
  filingsPayFraction: 0.75,
};

/**
 * The share of its net mass that comes back of a metal as offcuts and filings: o · kept_o + f · kept_f; what is lost in polishing and
 * sweeping never does.
 *
 * @param kept shares caught, 0 to 1
 * @throws {EngineInputError} for a share out of its bounds
 * @source conservation of mass
 */
export function keptShare(waste: EstimatePolicy['waste'], kept: ScrapCredit): Decimal {
  return share(waste, kept, { offcutPayFraction: 1, filingsPayFraction: 1 });
}

/**
 * The share of its net mass that a metal is paid for as scrap: o · kept_o · pay_o + f · kept_f · pay_f, of fine metal at its fineness.
 *
 * @throws {EngineInputError} as keptShare()
 * @source terms of refiners: so much of the fine metal is paid
 */
export function paidShare(waste: EstimatePolicy['waste'], credit: ScrapCredit): Decimal {
  return share(waste, credit, credit);
}

function share(
  { offcutFraction, filingsFraction }: EstimatePolicy['waste'],
  { offcutKeptFraction, filingsKeptFraction }: ScrapCredit,
  { offcutPayFraction, filingsPayFraction }: Pick<ScrapCredit, 'offcutPayFraction' | 'filingsPayFraction'>,
): Decimal {
  const offcut = physics('waste.offcutFraction', offcutFraction, { from: 0 })
    .times(fraction('scrapCredit.offcutKeptFraction', offcutKeptFraction))
    .times(fraction('scrapCredit.offcutPayFraction', offcutPayFraction));
  const filings = physics('waste.filingsFraction', filingsFraction, { from: 0 })
    .times(fraction('scrapCredit.filingsKeptFraction', filingsKeptFraction))
    .times(fraction('scrapCredit.filingsPayFraction', filingsPayFraction));
  return offcut.plus(filings);
}
