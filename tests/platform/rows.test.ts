import { expect, onTestFinished, test } from 'vitest';
import { openDb } from '../../src/platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow, updateVersion } from '../../src/platform/db/rows.ts';
import { commissions } from '../../src/platform/db/tables.ts';

const at = '2031-05-05T08:00:00.000Z';
const row = (id: string, more: Partial<typeof commissions.$inferInsert> = {}) => ({
  id,
  number: `C-${id}`,
  title: 'Ring',
  kind: 'one_off',
  quantity: 1,
  state: 'enquiry',
  stateSince: at,
  createdAt: at,
  ...more,
});

function aBook() {
  const { db, close } = openDb(':memory:', new Date(at));
  onTestFinished(close);
  return db;
}

test('a row that is written is the row that is read, with what the table gives of itself', () => {
  const db = aBook();
  const written = insertRow(db, commissions, row('a', { wish: undefined, clientProperty: [{ what: 'a stone', weightG: 1.2 }] }));
  expect(written).toMatchObject({ title: 'Ring', wish: null, version: 1, clientProperty: [{ what: 'a stone', weightG: 1.2 }] });
  expect(rowById(db, commissions, 'a')).toEqual(written);
  expect(insertRow(db, commissions, row('b'))).toMatchObject({ clientProperty: [], quiet: false });
  expect(rowById(db, commissions, 'c')).toBeUndefined();
});

test('a change writes what it names: null empties a field, undefined leaves it, what is no field is nothing', () => {
  const db = aBook();
  insertRow(db, commissions, row('a', { wish: 'with a bezel', dueOn: '2031-06-01' }));
  const other = insertRow(db, commissions, row('b'));
  const change = { wish: null, dueOn: undefined, title: 'Band', unknown: 1 } as object;
  expect(updateRow(db, commissions, 'a', change)).toMatchObject({ wish: null, dueOn: '2031-06-01', title: 'Band', version: 1 });
  expect(updateVersion(db, commissions, 'a', { quiet: true })).toMatchObject({ quiet: true, title: 'Band', version: 2 });
  expect(updateVersion(db, commissions, 'a', {})).toMatchObject({ version: 3 });
  expect(rowById(db, commissions, 'b')).toEqual(other);
  expect(updateRow(db, commissions, 'nobody', { title: 'x' })).toBeUndefined();
});

test('more ways to change a row than are kept all change it', () => {
  const db = aBook();
  insertRow(db, commissions, row('a'));
  const fields = ['title', 'wish', 'dueOn', 'placeOfSale', 'stateReason', 'waitingFor'] as const;
  for (let choice = 1; choice < 2 ** fields.length; choice++) {
    const change = Object.fromEntries(
      fields.filter((_, bit) => choice & (1 << bit)).map((field) => [field, `${field} ${choice}`]),
    );
    expect(updateRow(db, commissions, 'a', change)).toMatchObject(change);
  }
});

test('a page is the newest first, of those that have what is asked, and one more', () => {
  const db = aBook();
  for (const id of ['a', 'b', 'c', 'd', 'e'])
    insertRow(db, commissions, row(id, { quiet: id > 'b', dueOn: id === 'd' ? at : null }));
  const ids = (having: Parameters<typeof newestRows<typeof commissions>>[3], page: { limit: number; cursor?: string }) =>
    newestRows(db, commissions, page, having).map(({ id }) => id);
  expect(ids({}, { limit: 2 })).toEqual(['e', 'd', 'c']);
  expect(ids({ quiet: true, dueOn: undefined }, { limit: 9, cursor: 'e' })).toEqual(['d', 'c']);
  expect(ids({ quiet: false, state: 'enquiry' }, { limit: 1 })).toEqual(['b', 'a']);
  expect(ids({ state: 'ready' }, { limit: 1 })).toEqual([]);
});

test('a book that is closed leaves nothing behind for the next one', () => {
  insertRow(aBook(), commissions, row('a'));
  expect(rowById(aBook(), commissions, 'a')).toBeUndefined();
});
