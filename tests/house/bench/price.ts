/**
 * What a price costs: estimates a second as a ratio to an empty JSON reply of the same server, asked for in turn over HTTP by another
 * process; and the processor time of the server for one. Requests are the worked pendant, the cup, and a dozen pendants as a run.
 */

import { fork } from 'node:child_process';
import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import { buildApp } from '../../../src/app.ts';
import { actorFrom } from '../../../src/features/people/keys.service.ts';
import { insertPerson } from '../../../src/features/people/people.store.ts';
import { systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import reference from '../../reference/estimate-cases.json' with { type: 'json' };
import { harbourCup } from '../../support/harbour-cup.ts';
import { medianMs, round } from './measure.ts';
import type { Load } from './price-client.ts';

const pendant = reference.cases[0]!.request as unknown as EstimateRequest;
const dozen = { ...pendant, labour: pendant.labour.map((line) => ({ ...line, run: { pieces: 12 } })) };
const REQUESTS = { 'the pendant': pendant, 'the cup': harbourCup, 'a dozen pendants': dozen };
const ROUNDS = 5;
const TIMES = 400;

interface Asked {
  perSecond: number;
  cpuUs: number;
}

export async function run(): Promise<void> {
  const { db, close } = openDb(':memory:', systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock });
  http.get('/empty', async () => ({}));
  const row = insertPerson(db, {
    id: 'owner',
    name: 'Flint',
    roles: ['owner'],
    tutor: true,
    createdAt: systemClock.now().toISOString(),
  });
  const { token } = services.keys.addToken(actorFrom(row), { name: 'bench' });
  const address = await http.listen({ host: '127.0.0.1', port: 0 });
  const client = fork(new URL('./price-client.ts', import.meta.url));
  const ask = (load: Omit<Load, 'token' | 'times'>) =>
    new Promise<Asked>((resolve, reject) => {
      const before = process.cpuUsage();
      client.once('exit', reject);
      client.once('message', (elapsedMs: number) => {
        client.removeAllListeners('exit');
        const { user, system } = process.cpuUsage(before);
        resolve({ perSecond: (TIMES / elapsedMs) * 1000, cpuUs: (user + system) / TIMES });
      });
      client.send({ ...load, token, times: TIMES } satisfies Load);
    });
  const empty = () => ask({ url: `${address}/empty` });
  const rows = [];
  await empty();
  for (const [what, request] of Object.entries(REQUESTS)) {
    const url = `${address}/api/v1/calculations/estimate`;
    const body = JSON.stringify(request);
    await ask({ url, body });
    // In turn, so that what slows the machine slows both.
    const turns: { plain: Asked; priced: Asked }[] = [];
    for (let turn = 0; turn < ROUNDS; turn++) turns.push({ plain: await empty(), priced: await ask({ url, body }) });
    const middle = (of: (turn: { plain: Asked; priced: Asked }) => number) => turns.map(of).sort((a, b) => a - b)[ROUNDS >> 1]!;
    rows.push({
      what,
      ratio: round(middle(({ plain, priced }) => priced.perSecond / plain.perSecond)),
      'estimates/s': Math.round(middle(({ priced }) => priced.perSecond)),
      'empty replies/s': Math.round(middle(({ plain }) => plain.perSecond)),
      'CPU µs': Math.round(middle(({ priced }) => priced.cpuUs)),
      'CPU µs of an empty reply': Math.round(middle(({ plain }) => plain.cpuUs)),
      'recipe alone, µs': Math.round((await medianMs(101, () => estimate(request))) * 1000),
    });
  }
  client.disconnect();
  await http.close();
  close();
  console.table(rows);
}
