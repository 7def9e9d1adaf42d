/**
 * What the product costs over what it is made of: reading one thing by its id, a page of a list, a write, and a check of a plan, each
 * beside a bare route with the same plugins and the same reply, a bare hello, and the database alone. Asked for in turn by another
 * process, so that what slows the machine slows all; a route's rate is told by the processor time that the server spent on it, since
 * the one who asks may well be the slower of the two.
 */

import { fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { buildApp } from '../../../src/app.ts';
import { PlanCheckReply } from '../../../src/features/calculations/check.schema.ts';
import { ClientReply } from '../../../src/features/clients/clients.schema.ts';
import { CommissionSummary } from '../../../src/features/commissions/commissions.schema.ts';
import { actorFrom } from '../../../src/features/people/keys.service.ts';
import { insertPerson } from '../../../src/features/people/people.store.ts';
import { systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import { pageReply } from '../../../src/platform/http/paging.ts';
import { pendant } from '../../../seed/designs.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { bareHello, barePlugged, type Bare, type BareRoute } from './http-bare.ts';
import type { Load } from './http-client.ts';
import { askedBy, type Asked } from './load.ts';
import { medianMsWithin, round } from './measure.ts';

const ROUNDS = 5;
const CLIENTS = 3000;

interface Row {
  what: string;
  path: string;
  bare: string;
  times: number;
  body?: string;
}

const NEW_CLIENT = JSON.stringify({ name: 'Client {n}', email: 'someone@example.org', language: 'en' });
const BENCH = { torch: 'medium', support: 'brick' } as const;
const PLAN = { heats: pendant.joints.map(({ id }) => ({ joints: [id], solder: 'hard' })) };
const CHECK = JSON.stringify({ design: pendant, bench: BENCH, solders: SOLDERS, plan: PLAN });

export async function run(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-bench-'));
  const { db, close } = openDb(join(folder, 'book.sqlite'), systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock });
  const at = systemClock.now().toISOString();
  const owner = actorFrom(insertPerson(db, { id: 'owner', name: 'Flint', roles: ['owner'], tutor: true, createdAt: at }));
  const { token } = services.keys.addToken(owner, { name: 'bench' });
  const clients = db.transaction(() =>
    Array.from({ length: CLIENTS }, (_, n) =>
      services.clients.add(owner, { name: `Client ${n}`, email: 'someone@example.org', language: 'en' } as never),
    ),
  );
  db.transaction(() => {
    for (const { id } of clients.slice(0, 300))
      services.commissions.add(owner, { title: 'Ring with two grains', kind: 'one_off', clientId: id, quantity: 1 } as never);
  });
  const address = `${await http.listen({ host: '127.0.0.1', port: 0 })}/api/v1`;
  const client = fork(new URL('./http-client.ts', import.meta.url));
  const bares: Bare[] = [];
  const raw = rawWrite(folder);
  try {
    const rows: Row[] = [
      { what: 'one client', path: `/clients/${clients[2000]!.id}`, bare: '/client', times: 5000 },
      { what: 'page of 50 commissions', path: '/commissions?limit=50', bare: '/commissions', times: 1500 },
      { what: 'note a client (durable)', path: '/clients', bare: '/new-client', times: 2000, body: NEW_CLIENT },
      { what: 'check a plan', path: '/calculations/plan-check', bare: '/check', times: 15, body: CHECK },
    ];
    const bareRoutes = await bareOf(rows, { address, token, write: raw.write });
    bares.push(await barePlugged(bareRoutes), await bareHello());
    const [bare, hello] = bares.map((one) => one.address);
    const ask = (load: Omit<Load, 'token'>) => askedBy(client, { ...load, token });
    const table = [];
    for (const { what, path, bare: barePath, times, body } of rows) {
      const own = { url: `${address}${path}`, times, ...(body === undefined ? {} : { body }) };
      const turns: { own: Asked; plugged: Asked; hello: Asked }[] = [];
      await ask(own);
      for (let turn = 0; turn < ROUNDS; turn++)
        turns.push({
          own: await ask(own),
          plugged: await ask({ ...own, url: `${bare}${barePath}` }),
          hello: await ask({ ...own, url: hello! }),
        });
      const middle = (of: (turn: (typeof turns)[number]) => number) => turns.map(of).sort((a, b) => a - b)[ROUNDS >> 1]!;
      const perSecond = middle(({ own: { perSecond: rate } }) => rate);
      const loaded = await ask({ ...own, rate: 0.8 * perSecond });
      table.push({
        what,
        '% of bare with plugins': Math.round(100 * middle(({ own: { cpuUs }, plugged }) => plugged.cpuUs / cpuUs)),
        '% of bare hello': Math.round(100 * middle(({ own: { cpuUs }, hello: { cpuUs: least } }) => least / cpuUs)),
        'CPU µs': Math.round(middle(({ own: { cpuUs } }) => cpuUs)),
        'replies/s': Math.round(perSecond),
        'at 80 %: p50 ms': round(loaded.p50Ms),
        'p99 ms': round(loaded.p99Ms),
        'p99 : p50': round(loaded.p99Ms / loaded.p50Ms),
      });
    }
    console.table(table);
    await writes(ask, { url: `${address}/clients`, write: raw.write });
    const one = db.$client.prepare('SELECT * FROM clients WHERE id = ?');
    const rawUs = 1000 * medianMsWithin(200, () => one.get(clients[2000]!.id));
    console.log(`One row by its id from the database alone: ${round(rawUs)} µs`);
  } finally {
    if (client.connected) client.disconnect();
    for (const bare of bares) await bare.close();
    await http.close();
    raw.close();
    close();
    rmSync(folder, { recursive: true });
  }
}

/** The reply of each route as it is, under its own schema. */
async function bareOf(
  rows: readonly Row[],
  { address, token, write }: { address: string; token: string; write: () => void },
): Promise<BareRoute[]> {
  const schemas = [ClientReply, pageReply(CommissionSummary), ClientReply, PlanCheckReply];
  const routes = await Promise.all(
    rows.map(async ({ what, path, bare, body }, i): Promise<BareRoute> => {
      const method = body === undefined ? 'GET' : 'POST';
      const headers = { authorization: `Bearer ${token}`, ...(body === undefined ? {} : { 'content-type': 'application/json' }) };
      const reply = await fetch(`${address}${path}`, { method, headers, ...(body === undefined ? {} : { body }) });
      if (!reply.ok) throw new Error(`${path}: ${reply.status} ${await reply.text()}`);
      const work = what.includes('durable') ? { work: write } : {};
      return { path: bare, method, schema: schemas[i]!, reply: await reply.json(), ...work };
    }),
  );
  return routes;
}

/** A transaction of one row and one line, as durable, in a file of its own on the same file system. */
function rawWrite(folder: string) {
  const raw = new Database(join(folder, 'raw.sqlite'));
  raw.pragma('journal_mode = WAL');
  raw.pragma('synchronous = FULL');
  raw.exec(
    'CREATE TABLE things (id TEXT PRIMARY KEY, body TEXT NOT NULL) STRICT; CREATE TABLE lines (seq INTEGER PRIMARY KEY, body TEXT)',
  );
  const [thing, line] = [raw.prepare('INSERT INTO things VALUES (?, ?)'), raw.prepare('INSERT INTO lines (body) VALUES (?)')];
  const write = raw.transaction((id: string) => {
    thing.run(id, NEW_CLIENT);
    line.run(NEW_CLIENT);
  });
  let id = 0;
  return { write: () => write.immediate(`thing ${id++}`), close: () => raw.close() };
}

/** The write beside such transactions one after the other, with nothing between them. */
async function writes(ask: (load: Omit<Load, 'token'>) => Promise<Asked>, { url, write }: { url: string; write: () => void }) {
  const ratios: { rawPerSecond: number; perSecond: number; ratio: number }[] = [];
  for (let turn = 0; turn < ROUNDS; turn++) {
    const begun = performance.now();
    for (let i = 0; i < 200; i++) write();
    const rawPerSecond = (200 / (performance.now() - begun)) * 1000;
    const { perSecond } = await ask({ url, times: 200, body: NEW_CLIENT });
    ratios.push({ rawPerSecond, perSecond, ratio: perSecond / rawPerSecond });
  }
  const { rawPerSecond, perSecond, ratio } = ratios.sort((a, b) => a.ratio - b.ratio)[ROUNDS >> 1]!;
  console.log(
    `Writes: ${Math.round(perSecond)} clients a second over HTTP, ${Math.round(rawPerSecond)} raw durable transactions of two rows: ${Math.round(100 * ratio)} %`,
  );
}
