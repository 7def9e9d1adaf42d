import type { z } from 'zod';
import { pricePerG } from '../../../shared/costing/inputs.ts';
import { checkFence, type FenceOutcome } from '../../../shared/limits/check-fence.ts';
import type { Db } from '../../platform/db/client.ts';
import { minorDigits } from '../../../shared/costing/currency.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import type { UnitPrice } from './stock-fields.ts';

/** What a fence that a service checked says, as the errors of a request have it. */
export function fenceError(pointer: string, found: FenceOutcome, given: unknown): FieldError[] {
  if (found.outcome === 'ok') return [];
  return [
    {
      pointer,
      detail: found.says,
      given,
      ...(found.unit === undefined ? {} : { unit: found.unit }),
      ...(found.perhaps === undefined ? {} : { perhaps: found.perhaps }),
      ...(found.outcome === 'ask' ? { confirmable: true } : {}),
    },
  ];
}

/** A price of solder against the fence of what a gram may cost. */
export function unitPriceErrors(db: Db, pointer: string, price: z.infer<typeof UnitPrice>): FieldError[] {
  const minorPerG = pricePerG('price', price)
    .times(10 ** minorDigits(getSettings(db).currency))
    .toNumber();
  return fenceError(pointer, checkFence('lot', 'unitCostMinorPerG', minorPerG), price.amount);
}

export function lateDate(pointer: string, date: string | undefined, today: string): FieldError[] {
  if (date === undefined || date <= today) return [];
  return [{ pointer, detail: `${date} has not come yet.`, given: date }];
}
