import Database from 'better-sqlite3';
import { migrate, type Migration } from '../../src/platform/db/migrate.ts';

export type Row = Record<string, unknown>;
export type Book = ReadonlyMap<string, Row[]>;

const at = new Date('2031-05-05T08:00:00Z');
/** Made by the migrations themselves, or by triggers of what they are about. */
const MADE = /^(sqlite_|schema_migrations$|searchable|now_)/;

/** Sums of the ledgers that triggers keep. */
const SUMS = ['now_solder_lots', 'now_solder_products', 'now_solder_pieces', 'now_metal_lots', 'now_metal_holds'];

/** Every row of every table that services write. */
export function contentsOf(book: Database.Database): Book {
  const names = book.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY rowid").pluck().all();
  const rows = (table: string) => book.prepare<[], Row>(`SELECT * FROM ${table} ORDER BY rowid`).all();
  return new Map(names.filter((name) => !MADE.test(name)).map((name) => [name, rows(name)]));
}

/** What triggers, or the migration that made them, have added up. */
export function sumsOf(book: Database.Database): Record<string, Row[]> {
  return Object.fromEntries(SUMS.map((table) => [table, book.prepare<[], Row>(`SELECT * FROM ${table}`).all()]));
}

/** A book as a program of those migrations would have left it: all rows and columns of a full one that it knew. */
export function bookOfSchema(migrations: Migration[], full: Book, file = ':memory:'): Database.Database {
  const book = new Database(file);
  migrate(book, at, migrations);
  for (const table of contentsOf(book).keys()) {
    const rows = full.get(table)!;
    const columns = (book.pragma(`table_info(${table})`) as { name: string }[])
      .map(({ name }) => name)
      .filter((name) => name in rows[0]!);
    const insert = book.prepare(
      `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map((name) => `@${name}`).join(', ')})`,
    );
    for (const row of rows) insert.run(row);
  }
  return book;
}

/** A book with at least one row in every table: to what a book has, what it lacks. */
export function filledUp(book: Book): Book {
  const first = (table: string, isIt: (row: Row) => boolean = () => true) => book.get(table)!.find(isIt)!;
  const { id: personId } = first('people', ({ roles }) => String(roles).includes('owner'));
  const design = first('designs');
  const plan = first('plans', ({ piece_id }) => piece_id === design['piece_id']);
  const piece = first('pieces', ({ id }) => id === design['piece_id']);
  const [createdAt, day] = [at.toISOString(), '2031-05-05'];
  const made = { created_at: createdAt, version: 1 };
  const photo = {
    id: id(1),
    commission_id: piece['commission_id'],
    piece_id: piece['id'],
    taken_at: createdAt,
    added_by: personId,
  };
  const lacking: Readonly<Record<string, Row>> = {
    shared_tablets: { id: id(2), name: 'Anvil', token_hash: 'tablet', added_by: personId },
    sessions: {
      id: id(3),
      person_id: personId,
      token_hash: 'session',
      expires_at: createdAt,
      tablet_id: id(2),
      touched_at: createdAt,
    },
    pins: { person_id: personId, pin_hash: 'pin' },
    pin_tries: { who: `person ${String(personId)}`, wrong: 2 },
    one_time_codes: { id: id(4), person_id: personId, purpose: 'pin', code_hash: 'code', expires_at: createdAt },
    preferences: { person_id: personId, language: 'de', units: null },
    plan_searches: {
      id: id(5),
      piece_id: piece['id'],
      design_id: design['id'],
      person_id: personId,
      state: 'interrupted',
      design: design['body'],
      made_joints: '[]',
      bench: plan['bench'],
      solders: plan['solders'],
      options: '{}',
      failure: 'The server was stopped before there was an answer: ask again',
      ended_at: createdAt,
    },
    scrap_return_pieces: {
      return_id: first('scrap_returns')['id'],
      jar: 'sterling filings',
      piece_id: piece['id'],
      expected_fine_tenth_mg: 12,
    },
    joint_guesses: {
      id: id(14),
      person_id: personId,
      plan_id: plan['id'],
      heat: 1,
      joint: 'seam',
      guess: 'solid',
      predicted: 'softens',
      at: createdAt,
    },
    private_links: {
      id: id(6),
      commission_id: piece['commission_id'],
      token_hash: 'link',
      state: 'ended',
      visits: 3,
      made_by: personId,
    },
    client_messages: { id: id(7), commission_id: piece['commission_id'], link_id: id(6), words: 'A little wider, please' },
    client_looks: { id: id(13), client_id: first('clients')['id'], person_id: personId, way: 'paper', at: createdAt },
    forgetting: { client_id: first('clients')['id'] },
    absences: { id: id(8), person_id: personId, first_on: day, last_on: day, weekly: 0, reason: 'a fair' },
    month_locks: { id: id(9), month: '2031-04', person_id: personId },
    bench_steps: {
      person_id: personId,
      key: 'step-0001',
      request_hash: 'step',
      kind: 'time',
      device_id: 'tablet-1',
      device_seq: 1,
      occurred_at: createdAt,
      recorded_at: createdAt,
      answer: '{"key":"step-0001","status":201,"result":{},"problem":null}',
      first_line: 1,
      last_line: 1,
    },
    learned_factors: {
      id: id(10),
      operation: 'filing',
      factor: 1.2,
      spread: 0.3,
      pieces: 5,
      evidence: '{"says":"a fifth longer","records":[]}',
      accepted_by: personId,
    },
    metal_holds: {
      id: id(11),
      kind: 'hold',
      piece_id: piece['id'],
      metal: piece['metal'],
      held_tenth_mg: 120_000,
      at: createdAt,
      recorded_at: createdAt,
      person_id: personId,
    },
    safety_sheets: {
      product_id: first('solder_products')['id'],
      media_type: 'application/pdf',
      sha256: 'sheet',
      bytes: Buffer.from('%PDF'),
    },
    photos: {
      ...photo,
      caption: 'before the fire',
      shows_person: 0,
      client_may_see: 1,
      width_px: 640,
      height_px: 360,
      sha256: 'picture',
    },
    photo_files: { photo_id: id(1), size: 'full', bytes: Buffer.from('picture') },
    dip_reversals: { id: id(13), dip_id: first('bath_dips')['id'], reason: 'the other bath', at: createdAt, person_id: personId },
    backups: {
      id: id(12),
      begun_at: createdAt,
      ended_at: createdAt,
      state: 'failed',
      folder: '/media/stick',
      file_name: 'hearthbook-1.sqlite.age',
      failure: 'the disk is gone',
    },
  };
  const empty = [...book].flatMap(([table, rows]) => (rows.length === 0 ? [table] : []));
  const missing = empty.filter((table) => !(table in lacking));
  if (missing.length > 0) throw new Error(`Say in lacking what a row of these tables is: ${missing.join(', ')}`);
  return new Map([...book, ...empty.map((table): [string, Row[]] => [table, [{ ...made, ...lacking[table] }]])]);
}

const id = (n: number): string => `01dc0000-0000-7000-8000-${String(n).padStart(12, '0')}`;
