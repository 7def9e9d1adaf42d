import { and, count, desc, eq, gte, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { clientMessages, privateLinks, quotes } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type LinkRow = typeof privateLinks.$inferSelect;
export type MessageRow = typeof clientMessages.$inferSelect;
export type QuoteRow = typeof quotes.$inferSelect;

export interface LinkFilter {
  commissionId?: string | undefined;
  state?: string | undefined;
}

export function getLink(db: Db, id: string): LinkRow {
  const row = rowById(db, privateLinks, id);
  if (!row) throw notFound('private link', id);
  return row;
}

/** By an index on the hash: how long it takes says nothing of the secret. */
export function findLinkByHash(db: Db, tokenHash: string): LinkRow | undefined {
  return db.select().from(privateLinks).where(eq(privateLinks.tokenHash, tokenHash)).get();
}

export function listLinks(db: Db, { limit, cursor, commissionId, state }: Page & LinkFilter): LinkRow[] {
  return newestRows(db, privateLinks, { limit, cursor }, { commissionId, state });
}

export function openLinks(db: Db): LinkRow[] {
  return db.select().from(privateLinks).where(eq(privateLinks.state, 'open')).all();
}

export function insertLink(db: Db, row: typeof privateLinks.$inferInsert): LinkRow {
  return insertRow(db, privateLinks, row);
}

export function updateLink(db: Db, id: string, change: Partial<LinkRow>): LinkRow {
  return updateRow(db, privateLinks, id, change);
}

export function countVisit(db: Db, id: string, at: string): void {
  db.update(privateLinks)
    .set({ visits: sql`${privateLinks.visits} + 1`, lastVisitAt: at })
    .where(eq(privateLinks.id, id))
    .run();
}

/** Versions that were sent, newest first: what the client has seen. */
export function versionsSent(db: Db, commissionId: string): QuoteRow[] {
  return db
    .select()
    .from(quotes)
    .where(eq(quotes.commissionId, commissionId))
    .orderBy(desc(quotes.number))
    .all()
    .filter(({ sentAt }) => sentAt !== null);
}

export function listMessages(
  db: Db,
  { limit, cursor, commissionId }: Page & { commissionId?: string | undefined },
): MessageRow[] {
  return newestRows(db, clientMessages, { limit, cursor }, { commissionId });
}

export function messagesSince(db: Db, linkId: string, at: string): number {
  return db
    .select({ messages: count() })
    .from(clientMessages)
    .where(and(eq(clientMessages.linkId, linkId), gte(clientMessages.createdAt, at)))
    .get()!.messages;
}

export function insertMessage(db: Db, row: typeof clientMessages.$inferInsert): MessageRow {
  return insertRow(db, clientMessages, row);
}
