import type { EstimateRequest, PassThrough } from '../../../shared/costing/estimate-request.ts';
import { passThroughCost } from '../../../shared/costing/pass-through-cost.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { toMinor } from '../../platform/http/money.ts';

/**
 * Stones, findings and the like count as quoted, since what they really cost is not kept; so does a hallmark.
 *
 * @param marked a packet was paid for, so that its share is among what was really spent
 */
export function boughtInMinor({ passThrough = [], currency }: EstimateRequest, marked: boolean): number {
  return toMinor(passThroughCost(passThrough.filter(notMarked(marked))), currency);
}

/** What the client is charged for the same, each with its own handling. */
export function boughtInPriceMinor({ passThrough = [], currency }: EstimateRequest, marked: boolean): number {
  return passThrough
    .filter(notMarked(marked))
    .reduce((sum, item) => sum + toMinor(passThroughCost([item]).times(new Decimal(1).plus(item.handlingFraction)), currency), 0);
}

const notMarked =
  (marked: boolean) =>
  ({ kind }: PassThrough): boolean =>
    !(marked && kind === 'hallmark');
