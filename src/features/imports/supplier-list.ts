import { z } from 'zod';
import { inMajor } from '../../platform/http/csv.ts';
import { money as moneyOf } from '../../platform/http/money.ts';
import { findSupplierByName, NewSupplier, suppliersOldestFirst, type SupplierService } from '../stock/index.ts';
import { money, number, text, wordOf, yesNo, type ListKind } from './list-kind.ts';

const NewRow = NewSupplier.extend({ active: z.boolean().default(true) });

export function supplierList(suppliers: SupplierService): ListKind {
  return {
    name: 'suppliers',
    key: 'its name; large and small letters are the same',
    schema: NewRow,
    columns: (currency) => [
      text('name', '/name', 'Products name their supplier by it.', true),
      number('lead_working_days', '/leadWorkingDays', 'Working days from order to delivery.', true),
      money('minimum', '/minimum', { currency, says: 'The least they take an order for.' }),
      money('post', '/post', { currency, says: 'What sending costs.' }),
      text('note', '/note', 'Up to 2000 letters.'),
      yesNo('active', '/active', 'yes or no; yes where it says nothing.'),
    ],
    keyOf: (body) => wordOf(body, 'name'),
    isThere: (db, body) => findSupplierByName(db, wordOf(body, 'name')) !== undefined,
    make(actor, row: z.infer<typeof NewRow>) {
      const { active, ...supplier } = row;
      const { id, version } = suppliers.add(actor, supplier);
      if (!active) suppliers.change(actor, id, version, { active });
    },
    written: (db, currency) =>
      suppliersOldestFirst(db).map((row) => ({
        name: row.name,
        lead_working_days: row.leadWorkingDays,
        [`minimum_${currency}`]: inMajor(moneyOf(row.minimumMinor, currency)),
        [`post_${currency}`]: inMajor(moneyOf(row.postMinor, currency)),
        note: row.note,
        active: row.active,
      })),
  };
}
