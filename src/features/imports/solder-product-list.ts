import { z } from 'zod';
import { findProductByCode, NewSolderProduct, productsOldestFirst, type SolderProductService } from '../stock/index.ts';
import { number, text, unitPrice, wordOf, yesNo, type ListKind } from './list-kind.ts';

const NewRow = NewSolderProduct.extend({ active: z.boolean().default(true) });

export function solderProductList(products: SolderProductService): ListKind {
  return {
    name: 'solder-products',
    key: 'its code',
    schema: NewRow,
    columns: (currency) => [
      text('code', '/code', 'Its short name in plans: a–z, 0–9, dash, underscore.', true),
      text('name', '/name', 'As on the packet.', true),
      text('grade_word', '/gradeWord', 'As on the packet, such as hard.', true),
      number('solidus_c', '/solidusC', 'Begins to melt, °C.', true),
      number('liquidus_c', '/liquidusC', 'Flows, °C.', true),
      number('silver_fraction', '/silverFraction', 'By mass: 0.65, not 65 or 650.'),
      text('cadmium', '/cadmiumStanding', 'no, yes or unknown; unknown counts as yes.', true),
      text('lead_or_tin', '/leadOrTinStanding', 'no, yes or unknown.', true),
      text('form', '/form', 'sheet, wire, paste, pallion, rod or powder.', true),
      number('metal_fraction', '/metalFraction', 'Of paste, by mass; 1 for anything else.'),
      number('density_g_per_cm3', '/densityGPerCm3', 'Of the metal.', true),
      number('smallest_piece_g', '/smallestPieceG', 'The smallest chip or dot that can really be placed.', true),
      text('safety_sheet', '/safetySheet', 'Where its safety data sheet is.', true),
      text('supplier', '/supplier', 'Who sells it, by name.', true),
      number('pack_g', '/packG', 'Grams of a pack.', true),
      unitPrice('price', '/price', { currency, says: 'What a gram costs.' }),
      number('lead_weeks', '/leadWeeks', 'Weeks from order to delivery.', true),
      yesNo('active', '/active', 'yes or no; yes where it says nothing.'),
    ],
    keyOf: (body) => wordOf(body, 'code'),
    isThere: (db, body) => findProductByCode(db, wordOf(body, 'code')) !== undefined,
    make(actor, row: z.infer<typeof NewRow>) {
      const { active, ...product } = row;
      const { id, version } = products.add(actor, product);
      if (!active) products.change(actor, id, version, { active });
    },
    written: (db, currency) =>
      productsOldestFirst(db).map((row) => ({
        code: row.code,
        name: row.name,
        grade_word: row.gradeWord,
        solidus_c: row.solidusC,
        liquidus_c: row.liquidusC,
        silver_fraction: row.silverFraction,
        cadmium: row.cadmiumStanding,
        lead_or_tin: row.leadOrTinStanding,
        form: row.form,
        metal_fraction: row.metalFraction,
        density_g_per_cm3: row.densityGPerCm3,
        smallest_piece_g: row.smallestPieceG,
        safety_sheet: row.safetySheet,
        supplier: row.supplier,
        pack_g: row.packG,
        [`price_${currency}_per_g`]: row.pricePerG,
        lead_weeks: row.leadWeeks,
        active: row.active,
      })),
  };
}
