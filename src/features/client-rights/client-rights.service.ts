import { desc, eq, sql } from 'drizzle-orm';
import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { clientLetters, clientMessages, commissions, payments, photos, privateLinks, quotes } from '../../platform/db/tables.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { invalidFields, notFound, Problem } from '../../platform/http/problem.ts';
import { nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { findClient, updateClient, type ClientReply, type ClientRow } from '../clients/index.ts';
import { getSettings } from '../settings/index.ts';
import type { HeldReply } from './client-rights.schema.ts';
import { takeOutWords } from './forget-client.ts';

export type ClientRightsService = ReturnType<typeof createClientRightsService>;

/** A commission in one of these owes nobody anything. */
const DONE: ReadonlySet<string> = new Set(['turned_down', 'gone_quiet', 'settled', 'called_off']);

/** What a client may ask of the studio: what it holds of them, and to be forgotten. */
export function createClientRightsService({ db, clock }: Platform) {
  return {
    held(id: string): z.infer<typeof HeldReply> {
      const { name, email, phone, language, postAddress, ringSizeMm, metalSensitivity, photoAllowed, notes, createdAt } =
        getClient(db, id);
      const rows = db.select().from(commissions).where(eq(commissions.clientId, id)).orderBy(desc(commissions.id)).all();
      return {
        client: { name, email, phone, language, postAddress, ringSizeMm, metalSensitivity, photoAllowed, notes, createdAt },
        commissions: rows.map(({ clientProperty, ...row }) => ({
          ...row,
          clientProperty: [...clientProperty],
          ...hangingOn(db, row.id),
        })),
      };
    },

    /** Takes the person out of the book, for good, and keeps the books whole. */
    forget(actor: Actor, id: string, typed: string): z.infer<typeof ClientReply> {
      const forgotten = db.transaction((tx) => {
        const before = getClient(tx, id);
        if (before.forgottenAt !== null)
          throw new Problem('condition-not-met', `Cannot forget ${before.name}: that is done already`);
        if (typed !== before.name)
          throw invalidFields([
            { pointer: '/name', detail: 'Type the name just as it is in the book: it cannot be taken back.' },
          ]);
        const going = openCommissions(tx, id);
        if (going.length > 0)
          throw new Problem(
            'condition-not-met',
            `Cannot forget this client yet: there is work or money open in ${going.join(', ')}`,
            {
              open: going,
            },
          );
        const by = writtenBy(actor, clock.now());
        const called = `${FORMER[getSettings(tx).language.split('-')[0]!] ?? FORMER['en']!} ${String(nextNumber(tx, 'former-client')).padStart(4, '0')}`;
        takeOutWords(tx, id, called);
        tx.run(
          sql`UPDATE private_links SET state = 'cut_off', version = version + 1 WHERE state = 'open' AND commission_id IN (SELECT id FROM commissions WHERE client_id = ${id})`,
        );
        const after = updateClient(tx, id, {
          name: called,
          email: null,
          phone: null,
          postAddress: null,
          ringSizeMm: null,
          metalSensitivity: null,
          photoAllowed: false,
          notes: null,
          version: before.version + 1,
          forgottenAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'client', id, after: { name: called, forgottenAt: after.forgottenAt } });
        return after;
      });
      // What was overwritten is still in the log of changes until that is begun anew.
      db.get(sql`PRAGMA wal_checkpoint(TRUNCATE)`);
      return forgotten;
    },
  };
}

const FORMER: Readonly<Record<string, string>> = { en: 'Former client', de: 'Frühere Kundschaft' };

function getClient(db: Db, id: string): ClientRow {
  const row = findClient(db, id);
  if (!row) throw notFound('client', id);
  return row;
}

function openCommissions(db: Db, clientId: string): string[] {
  return db
    .select({ number: commissions.number, state: commissions.state })
    .from(commissions)
    .where(eq(commissions.clientId, clientId))
    .all()
    .filter(({ state }) => !DONE.has(state))
    .map(({ number }) => number);
}

function hangingOn(db: Db, commissionId: string) {
  const of = (
    table: typeof quotes | typeof payments | typeof clientLetters | typeof clientMessages | typeof privateLinks | typeof photos,
  ) => eq(table.commissionId, commissionId);
  return {
    quotes: db.select().from(quotes).where(of(quotes)).all(),
    payments: db.select().from(payments).where(of(payments)).all(),
    letters: db.select().from(clientLetters).where(of(clientLetters)).all(),
    messages: db.select().from(clientMessages).where(of(clientMessages)).all(),
    links: db.select().from(privateLinks).where(of(privateLinks)).all(),
    photos: db.select().from(photos).where(of(photos)).all(),
  };
}
