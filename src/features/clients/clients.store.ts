import { and, asc, desc, eq, like, lt, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, updateRow } from '../../platform/db/rows.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { clients } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type ClientRow = typeof clients.$inferSelect;

export function findClient(db: Db, id: string): ClientRow | undefined {
  return clientById(db).get({ id });
}

const clientById = prepared((db) =>
  db
    .select()
    .from(clients)
    .where(eq(clients.id, sql.placeholder('id')))
    .prepare(),
);

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

/** A client by name and how they are reached; large and small letters of an e-mail address are the same. */
export function findClientLike(
  db: Db,
  { name, email, phone }: { name: string; email?: string; phone?: string },
): ClientRow | undefined {
  return db
    .select()
    .from(clients)
    .where(
      and(
        eq(clients.name, name),
        email === undefined ? undefined : sql`${clients.email} = ${email} COLLATE NOCASE`,
        phone === undefined ? undefined : eq(clients.phone, phone),
      ),
    )
    .get();
}

export function clientsOldestFirst(db: Db): ClientRow[] {
  return db.select().from(clients).orderBy(asc(clients.id)).all();
}

export function insertClient(db: Db, row: typeof clients.$inferInsert): ClientRow {
  return insertRow(db, clients, row);
}

export function updateClient(db: Db, id: string, change: Partial<ClientRow>): ClientRow {
  return updateRow(db, clients, id, change);
}
