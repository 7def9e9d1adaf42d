import type { ShownUnits } from '../../units/shown-units.ts';
import { showQuantity } from '../../units/shown-units.ts';
import type { Words } from '../../words/words.ts';

/** The two temperatures of a solder, its own and never its grade word's. */
export function sayWindow(words: Words, units: ShownUnits, product: { solidusC: number; liquidusC: number }): string {
  return words.say('drawer.window', {
    solidus: showQuantity(words, units, 'temperature', product.solidusC),
    liquidus: showQuantity(words, units, 'temperature', product.liquidusC),
  });
}
