import { sql, type SQL } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { clientWords, forgetter, type ClientWords } from './client-words.ts';
import { WORD_PLACES, type WordPlace } from './word-places.ts';

/**
 * Takes a client's words out of the whole book and leaves everything else: numbers, states, money, metal and solder history. Forgetting
 * goes through every feature's tables, so it is written here once and not in each.
 *
 * @param tx an open transaction
 * @param called what stands for their name from now on
 */
export function takeOutWords(tx: Db, clientId: string, called: string): void {
  const theirs = thingsOf(tx, clientId);
  const words = wordsOf(tx, clientId, theirs);
  tx.run(sql`INSERT INTO forgetting (client_id) VALUES (${clientId})`);
  const clean = forgetter(words, called);
  for (const place of WORD_PLACES) cleanPlace(tx, place, { theirs, words, clean });
  const those = sql`(SELECT value FROM json_each(${JSON.stringify(theirs)}))`;
  tx.run(sql`DELETE FROM client_messages WHERE commission_id IN ${those}`);
  tx.run(sql`DELETE FROM photos WHERE shows_person = 1 AND commission_id IN ${those}`);
  tx.run(sql`UPDATE commissions SET wish = NULL WHERE id IN ${those}`);
  tx.run(sql`UPDATE client_letters SET note = NULL WHERE commission_id IN ${those}`);
  // What it was for was a secret: even its title.
  tx.run(
    sql`UPDATE pieces SET title = number WHERE commission_id IN (SELECT id FROM commissions WHERE quiet = 1 AND id IN ${those})`,
  );
  tx.run(sql`UPDATE commissions SET title = number WHERE quiet = 1 AND id IN ${those}`);
  tx.run(sql`DELETE FROM forgetting`);
}

/** Ids of all that is of a client: commissions, and what hangs on them. */
function thingsOf(tx: Db, clientId: string): string[] {
  const ids = [clientId];
  const add = (query: SQL) => ids.push(...tx.all<{ id: string }>(query).map(({ id }) => id));
  const among = () => sql`(SELECT value FROM json_each(${JSON.stringify(ids)}))`;
  add(sql`SELECT id FROM commissions WHERE client_id = ${clientId}`);
  for (const table of [
    'pieces',
    'quotes',
    'payments',
    'private_links',
    'client_letters',
    'client_messages',
    'photos',
    'metal_lots',
  ])
    add(sql`SELECT id FROM ${sql.identifier(table)} WHERE commission_id IN ${among()}`);
  for (const table of ['heats', 'incidents', 'bench_times'])
    add(sql`SELECT id FROM ${sql.identifier(table)} WHERE piece_id IN ${among()}`);
  return ids;
}

/** All that was ever written of a client, as the book and its journal have it. */
function wordsOf(tx: Db, clientId: string, theirs: readonly string[]): ClientWords {
  const names: string[] = [];
  const said: string[] = [];
  const note = ({ name, email, phone, postAddress, notes, wish, words, note: told, clientProperty }: Told) => {
    if (name) names.push(name);
    said.push(...[email, phone, postAddress, notes, wish, words, told].filter((one) => typeof one === 'string'));
    said.push(...(clientProperty ?? []).map(({ what }) => what));
  };
  const those = sql`(SELECT value FROM json_each(${JSON.stringify(theirs)}))`;
  const lines = tx.all<{ before: string | null; after: string | null }>(
    sql`SELECT before, after FROM journal WHERE thing_id IN ${those} AND what IN ('client', 'commission', 'client-message', 'client_letter')`,
  );
  for (const written of lines.flatMap(({ before, after }) => [before, after]))
    if (written !== null) note(JSON.parse(written) as Told);
  // A book that was brought in from elsewhere may have no line of it.
  note(
    tx.get<Told>(sql`SELECT name, email, phone, post_address AS "postAddress", notes FROM clients WHERE id = ${clientId}`) ?? {},
  );
  for (const told of tx.all<Told>(
    sql`SELECT wish, NULL AS words FROM commissions WHERE client_id = ${clientId} UNION ALL SELECT NULL, words FROM client_messages WHERE commission_id IN ${those}`,
  ))
    note(told);
  return clientWords(names, said);
}

interface Told {
  name?: string | null;
  email?: string | null;
  phone?: string | null;
  postAddress?: string | null;
  notes?: string | null;
  wish?: string | null;
  words?: string | null;
  note?: string | null;
  clientProperty?: { what: string }[];
}

interface Cleaning {
  theirs: readonly string[];
  words: ClientWords;
  clean: ReturnType<typeof forgetter>;
}

function cleanPlace(tx: Db, { table, columns, json = [], of }: WordPlace, { theirs, words, clean }: Cleaning): void {
  const all = [...columns, ...json];
  const ids = JSON.stringify(theirs);
  const isJson = json.includes(of);
  // An answer is theirs where it names one of their things.
  const isTheirs = isJson
    ? sql`EXISTS (SELECT 1 FROM json_each(${ids}) WHERE instr(${sql.identifier(of)}, value) > 0)`
    : sql`${sql.identifier(of)} IN (SELECT value FROM json_each(${ids}))`;
  // As it stands in a column, and as it would inside JSON; small and large letters are the same.
  const found = JSON.stringify([...words.names, ...words.said].map((word) => JSON.stringify(word).slice(1, -1).toLowerCase()));
  const plain = JSON.stringify([...words.names, ...words.said].map((word) => word.toLowerCase()));
  const named = all.map(
    (column) =>
      sql`EXISTS (SELECT 1 FROM json_each(${json.includes(column) ? found : plain}) WHERE instr(lower(${sql.identifier(column)}), value) > 0)`,
  );
  const rows = tx.all<Record<string, string | number | null>>(
    sql`SELECT rowid AS row_id, ${isTheirs} AS is_theirs, ${sql.join(
      all.map((column) => sql.identifier(column)),
      sql`, `,
    )}
        FROM ${sql.identifier(table)} WHERE ${isTheirs} OR ${sql.join(named, sql` OR `)}`,
  );
  for (const row of rows) {
    for (const column of all) {
      const before = row[column];
      if (typeof before !== 'string') continue;
      const after = (json.includes(column) ? clean.json : clean.text)(before, row['is_theirs'] === 1);
      if (after !== before)
        tx.run(sql`UPDATE ${sql.identifier(table)} SET ${sql.identifier(column)} = ${after} WHERE rowid = ${row['row_id']}`);
    }
  }
}
