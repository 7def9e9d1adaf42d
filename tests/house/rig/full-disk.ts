/**
 * A server's disk runs full while clients write, again and again, each time with another remainder of room. While it is full: every refusal
 * says so, reading goes on, nothing acknowledged is lost, nothing half-saved, and what was refused was not written. It may be killed then,
 * and starts again. Once there is room it takes writing by itself, and what was refused is done once when it is sent again with its key.
 */

import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { aSmallDisk, type SmallDisk } from './a-disk.ts';
import { startServer, type RunningServer } from './a-server.ts';
import { anOwner, aLot, backUpInto, type Caller } from './a-studio.ts';
import { faultsIn } from './faults-in-book.ts';
import { numbers } from './numbers.ts';
import { aPhoto, aWrite, call, send, type Sent } from './writes.ts';

const WRITERS = 3;
const MOST_ROOM_BYTES = 2_000_000;
/** More than fit into any room that is left. */
const MOST_WRITES = 2000;
const WISH = 'A vessel with a long story. '.repeat(70);

export interface FullDiskReport {
  rounds: number;
  acknowledged: number;
  refused: number;
  /** Starts on a disk that was full. */
  startsWhenFull: number;
  faults: string[];
}

/** @param seed of the room that is left @returns why there is no disk to fill here, where there is none */
export async function fullDisk(rounds: number, seed = 20_310): Promise<FullDiskReport | { why: string }> {
  const disk = await aSmallDisk({ memoryMb: 16 + 6 * rounds });
  if ('why' in disk) return disk;
  const aside = mkdtempSync(join(tmpdir(), 'hearthbook-full-disk-'));
  const report: FullDiskReport = { rounds, acknowledged: 0, refused: 0, startsWhenFull: 0, faults: [] };
  const random = numbers(seed);
  const known = new Set<string>();
  let server: RunningServer | undefined;
  try {
    server = await startServer(disk.folder, disk.within);
    const token = await anOwner(server);
    const lotId = await aLot({ ...server, token });
    await backUpInto({ ...server, token }, disk.folder);
    const first = await send({ ...server, token }, aWrite(0, lotId));
    known.add(first.body.id);
    for (let round = 0; round < rounds; round++) {
      const tell = (fault: string) => report.faults.push(`round ${round}: ${fault}`);
      leaveRoom(disk, random() * MOST_ROOM_BYTES);
      let caller: Caller = { ...server, token };
      const { answered, refused } = await writeUntilFull(caller, { lotId, commissionId: first.body.id, tell });
      for (const id of answered) known.add(id);
      report.acknowledged += answered.length;
      report.refused += refused.length;
      await begunWhenFull(caller, tell);
      if (round % 2 === 1) {
        await server.kill();
        server = await startServer(disk.folder, disk.within);
        caller = { ...server, token };
        report.startsWhenFull += 1;
      }
      for (const fault of await unread(caller, known)) tell(fault);
      const { faults, keys } = faultsIn(disk.copyOfBook(aside), known);
      for (const fault of faults) tell(fault);
      for (const { key, path } of refused) if (keys.has(key)) tell(`${path} was refused, and was written`);
      makeRoom(disk);
      for (const sent of refused) {
        const once = await send(caller, sent);
        const again = await send(caller, sent);
        if (once.status !== 201 || again.body.id !== once.body.id)
          tell(`with room again ${sent.path} answers ${once.status}, then ${again.status}: ${JSON.stringify(once.body)}`);
        else known.add(once.body.id);
      }
      const backup = await backedUp(caller);
      if (backup !== 'kept') tell(`with room again the backup is ${backup}`);
    }
    const audit = await call({ ...server, token }, '/stock/audit', { body: {} });
    if (!audit.body.ok) report.faults.push(`the stock audit finds ${JSON.stringify(audit.body)}`);
    await server.stop();
    report.faults.push(...faultsIn(disk.copyOfBook(aside), known).faults);
    return report;
  } finally {
    await server?.stop();
    await disk.close();
    rmSync(aside, { recursive: true, force: true });
  }
}

function leaveRoom(disk: SmallDisk, bytes: number): void {
  writeFileSync(disk.reach('filler'), Buffer.alloc(Math.max(0, disk.freeBytes() - bytes)));
}

function makeRoom(disk: SmallDisk): void {
  truncateSync(disk.reach('filler'), 0);
}

/** Several clients write, one of them photos, until each was refused. */
async function writeUntilFull(
  caller: Caller,
  { lotId, commissionId, tell }: { lotId: string; commissionId: string; tell: (fault: string) => void },
) {
  const answered: string[] = [];
  const refused: Sent[] = [];
  const writer = async (next: (n: number) => Sent | Promise<Sent>) => {
    for (let n = 0; n < MOST_WRITES; n++) {
      const sent = await next(n);
      const { status, body } = await send(caller, sent);
      if (status === 201) answered.push(body.id);
      else {
        refused.push(sent);
        if (status !== 507 || body.type !== '/api/v1/problems/no-room-on-disk')
          tell(`${sent.path} answers ${status}: ${JSON.stringify(body)}`);
        return;
      }
    }
    tell('the disk does not run full');
  };
  const writers = Array.from({ length: WRITERS }, (_, nth) => writer((n) => aWrite(n + nth, lotId, WISH)));
  await Promise.all([...writers, writer(() => aPhoto(commissionId))]);
  return { answered, refused };
}

/** What works on by itself ends in words, and does not take the server with it. */
async function begunWhenFull(caller: Caller, tell: (fault: string) => void): Promise<void> {
  await idle(caller);
  const { status, body } = await call(caller, '/backups', { body: {} });
  if (status !== 507 && status !== 202) tell(`a backup answers ${status}: ${JSON.stringify(body)}`);
  await idle(caller);
}

async function unread(caller: Caller, known: ReadonlySet<string>): Promise<string[]> {
  const lists = [
    '/commissions',
    '/stock-movements',
    '/photos',
    '/stock',
    '/journal',
    '/search?text=beaker',
    '/backups/standing',
    '/health',
  ];
  const faults: string[] = [];
  for (const path of [...lists, `/commissions/${[...known][0]!}`]) {
    const { status, body } = await call(caller, path);
    if (status !== 200) faults.push(`${path} answers ${status}: ${JSON.stringify(body)}`);
  }
  return faults;
}

async function backedUp(caller: Caller): Promise<string> {
  // A check that was due may be under way.
  await idle(caller);
  const { status, body } = await call(caller, '/backups', { body: {} });
  if (status !== 202) return JSON.stringify(body);
  await idle(caller);
  const backup = (await call(caller, `/backups/${body.id}`)).body as { state?: string; failure?: string };
  return backup.failure ?? backup.state!;
}

async function idle(caller: Caller): Promise<void> {
  for (;;) {
    const { working } = (await call(caller, '/backups/standing')).body as { working?: boolean };
    if (!working) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** A book grows with each round, and its disk with it: after so many another is begun. */
const ROUNDS_OF_A_DISK = 6;

export async function run(times = 60): Promise<void> {
  const total: FullDiskReport = { rounds: 0, acknowledged: 0, refused: 0, startsWhenFull: 0, faults: [] };
  for (let seed = 1; total.rounds < times; seed++) {
    const report = await fullDisk(Math.min(ROUNDS_OF_A_DISK, times - total.rounds), seed * 20_310);
    if ('why' in report) return console.log(`Not run: ${report.why}`);
    for (const count of ['rounds', 'acknowledged', 'refused', 'startsWhenFull'] as const) total[count] += report[count];
    total.faults.push(...report.faults.map((fault) => `disk ${seed}, ${fault}`));
  }
  const { faults, ...counts } = total;
  console.table([{ ...counts, faults: faults.length }]);
  for (const fault of faults) console.log(fault);
  if (faults.length > 0) process.exitCode = 1;
}
