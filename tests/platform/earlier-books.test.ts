import type Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import { ACCESS } from '../../src/platform/http/access-table.ts';
import { migrate, readMigrations } from '../../src/platform/db/migrate.ts';
import { actorFrom } from '../../src/features/people/keys.service.ts';
import { owners } from '../../src/features/people/people.store.ts';
import { bookOfSchema, contentsOf, filledUp, sumsOf, type Book } from '../support/earlier-books.ts';
import { aSeededBook } from '../support/a-seeded-book.ts';
import { testClock } from '../support/start-app.ts';

const migrations = readMigrations();
const clock = testClock('2031-06-05T08:00:00Z');
/** What is asked of every fifth book: all lists and reports, whatever has no id in its address. */
const LISTS = Object.keys(ACCESS).filter((route) => route.startsWith('GET /') && !route.includes(':'));

let full: Book;
let sums: ReturnType<typeof sumsOf>;
const closers: (() => Promise<void>)[] = [];
beforeAll(async () => {
  const app = await aSeededBook((close) => void closers.push(close));
  full = filledUp(contentsOf((app.db as unknown as { $client: Database.Database }).$client));
  const latest = bookOfSchema(migrations, full);
  sums = sumsOf(latest);
  latest.close();
});
afterAll(async () => {
  for (const close of closers) await close();
});

test('every table of a full book has rows', () => {
  expect([...full].filter(([, rows]) => rows.length === 0)).toEqual([]);
  expect(full.size).toBeGreaterThan(50);
});

test.each(migrations.map(({ name }, index) => [name, index + 1] as const))(
  'a book that was last changed by %s keeps every row and value, and is read',
  async (_name, count) => {
    const book = bookOfSchema(migrations.slice(0, count), full);
    onTestFinished(() => void book.close());
    const before = contentsOf(book);
    migrate(book, clock.now());
    book.pragma('foreign_keys = ON');
    expect(book.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(book.pragma('foreign_key_check')).toEqual([]);
    const after = contentsOf(book);
    for (const [table, rows] of before) {
      const columns = Object.keys(rows[0]!);
      const kept = after.get(table)!.map((row) => Object.fromEntries(columns.map((name) => [name, row[name]])));
      expect({ table, rows: kept }).toEqual({ table, rows });
    }
    const found = book.prepare("SELECT count(*) FROM searchable WHERE kind = 'commission'").pluck().get();
    expect(found).toBe(before.get('commissions')!.length);

    // The ledgers that are summed up are all there.
    if (before.has('metal_holds')) expect(sumsOf(book)).toEqual(sums);

    if (count % 5 !== 1) return;
    const db = drizzle(book);
    const { http, services } = await buildApp({ db, clock }, { logLevel: 'silent' });
    onTestFinished(() => http.close());
    const [owner] = owners(db);
    const { token } = services.keys.addToken(actorFrom(owner!), { name: 'test' });
    const answers: Record<string, number> = {};
    for (const route of LISTS) {
      const reply = await http.inject({ url: `/api/v1${route.slice(4)}`, headers: { authorization: `Bearer ${token}` } });
      answers[route] = reply.statusCode;
    }
    const wrong = Object.entries(answers).filter(([, status]) => status >= 500);
    expect(wrong).toEqual([]);
    expect(Object.values(answers).filter((status) => status === 200).length).toBeGreaterThan(40);
    for (const list of ['/commissions', '/pieces', '/heats', '/stock', '/quotes', '/journal'])
      expect([list, answers[`GET ${list}`]]).toEqual([list, 200]);
  },
);
