import { countDifference } from '../../../shared/stock/count-difference.ts';
import { toG } from './grams.ts';
import type { CountedLot } from './stocktakes.store.ts';

/** How a count stands against the book; undefined for a lot that was not counted. */
export function comparisonOf({ count, bookTenthMg }: CountedLot) {
  const { countedTenthMg, usedTenthMg } = count;
  if (countedTenthMg === null || bookTenthMg === null || usedTenthMg === null) return undefined;
  return {
    bookG: toG(bookTenthMg),
    usedG: toG(usedTenthMg),
    ...countDifference({ bookG: toG(bookTenthMg), countedG: toG(countedTenthMg), usedG: toG(usedTenthMg) }),
  };
}
