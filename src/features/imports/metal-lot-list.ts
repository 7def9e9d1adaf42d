import type { z } from 'zod';
import {
  BroughtMetalLot,
  findMetalLotByNumber,
  findMetalProductByName,
  metalLotsThatHold,
  toG,
  type MetalLotService,
} from '../stock/index.ts';
import { number, text, unitPrice, wordOf, type ListKind } from './list-kind.ts';

/** Metal of our own: what clients left belongs to commissions, which are in no list. */
export function metalLotList(lots: MetalLotService): ListKind {
  return {
    name: 'metal-lots',
    key: 'its number',
    schema: BroughtMetalLot,
    columns: (currency) => [
      text('lot', '/number', 'Its number, as it is written on it.', true),
      text('product', '/productId', 'The metal product, by its name.', true),
      text('received_on', '/receivedOn', 'Such as 2031-06-14.', true),
      number('quantity_g', '/quantityG', 'What it holds now.', true),
      unitPrice('unit_cost', '/unitCost', { currency, says: 'What a gram of it cost.' }),
      text('note', '/note', 'Up to 2000 letters.'),
    ],
    complete(db, body) {
      const name = wordOf(body, 'productId');
      if (name === '') return { body, errors: [] };
      const { productId: _name, ...rest } = body;
      const product = findMetalProductByName(db, name);
      if (product) return { body: { ...rest, productId: product.id }, errors: [] };
      const detail = 'There is no metal product of this name: bring in the products first.';
      return { body: rest, errors: [{ pointer: '/productId', detail, given: name }] };
    },
    keyOf: (body) => wordOf(body, 'number'),
    isThere: (db, body) => findMetalLotByNumber(db, wordOf(body, 'number')) !== undefined,
    make: (actor, lot: z.infer<typeof BroughtMetalLot>) => void lots.bringIn(actor, lot),
    written: (db, currency) =>
      metalLotsThatHold(db).map(({ lot, product, onHandTenthMg }) => ({
        lot: lot.number,
        product: product.name,
        received_on: lot.receivedOn,
        quantity_g: toG(onHandTenthMg),
        [`unit_cost_${currency}_per_g`]: lot.unitCostPerG,
        note: lot.note,
      })),
  };
}
