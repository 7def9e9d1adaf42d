import type { FieldError } from '../../platform/http/problem.ts';
import { inGrams, toG } from './grams.ts';

/** How much more than came in a lot may seem to hold before it is asked about. */
const SURPLUS_TENTH_MG = 500;

/** A lot that seems to hold more than came in is asked about. */
export function moreThanCameIn(
  pointer: string,
  { number, receivedTenthMg }: { number: string; receivedTenthMg: number },
  tenthMg: number,
): FieldError[] {
  if (tenthMg <= receivedTenthMg + SURPLUS_TENTH_MG) return [];
  return [
    {
      pointer,
      detail: `Lot ${number} would hold ${inGrams(tenthMg)}, and ${inGrams(receivedTenthMg)} came in. Is the unit right?`,
      given: toG(tenthMg),
      unit: 'g',
      confirmable: true,
    },
  ];
}
