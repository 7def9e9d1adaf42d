import { Decimal, sum } from '../decimal.ts';
import type { PassThrough } from './estimate-request.ts';
import { price } from './inputs.ts';
import { packetShare } from './packet-share.ts';

/**
 * What is bought for the client and passed on costs together, without its handling.
 *
 * @returns exact, in the currency of the items
 * @throws {EngineInputError} for a cost that is no decimal, or a packet that packetShare() refuses
 * @source sum of what was typed
 */
export function passThroughCost(items: readonly PassThrough[]): Decimal {
  return sum(items.map((item) => new Decimal(item.packet ? packetShare(item.packet) : price(`${item.id}.cost`, item.cost))));
}
