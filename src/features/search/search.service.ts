import { and, eq, inArray, or, sql, type SQL } from 'drizzle-orm';
import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { searchable } from '../../platform/db/tables.ts';
import { worksHere, type Actor } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import { practicePieces } from '../pieces/index.ts';
import type { SEARCHED, SearchQuery, SearchReply } from './search.schema.ts';

type Kind = (typeof SEARCHED)[number];

export type SearchService = ReturnType<typeof createSearchService>;

/** Everything by one box, as far as the one who asks may know of it. */
export function createSearchService({ db }: Platform) {
  return {
    find(actor: Actor, { text, limit }: z.infer<typeof SearchQuery>): z.infer<typeof SearchReply> {
      const terms = text.split(/\s+/).filter((term) => term.length >= 3);
      if (terms.length === 0) return { items: [] };
      // Each term a phrase, so that nothing in it is a command of the index.
      const phrases = terms.map((term) => `"${term.replaceAll('"', '""')}"`).join(' AND ');
      const rows = db
        .select({ kind: searchable.kind, id: searchable.thingId, label: searchable.label })
        .from(sql`searchable_words`)
        .innerJoin(searchable, sql`${searchable.seq} = searchable_words.rowid`)
        .where(and(sql`searchable_words MATCH ${phrases}`, knownTo(db, actor)))
        // The index hands out its own order from the end, so that reading ends with the last line that is shown.
        .orderBy(sql`searchable_words.rowid DESC`)
        .limit(limit)
        .all();
      return { items: rows.map((row) => ({ ...row, kind: row.kind as Kind })) };
    },
  };
}

/** Clients and suppliers are the desk's; a student knows of practice pieces and of what lies in the drawer. */
function knownTo(db: Db, actor: Actor): SQL | undefined {
  const kinds: Kind[] = ['solder_product', 'solder_lot', 'metal_product'];
  if (worksHere(actor)) kinds.push('commission', 'piece');
  if (actor.roles.has('desk')) kinds.push('client', 'supplier');
  const known = inArray(searchable.kind, kinds);
  return worksHere(actor) ? known : or(known, and(eq(searchable.kind, 'piece'), inArray(searchable.thingId, practicePieces(db))));
}
