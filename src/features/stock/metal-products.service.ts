import type { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { pricePerG } from '../../../shared/costing/inputs.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { listMetals } from '../../../shared/materials/metal.ts';
import { lengthOfMassMm, massOfLengthG } from '../../../shared/stock/metal-length.ts';
import { checkFence } from '../../../shared/limits/check-fence.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { fenceError } from '../../platform/http/fences.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { toG, toTenthMg } from './grams.ts';
import type { Measure, MetalProductChange, MetalProductQuery, NewMetalProduct } from './metal-products.schema.ts';
import * as store from './metal-products.store.ts';
import { seesPrices } from './stock-fields.ts';

export type MetalProductService = ReturnType<typeof createMetalProductService>;

export function createMetalProductService({ db, clock }: Platform) {
  return {
    add(actor: Actor, product: z.infer<typeof NewMetalProduct>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const metal = metalOf(tx, product.metal);
        const errors: FieldError[] = [
          ...(metal
            ? []
            : [{ pointer: '/metal', detail: 'There is no such metal; GET /metals has those there are.', given: product.metal }]),
          ...(metal ? priceErrors(tx, product.price, metal.finenessFraction) : []),
          ...boreErrors(product.form),
        ];
        holdFields(errors, actor.confirmed);
        holdNameFree(tx, product.name);
        const row = store.insertMetalProduct(tx, { ...product, ...metal!, id: newId(by.at), createdAt: by.at.toISOString() });
        writeJournal(tx, by, { what: 'metal-product', id: row.id, after: row });
        return show(actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(actor, store.getMetalProduct(db, id)),

    stored: (id: string) => store.getMetalProduct(db, id),

    list(actor: Actor, { active, ...query }: z.infer<typeof MetalProductQuery>) {
      const rows = store.listMetalProducts(db, { ...query, active: active === undefined ? undefined : active === 'true' });
      return pageOf(rows, query, (row) => show(actor, row));
    },

    change(actor: Actor, id: string, seen: number, change: z.infer<typeof MetalProductChange>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getMetalProduct(tx, id);
        holdToVersion('metal product', before.version, seen);
        const { price, name } = change;
        const isNewPrice = price !== undefined && (price.amount !== before.price.amount || price.per !== before.price.per);
        if (isNewPrice) holdFields(priceErrors(tx, price, before.finenessFraction), actor.confirmed);
        if (name !== undefined && name !== before.name) holdNameFree(tx, name);
        const after = store.updateMetalProduct(tx, id, { ...membersSent(change), version: before.version + 1 });
        writeJournal(tx, by, { what: 'metal-product', id, before, after });
        return show(actor, after);
      });
    },

    /** Measured in place of weighed, and the other way about. */
    measure(id: string, { lengthMm, massG, widthMm }: z.infer<typeof Measure>) {
      const bought = byLength(store.getMetalProduct(db, id), widthMm);
      return lengthMm === undefined
        ? { massG: massG!, lengthMm: lengthOfMassMm(bought, massG!) }
        : { lengthMm, massG: toG(toTenthMg(massOfLengthG(bought, lengthMm))) };
    },
  };
}

/** What a length of it weighs, in the units of the ledger. */
export function tenthMgOfLength(product: store.MetalProductRow, lengthMm: number, widthMm: number | undefined): number {
  return toTenthMg(massOfLengthG(byLength(product, widthMm), lengthMm));
}

/** @throws {Problem} invalid-fields for grain, and for sheet without its width */
function byLength({ name, form, densityGPerCm3 }: store.MetalProductRow, widthMm: number | undefined) {
  if (form.kind === 'grain') throw new Problem('invalid-fields', `Cannot measure ${name}: grain has no length; weigh it`);
  if (form.kind === 'sheet' && widthMm === undefined)
    throw new Problem('invalid-fields', `Cannot measure ${name}: say how wide the piece of sheet is (widthMm)`);
  return { form, densityGPerCm3, widthMm };
}

function metalOf(db: Db, id: string): { densityGPerCm3: number; finenessFraction: number } | undefined {
  const { densityGPerCm3, finenessFraction } = listMetals().find((metal) => metal.id === id) ?? store.findOwnMetal(db, id) ?? {};
  return densityGPerCm3 === undefined ? undefined : { densityGPerCm3, finenessFraction: finenessFraction ?? 0 };
}

/** Half its fine value, or five times it, is asked about; without a price of fine metal there is nothing to hold it against. */
function priceErrors(db: Db, price: { amount: string; per: 'g' | 'dwt' | 'ozt' }, finenessFraction: number): FieldError[] {
  const { currency, finePrice } = getSettings(db);
  const perG = pricePerG('price', price);
  const fixed = fenceError(
    '/price/amount',
    checkFence('metal_product', 'priceMinorPerG', perG.times(10 ** minorDigits(currency)).toNumber()),
    price.amount,
  );
  const fineValue = new Decimal(finePrice?.perG ?? 0).times(finenessFraction);
  const isUsual = fineValue.isZero() || (perG.gte(fineValue.times(0.5)) && perG.lte(fineValue.times(5)));
  if (fixed.length > 0 || isUsual) return fixed;
  return [
    {
      pointer: '/price/amount',
      detail: `${price.amount} ${currency} per ${price.per} is ${perG.toDecimalPlaces(6).toFixed()} a gram; the fine metal in it is worth ${fineValue.toDecimalPlaces(4).toFixed()}. Is the unit right?`,
      given: price.amount,
      unit: `${currency}/${price.per}`,
      confirmable: true,
    },
  ];
}

function boreErrors(form: store.MetalProductRow['form']): FieldError[] {
  if (form.kind !== 'tube' || form.insideDiameterMm < form.outsideDiameterMm) return [];
  return [
    {
      pointer: '/form/insideDiameterMm',
      detail: `The bore is as wide as the tube, ${form.outsideDiameterMm} mm.`,
      given: form.insideDiameterMm,
    },
  ];
}

function holdNameFree(db: Db, name: string): void {
  if (store.findMetalProductByName(db, name)) throw new Problem('already-used', `There is a metal product ${name} already`);
}

function show(actor: Actor, { price, ...row }: store.MetalProductRow) {
  const { form, densityGPerCm3 } = row;
  return {
    ...row,
    gPer100Mm:
      form.kind === 'grain' || form.kind === 'sheet' ? null : toG(toTenthMg(massOfLengthG({ form, densityGPerCm3 }, 100))),
    ...(seesPrices(actor) ? { price } : {}),
  };
}
