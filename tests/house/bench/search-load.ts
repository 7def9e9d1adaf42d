/**
 * Searches for a plan and ordinary reading at once, over HTTP: what a search takes while somebody reads at half of what the server can
 * answer, beside what it takes alone; and how long the readers wait while one search after the other runs, beside when none does.
 */

import { fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { PlanSearchAnswer, PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import { buildApp } from '../../../src/app.ts';
import { actorFrom } from '../../../src/features/people/keys.service.ts';
import { insertPerson } from '../../../src/features/people/people.store.ts';
import { systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import { DEMO_DESIGNS } from '../../support/demo-heats.ts';
import { heatedPiece } from '../../support/heated-kinds.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import type { Load } from './http-client.ts';
import { askedBy } from './load.ts';
import { round } from './measure.ts';

/** Of one piece, alone. */
const SEARCHES = 3;
const LOAD_S = 10;
const SHARE = 0.5;

const PIECES = {
  ...DEMO_DESIGNS,
  'wires of 8': heatedPiece('wires', 8),
  'posts of 8': heatedPiece('posts', 8),
  'wires of 12': heatedPiece('wires', 12),
};

export async function run(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-bench-'));
  const { db, close } = openDb(join(folder, 'book.sqlite'), systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock });
  const at = systemClock.now().toISOString();
  const owner = actorFrom(insertPerson(db, { id: 'owner', name: 'Flint', roles: ['owner'], tutor: true, createdAt: at }));
  const { token } = services.keys.addToken(owner, { name: 'bench' });
  const { id } = services.clients.add(owner, { name: 'Millrace', email: 'someone@example.org', language: 'en' } as never);
  const address = `${await http.listen({ host: '127.0.0.1', port: 0 })}/api/v1`;
  const reader = fork(new URL('./http-client.ts', import.meta.url));
  const read = (load: Omit<Load, 'token' | 'url'>) => askedBy(reader, { url: `${address}/clients/${id}`, token, ...load });
  const search = async (design: PlanSearchRequest['design']) => {
    const request: PlanSearchRequest = { design, solders: SOLDERS, bench: { torch: 'large', support: 'brick' } };
    const begun = performance.now();
    const reply = await fetch(`${address}/calculations/plan-search`, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
      body: JSON.stringify(request),
    });
    const { stats } = (await reply.json()) as PlanSearchAnswer;
    return { ms: performance.now() - begun, stoppedBy: stats.stoppedBy ?? '' };
  };
  try {
    await read({ times: 500 });
    const { perSecond } = await read({ times: 2000 });
    const load = { times: Math.round(SHARE * perSecond * LOAD_S), rate: SHARE * perSecond };
    const quiet = await read(load);
    console.log(
      `${Math.round(load.rate)} reads a second, no search: p50 ${round(quiet.p50Ms)} ms, p99 ${round(quiet.p99Ms)} ms.`,
    );
    const table = [];
    for (const [piece, design] of Object.entries(PIECES)) {
      const alone = [];
      for (let n = 0; n <= SEARCHES; n++) alone.push(await search(design));
      const until = performance.now() + LOAD_S * 1000;
      const reading = read(load);
      const loaded = [];
      do loaded.push(await search(design));
      while (performance.now() < until);
      const busy = await reading;
      const [aloneMs, loadedMs] = [middle(alone.slice(1)), middle(loaded)];
      table.push({
        piece,
        'alone ms': round(aloneMs),
        'under load ms': round(loadedMs),
        ratio: round(loadedMs / aloneMs),
        'stopped by': alone[0]!.stoppedBy,
        'reads p50 ms': round(busy.p50Ms),
        'reads p99 ms': round(busy.p99Ms),
        'p99 : p99 without': round(busy.p99Ms / quiet.p99Ms),
      });
    }
    console.table(table);
  } finally {
    reader.disconnect();
    await http.close();
    close();
    rmSync(folder, { recursive: true });
  }
}

function middle(searches: readonly { ms: number }[]): number {
  return searches.map(({ ms }) => ms).sort((a, b) => a - b)[searches.length >> 1]!;
}
