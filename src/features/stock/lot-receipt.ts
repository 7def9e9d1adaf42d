import type { z } from 'zod';
import { Decimal } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import { arrivalErrors, lateDate, unitPriceErrors } from './field-errors.ts';
import type { NewSolderLot } from './solder-lots.schema.ts';
import { unitCostsInOrder, type LotRow } from './solder-lots.store.ts';
import type { SolderProductRow } from './solder-products.store.ts';
import { keptPricePerG } from './stock-fields.ts';

type Receipt = z.infer<typeof NewSolderLot>;

const PASTE_MONTHS = 12;
const ASK_USE_BY_MONTHS = 24;

/** What is wrong with a delivery as it was written down, or to be asked about. */
export function receiptErrors(db: Db, receipt: Receipt, product: SolderProductRow, today: string): FieldError[] {
  const { receivedOn, useBy, cadmiumStanding, document } = receipt;
  return [
    ...arrivalErrors(receivedOn, today),
    ...lateDate('/document/datedOn', document?.datedOn, today),
    ...useByErrors(receivedOn, useBy),
    ...costErrors(db, receipt, product),
    ...(cadmiumStanding === 'no' && product.cadmiumStanding !== 'no' && !document
      ? [
          {
            pointer: '/document',
            detail: `${product.name} is noted as cadmium ${product.cadmiumStanding}: to say no of this lot, add the document that says so.`,
          },
        ]
      : []),
  ];
}

/** Why a lot may not be used as it comes in; empty: it may. */
export function doubtsOf({
  form,
  markOnMetal,
  cadmiumStanding,
}: {
  form: SolderProductRow['form'];
  markOnMetal: string | null;
  cadmiumStanding: LotRow['cadmiumStanding'];
}): string[] {
  return [
    ...(needsMark(form) && markOnMetal === null ? ['no mark on the metal'] : []),
    ...(cadmiumStanding === 'no' ? [] : [cadmiumStanding === 'yes' ? 'cadmium is in it' : 'cadmium unknown']),
  ];
}

export function needsMark(form: SolderProductRow['form']): boolean {
  return form === 'sheet' || form === 'wire';
}

/** Paste dries out: without a day on the packet it is given 12 months. */
export function useByOf({ useBy, receivedOn }: Receipt, form: SolderProductRow['form']): string | null {
  return useBy ?? (form === 'paste' ? monthsLater(receivedOn, PASTE_MONTHS) : null);
}

/** The same day of a later month, or its last day if it has no such day. */
export function monthsLater(date: string, months: number): string {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const last = new Date(Date.UTC(year, month + months, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(day, last))).toISOString().slice(0, 10);
}

function useByErrors(receivedOn: string, useBy: string | null): FieldError[] {
  if (useBy === null) return [];
  if (useBy < receivedOn)
    return [{ pointer: '/useBy', detail: `To be used by ${useBy}, before it came in on ${receivedOn}.`, given: useBy }];
  if (useBy <= monthsLater(receivedOn, ASK_USE_BY_MONTHS)) return [];
  return [{ pointer: '/useBy', detail: `Use-by ${useBy} is more than 24 months away.`, given: useBy, confirmable: true }];
}

/** Far from what the product usually costs: asked about, once there is a usual. */
function costErrors(db: Db, { unitCost }: Receipt, product: SolderProductRow): FieldError[] {
  const pointer = '/unitCost/amount';
  const fixed = unitPriceErrors(db, pointer, unitCost);
  const usual = median(unitCostsInOrder(db, product.id));
  if (fixed.length > 0 || !usual) return fixed;
  const perG = new Decimal(keptPricePerG(unitCost));
  const isUsual = (cost: Decimal) => cost.gte(usual.times(0.5)) && cost.lte(usual.times(1.5));
  if (isUsual(perG)) return [];
  const { currency } = getSettings(db);
  const meant = meantPer(unitCost, isUsual);
  return [
    {
      pointer,
      detail: [
        `${perG.toFixed()} ${currency} a gram is far from the ${usual.toDecimalPlaces(6).toFixed()} that ${product.name} usually costs.`,
        ...(meant ? [`${unitCost.amount} ${currency} per ${meant.per} is ${meant.perG} a gram: was that meant?`] : []),
      ].join(' '),
      given: unitCost.amount,
      unit: `${currency}/${unitCost.per}`,
      ...(meant ? { perhaps: { amount: unitCost.amount, per: meant.per } } : {}),
      confirmable: true,
    },
  ];
}

/** The unit in which the same amount would be a usual cost. */
function meantPer({ amount, per }: Receipt['unitCost'], isUsual: (perG: Decimal) => boolean) {
  return (['g', 'dwt', 'ozt'] as const)
    .filter((other) => other !== per)
    .map((other) => ({ per: other, perG: keptPricePerG({ amount, per: other }) }))
    .find(({ perG }) => isUsual(new Decimal(perG)));
}

/** @param sorted the least first */
function median(sorted: readonly string[]): Decimal | undefined {
  const middle = sorted.length / 2;
  const upper = sorted[Math.floor(middle)];
  if (upper === undefined) return undefined;
  const lower = Number.isInteger(middle) ? sorted[middle - 1]! : upper;
  return new Decimal(lower).plus(upper).div(2);
}
