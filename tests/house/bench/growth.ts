/**
 * How the whole API answers in a book of a thousand pieces and in one of a hundred thousand (`npm run bench growth 20000` for fewer),
 * with their heats, movements, times and lines of the journal: the median of every list, search, single thing and report in both,
 * asked for in turn in one process. Reports are asked for the last year, which has three thousand pieces in the large book.
 */

import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { rolesOf } from '../../../seed/sign-ins.ts';
import { buildApp } from '../../../src/app.ts';
import { runDueCosts } from '../../../src/features/stock/index.ts';
import { addDays, systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import type { ApiDocument } from '../../support/api-document.ts';
import { asker, everyQuestion, type Ask, type Question } from '../../support/every-question.ts';
import { growBook } from '../../support/grown-book.ts';
import { modelBook } from '../../support/model-book.ts';
import { heapMiB, round } from './measure.ts';

const SMALL = 1000;
const LARGE = 100_000;
/** Slower than the small book by more than this, it is shown. */
const GOAL = 1.5;
/** Nobody sees the difference below this. */
const LEAST_MS = 1;
const ROUNDS = 5;
const SLOW_MS = 2000;

export async function run(): Promise<void> {
  const pieces = Number(process.argv.find((word) => /^\d{4,6}$/.test(word)) ?? LARGE);
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-growth-'));
  try {
    const model = await modelBook(folder);
    const small = await opened(join(folder, 'small.sqlite'), model, SMALL);
    const large = await opened(join(folder, 'large.sqlite'), model, pieces);
    console.table([small.told, large.told]);
    const rows: { what: string; smallMs: number; largeMs: number; ratio: number }[] = [];
    for (const question of small.questions) {
      const other = large.questions.find(({ name }) => name === question.name);
      if (!other) continue;
      const [before, after] = [await median(small.ask, question), await median(large.ask, other)];
      rows.push({ what: question.name, smallMs: round(before), largeMs: round(after), ratio: round(after / before) });
    }
    const over = rows.filter(({ ratio, largeMs }) => ratio > GOAL && largeMs > LEAST_MS).sort((a, b) => b.largeMs - a.largeMs);
    const reads = over.filter(({ what }) => !what.includes('from='));
    console.log(
      `${rows.length} questions; ${over.length} take more than ${GOAL} times as long, ${reads.length} of them read no year:`,
    );
    console.table(over);
    const median2 = (of: (row: (typeof rows)[number]) => number) => rows.map(of).sort((a, b) => a - b)[rows.length >> 1]!;
    console.log(`The middle one takes ${median2(({ smallMs }) => smallMs)} and ${median2(({ largeMs }) => largeMs)} ms.`);
    await small.close();
    await large.close();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A grown book with the app on it, as it is after its first minutes. */
async function opened(file: string, model: string, pieces: number) {
  const begun = performance.now();
  const grown = growBook(file, model, { pieces, at: systemClock.now() });
  const filledS = (performance.now() - begun) / 1000;
  const opening = performance.now();
  const { db, close } = openDb(file, systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock }, { logLevel: 'silent' });
  await http.ready();
  const openMs = performance.now() - opening;
  const costs = performance.now();
  for (let minute = 0; minute < (5 * pieces) / 1000; minute++) runDueCosts({ db, clock: systemClock });
  const costsS = (performance.now() - costs) / 1000;
  const owner = rolesOf(db).find(({ role }) => role === 'owner')!.actor;
  const ask = asker(http, services.keys.addToken(owner, { name: 'bench' }).token);
  const document = (await ask('/api/v1/openapi.json')).body as ApiDocument;
  const to = systemClock.now().toISOString().slice(0, 10);
  const questions = await everyQuestion(ask, document, { from: addDays(to, -365), to });
  const told = {
    pieces: grown.pieces,
    rows: grown.rows,
    MiB: Math.round(statSync(file).size / 2 ** 20),
    'filled in s': round(filledS),
    'opened in ms': round(openMs),
    'costs reckoned in s': round(costsS),
    'heap MiB': round(heapMiB()),
  };
  return {
    ask,
    questions,
    told,
    close: async () => {
      await http.close();
      close();
    },
  };
}

async function median(ask: Ask, { path }: Question): Promise<number> {
  const times: number[] = [];
  for (let turn = 0; turn <= ROUNDS; turn++) {
    const begun = performance.now();
    await ask(path);
    times.push(performance.now() - begun);
    if (times.at(-1)! > SLOW_MS) return times.at(-1)!;
  }
  return times.slice(1).sort((a, b) => a - b)[ROUNDS >> 1]!;
}
