import { desc, eq, isNull, lt, or, and, sql } from 'drizzle-orm';
import type { z } from 'zod';
import { bookFault } from '../../platform/db/book-fault.ts';
import type { Db } from '../../platform/db/client.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { clientLooks, clients, commissions, payments, people, pieces, quotes } from '../../platform/db/tables.ts';
import { insertRow } from '../../platform/db/rows.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { newId } from '../../platform/ids.ts';
import type { Platform } from '../../platform/platform.ts';
import type { LookQuery } from './client-rights.schema.ts';

export type ClientLookService = ReturnType<typeof createClientLookService>;

/** What was looked at: a client's own page or list, something that hangs on a commission, or all clients at once. */
export type LookedAt = { clients: readonly string[] } | { of: readonly string[] } | 'everybody';

const HOUR_MS = 3_600_000;

/** A journal of who looked at what is known of clients. */
export function createClientLookService({ db, clock }: Platform) {
  let hour = 0;
  const noted = new Set<string>();

  return {
    /** Notes a look, the first within an hour by this person in this way. A book that cannot be written is read all the same. */
    note({ personId }: Actor, way: string, at: LookedAt): void {
      const now = clock.now();
      if (Math.floor(now.getTime() / HOUR_MS) !== hour) {
        hour = Math.floor(now.getTime() / HOUR_MS);
        noted.clear();
      }
      const keyOf = (clientId: string | null) => `${personId} ${way} ${clientId}`;
      const seen = at === 'everybody' ? [null] : 'clients' in at ? [...new Set(at.clients)] : clientsOf(db, at.of);
      const fresh = seen.filter((clientId) => !noted.has(keyOf(clientId)));
      if (fresh.length === 0) return;
      try {
        db.transaction((tx) => {
          for (const clientId of fresh)
            insertRow(tx, clientLooks, { id: newId(now), clientId, personId, way, at: now.toISOString() });
        });
      } catch (error) {
        if (bookFault(error as Error)) return;
        throw error;
      }
      for (const clientId of fresh) noted.add(keyOf(clientId));
    },

    list(query: z.infer<typeof LookQuery>) {
      const { clientId, cursor, limit } = query;
      const rows = db
        .select({ look: clientLooks, person: people.name, clientName: clients.name })
        .from(clientLooks)
        .innerJoin(people, eq(people.id, clientLooks.personId))
        .leftJoin(clients, eq(clients.id, clientLooks.clientId))
        .where(
          and(
            clientId === undefined ? undefined : or(eq(clientLooks.clientId, clientId), isNull(clientLooks.clientId)),
            cursor === undefined ? undefined : lt(clientLooks.id, cursor),
          ),
        )
        .orderBy(desc(clientLooks.id))
        .limit(limit + 1)
        .all()
        .map(({ look, ...names }) => ({ ...look, ...names }));
      return pageOf(rows, query, (row) => row);
    },
  };
}

/** Whose commissions those are, or what hangs on them. */
function clientsOf(db: Db, ids: readonly string[]): string[] {
  return clientsBehind(db)
    .all({ ids: JSON.stringify(ids) })
    .flatMap(({ id }) => id ?? []);
}

const clientsBehind = prepared((db) => {
  const those = sql`(SELECT value FROM json_each(${sql.placeholder('ids')}))`;
  const commissionIds = sql.join(
    [quotes, payments, pieces].map((table) => sql`SELECT ${table.commissionId} FROM ${table} WHERE ${table.id} IN ${those}`),
    sql` UNION `,
  );
  return db
    .selectDistinct({ id: commissions.clientId })
    .from(commissions)
    .where(sql`${commissions.id} IN ${those} OR ${commissions.id} IN (${commissionIds})`)
    .prepare();
});
