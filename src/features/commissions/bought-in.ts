import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { passThroughCost } from '../../../shared/costing/pass-through-cost.ts';
import { toMinor } from '../../platform/http/money.ts';

/**
 * Stones, findings and the like count as quoted, since what they really cost is not kept; so does a hallmark.
 *
 * @param marked a packet was paid for, so that its share is among what was really spent
 */
export function boughtInMinor({ passThrough = [], currency }: EstimateRequest, marked: boolean): number {
  return toMinor(passThroughCost(passThrough.filter(({ kind }) => !(marked && kind === 'hallmark'))), currency);
}
