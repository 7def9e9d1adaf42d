import { Decimal } from '../decimal.ts';
import { physics } from './inputs.ts';

export interface AddedMetal {
  finding: 'within' | 'over' | 'no_rule';
  addedFraction: number;
  says: string[];
}

/**
 * Whether so much metal may be added to a piece that is marked already, by what the studio entered for the place.
 *
 * Both limits count where both are entered: grams, and share of the piece as it was.
 *
 * @param pieceG what the piece weighs as it is, > 0
 * @param addedG what is to be added, 0 or more
 * @param limits null: not entered
 * @throws {EngineInputError} for weights out of those bounds
 * @source comparison; the limits are the office's
 */
export function addedMetal(
  { pieceG, addedG }: { pieceG: number; addedG: number },
  { addedMetalG, addedMetalFraction }: { addedMetalG: number | null; addedMetalFraction: number | null },
): AddedMetal {
  const share = physics('addedG', addedG, { from: 0 }).div(physics('pieceG', pieceG, { above: 0 }));
  const addedFraction = share.toDecimalPlaces(4, Decimal.ROUND_UP).toNumber();
  if (addedMetalG === null && addedMetalFraction === null)
    return { finding: 'no_rule', addedFraction, says: ['No limit is entered for this place: ask its office before you add any'] };
  const says = [
    ...(addedMetalG !== null && addedG > addedMetalG ? [`${addedG} g is over the ${addedMetalG} g of this place`] : []),
    ...(addedMetalFraction !== null && share.greaterThan(addedMetalFraction)
      ? [`${addedG} g is ${addedFraction} of the piece, over the ${addedMetalFraction} of this place`]
      : []),
  ];
  return says.length === 0
    ? { finding: 'within', addedFraction, says: [] }
    : { finding: 'over', addedFraction, says: [...says, 'ask the office before the work, it may have to be marked again'] };
}
