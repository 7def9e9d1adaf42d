import Database from 'better-sqlite3';
import { migrate } from '../../src/platform/db/migrate.ts';

/** How far apart copies of the settled work lie: eleven pieces each, so some three thousand pieces a year. */
const STEP_S = 116_000;
/** A delivery of each solder serves so many copies. */
const COPIES_A_LOT = 40;

/** Rows of settled work, each by what makes it settled work. */
const COMMISSIONS = "SELECT id FROM model.commissions WHERE state = 'settled'";
const PIECES = `SELECT id FROM model.pieces WHERE commission_id IN (${COMMISSIONS})`;
const HEATS = `SELECT id FROM model.heats WHERE piece_id IN (${PIECES})`;
const QUOTES = `SELECT id FROM model.quotes WHERE commission_id IN (${COMMISSIONS})`;
const PACKETS = `SELECT packet_id FROM model.hallmark_packet_pieces WHERE piece_id IN (${PIECES})`;
const COPIED: Readonly<Record<string, string>> = {
  clients: `id IN (SELECT client_id FROM model.commissions WHERE id IN (${COMMISSIONS}))`,
  commissions: `id IN (${COMMISSIONS})`,
  pieces: `id IN (${PIECES})`,
  designs: `piece_id IN (${PIECES})`,
  plans: `piece_id IN (${PIECES})`,
  heats: `id IN (${HEATS})`,
  joints: `piece_id IN (${PIECES})`,
  caution_ticks: `heat_id IN (${HEATS})`,
  solder_history: `piece_id IN (${PIECES})`,
  stock_movements: `piece_id IN (${PIECES})`,
  bath_dips: `heat_id IN (${HEATS})`,
  incidents: `piece_id IN (${PIECES})`,
  bench_times: `piece_id IN (${PIECES})`,
  quotes: `id IN (${QUOTES})`,
  sent_letters: `quote_id IN (${QUOTES})`,
  payments: `commission_id IN (${COMMISSIONS})`,
  client_letters: `commission_id IN (${COMMISSIONS})`,
  hallmark_packets: `id IN (${PACKETS})`,
  hallmark_packet_pieces: `piece_id IN (${PIECES})`,
  journal: `thing_id IN (${COMMISSIONS} UNION ${PIECES} UNION ${HEATS})`,
};

/** whole: as the model's; states: lines that change a state, and of them what reports read; none: nor what was ticked. */
export type Journal = 'whole' | 'states' | 'none';

/** What the book counts by numbers of people. */
const LINES = new Set(['journal', 'caution_ticks']);
const NUMBERED = new Set(['number', 'name']);

export interface Grown {
  pieces: number;
  rows: number;
}

/**
 * Fills a new book with the years before the model's: its settled work again and again, back in time, each copy with ids, numbers and
 * times of its own and with deliveries of the solder it took; then all of the model as it is. Plain SQL on the real schema, so that the
 * triggers of the book run, and its checks and keys hold.
 *
 * @param file of the new book
 * @param model path of a book with settled work in it
 */
export function growBook(
  file: string,
  model: string,
  { pieces, journal = 'states', at }: { pieces: number; journal?: Journal; at: Date },
): Grown {
  const book = new Database(file);
  book.pragma('journal_mode = WAL');
  book.pragma('synchronous = OFF');
  migrate(book, at);
  book.pragma('foreign_keys = OFF');
  book.function('copy_id', { deterministic: true }, (id, copy) => copyId(id as string | null, copy as number));
  book.prepare('ATTACH ? AS model').run(model);
  const a = (sql: string) => book.prepare(sql).pluck().get() as number;
  book.pragma('cache_size = -500000');
  const copied = Object.entries(COPIED).filter(([table]) => journal !== 'none' || !LINES.has(table));
  const copies = Math.ceil((pieces - a('SELECT count(*) FROM model.pieces')) / a(`SELECT count(*) FROM (${PIECES})`));
  // First the people, the products and whatever else the copied rows point to; last what they are copies of.
  const kept = modelTables(book).filter((table) => !(table in COPIED));
  book.transaction(() => {
    for (const table of kept) book.exec(`INSERT INTO ${table} SELECT * FROM model.${table}`);
  })();
  // One step in time after the other, so that ledgers and journal are in their order.
  for (let oldest = copies, newest; oldest > 0; oldest = newest - 1) {
    // Counted from the newest, so that the last months of a short and of a long book are the same.
    newest = oldest - ((oldest - 1) % COPIES_A_LOT);
    book.transaction(() => {
      deliver(book, oldest, oldest - newest + 1);
      openBath(book, oldest);
      for (const [table, which] of copied) copyRows(book, { table, which, oldest, newest, journal });
      sendJar(book, oldest, newest);
    })();
  }
  book.transaction(() => {
    for (const table of Object.keys(COPIED)) {
      const columns = columnsOf(book, table).filter((column) => column !== 'seq');
      book.exec(`INSERT INTO ${table} (${columns.join()}) SELECT ${columns.join()} FROM model.${table} ORDER BY rowid`);
    }
  })();
  const grown = {
    pieces: a('SELECT count(*) FROM pieces'),
    rows: modelTables(book).reduce((sum, table) => sum + a(`SELECT count(*) FROM ${table}`), 0),
  };
  const broken = book.pragma('foreign_key_check') as unknown[];
  if (broken.length > 0)
    throw new Error(`The grown book has ${broken.length} rows that point nowhere: ${JSON.stringify(broken[0])}`);
  // No ANALYZE: a studio's book has none, and is asked without.
  book.exec('DETACH model');
  book.pragma('wal_checkpoint(TRUNCATE)');
  book.close();
  return grown;
}

/** Tables with rows of their own: not the record of migrations, nor what triggers keep. */
function modelTables(book: Database.Database): string[] {
  return (book.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY rowid").pluck().all() as string[]).filter(
    (name) => !/^(sqlite_|schema_migrations|searchable|now_)/.test(name),
  );
}

function columnsOf(book: Database.Database, table: string): string[] {
  return book.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
}

/** An id of its own for each copy, with the time of the copy in front, as ids of the seventh kind have it. */
function copyId(id: string | null, copy: number): string | null {
  if (id === null || !/^[\da-f]{8}-[\da-f]{4}-7/.test(id)) return id;
  const ms = parseInt(id.slice(0, 8) + id.slice(9, 13), 16) - copy * STEP_S * 1000;
  const time = ms.toString(16).padStart(12, '0');
  const tail = ((parseInt(id.slice(28), 16) ^ copy) >>> 0).toString(16).padStart(8, '0');
  return `${time.slice(0, 8)}-${time.slice(8)}${id.slice(13, 28)}${tail}`;
}

/** The lot a copy draws from: of its group, by the oldest copy in it. */
function deliver(book: Database.Database, oldest: number, copies: number): void {
  const used = `SELECT -sum(on_hand_tenth_mg) * ${copies} FROM model.stock_movements WHERE kind = 'use' AND lot_id = lot.id AND piece_id IN (${PIECES})`;
  const columns = columnsOf(book, 'solder_lots');
  const values = columns.map(
    (column) =>
      ({
        id: `copy_id(id, ${oldest})`,
        number: `number || '-${oldest}'`,
        received_on: `date(received_on, '-${oldest * STEP_S} seconds')`,
        received_tenth_mg: `(${used})`,
        state: "'finished'",
        created_at: shifted(column, oldest),
      })[column] ?? column,
  );
  book.exec(
    `INSERT INTO solder_lots (${columns.join()}) SELECT ${values.join()} FROM model.solder_lots AS lot WHERE (${used}) > 0`,
  );
  book.exec(
    `INSERT INTO stock_movements (id, kind, product_id, lot_id, on_hand_tenth_mg, held_tenth_mg, at, recorded_at, person_id)
     SELECT copy_id(m.id, ${oldest}), 'receive', m.product_id, lot.id, lot.received_tenth_mg, 0, lot.created_at, lot.created_at, m.person_id
     FROM model.stock_movements AS m JOIN solder_lots AS lot ON lot.id = copy_id(m.lot_id, ${oldest}) WHERE m.kind = 'receive'`,
  );
}

/** The bath of a group, given away long ago. */
function openBath(book: Database.Database, oldest: number): void {
  const columns = columnsOf(book, 'pickle_baths');
  const own: Record<string, string> = {
    id: `copy_id(id, ${oldest})`,
    number: `number || '-${oldest}'`,
    opened_on: `date(opened_on, '-${oldest * STEP_S} seconds')`,
    state: "'gone'",
  };
  const values = columns.map((column) => own[column] ?? column);
  book.exec(`INSERT INTO pickle_baths (${columns.join()}) SELECT ${values.join()} FROM model.pickle_baths`);
}

/** The filings of a group, sent to the refiner. */
function sendJar(book: Database.Database, oldest: number, newest: number): void {
  const id = `copy_id((SELECT id FROM model.pieces LIMIT 1), ${oldest} + 1000000)`;
  book.exec(
    `INSERT INTO scrap_returns (id, number, jar, refiner, weighed_tenth_mg, sent_on, created_at)
     SELECT ${id}, 'S-${oldest}', 'filings', 'Alder Street Metals', 1000000, date(created_at), created_at FROM pieces ORDER BY rowid DESC LIMIT 1;
     WITH RECURSIVE copies (copy) AS (SELECT ${oldest} UNION ALL SELECT copy - 1 FROM copies WHERE copy > ${newest})
     INSERT INTO scrap_return_pieces SELECT ${id}, 'filings', copy_id(id, copy), 0 FROM copies CROSS JOIN model.pieces WHERE id IN (${PIECES});`,
  );
}

const shifted = (column: string, copy: number | string) =>
  `strftime('%Y-%m-%dT%H:%M:%fZ', ${column}, '-' || (${copy} * ${STEP_S}) || ' seconds')`;

interface CopiedRows {
  table: string;
  which: string;
  oldest: number;
  newest: number;
  journal: Journal;
}

function copyRows(book: Database.Database, { table, which, oldest, newest, journal }: CopiedRows): void {
  const keys = new Map(
    (book.pragma(`foreign_key_list(${table})`) as { from: string; table: string }[]).map((key) => [key.from, key.table]),
  );
  const columns = columnsOf(book, table).filter((column) => column !== 'seq');
  const valueOf = (column: string): string => {
    const points = keys.get(column);
    if (points === 'solder_lots' || points === 'pickle_baths') return `copy_id(${column}, ${oldest})`;
    if (column === 'id' || column === 'thing_id' || (points !== undefined && points in COPIED)) return `copy_id(${column}, copy)`;
    if (NUMBERED.has(column) && table !== 'clients') return isNumberOfPiece(table) ? `${column} || '-' || copy` : column;
    if (column === 'at' || column.endsWith('_at')) return shifted(column, 'copy');
    if (column.endsWith('_on')) return `date(${column}, '-' || (copy * ${STEP_S}) || ' seconds')`;
    if (table === 'journal' && journal === 'states' && (column === 'before' || column === 'after'))
      return `iif(${column} IS NULL, NULL, json_object('state', ${column} ->> '$.state', 'jointId', ${column} ->> '$.jointId'))`;
    return column;
  };
  const lines =
    table === 'journal' && journal === 'states' ? `${which} AND before ->> '$.state' IS NOT after ->> '$.state'` : which;
  book.exec(
    `WITH RECURSIVE copies (copy) AS (SELECT ${oldest} UNION ALL SELECT copy - 1 FROM copies WHERE copy > ${newest})
     INSERT INTO ${table} (${columns.join()}) SELECT ${columns.map(valueOf).join()}
     FROM copies CROSS JOIN model.${table} WHERE ${lines} ORDER BY copy DESC, model.${table}.rowid`,
  );
}

/** Numbers that nothing else may have; those of versions and heats begin anew with what they are of. */
function isNumberOfPiece(table: string): boolean {
  return table === 'commissions' || table === 'pieces' || table === 'hallmark_packets';
}
