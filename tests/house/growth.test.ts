import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { rolesOf } from '../../seed/sign-ins.ts';
import { buildApp } from '../../src/app.ts';
import { runDueCosts } from '../../src/features/stock/index.ts';
import { addDays, systemClock } from '../../src/platform/clock.ts';
import { openDb } from '../../src/platform/db/client.ts';
import type { ApiDocument } from '../support/api-document.ts';
import { countReads, scannedBy } from '../support/counted-reads.ts';
import { asker, everyQuestion } from '../support/every-question.ts';
import { growBook } from '../support/grown-book.ts';
import { modelBook } from '../support/model-book.ts';

/** Tables that grow with the work; a lot of solder serves a hundred pieces, so there are few of them. */
const GROWING = new Set(
  `clients commissions pieces designs plans heats joints caution_ticks solder_history stock_movements bath_dips incidents
  bench_times quotes sent_letters payments client_letters journal searchable now_solder_pieces
  scrap_return_pieces`.split(/\s+/),
);

/** A page that was not full yet may become full. */
const LEAST_ROWS = 120;
/** The last eight weeks are the same in both books. */
const DAYS = 56;
/** For a machine that has much else to do. */
const TIMEOUT_MS = 900_000;

/** What goes through a whole table, or reads more the longer the book is, and why it may. */
const EXCUSED: Readonly<Record<string, string>> = {
  '/learned-factors/offers': 'every record there is may count',
  '/exports/': 'a whole list is what is asked for',
  '/clients/:id/held': 'everything that is kept of one client',
  '/reorder-list': 'reads the uses of a year',
  '/documents/reorder-list': 'reads the uses of a year',
  '/scrap-jars': 'looks which pieces left something in a jar',
  '/documents/recovery-form': 'reads nothing of the work',
  '/reports/to-order': 'reads the uses of a year',
  '/reports/money-owed': 'goes through an index of prices and payments: what is owed is the difference of both',
  '/reports/year-end': 'adds up the whole ledger of stock, and who had paid what by that evening',
};

/** What the API reads of a book of so many pieces, question by question. */
async function readsOf(file: string, model: string, pieces: number) {
  growBook(file, model, { pieces, journal: 'none', at: systemClock.now() });
  const { db, close } = openDb(file, systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock }, { logLevel: 'silent' });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  // To the last line, so that nothing is left to reckon in either book.
  for (let minute = 0; minute < pieces / 1000; minute++) runDueCosts({ db, clock: systemClock }, 1);
  const { actor } = rolesOf(db).find(({ role }) => role === 'owner')!;
  const ask = asker(http, services.keys.addToken(actor, { name: 'growth' }).token);
  const document = (await ask('/api/v1/openapi.json')).body as ApiDocument;
  const to = systemClock.now().toISOString().slice(0, 10);
  const questions = await everyQuestion(ask, document, { from: addDays(to, -DAYS), to });
  const read = countReads(db.$client);
  const found = new Map<string, { rows: number; scanned: string[] }>();
  for (const { name, path } of questions) {
    if (Object.keys(EXCUSED).some((excused) => name.startsWith(excused))) continue;
    read();
    const { status } = await ask(path);
    expect(status, name).toBeLessThan(500);
    const { rows, asked } = read();
    const scanned = [...asked].flatMap(([text, given]) => scannedBy(db.$client, text, given));
    found.set(name, { rows, scanned: scanned.filter((table) => GROWING.has(table)) });
  }
  return { found, audit: services.stock.audit() };
}

test(
  'no list, search, single thing or report over the same work reads more of a book that is twenty times as long, nor goes through a whole table',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'hearthbook-growth-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const model = await modelBook(folder);
    const small = await readsOf(join(folder, 'small.sqlite'), model, 1000);
    const large = await readsOf(join(folder, 'large.sqlite'), model, 20_000);
    expect(large.audit).toMatchObject({ ok: true, findings: [] });
    expect(small.found.size).toBeGreaterThan(100);
    const more = [...small.found].flatMap(([name, { rows }]) => {
      const later = large.found.get(name);
      return later && later.rows > 1.5 * rows + LEAST_ROWS ? [`${name}: ${rows} and ${later.rows} rows`] : [];
    });
    const scans = [...large.found].flatMap(([name, { scanned }]) =>
      scanned.length > 0 ? [`${name}: ${scanned.join(', ')}`] : [],
    );
    expect({ more, scans }).toEqual({ more: [], scans: [] });
  },
  TIMEOUT_MS,
);
