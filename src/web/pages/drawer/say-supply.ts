import { showQuantity, type ShownUnits } from '../../units/shown-units.ts';
import type { Words } from '../../words/words.ts';

/** How much of a supply, by weight or by the piece. */
export function saySupply(words: Words, units: ShownUnits, unit: 'g' | 'piece', quantity: number): string {
  return unit === 'g'
    ? showQuantity(words, units, 'mass', quantity)
    : words.say('orders.pieces', { count: quantity, shown: words.number(quantity) });
}
