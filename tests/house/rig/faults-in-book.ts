import Database from 'better-sqlite3';

/** Asked for as one list, so that it is looked through once and not for every row. */
const KEPT = "SELECT reply ->> 'id' FROM idempotency_keys WHERE reply ->> 'id' IS NOT NULL";
const TOLD = 'SELECT thing_id FROM journal WHERE thing_id IS NOT NULL AND what =';

/** What must hold of every book, whatever happened to its server: a count of rows that break it, which has to be nothing. */
const LAWS: Readonly<Record<string, string>> = {
  'commissions without their line in the journal': `SELECT count(*) FROM commissions WHERE id NOT IN (${TOLD} 'commission')`,
  'lines of the journal without their commission':
    "SELECT count(*) FROM journal j WHERE j.what = 'commission' AND NOT EXISTS (SELECT 1 FROM commissions c WHERE c.id = j.thing_id)",
  'commissions that no search finds':
    "SELECT count(*) FROM commissions c WHERE NOT EXISTS (SELECT 1 FROM searchable s WHERE s.kind = 'commission' AND s.thing_id = c.id)",
  'numbers that were given and belong to nothing':
    "SELECT (SELECT coalesce(sum(last), 0) FROM counters WHERE name LIKE 'commission:%') - (SELECT count(*) FROM commissions)",
  'movements without their line in the journal': `SELECT count(*) FROM stock_movements WHERE kind = 'use' AND id NOT IN (${TOLD} 'stock-movement')`,
  'commissions whose key was not kept': `SELECT count(*) FROM commissions WHERE id NOT IN (${KEPT})`,
  'uses whose key was not kept': `SELECT count(*) FROM stock_movements WHERE kind = 'use' AND id NOT IN (${KEPT})`,
  'lots whose sum is not that of their movements':
    'SELECT count(*) FROM now_solder_lots n WHERE on_hand_tenth_mg <> (SELECT sum(on_hand_tenth_mg) FROM stock_movements m WHERE m.lot_id = n.lot_id)',
  'commissions that were made twice': 'SELECT count(*) - count(DISTINCT title) FROM commissions',
  'uses that were booked twice': "SELECT count(*) - count(DISTINCT reason) FROM stock_movements WHERE kind = 'use'",
  'photos without both of their files':
    'SELECT count(*) FROM photos p WHERE (SELECT count(*) FROM photo_files f WHERE f.photo_id = p.id) <> 2',
  'photos without their line in the journal': `SELECT count(*) FROM photos WHERE id NOT IN (${TOLD} 'photo')`,
  'photos whose key was not kept': `SELECT count(*) FROM photos WHERE id NOT IN (${KEPT})`,
  'photos that were added twice': 'SELECT count(*) - count(DISTINCT caption) FROM photos',
};

/**
 * Looks through the file that a killed server left.
 *
 * @param known ids of what was acknowledged
 */
export function faultsIn(file: string, known: ReadonlySet<string>): { faults: string[]; keys: ReadonlySet<string> } {
  const book = new Database(file);
  try {
    const faults: string[] = [];
    const pages = book.pragma('integrity_check', { simple: true });
    if (pages !== 'ok') faults.push(`integrity_check: ${String(pages)}`);
    if ((book.pragma('foreign_key_check') as unknown[]).length > 0) faults.push('rows point nowhere');
    for (const [law, query] of Object.entries(LAWS)) {
      const count = book.prepare<[], number>(query).pluck().get()!;
      if (count !== 0) faults.push(`${count} ${law}`);
    }
    const ids = book
      .prepare<[], string>('SELECT id FROM commissions UNION SELECT id FROM stock_movements UNION SELECT id FROM photos')
      .pluck()
      .all();
    const there = new Set(ids);
    const lost = [...known].filter((id) => !there.has(id));
    if (lost.length > 0) faults.push(`${lost.length} that were acknowledged are gone: ${lost.slice(0, 3).join(', ')}`);
    return { faults, keys: new Set(book.prepare<[], string>('SELECT key FROM idempotency_keys').pluck().all()) };
  } finally {
    book.close();
  }
}
