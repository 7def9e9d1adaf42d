import { asc, eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows } from '../../platform/db/rows.ts';
import { clientLetters } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type ClientLetterRow = typeof clientLetters.$inferSelect;

export function insertLetter(db: Db, row: typeof clientLetters.$inferInsert): ClientLetterRow {
  return insertRow(db, clientLetters, row);
}

export function listLetters(
  db: Db,
  { limit, cursor, commissionId }: Page & { commissionId?: string | undefined },
): ClientLetterRow[] {
  return newestRows(db, clientLetters, { limit, cursor }, { commissionId });
}

/** What the client of a commission was told, in the order of its days. */
export function lettersOf(db: Db, commissionId: string): ClientLetterRow[] {
  return db
    .select()
    .from(clientLetters)
    .where(eq(clientLetters.commissionId, commissionId))
    .orderBy(asc(clientLetters.sentOn), asc(clientLetters.id))
    .all();
}
