import { Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import type { UnitPrice } from './estimate-request.ts';

const GRAMS_PER: Readonly<Record<UnitPrice['per'], string>> = { g: '1', dwt: '1.55517384', ozt: '31.1034768' };

/** A number as the decimal it prints as, within bounds (inclusive; above: exclusive). */
export function physics(quantity: string, given: number, { from = -Infinity, to = Infinity, above = -Infinity } = {}): Decimal {
  if (!(Number.isFinite(given) && given >= from && given <= to && given > above)) {
    const low = above > -Infinity ? `above ${above}` : `at least ${from}`;
    throw new EngineInputError(quantity, given, to < Infinity ? `${low}, at most ${to}` : low);
  }
  return new Decimal(given);
}

export function fraction(quantity: string, given: number): Decimal {
  return physics(quantity, given, { from: 0, to: 1 });
}

/** Money typed as a decimal string, 0 or more. */
export function price(quantity: string, given: string): Decimal {
  if (!/^\d+(\.\d+)?$/.test(given)) throw new EngineInputError(quantity, given, 'a decimal such as "1.42", 0 or more');
  return new Decimal(given);
}

/** A price for a gram, whatever weight it was typed for. */
export function pricePerG(quantity: string, { amount, per }: UnitPrice): Decimal {
  return price(quantity, amount).div(GRAMS_PER[per]);
}

/** Finds the one with an id; of two with one id the first. What it gives throws an error that lists what there is. */
export function finder<Item extends { id: string }>(items: readonly Item[]): (id: string, quantity: string) => Item {
  const known = new Map(items.toReversed().map((item) => [item.id, item]));
  return (id, quantity) => {
    const found = known.get(id);
    if (!found) throw new EngineInputError(quantity, id, `one of ${items.map((item) => item.id).join(', ')}`);
    return found;
  };
}
