import type { z } from 'zod';
import { pricePerG } from '../../../shared/costing/inputs.ts';
import { checkFence } from '../../../shared/limits/check-fence.ts';
import type { Db } from '../../platform/db/client.ts';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { fenceError } from '../../platform/http/fences.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import type { UnitPrice } from './stock-fields.ts';

/** A price of solder against the fence of what a gram may cost. */
export function unitPriceErrors(db: Db, pointer: string, price: z.infer<typeof UnitPrice>): FieldError[] {
  const minorPerG = pricePerG('price', price)
    .times(10 ** minorDigits(getSettings(db).currency))
    .toNumber();
  return fenceError(pointer, checkFence('lot', 'unitCostMinorPerG', minorPerG), price.amount);
}

export function arrivalErrors(receivedOn: string, today: string): FieldError[] {
  if (receivedOn <= today) return [];
  const detail = `A lot cannot arrive on ${receivedOn}: that has not come yet.`;
  return [{ pointer: '/receivedOn', detail, given: receivedOn }];
}

export function lateDate(pointer: string, date: string | undefined, today: string): FieldError[] {
  if (date === undefined || date <= today) return [];
  return [{ pointer, detail: `${date} has not come yet.`, given: date }];
}
