import { and, asc, desc, eq, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { clientLetters } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type ClientLetterRow = typeof clientLetters.$inferSelect;

export function insertLetter(db: Db, row: typeof clientLetters.$inferInsert): ClientLetterRow {
  return db.insert(clientLetters).values(row).returning().get();
}

export function listLetters(
  db: Db,
  { limit, cursor, commissionId }: Page & { commissionId?: string | undefined },
): ClientLetterRow[] {
  return db
    .select()
    .from(clientLetters)
    .where(
      and(
        cursor === undefined ? undefined : lt(clientLetters.id, cursor),
        commissionId === undefined ? undefined : eq(clientLetters.commissionId, commissionId),
      ),
    )
    .orderBy(desc(clientLetters.id))
    .limit(limit + 1)
    .all();
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
