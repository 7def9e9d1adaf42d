import { mkdirSync, mkdtempSync, readdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { aSmallDisk } from '../house/rig/a-disk.ts';
import { startServer } from '../house/rig/a-server.ts';
import { anOwner, aLot, backUpInto } from '../house/rig/a-studio.ts';
import { fullDisk } from '../house/rig/full-disk.ts';
import { aWrite, call, send } from '../house/rig/writes.ts';

test(
  'a disk that runs full under writing clients loses nothing, halves nothing, and is written again once there is room',
  { timeout: 600_000 },
  async (context) => {
    const report = await fullDisk(3);
    if ('why' in report) return context.skip(report.why);
    expect(report.faults).toEqual([]);
    expect(report.startsWhenFull).toBe(1);
    expect(report.acknowledged).toBeGreaterThan(5);
    expect(report.refused).toBe(12);
  },
);

test('a disk of backups that is full is told in words, holds up no work, leaves nothing half, and is used once there is room', async (context) => {
  const disk = await aSmallDisk({ memoryMb: 4 });
  if ('why' in disk) return context.skip(disk.why);
  const data = mkdtempSync(join(tmpdir(), 'hearthbook-backups-'));
  const server = await startServer(data, disk.within);
  onTestFinished(async () => {
    await server.stop();
    await disk.close();
    rmSync(data, { recursive: true, force: true });
  });
  const caller = { ...server, token: await anOwner(server) };
  mkdirSync(disk.reach('away'));
  await backUpInto(caller, join(disk.folder, 'away'));
  const backUp = async () => {
    const { body } = await call(caller, '/backups', { body: {} });
    await expect.poll(async () => (await call(caller, '/backups/standing')).body).toMatchObject({ working: false });
    return (await call(caller, `/backups/${body.id}`)).body;
  };
  writeFileSync(disk.reach('filler'), Buffer.alloc(disk.freeBytes() - 100_000));
  expect(await backUp()).toMatchObject({ state: 'failed', failure: 'no room is left on the disk' });
  expect(readdirSync(disk.reach('away'))).toEqual([]);
  const { body } = await call(caller, '/backups/standing');
  expect(body).toMatchObject({ warnings: [expect.stringMatching(/failed.*no room is left on the disk/)] });
  expect((await send(caller, aWrite(0, await aLot(caller)))).status).toBe(201);
  truncateSync(disk.reach('filler'), 0);
  expect(await backUp()).toMatchObject({ state: 'kept', failure: null });
  expect(readdirSync(disk.reach('away'))).toHaveLength(1);
});
