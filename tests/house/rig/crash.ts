/**
 * The server is killed at random moments while clients write. After each kill: the file is whole, nothing was half-saved, all that was
 * acknowledged is there, and what was under way is sent again with its key and is done once.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { faultsIn } from './faults-in-book.ts';
import { startServer, type RunningServer } from './a-server.ts';
import { anOwner, aLot, type Caller } from './a-studio.ts';
import { numbers } from './numbers.ts';
import { aWrite, call, send, type Sent } from './writes.ts';

const WRITERS = 4;
const SHORTEST_MS = 5;
const LONGEST_MS = 250;

export interface CrashReport {
  kills: number;
  acknowledged: number;
  /** Sent, and killed before an answer came; sent again afterwards. */
  underWay: number;
  /** Of those, how many had been written before the kill. */
  writtenAlready: number;
  startsMs: number[];
  faults: string[];
}

/** @param seed of the moments of the kills @param tell hears how it stands after each kill */
export async function crash(kills: number, seed = 1, tell?: (report: CrashReport) => void): Promise<CrashReport> {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-crash-'));
  const report: CrashReport = { kills: 0, acknowledged: 0, underWay: 0, writtenAlready: 0, startsMs: [], faults: [] };
  const random = numbers(seed);
  let server: RunningServer | undefined;
  try {
    server = await startServer(folder);
    const token = await anOwner(server);
    const lotId = await aLot({ ...server, token });
    const known = new Set<string>();
    let unanswered: Sent[] = [];
    for (let kill = 0; kill < kills; kill++) {
      const caller = { address: server.address, token };
      for (const sent of unanswered) {
        const { status, body } = await send(caller, sent);
        if (status !== 201)
          report.faults.push(`kill ${kill}: ${sent.path} sent again with its key answers ${status}: ${JSON.stringify(body)}`);
        else known.add(body.id);
      }
      const { answered, unanswered: left } = await writeUntilKilled(server, caller, {
        lotId,
        ms: SHORTEST_MS + random() * (LONGEST_MS - SHORTEST_MS),
      });
      for (const id of answered) known.add(id);
      report.acknowledged += answered.length;
      report.underWay += left.length;
      const { faults, keys } = faultsIn(join(folder, 'hearthbook.sqlite'), known);
      report.faults.push(...faults.map((fault) => `kill ${kill}: ${fault}`));
      report.writtenAlready += left.filter(({ key }) => keys.has(key)).length;
      unanswered = left;
      server = await startServer(folder);
      report.startsMs.push(server.startedInMs);
      report.kills += 1;
      tell?.(report);
    }
    const audit = await call({ ...server, token }, '/stock/audit', { body: {} });
    if (!audit.body.ok) report.faults.push(`the stock audit finds ${JSON.stringify(audit.body)}`);
    return report;
  } finally {
    await server?.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Several clients write until the server is gone. */
async function writeUntilKilled(server: RunningServer, caller: Caller, { lotId, ms }: { lotId: string; ms: number }) {
  const answered: string[] = [];
  const unanswered: Sent[] = [];
  const killed = new AbortController();
  const writer = async (nth: number) => {
    for (let n = nth; !killed.signal.aborted; n++) {
      const sent = aWrite(n, lotId);
      try {
        const { status, body } = await send(caller, sent);
        if (status !== 201) throw new Error(`${sent.path} answers ${status}: ${JSON.stringify(body)}`);
        answered.push(body.id);
      } catch (error) {
        if (!killed.signal.aborted) throw error;
        unanswered.push(sent);
      }
    }
  };
  const writing = Promise.all(Array.from({ length: WRITERS }, (_, nth) => writer(nth)));
  // They end before the kill only by what they were refused.
  await Promise.race([writing, new Promise((resolve) => setTimeout(resolve, ms))]);
  killed.abort();
  await server.kill();
  await writing;
  return { answered, unanswered };
}

export async function run(times = 1000, seed = 1): Promise<void> {
  const { faults, startsMs, ...counts } = await crash(times, seed, ({ kills, acknowledged, faults: found }) => {
    if (kills % 100 === 0) console.log(`${kills} kills, ${acknowledged} acknowledged, ${found.length} faults`);
  });
  console.table([
    { ...counts, faults: faults.length, medianStartMs: Math.round(startsMs.toSorted((a, b) => a - b)[startsMs.length >> 1]!) },
  ]);
  for (const fault of faults) console.log(fault);
  if (faults.length > 0) process.exitCode = 1;
}
