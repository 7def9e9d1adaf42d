import { chmodSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { aSmallDisk, type SmallDisk } from '../house/rig/a-disk.ts';
import { startServer } from '../house/rig/a-server.ts';
import { anOwner, aLot, type Caller } from '../house/rig/a-studio.ts';
import { faultsIn } from '../house/rig/faults-in-book.ts';
import { aWrite, call, send, type Sent } from '../house/rig/writes.ts';

async function refusedToWrite(caller: Caller, sent: Sent): Promise<void> {
  const refused = await send(caller, sent);
  expect(refused).toMatchObject({ status: 503, body: { type: '/api/v1/problems/book-not-writable' } });
  for (const path of ['/commissions', '/stock-movements', '/stock', '/search?text=beaker', '/journal', '/health'])
    expect([path, (await call(caller, path)).status]).toEqual([path, 200]);
}

/** What a driver or a person does to a disk, inside it. */
function done(disk: SmallDisk, ...command: string[]): void {
  expect(disk.run(...command)).toEqual({ status: 0, said: '' });
}

test('on a disk that turns read only nothing is lost and reading goes on; it is written again by itself, or after a start', async (context) => {
  const disk = await aSmallDisk({ ext4Mb: 32 });
  if ('why' in disk) return context.skip(disk.why);
  let server = await startServer(disk.folder, disk.within);
  const aside = mkdtempSync(join(tmpdir(), 'hearthbook-read-only-'));
  onTestFinished(async () => {
    await server.stop();
    await disk.close();
    rmSync(aside, { recursive: true, force: true });
  });
  const token = await anOwner(server);
  const lotId = await aLot({ ...server, token });
  const known = new Set<string>();
  const written = async (sent: Sent) => {
    const { status, body } = await send({ ...server, token }, sent);
    expect(status).toBe(201);
    known.add(body.id);
    return body.id;
  };
  await written(aWrite(0, lotId));
  const book = ['', '-wal'].map((part) => join(disk.folder, `hearthbook.sqlite${part}`));

  // Files that nobody may write, by the file system itself.
  done(disk, 'chattr', '+i', ...book);
  const first = aWrite(0, lotId);
  await refusedToWrite({ ...server, token }, first);
  done(disk, 'chattr', '-i', ...book);
  const id = await written(first);
  expect(await written(first)).toBe(id);

  // What the system does to a disk on which it met an error.
  done(disk, 'mount', '-o', 'remount,abort', disk.folder);
  const second = aWrite(1, lotId);
  await refusedToWrite({ ...server, token }, second);
  await server.kill();
  await expect(startServer(disk.folder, disk.within)).rejects.toThrow(/mounted to be read only/);
  done(disk, 'umount', disk.folder);
  done(disk, 'mount', '-o', 'loop', join(disk.folder, '../image'), disk.folder);
  server = await startServer(disk.folder, disk.within);
  await written(second);
  expect(faultsIn(disk.copyOfBook(aside), known).faults).toEqual([]);
});

test('a folder that may not be written stops the start in words and leaves the book as it is; to a running server it does nothing', async (context) => {
  const disk = await aSmallDisk({ memoryMb: 12 });
  if ('why' in disk) return context.skip(disk.why);
  // Root without the powers of root: it is held to the modes of files like anybody.
  const within = [...disk.within, 'setpriv', '--bounding-set', '-all'];
  let server = await startServer(disk.folder, within);
  onTestFinished(async () => {
    await server.stop();
    await disk.close();
  });
  const token = await anOwner(server);
  const lotId = await aLot({ ...server, token });
  chmodSync(disk.reach(''), 0o555);
  expect((await send({ ...server, token }, aWrite(0, lotId))).status).toBe(201);
  await server.kill();
  const book = () => readFileSync(disk.reach('hearthbook.sqlite'));
  const before = book();
  done(disk, 'mount', '-o', 'remount,ro', disk.folder);
  await expect(startServer(disk.folder, within)).rejects.toThrow(/Cannot open the book .*mounted to be read only/);
  done(disk, 'mount', '-o', 'remount,rw', disk.folder);
  chmodSync(disk.reach('hearthbook.sqlite'), 0o444);
  await expect(startServer(disk.folder, within)).rejects.toThrow(/whether this user may write there/);
  expect(book().equals(before)).toBe(true);
  chmodSync(disk.reach('hearthbook.sqlite'), 0o644);
  chmodSync(disk.reach(''), 0o755);
  server = await startServer(disk.folder, within);
  const { items } = (await call({ ...server, token }, '/commissions')).body as unknown as { items: object[] };
  expect(items).toHaveLength(1);
});
