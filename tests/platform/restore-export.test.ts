import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import Database from 'better-sqlite3';
import { sql } from 'drizzle-orm';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import { GIVEN } from '../../src/features/exports/told-tables.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { aSmallStudio } from '../support/a-small-studio.ts';

const run = promisify(execFile);

/** Every table that an export gives, row by row, without what opens doors. */
function told(all: (query: string) => Record<string, unknown>[]): Record<string, unknown[]> {
  return Object.fromEntries(
    Object.entries(GIVEN).map(([table, { without = [] }]) => {
      const rows = all(`SELECT * FROM "${table}" ORDER BY rowid`);
      return [table, rows.map((row) => Object.fromEntries(Object.entries(row).filter(([name]) => !without.includes(name))))];
    }),
  );
}

test('an export of everything is a whole book again, row for row, and finds what was searched for', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-export-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const studio = await aSmallStudio();
  const { body } = await studio.owner
    .post('/exports')
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .expect(200);
  const zip = join(folder, 'hearthbook.zip');
  writeFileSync(zip, body as Buffer);
  const { stdout } = await run(process.execPath, ['src/restore.ts', zip], { env: { ...process.env, HEARTHBOOK_DATA: folder } });
  expect(stdout).toContain('npm run reset-owner');

  const file = join(folder, 'hearthbook.sqlite');
  const back = new Database(file, { readonly: true });
  const before = told((query) => studio.db.all(sql.raw(query)));
  expect(Object.values(before).filter((rows) => rows.length > 0).length).toBeGreaterThan(30);
  expect(told((query) => back.prepare<[], Record<string, unknown>>(query).all())).toEqual(before);
  expect(back.prepare('SELECT count(*) AS n FROM people WHERE password_hash IS NOT NULL').get()).toEqual({ n: 0 });
  back.close();

  const { db, close } = openDb(file, studio.clock.now());
  const { http, services } = await buildApp({ db, clock: studio.clock }, { logLevel: 'silent' });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  expect(services.stock.audit()).toMatchObject({ ok: true, findings: [] });
  const [client] = before['clients'] as { name: string }[];
  expect(services.search.find(studio.actors.owner, { text: client!.name, limit: 5 }).items.length).toBeGreaterThan(0);
});

test('what is no export, or a damaged one, is refused in words, and nothing is put in its place', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-export-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const zip = join(folder, 'holiday.zip');
  writeFileSync(zip, 'PK but no zip');
  const env = { ...process.env, HEARTHBOOK_DATA: join(folder, 'data') };
  await expect(run(process.execPath, ['src/restore.ts', zip], { env })).rejects.toThrow(/Nothing was changed/);
  await expect(run(process.execPath, ['src/restore.ts', join(folder, 'none.zip')], { env })).rejects.toThrow(/There is no file/);
});
