import { z } from 'zod';
import { findMetalProductByName, metalProductsOldestFirst, NewMetalProduct, type MetalProductService } from '../stock/index.ts';
import { number, text, wordOf, yesNo, type ListKind, type Written } from './list-kind.ts';

const NewRow = NewMetalProduct.extend({ active: z.boolean().default(true) });

const SIZES = {
  thickness_mm: 'thicknessMm',
  width_mm: 'widthMm',
  height_mm: 'heightMm',
  diameter_mm: 'diameterMm',
  side_mm: 'sideMm',
  outside_diameter_mm: 'outsideDiameterMm',
  inside_diameter_mm: 'insideDiameterMm',
} as const;

type Size = (typeof SIZES)[keyof typeof SIZES];

export function metalProductList(products: MetalProductService): ListKind {
  return {
    name: 'metal-products',
    key: 'its name',
    schema: NewRow,
    columns: (currency) => [
      text('name', '/name', 'As in the list of the supplier.', true),
      text('metal', '/metal', 'The id of a metal of GET /metals.', true),
      text('form', '/form/kind', 'sheet, strip, round_wire, square_wire, half_round_wire, tube or grain.', true),
      ...Object.entries(SIZES).map(([header, member]) => number(header, `/form/${member}`, 'Where its form has it.')),
      text('supplier', '/supplier', 'Who sells it, by name.', true),
      number('pack_g', '/packG', 'Grams it is sold by; 1 where it says nothing.'),
      {
        header: `price_${currency}`,
        pointer: '/price/amount',
        cell: 'decimal',
        needed: true,
        says: 'For the weight in price_per.',
      },
      text('price_per', '/price/per', 'g, dwt or ozt.', true),
      yesNo('active', '/active', 'yes or no; yes where it says nothing.'),
    ],
    keyOf: (body) => wordOf(body, 'name'),
    isThere: (db, body) => findMetalProductByName(db, wordOf(body, 'name')) !== undefined,
    make(actor, row: z.infer<typeof NewRow>) {
      const { active, ...product } = row;
      const { id, version } = products.add(actor, product);
      if (!active) products.change(actor, id, version, { active });
    },
    written: (db, currency) =>
      metalProductsOldestFirst(db).map((row) => {
        const sizes: { kind: string } & Partial<Record<Size, number>> = row.form;
        return {
          name: row.name,
          metal: row.metal,
          form: row.form.kind,
          ...Object.fromEntries(
            Object.entries(SIZES).map(([header, member]): [string, Written] => [header, sizes[member] ?? null]),
          ),
          supplier: row.supplier,
          pack_g: row.packG,
          [`price_${currency}`]: row.price.amount,
          price_per: row.price.per,
          active: row.active,
        };
      }),
  };
}
