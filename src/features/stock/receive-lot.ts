import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor, WrittenBy } from '../../platform/http/actor.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { newId, nextNumber, passNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { momentOfReceipt } from './closed-books.ts';
import { toTenthMg } from './grams.ts';
import { doubtsOf, receiptErrors, useByOf } from './lot-receipt.ts';
import type { NewSolderLot } from './solder-lots.schema.ts';
import { insertLot, type LotRow } from './solder-lots.store.ts';
import { findProduct, getProduct } from './solder-products.store.ts';
import { documentBy, keptPricePerG } from './stock-fields.ts';
import { addMovement } from './stock-movements.store.ts';

type Receipt = z.infer<typeof NewSolderLot>;

/** What is wrong with a delivery of solder, or to be asked about. */
export function lotErrors(db: Db, receipt: Receipt, today: string): FieldError[] {
  const product = findProduct(db, receipt.productId);
  if (!product) return [{ pointer: '/productId', detail: 'There is no such solder product.', given: receipt.productId }];
  return receiptErrors(db, receipt, product, today);
}

/** Books a delivery that was found in order: the lot, and its first movement. */
export function receiveLot(
  tx: Db,
  { actor, by }: { actor: Actor; by: WrittenBy },
  {
    receipt,
    orderLineId,
    number,
    heldBackBecause = null,
  }: { receipt: Receipt; orderLineId: string | null; number?: string; heldBackBecause?: string | null },
): LotRow {
  const product = getProduct(tx, receipt.productId);
  const { markOnMetal, receivedOn, document } = receipt;
  const cadmiumStanding = receipt.cadmiumStanding ?? product.cadmiumStanding;
  const doubts = doubtsOf({ form: product.form, markOnMetal, cadmiumStanding });
  const doubt = heldBackBecause ?? (doubts.length > 0 ? doubts.join('; ') : null);
  const tenthMg = toTenthMg(receipt.quantityG);
  const ours = /^L([1-9]\d{0,8})$/.exec(number ?? '')?.[1];
  if (ours !== undefined) passNumber(tx, 'lot', Number(ours));
  const lot = insertLot(tx, {
    id: newId(by.at),
    number: number ?? `L${nextNumber(tx, 'lot')}`,
    productId: product.id,
    receivedOn,
    receivedTenthMg: tenthMg,
    unitCostPerG: keptPricePerG(receipt.unitCost),
    markOnMetal,
    useBy: useByOf(receipt, product.form),
    cadmiumStanding,
    cadmiumDocument: cadmiumStanding === 'no' ? (documentBy(actor, document) ?? product.cadmiumDocument) : null,
    state: doubt === null ? 'sealed' : 'held_back',
    stateReason: doubt,
    orderLineId,
    createdAt: by.at.toISOString(),
  });
  writeJournal(tx, by, { what: 'solder-lot', id: lot.id, after: lot });
  addMovement(tx, by, {
    kind: 'receive',
    productId: product.id,
    lotId: lot.id,
    onHandTenthMg: tenthMg,
    heldTenthMg: 0,
    at: momentOfReceipt(tx, receivedOn, by.at),
  });
  return lot;
}
