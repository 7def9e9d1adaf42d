import { Decimal } from '../decimal.ts';
import type { EstimateRequest } from './estimate-request.ts';
import { price, pricePerG } from './inputs.ts';

/**
 * A request with its metal priced again for another price of fine metal, and nothing else changed.
 *
 * New price a gram = old + (new fine price − old) · fineness: what the maker asks over the metal stays. Never below 0, kept to
 * 6 decimals. What costs nothing, such as a client's own metal, stays free; a price that does not move is left as it was typed.
 *
 * @param finePricePerG what a gram of fine metal costs now, in the currency of the request
 * @throws {EngineInputError} for a price that is no decimal
 * @source the premium of a maker is his work, not the metal's price
 */
export function repriceMetal(request: EstimateRequest, finePricePerG: string): EstimateRequest {
  const moved = price('finePricePerG', finePricePerG).minus(price('policy.finePricePerG', request.policy.finePricePerG));
  return {
    ...request,
    metals: request.metals.map((metal) => {
      const perG = pricePerG(`${metal.id}.price.amount`, metal.price);
      if (perG.isZero() || moved.isZero()) return metal;
      const amount = Decimal.max(perG.plus(moved.times(metal.fineness)), 0).toDecimalPlaces(6, Decimal.ROUND_HALF_UP);
      return { ...metal, price: { amount: amount.toFixed(), per: 'g' as const } };
    }),
    policy: { ...request.policy, finePricePerG },
  };
}
