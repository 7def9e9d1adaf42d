import { and, desc, eq, like, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { clients } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type ClientRow = typeof clients.$inferSelect;

export function findClient(db: Db, id: string): ClientRow | undefined {
  return db.select().from(clients).where(eq(clients.id, id)).get();
}

export function listClients(db: Db, { limit, cursor, name }: Page & { name?: string | undefined }): ClientRow[] {
  return db
    .select()
    .from(clients)
    .where(
      and(
        cursor === undefined ? undefined : lt(clients.id, cursor),
        name === undefined ? undefined : like(clients.name, `%${name.replaceAll(/[%_]/g, '')}%`),
      ),
    )
    .orderBy(desc(clients.id))
    .limit(limit + 1)
    .all();
}

export function insertClient(db: Db, row: typeof clients.$inferInsert): ClientRow {
  return db.insert(clients).values(row).returning().get();
}

export function updateClient(db: Db, id: string, change: Partial<ClientRow>): ClientRow {
  return db.update(clients).set(change).where(eq(clients.id, id)).returning().get();
}
