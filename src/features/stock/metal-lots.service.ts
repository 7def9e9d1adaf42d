import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId, nextNumber, passNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { lengthOfMassMm } from '../../../shared/stock/metal-length.ts';
import { getSettings } from '../settings/index.ts';
import { momentOfReceipt } from './closed-books.ts';
import { arrivalErrors } from './field-errors.ts';
import { toG, toTenthMg } from './grams.ts';
import type { BroughtMetalLot, MetalLotQuery, NewMetalLot } from './metal-lots.schema.ts';
import * as store from './metal-lots.store.ts';
import { tenthMgOfLength } from './metal-products.service.ts';
import { weighMetal } from './metal-weighing.ts';
import { findMetalProduct, getMetalProduct, type MetalProductRow } from './metal-products.store.ts';
import { keptPricePerG, seesPrices, shownPrice, type Weighing } from './stock-fields.ts';

export type MetalLotService = ReturnType<typeof createMetalLotService>;

export interface MetalReceipt {
  product: MetalProductRow;
  receivedOn: string;
  tenthMg: number;
  costPerG: string;
  commissionId: string | null;
  orderLineId: string | null;
  note: string | null;
  /** That it came with; else the next one. */
  number?: string;
}

export function createMetalLotService({ db, clock }: Platform) {
  return {
    /** Books metal that was bought, or that a client left for a commission. */
    receive(actor: Actor, receipt: z.infer<typeof NewMetalLot>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { commissionId, unitCost, productId } = receipt;
        const product = findMetalProduct(tx, productId);
        if (!product)
          throw invalidFields([{ pointer: '/productId', detail: 'There is no such metal product.', given: productId }]);
        holdFields(receiptErrors(tx, receipt, dateInZone(by.at, getSettings(tx).timeZone)), actor.confirmed);
        const lot = receiveMetal(tx, by, {
          product,
          receivedOn: receipt.receivedOn,
          tenthMg: quantityOf(product, receipt),
          costPerG: commissionId === undefined ? keptPricePerG(unitCost ?? product.price) : '0',
          commissionId: commissionId ?? null,
          orderLineId: null,
          note: receipt.note,
        });
        return show(tx, actor, lot);
      });
    },

    /** Brings in metal of our own that was there before the book. */
    bringIn(actor: Actor, { number, ...receipt }: z.infer<typeof BroughtMetalLot>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const product = getMetalProduct(tx, receipt.productId);
        holdFields(receiptErrors(tx, receipt, dateInZone(by.at, getSettings(tx).timeZone)), actor.confirmed);
        if (store.findMetalLotByNumber(tx, number)) throw new Problem('already-used', `There is a lot ${number} already`);
        const ours = /^M([1-9]\d{0,8})$/.exec(number)?.[1];
        if (ours !== undefined) passNumber(tx, 'metal-lot', Number(ours));
        const lot = receiveMetal(tx, by, {
          product,
          number,
          receivedOn: receipt.receivedOn,
          tenthMg: quantityOf(product, receipt),
          costPerG: keptPricePerG(receipt.unitCost ?? product.price),
          commissionId: null,
          orderLineId: null,
          note: receipt.note,
        });
        return show(tx, actor, lot);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, store.getMetalLot(db, id)),

    /** The scale is right and the book follows it. */
    weigh(actor: Actor, id: string, weighing: z.infer<typeof Weighing>) {
      return db.transaction((tx) => {
        const lot = store.getMetalLot(tx, id);
        const weighed = weighMetal(tx, writtenBy(actor, clock.now()), { lot, ...weighing });
        return { ...weighed, lot: show(tx, actor, lot) };
      });
    },

    list: (actor: Actor, query: z.infer<typeof MetalLotQuery>) =>
      pageOf(store.listMetalLots(db, query), query, (row) => show(db, actor, row)),
  };
}

/** Books a delivery of metal that was found in order: the lot, and its first movement. */
export function receiveMetal(tx: Db, by: WrittenBy, { product, tenthMg, costPerG, ...receipt }: MetalReceipt): store.MetalLotRow {
  const lot = store.insertMetalLot(tx, {
    ...receipt,
    id: newId(by.at),
    number: receipt.number ?? `M${nextNumber(tx, 'metal-lot')}`,
    productId: product.id,
    receivedTenthMg: tenthMg,
    unitCostPerG: costPerG,
    createdAt: by.at.toISOString(),
  });
  writeJournal(tx, by, { what: 'metal-lot', id: lot.id, after: lot });
  const at = momentOfReceipt(tx, receipt.receivedOn, by.at);
  store.addMetalMovement(tx, by, { kind: 'receive', lotId: lot.id, onHandTenthMg: tenthMg, at });
  return lot;
}

/**
 * How much is meant: weighed, or measured by its length.
 *
 * @throws {Problem} invalid-fields for none of the two, or both
 */
export function quantityOf(
  product: MetalProductRow,
  {
    quantityG,
    lengthMm,
    widthMm,
  }: { quantityG?: number | undefined; lengthMm?: number | undefined; widthMm?: number | undefined },
): number {
  if ((quantityG === undefined) === (lengthMm === undefined))
    throw invalidFields([
      { pointer: '/quantityG', detail: 'Say how much: quantityG, or lengthMm in its place.', given: quantityG },
    ]);
  const tenthMg = lengthMm === undefined ? toTenthMg(quantityG!) : tenthMgOfLength(product, lengthMm, widthMm);
  if (tenthMg === 0) throw new Problem('invalid-fields', 'Cannot book less than 0.1 mg');
  return tenthMg;
}

function receiptErrors(db: Db, { receivedOn, commissionId, unitCost }: z.infer<typeof NewMetalLot>, today: string): FieldError[] {
  return [
    ...arrivalErrors(receivedOn, today),
    ...(commissionId !== undefined && store.commissionNumber(db, commissionId) === undefined
      ? [{ pointer: '/commissionId', detail: 'There is no such commission.', given: commissionId }]
      : []),
    ...(commissionId !== undefined && unitCost !== undefined
      ? [{ pointer: '/unitCost', detail: 'Metal of a client costs us nothing: leave it out.', given: unitCost.amount }]
      : []),
  ];
}

function show(db: Db, actor: Actor, { unitCostPerG, receivedTenthMg, orderLineId: _orderLineId, ...lot }: store.MetalLotRow) {
  const product = getMetalProduct(db, lot.productId);
  const onHandG = toG(store.metalOnHandOf(db, lot.id));
  return {
    ...lot,
    version: store.metalMovementCount(db, lot.id),
    productName: product.name,
    metal: product.metal,
    owner: lot.commissionId === null ? ('ours' as const) : ('client' as const),
    receivedG: toG(receivedTenthMg),
    onHandG,
    lengthMm: lengthLeft(product, onHandG),
    ...(seesPrices(actor) ? { unitCost: shownPrice(unitCostPerG) } : {}),
  };
}

function lengthLeft({ form, densityGPerCm3 }: MetalProductRow, onHandG: number): number | null {
  if (form.kind === 'grain' || form.kind === 'sheet') return null;
  return onHandG > 0 ? Number(lengthOfMassMm({ form, densityGPerCm3 }, onHandG).toFixed(1)) : 0;
}
