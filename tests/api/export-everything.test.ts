import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { parse } from 'csv-parse/sync';
import { sql } from 'drizzle-orm';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, expect, onTestFinished, test } from 'vitest';
import { columnUnit } from '../../src/features/exports/column-unit.ts';
import { GIVEN, WITHHELD } from '../../src/features/exports/told-tables.ts';
import { writeZip } from '../../src/features/exports/write-zip.ts';
import { aSmallStudio } from '../support/a-small-studio.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

// A folder of its own: others make exports at the same time.
const OF_ALL = tmpdir();
const folder = mkdtempSync(join(OF_ALL, 'hearthbook-test-'));
process.env['TMPDIR'] = folder;
afterAll(() => rmSync(folder, { recursive: true }));

interface Manifest {
  format: string;
  formatVersion: number;
  exportedAt: string;
  schema: string;
  tables: {
    name: string;
    rows: number;
    json: string;
    csv: string;
    columns: { json: string; csv: string; kind: string; unit: string | null }[];
  }[];
  withheld: { table: string; column?: string }[];
}

async function takeAll(owner: Person) {
  const { body } = await owner
    .post('/exports')
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .expect(200)
    .expect('content-type', 'application/zip')
    .expect('content-disposition', 'attachment; filename="hearthbook-2031-05-05.zip"');
  const files = unzipSync(new Uint8Array(body as Buffer));
  const text = (path: string) => strFromU8(files[path]!);
  return { bytes: body as Buffer, files, text, manifest: JSON.parse(text('manifest.json')) as Manifest };
}

const tablesOf = ({ db }: TestApp) =>
  db
    .all<{ name: string }>(
      sql`SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> 'schema_migrations'`,
    )
    .map(({ name }) => name);
const leftBehind = () => readdirSync(folder);

/** Of a book on the disk, not in memory: it is copied on a thread. */
function aFile(): string {
  const data = mkdtempSync(join(OF_ALL, 'hearthbook-data-'));
  onTestFinished(() => rmSync(data, { recursive: true }));
  return join(data, 'hearthbook.sqlite');
}

test('every table of the book is given or withheld for a reason, and no other is named', async () => {
  const app = await startApp();
  // An index of words is made from the rest.
  const kept = tablesOf(app).filter((name) => !/^(searchable|now_)/.test(name));
  expect([...Object.keys(GIVEN), ...Object.keys(WITHHELD)].toSorted()).toEqual(kept.toSorted());
});

test('an export of everything has every row of every table, as JSON and as CSV alike, with units', async () => {
  const app = await aSmallStudio({ file: aFile() });
  const { files, text, manifest } = await takeAll(app.owner);
  expect(manifest).toMatchObject({ format: 'hearthbook-export', formatVersion: 1, exportedAt: app.clock.now().toISOString() });
  expect(manifest.tables.map(({ name }) => name).toSorted()).toEqual(Object.keys(GIVEN).toSorted());
  for (const { name, rows, json, csv, columns } of manifest.tables) {
    const inBook = app.db.all<Record<string, unknown>>(sql.raw(`SELECT * FROM "${name}" ORDER BY rowid`));
    const objects = JSON.parse(text(json)) as Record<string, unknown>[];
    const [header, ...lines] = parse(text(csv));
    expect([name, rows, objects.length, lines.length]).toEqual([name, ...Array<number>(3).fill(inBook.length)]);
    expect(header).toEqual(columns.map((column) => column.csv));
    for (const [row, object] of objects.entries()) {
      expect(Object.keys(object)).toEqual(columns.map((column) => column.json));
      for (const [place, { json: member, csv: called, kind }] of columns.entries()) {
        const kept = inBook[row]![called.replace(/_EUR$/, '')];
        const cell = lines[row]![place]!;
        const given = object[member];
        if (kind === 'file') {
          expect(Buffer.from(files[given as string]!)).toEqual(kept);
          continue;
        }
        const plain =
          kind === 'yes_no'
            ? given === null
              ? null
              : Number(given)
            : kind === 'json' && given !== null
              ? JSON.stringify(given)
              : given;
        expect(kind === 'json' && kept !== null ? JSON.stringify(JSON.parse(kept as string)) : kept).toEqual(plain);
        const shown = kind === 'yes_no' && given !== null ? (given ? 'yes' : 'no') : (plain ?? '');
        expect(cell.replace(/^'(?=[=+\-@])/, '')).toBe(String(shown as string | number));
      }
    }
  }
  const units = Object.fromEntries(manifest.tables.flatMap(({ columns }) => columns.map(({ csv, unit }) => [csv, unit])));
  expect(units).toMatchObject({
    received_tenth_mg: '0.1 mg',
    amount_minor_EUR: 'minor unit of EUR',
    solidus_c: '°C',
    unit_cost_per_g: 'EUR per g',
    name: null,
  });
  expect(text('README.txt')).toContain('Everything in the book of Our studio');
  expect((await app.owner.get('/journal?what=export')).body.items).toMatchObject([
    { after: { of: 'everything' }, person: 'Flint' },
  ]);
  expect(leftBehind()).toEqual([]);
});

test('nothing that opens a door leaves the book', async () => {
  const app = await aSmallStudio();
  const { owner, db } = app;
  await owner.post('/private-links', { commissionId: app.ids['commissions']![0] }).expect(201);
  const { files } = await takeAll(owner);
  const all = Object.values(files)
    .map((bytes) => Buffer.from(bytes).toString('latin1'))
    .join('\n');
  const secrets = tablesOf(app).flatMap((table) =>
    db
      .all<{ name: string }>(
        sql.raw(`SELECT name FROM pragma_table_info('${table}') WHERE name LIKE '%hash%' AND name <> 'request_hash'`),
      )
      .flatMap(({ name }) =>
        db
          .all<{ secret: string | null }>(sql.raw(`SELECT "${name}" AS secret FROM "${table}"`))
          .flatMap(({ secret }) => secret ?? []),
      ),
  );
  expect(secrets.length).toBeGreaterThan(6);
  for (const secret of [...secrets, app.ownerToken, app.signIn.password]) expect(all).not.toContain(secret);
  for (const table of Object.keys(WITHHELD)) expect(files[`json/${table}.json`]).toBeUndefined();
});

test('an export is the owner’s, and who goes away in the middle of it leaves nothing behind', async () => {
  const app = await startApp();
  const { desk, bench, student, stranger, owner, db } = app;
  for (const person of [desk, bench, student]) await person.post('/exports').expect(403);
  await stranger.post('/exports').expect(401);
  // Enough that it cannot all lie in the buffers on the way.
  const line = { at: app.clock.now().toISOString(), what: 'noise', thingId: 'x' };
  const noise = Array.from({ length: 20_000 }, (_one, index) => `${index}${Math.sin(index)}${Math.cos(index)}`.repeat(8));
  for (const after of noise)
    db.run(
      sql`INSERT INTO journal (at, what, thing_id, after) VALUES (${line.at}, ${line.what}, ${line.thingId}, ${JSON.stringify(after)})`,
    );
  const { token } = app.services.keys.addToken(app.actors.owner, { name: 'raw' });
  await new Promise<void>((resolve, reject) => {
    const asked = request(
      `${app.baseUrl}/api/v1/exports`,
      { method: 'POST', headers: { authorization: `Bearer ${token}` } },
      (answer) => {
        answer.once('data', () => {
          answer.destroy();
          resolve();
        });
      },
    );
    asked.once('error', reject);
    asked.end();
  });
  await expect.poll(leftBehind, { timeout: 20_000 }).toEqual([]);
  const { manifest, bytes } = await takeAll(owner);
  expect(manifest.tables.find(({ name }) => name === 'journal')!.rows).toBeGreaterThan(20_000);
  expect(bytes.length).toBeGreaterThan(1_000_000);
});

test('who goes away while the book is copied leaves nothing behind', async () => {
  const { db, baseUrl, owner, services, actors } = await startApp({ file: aFile() });
  db.run(sql`CREATE TABLE bulk AS SELECT randomblob(1000000) FROM (SELECT 1 FROM sqlite_schema LIMIT 100)`);
  const { token } = services.keys.addToken(actors.owner, { name: 'raw' });
  const asked = request(`${baseUrl}/api/v1/exports`, { method: 'POST', headers: { authorization: `Bearer ${token}` } });
  asked.on('error', () => {});
  asked.end();
  await expect.poll(leftBehind, { timeout: 20_000, interval: 5 }).toHaveLength(1);
  asked.destroy();
  await expect.poll(leftBehind, { timeout: 20_000 }).toEqual([]);
  await owner.get('/settings').expect(200);
});

test('whoever goes away at any moment of an export leaves a copy that is read no more', async () => {
  const { db } = await startApp();
  const file = join(mkdtempSync(join(tmpdir(), 'hearthbook-copy-')), 'book.sqlite');
  db.run(sql`VACUUM INTO ${file}`);
  const about = {
    exportedAt: '2031-05-05T08:00:00.000Z',
    studioName: 'Quillwharf Bench',
    currency: 'EUR',
    timeZone: 'UTC',
    schema: '',
  };
  for (let turns = 0; turns < 120; turns++) {
    const book = new Database(file, { readonly: true });
    const over = new Promise<void>((resolve) => {
      const zip = writeZip(book, about, () => {
        book.close();
        resolve();
      });
      zip.resume();
      void nextTurns(turns).then(() => zip.destroy());
    });
    await over;
    // A table asked for now would be read from a closed copy, and end the whole run.
    await nextTurns(10);
  }
  rmSync(dirname(file), { recursive: true });
});

async function nextTurns(turns: number): Promise<void> {
  for (let turn = 0; turn < turns; turn++) await new Promise(setImmediate);
}

test.each([
  ['remaining_tenth_mg', '0.1 mg'],
  ['price_minor', 'minor unit of EUR'],
  ['density_g_per_cm3', 'g/cm³'],
  ['strength_g_per_l', 'g/L'],
  ['price_per_g', 'EUR per g'],
  ['bench_minutes_per_day', 'min'],
  ['public_c', '°C'],
  ['title', null],
])('the unit of %s is %s', (name, unit) => {
  expect(columnUnit(name, 'EUR')).toBe(unit);
});
