import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { invalidFields, notFound, Problem } from '../../platform/http/problem.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import type { ClientChange, NewClient } from './clients.schema.ts';
import * as store from './clients.store.ts';

export type ClientService = ReturnType<typeof createClientService>;

export function createClientService({ db, clock }: Platform) {
  return {
    add(actor: Actor, client: z.infer<typeof NewClient>): store.ClientRow {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const language = client.language ?? getSettings(tx).language;
        const row = store.insertClient(tx, { id: newId(by.at), ...client, language, createdAt: by.at.toISOString() });
        writeJournal(tx, by, { what: 'client', id: row.id, after: row });
        return row;
      });
    },

    get: (id: string) => getClient(db, id),

    list: (query: Page & { name?: string | undefined }) => pageOf(store.listClients(db, query), query, (row) => row),

    change(actor: Actor, id: string, seen: number, change: z.infer<typeof ClientChange>): store.ClientRow {
      return db.transaction((tx) => {
        const before = getClient(tx, id);
        holdToVersion('client', before.version, seen);
        if (before.forgottenAt !== null)
          throw new Problem('condition-not-met', `Cannot change ${before.name}: this client was forgotten`);
        const given = membersSent(change);
        const wanted = { ...before, ...given };
        if (wanted.email === null && wanted.phone === null) {
          throw invalidFields([
            { pointer: '/email', detail: 'Keep an e-mail address or a phone number: there must be one way to reach the client.' },
          ]);
        }
        const after = store.updateClient(tx, id, { ...given, version: before.version + 1 });
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'client', id, before, after });
        return after;
      });
    },
  };
}

function getClient(db: Db, id: string): store.ClientRow {
  const row = store.findClient(db, id);
  if (!row) throw notFound('client', id);
  return row;
}
