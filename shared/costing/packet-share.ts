import { Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import type { PacketCost } from './estimate-request.ts';
import { price } from './inputs.ts';

/**
 * What one article bears of a packet that goes to be assayed and marked: (fee + post)/articles + per article + part marks.
 *
 * @param packet amounts as decimals of the currency, 0 or more; articles a whole number from 1, all that are in the packet
 * @returns exact; rounded where it is written down
 * @throws {EngineInputError} for an amount that is no decimal, or no articles
 * @source division of shared costs by articles, as studios do
 */
export function packetShare({ fee, post, articles, perArticle = '0', partMarks = '0' }: PacketCost): Decimal {
  if (!(Number.isSafeInteger(articles) && articles >= 1))
    throw new EngineInputError('packet.articles', articles, 'a whole number from 1');
  return new Decimal(price('packet.fee', fee))
    .plus(price('packet.post', post))
    .div(articles)
    .plus(price('packet.perArticle', perArticle))
    .plus(price('packet.partMarks', partMarks));
}
