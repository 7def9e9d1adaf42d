import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { sql } from 'drizzle-orm';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { migrate, readMigrations } from '../../src/platform/db/migrate.ts';
import { aClient } from '../support/a-commission.ts';
import { startApp } from '../support/start-app.ts';

const at = new Date('2031-05-05T08:00:00Z');

function aFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-faults-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

test('with no room left writing is refused in words, reading goes on, and once there is room the same request is done once', async () => {
  const app = await startApp({ file: join(aFolder(), 'hearthbook.sqlite') });
  const { owner, db } = app;
  const clientId = await aClient(owner);
  const wish = 'A vessel with a long story. '.repeat(70);
  const fields = { kind: 'one_off', wish, dueOn: '2031-06-20', placeOfSale: 'DE', clientId };
  const send = (n: number) =>
    owner.post('/commissions', { title: `Beaker ${n}`, ...fields }).set('Idempotency-Key', `commission-${n}`);
  // SQLite answers as on a full disk when the file may grow no more.
  const { pages } = db.get<{ pages: number }>(sql`SELECT page_count AS pages FROM pragma_page_count()`);
  db.get(sql.raw(`PRAGMA max_page_count = ${pages}`));
  let refused = 0;
  for (; refused < 200; refused++) {
    const { status, body } = await send(refused);
    if (status === 201) continue;
    expect(body).toMatchObject({ type: '/api/v1/problems/no-room-on-disk', status: 507 });
    break;
  }
  const before = (await owner.get('/commissions?limit=200').expect(200)).body.items.length;
  expect(before).toBe(refused);
  expect(db.get(sql`PRAGMA integrity_check`)).toEqual({ integrity_check: 'ok' });
  db.get(sql.raw('PRAGMA max_page_count = 1000000'));
  const first = await send(refused).expect(201);
  const again = await send(refused).expect(201);
  expect(again.body.id).toBe(first.body.id);
  expect((await owner.get('/commissions?limit=200').expect(200)).body.items).toHaveLength(before + 1);
});

test('a book that takes no writing says so, and is read on', async () => {
  const app = await startApp({ file: join(aFolder(), 'hearthbook.sqlite') });
  app.db.run(sql.raw('PRAGMA query_only = ON'));
  const { body } = await app.owner.post('/clients', { name: 'Wren Sallow', email: 'wren@example.org' }).expect(503);
  expect(body.type).toBe('/api/v1/problems/book-not-writable');
  await app.owner.get('/clients').expect(200);
});

test('what came of work that went on by itself is written once the book takes writing again; a start before that succeeds', async () => {
  const data = aFolder();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  const { body: settings } = await app.owner.get('/settings').expect(200);
  await app.owner.patch('/settings', { backups: { folder: aFolder() } }, settings.version).expect(200);
  const { body } = await app.owner.post('/backups').expect(202);
  app.db.run(sql.raw('PRAGMA query_only = ON'));
  await app.services.backups.idle();
  const state = async () => (await app.owner.get(`/backups/${body.id}`).expect(200)).body.state;
  expect(await state()).toBe('running');
  app.services.lateNotes.again();
  expect(await state()).toBe('running');
  const next = await buildApp(app, { logLevel: 'silent' });
  await next.http.ready();
  expect(await state()).toBe('running');
  app.db.run(sql.raw('PRAGMA query_only = OFF'));
  next.services.lateNotes.again();
  expect(await state()).toBe('failed');
  app.services.lateNotes.again();
  expect(await state()).toBe('kept');
  await next.http.close();
});

test('a key of backups is there whole or not at all', async () => {
  const data = aFolder();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  const away = aFolder();
  const { body: settings } = await app.owner.get('/settings').expect(200);
  await app.owner.patch('/settings', { backups: { folder: away } }, settings.version).expect(200);
  const backUp = async () => {
    const { body } = await app.owner.post('/backups').expect(202);
    await app.services.backups.idle();
    return (await app.owner.get(`/backups/${body.id}`).expect(200)).body;
  };
  // A folder in its place takes no file.
  mkdirSync(join(data, 'backup-key.txt.new'));
  writeFileSync(join(data, 'backup-key.txt.new', 'in the way'), '');
  expect(await backUp()).toMatchObject({ state: 'failed' });
  expect(existsSync(join(data, 'backup-key.txt'))).toBe(false);
  rmSync(join(data, 'backup-key.txt.new'), { recursive: true });
  expect(await backUp()).toMatchObject({ state: 'kept', failure: null });
});

test('a damaged book stops the start with what to do, and is left byte for byte as it is', async () => {
  const folder = aFolder();
  const file = join(folder, 'hearthbook.sqlite');
  const damaged = Buffer.concat([Buffer.from('SQLite format 3\0'), Buffer.alloc(8000, 7)]);
  writeFileSync(file, damaged);
  const env = { ...process.env, HEARTHBOOK_DATA: folder, PORT: '0' };
  const server = spawn(process.execPath, ['src/server.ts'], { env, stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  server.stderr.on('data', (text: Buffer) => (said += text.toString()));
  const [code] = (await once(server, 'exit')) as [number];
  expect(code).toBe(1);
  expect(said).toContain('npm run restore');
  expect(said).not.toContain('    at ');
  expect(readFileSync(file).equals(damaged)).toBe(true);
});

test('before an update the book is kept beside itself as it was; an older program refuses the newer one', () => {
  const file = join(aFolder(), 'hearthbook.sqlite');
  const all = readMigrations();
  const old = new Database(file);
  migrate(old, at, all.slice(0, 5));
  old.close();
  openDb(file, at).close();
  const kept = new Database(`${file}.before-update`, { readonly: true });
  expect(kept.prepare('SELECT count(*) AS n FROM schema_migrations').get()).toEqual({ n: 5 });
  kept.close();
  rmSync(`${file}.before-update`);
  openDb(file, at).close();
  expect(existsSync(`${file}.before-update`)).toBe(false);
  const book = new Database(file);
  expect(() => migrate(book, at, all.slice(0, -1))).toThrow('written by a newer Hearthbook');
  book.close();
});
