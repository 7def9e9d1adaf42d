/**
 * How fast the main job is, as ratios measured in one run on one machine: what HTTP adds to the engine, what a search costs in
 * checks, what a check costs in heats. Absolute figures are printed beside them; they are this machine's.
 */

import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pendant } from '../../../seed/designs.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { buildApp } from '../../../src/app.ts';
import { insertPerson } from '../../../src/features/people/people.store.ts';
import { actorFrom } from '../../../src/features/people/keys.service.ts';
import { systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import { medianMs, round } from './measure.ts';

const solders: Solder[] = [
  { id: 'hard', solidusC: 740, liquidusC: 788, silverFraction: 0.75 },
  { id: 'medium', solidusC: 691, liquidusC: 738, silverFraction: 0.7 },
  { id: 'easy', solidusC: 671, liquidusC: 718, silverFraction: 0.65 },
];
const bench = { torch: 'medium', support: 'brick' } as const;
const plan = {
  heats: [
    ['wall-seam', 'hard'],
    ['bail-seam', 'hard'],
    ['bezel', 'medium'],
    ['bail-on', 'easy'],
  ].map(([joint, solder]) => ({ joints: [joint!], solder: solder! })),
};
const protections = [{ kind: 'flame_away' }, { kind: 'anti_flow' }] as const;

export async function run(): Promise<void> {
  const { db, close } = openDb(':memory:', systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock });
  const row = insertPerson(db, {
    id: 'bench',
    name: 'Basalt',
    roles: ['bench'],
    tutor: false,
    createdAt: systemClock.now().toISOString(),
  });
  const { token } = services.keys.addToken(actorFrom(row), { name: 'bench' });
  const address = await http.listen({ host: '127.0.0.1', port: 0 });
  const post = async (path: string, body: object) => {
    const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
    const reply = await fetch(`${address}/api/v1${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
    if (!reply.ok) throw new Error(await reply.text());
    await reply.arrayBuffer();
  };

  const heatMs = await medianMs(31, () =>
    simulateHeat({ design: pendant, bench, targets: ['bail-on'], made: ['wall-seam', 'bezel', 'bail-seam'], solders }),
  );
  const checkMs = await medianMs(15, () => checkPlan({ design: pendant, solders, bench, plan }));
  const searchMs = await medianMs(7, () => searchPlan({ design: pendant, solders, bench, options: { protections } }));
  const checkHttpMs = await medianMs(15, () => post('/calculations/plan-check', { design: pendant, solders, bench, plan }));
  const searchHttpMs = await medianMs(7, () =>
    post('/calculations/plan-search', { design: pendant, solders, bench, options: { protections } }),
  );
  const plainMs = await medianMs(101, async () => void (await (await fetch(`${address}/api/v1/health`)).arrayBuffer()));
  await http.close();
  close();
  const { startMs, restMiB } = await startOnce();

  console.table([
    { what: 'one heat, three solders', ms: round(heatMs), ratio: 1, against: 'itself' },
    { what: 'plan check of the pendant', ms: round(checkMs), ratio: round(checkMs / heatMs), against: 'one heat' },
    { what: 'plan search of the pendant', ms: round(searchMs), ratio: round(searchMs / checkMs), against: 'its check' },
    { what: 'plan check over HTTP', ms: round(checkHttpMs), ratio: round(checkHttpMs / checkMs), against: 'the check alone' },
    {
      what: 'plan search over HTTP',
      ms: round(searchHttpMs),
      ratio: round(searchHttpMs / searchMs),
      against: 'the search alone',
    },
    { what: 'smallest request', ms: round(plainMs), ratio: round(plainMs / checkHttpMs), against: 'a check over HTTP' },
  ]);
  console.log(
    `Start on an empty folder to the first reply: ${Math.round(startMs)} ms. Memory at rest: ${Math.round(restMiB)} MiB.`,
  );
}

async function startOnce(): Promise<{ startMs: number; restMiB: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-bench-'));
  const begun = performance.now();
  const server = spawn(process.execPath, ['--max-semi-space-size=4', 'src/server.ts'], {
    env: { ...process.env, HEARTHBOOK_DATA: folder, HOST: '', PORT: '3959' },
    stdio: 'ignore',
  });
  try {
    for (let tries = 0; tries < 2000; tries++) {
      const reply = await fetch('http://127.0.0.1:3959/api/v1/health').catch(() => undefined);
      if (reply?.ok) break;
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    const startMs = performance.now() - begun;
    await new Promise((resolve) => setTimeout(resolve, 2000));
    // Resident pages, as Linux tells them.
    const kib = Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${server.pid}/status`, 'utf8'))![1]);
    return { startMs, restMiB: kib / 1024 };
  } finally {
    server.kill('SIGTERM');
    await new Promise((resolve) => server.once('exit', resolve));
    rmSync(folder, { recursive: true, force: true });
  }
}
