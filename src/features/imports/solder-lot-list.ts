import type { z } from 'zod';
import {
  BroughtLot,
  findLotByNumber,
  findProductByCode,
  getProduct,
  lotsThatHold,
  toG,
  type SolderLotService,
} from '../stock/index.ts';
import { number, text, unitPrice, wordOf, type ListKind } from './list-kind.ts';

export function solderLotList(lots: SolderLotService): ListKind {
  return {
    name: 'solder-lots',
    key: 'its number',
    schema: BroughtLot,
    columns: (currency) => [
      text('lot', '/number', 'Its number, as it is written on it.', true),
      text('product', '/productId', 'The code of its solder.', true),
      text('received_on', '/receivedOn', 'Such as 2031-06-14.', true),
      number('quantity_g', '/quantityG', 'What it holds now.', true),
      unitPrice('unit_cost', '/unitCost', { currency, says: 'What a gram of it cost.' }),
      text('mark', '/markOnMetal', 'Stamp, notch or dye on the metal itself; sheet and wire without one are held back.'),
      text('use_by', '/useBy', 'Such as 2032-06-14; paste without one is given 12 months.'),
      text('cadmium', '/cadmiumStanding', 'no, yes or unknown; that of its product where it says nothing.'),
      text('held_back_because', '/heldBackBecause', 'Why no heat may draw from it; empty where nothing is in doubt.'),
      text('document_kind', '/document/kind', 'supplier_sheet or laboratory_analysis: what says that there is no cadmium in it.'),
      text('document_reference', '/document/reference', 'Where that paper is kept, or its number.'),
      text('document_dated_on', '/document/datedOn', 'Such as 2031-06-14.'),
    ],
    complete(db, body) {
      const code = wordOf(body, 'productId');
      if (code === '') return { body, errors: [] };
      const { productId: _code, ...rest } = body;
      const product = findProductByCode(db, code);
      if (product) return { body: { ...rest, productId: product.id }, errors: [] };
      const detail = 'There is no solder product of this code: bring in the products first.';
      return { body: rest, errors: [{ pointer: '/productId', detail, given: code }] };
    },
    keyOf: (body) => wordOf(body, 'number'),
    isThere: (db, body) => findLotByNumber(db, wordOf(body, 'number')) !== undefined,
    make: (actor, lot: z.infer<typeof BroughtLot>) => lots.bringIn(actor, lot),
    written: (db, currency) =>
      lotsThatHold(db).map(({ lot, onHandTenthMg }) => ({
        lot: lot.number,
        product: getProduct(db, lot.productId).code,
        received_on: lot.receivedOn,
        quantity_g: toG(onHandTenthMg),
        [`unit_cost_${currency}_per_g`]: lot.unitCostPerG,
        mark: lot.markOnMetal,
        use_by: lot.useBy,
        cadmium: lot.cadmiumStanding,
        held_back_because: lot.state === 'held_back' ? (lot.stateReason ?? 'in doubt') : null,
        document_kind: lot.cadmiumDocument?.kind ?? null,
        document_reference: lot.cadmiumDocument?.reference ?? null,
        document_dated_on: lot.cadmiumDocument?.datedOn ?? null,
      })),
  };
}
