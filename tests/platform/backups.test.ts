import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { Decrypter } from 'age-encryption';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { startApp, type TestApp } from '../support/start-app.ts';

const run = promisify(execFile);
const KEY = /AGE-SECRET-KEY-1[0-9A-Z]{58}/;

function folders(): { data: string; away: string } {
  const top = mkdtempSync(join(tmpdir(), 'hearthbook-backups-'));
  onTestFinished(() => rmSync(top, { recursive: true, force: true }));
  const made = { data: join(top, 'data'), away: join(top, 'away') };
  for (const folder of Object.values(made)) mkdirSync(folder);
  return made;
}

async function putAwayIn(app: TestApp, folder: string): Promise<void> {
  const { body } = await app.owner.get('/settings').expect(200);
  await app.owner.patch('/settings', { backups: { folder } }).set('If-Match', `"${body.version}"`).expect(200);
}

async function aBackup(app: TestApp): Promise<Record<string, unknown> & { id: string; fileName: string }> {
  const { body } = await app.owner.post('/backups').expect(202);
  expect(body.state).toBe('running');
  await app.services.backups.idle();
  return (await app.owner.get(`/backups/${body.id}`).expect(200)).body;
}

/** What lies beside the book and its key. */
const beside = (data: string) =>
  readdirSync(data).filter((name) => !/^(hearthbook\.sqlite(-wal|-shm)?|backup-key\.txt)$/.test(name));

const restore = (data: string, file: string, env: Record<string, string> = {}) =>
  run(process.execPath, ['src/restore.ts', file], { env: { ...process.env, HEARTHBOOK_DATA: data, ...env } });

test('a backup is an age file that the printed key opens to the whole book', async () => {
  const { data, away } = folders();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  await app.owner.post('/clients').send({ name: 'Marlow Tern', email: 'marlow@example.org' }).expect(201);
  await putAwayIn(app, away);
  const backup = await aBackup(app);
  expect(backup).toMatchObject({ state: 'kept', failure: null });
  const closed = readFileSync(join(away, backup.fileName));
  expect(closed.length).toBe(backup['bytes']);
  expect(closed.toString('latin1')).toMatch(/^age-encryption\.org\/v1\n/);
  expect(closed.includes('Marlow Tern')).toBe(false);
  const { text } = await app.owner.get('/documents/recovery-form?format=html').expect(200);
  const identity = KEY.exec(text.replaceAll(/<[^>]+>|\s/g, ''))![0];
  const decrypter = new Decrypter();
  decrypter.addIdentity(identity);
  const opened = join(dirname(data), 'opened.sqlite');
  writeFileSync(opened, await decrypter.decrypt(closed));
  const book = new Database(opened, { readonly: true });
  expect(book.pragma('integrity_check', { simple: true })).toBe('ok');
  expect(book.prepare('SELECT name FROM clients').all()).toEqual([{ name: 'Marlow Tern' }]);
  book.close();
  // Nothing is left lying about that is not encrypted.
  expect(readdirSync(away)).toEqual([backup.fileName]);
  expect(beside(data)).toEqual([]);
});

test('the newest is opened and read through once a month, and what was changed in it is told', async () => {
  const { data, away } = folders();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  await putAwayIn(app, away);
  const due = async () => {
    app.services.backups.runDue();
    await app.services.backups.idle();
  };
  await due();
  await due();
  const [first] = (await app.owner.get('/backups').expect(200)).body.items;
  expect(first).toMatchObject({ state: 'kept', checkFailure: null });
  expect(first.checkedAt).not.toBeNull();
  expect(beside(data)).toEqual([]);
  app.clock.advance({ days: 31 });
  await due();
  const [newest] = (await app.owner.get('/backups').expect(200)).body.items;
  expect(newest.id).not.toBe(first.id);
  const file = join(away, newest.fileName);
  const bytes = readFileSync(file);
  bytes[bytes.length - 100]! ^= 1;
  writeFileSync(file, bytes);
  await due();
  expect((await app.owner.get(`/backups/${newest.id}`).expect(200)).body.checkFailure).toBeTruthy();
  const { warnings } = (await app.owner.get('/backups/standing').expect(200)).body;
  expect(warnings).toEqual([expect.stringContaining(newest.fileName)]);
});

test('a folder that is gone is told, and tried again an hour later; nothing else stands still', async () => {
  const { data, away } = folders();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  await putAwayIn(app, away);
  rmSync(away, { recursive: true });
  app.services.backups.runDue();
  await app.services.backups.idle();
  const standing = async () => (await app.owner.get('/backups/standing').expect(200)).body;
  expect((await standing()).warnings).toEqual([expect.stringMatching(/is the disk plugged in/)]);
  await app.owner.post('/clients').send({ name: 'Wren Sallow', email: 'wren@example.org' }).expect(201);
  mkdirSync(away);
  app.clock.advance({ minutes: 59 });
  app.services.backups.runDue();
  expect(readdirSync(away)).toEqual([]);
  app.clock.advance({ minutes: 1 });
  app.services.backups.runDue();
  await app.services.backups.idle();
  expect((await standing()).warnings).toEqual([]);
  expect(readdirSync(away)).toHaveLength(1);
});

test('a folder that is not there is no setting', async () => {
  const { data, away } = folders();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  const { body } = await app.owner
    .patch('/settings', { backups: { folder: join(away, 'no such'), time: '25:00' } }, 0)
    .expect(422);
  expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toContain('/backups/time');
  const second = await app.owner.patch('/settings', { backups: { folder: join(away, 'no such') } }, 0).expect(422);
  expect(second.body.errors).toEqual([expect.objectContaining({ pointer: '/backups/folder' })]);
  await app.owner.post('/backups').expect(409);
});

test('restore puts a backup in place with the key from paper, keeps what was there, and revives no session', async () => {
  const { data, away } = folders();
  const app = await startApp({ file: join(data, 'hearthbook.sqlite') });
  await app.owner.post('/clients').send({ name: 'Marlow Tern', email: 'marlow@example.org' }).expect(201);
  await putAwayIn(app, away);
  const { fileName } = await aBackup(app);
  const file = join(away, fileName);
  await expect(restore(data, file)).rejects.toThrow(/server still runs/);
  const key = readFileSync(join(data, 'backup-key.txt'), 'utf8').trim();
  const { data: other } = folders();
  await expect(
    restore(other, file, { HEARTHBOOK_BACKUP_KEY: key.replace(/.$/, (last) => (last === 'Q' ? 'P' : 'Q')) }),
  ).rejects.toThrow();
  expect(readdirSync(other)).toEqual([]);
  writeFileSync(join(other, 'hearthbook.sqlite'), 'not a book');
  const { stdout } = await restore(other, file, { HEARTHBOOK_BACKUP_KEY: key.toLowerCase().replaceAll(/(.{6})/g, '$1 ') });
  expect(stdout).toContain('The book is back');
  expect(readdirSync(other).filter((name) => name.includes('.before-'))).toHaveLength(1);
  const back = new Database(join(other, 'hearthbook.sqlite'), { readonly: true });
  expect(back.prepare('SELECT name FROM clients').all()).toEqual([{ name: 'Marlow Tern' }]);
  expect(back.prepare('SELECT count(*) AS n FROM tokens').get()).toEqual({ n: 0 });
  back.close();
});
