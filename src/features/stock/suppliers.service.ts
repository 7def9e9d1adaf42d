import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { money, type Money } from '../../platform/http/money.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import type { NewSupplier, SupplierChange, SupplierQuery } from './suppliers.schema.ts';
import * as store from './suppliers.store.ts';

export type SupplierService = ReturnType<typeof createSupplierService>;

export function createSupplierService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { minimum, post, ...supplier }: z.infer<typeof NewSupplier>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        holdToCurrency(tx, { minimum, post });
        holdNameFree(tx, supplier.name);
        const row = store.insertSupplier(tx, {
          ...supplier,
          id: newId(by.at),
          minimumMinor: minimum?.amountMinor ?? 0,
          postMinor: post?.amountMinor ?? 0,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'supplier', id: row.id, after: row });
        return show(tx, row);
      });
    },

    get: (id: string) => show(db, store.getSupplier(db, id)),

    list({ active, ...query }: z.infer<typeof SupplierQuery>) {
      const rows = store.listSuppliers(db, { ...query, active: active === undefined ? undefined : active === 'true' });
      return pageOf(rows, query, (row) => show(db, row));
    },

    /** Its products keep it also under a new name. */
    change(actor: Actor, id: string, seen: number, { minimum, post, ...change }: z.infer<typeof SupplierChange>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getSupplier(tx, id);
        holdToVersion('supplier', before.version, seen);
        holdToCurrency(tx, { minimum, post });
        const { name = before.name } = change;
        if (store.findSupplierByName(tx, name)?.id !== id) holdNameFree(tx, name);
        if (name !== before.name) store.renameOnProducts(tx, before.name, name);
        const after = store.updateSupplier(tx, id, {
          ...membersSent(change),
          ...(minimum ? { minimumMinor: minimum.amountMinor } : {}),
          ...(post ? { postMinor: post.amountMinor } : {}),
          version: before.version + 1,
        });
        writeJournal(tx, by, { what: 'supplier', id, before, after });
        return show(tx, after);
      });
    },
  };
}

function show(db: Db, { minimumMinor, postMinor, ...row }: store.SupplierRow) {
  const { currency } = getSettings(db);
  return { ...row, minimum: money(minimumMinor, currency), post: money(postMinor, currency) };
}

function holdNameFree(db: Db, name: string): void {
  if (store.findSupplierByName(db, name)) throw new Problem('already-used', `There is a supplier ${name} already`);
}

/** Money is kept in the currency of the book. */
export function holdToCurrency(db: Db, given: Readonly<Record<string, Money | undefined>>): void {
  const { currency } = getSettings(db);
  const errors = Object.entries(given).flatMap(([name, amount]): FieldError[] =>
    amount === undefined || amount.currency === currency
      ? []
      : [{ pointer: `/${name}/currency`, detail: `The book is kept in ${currency}.`, given: amount.currency }],
  );
  if (errors.length > 0) throw invalidFields(errors);
}
