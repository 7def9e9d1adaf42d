import { existsSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { hashSecret } from '../../src/features/people/passwords.ts';
import { migrate, readMigrations } from '../../src/platform/db/migrate.ts';
import { startServer, type RunningServer } from '../house/rig/a-server.ts';
import { call } from '../house/rig/writes.ts';

const at = new Date('2031-05-05T08:00:00Z');
const migrations = readMigrations();
const older = migrations.slice(0, 8);
const id = (n: number) => `01dc0000-0000-7000-8000-00000000000${n}`;
const token = 'a-token-that-outlives-the-update';

/** As a program of the eighth schema left it; the last line of its journal is of a time to come. */
function anOlderBook(file: string): void {
  const book = new Database(file);
  migrate(book, at, older);
  book.exec(`
    INSERT INTO people (id, name, roles, created_at) VALUES ('${id(1)}', 'Flint', '["owner"]', '2031-05-05T08:00:00.000Z');
    INSERT INTO tokens (id, person_id, name, token_hash, created_at) VALUES ('${id(2)}', '${id(1)}', 'rig', '${hashSecret(token)}', '2031-05-05T08:00:00.000Z');
    INSERT INTO commissions (id, number, title, kind, quantity, state, state_since, created_at)
      VALUES ('${id(3)}', 'C31-001', 'Ring', 'own_stock', 1, 'shaping', '2031-05-05T08:00:00.000Z', '2031-05-05T08:00:00.000Z');
    INSERT INTO journal (at, person_id, what, thing_id) VALUES ('2999-05-05T08:00:00.000Z', '${id(1)}', 'commission', '${id(3)}')`);
  book.close();
}

test('an update keeps the book as it was beside it, brings it up to date and serves it; put back, it opens in the older program', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-update-'));
  let server: RunningServer | undefined;
  onTestFinished(async () => {
    await server?.stop();
    rmSync(folder, { recursive: true, force: true });
  });
  const file = join(folder, 'hearthbook.sqlite');
  const titles = async () => {
    const { status, body } = await call({ ...server!, token }, '/commissions');
    expect({ status, body }).toMatchObject({ status: 200 });
    return (body as unknown as { items: { title: string }[] }).items.map(({ title }) => title);
  };
  const olderOpens = () => {
    const book = new Database(file);
    try {
      migrate(book, at, older);
      return book.prepare('SELECT title FROM commissions').pluck().all();
    } finally {
      book.close();
    }
  };
  anOlderBook(file);
  server = await startServer(folder);
  expect(await titles()).toEqual(['Ring']);
  expect(server.said()).toMatch(/the book was last written at 2999-05-05T08:00:00.000Z: set the clock/);
  expect(existsSync(`${file}.before-update`)).toBe(true);
  const body = { title: 'Beaker', kind: 'own_stock' };
  expect((await call({ ...server, token }, '/commissions', { body })).status).toBe(201);
  // As a crash leaves it: with its log of writes.
  await server.kill();
  expect(olderOpens).toThrow('written by a newer Hearthbook');

  for (const part of ['-wal', '-shm']) rmSync(file + part, { force: true });
  renameSync(`${file}.before-update`, file);
  expect(olderOpens()).toEqual(['Ring']);
  server = await startServer(folder);
  expect(await titles()).toEqual(['Ring']);
  expect(existsSync(`${file}.before-update`)).toBe(true);
});
