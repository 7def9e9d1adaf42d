import type { z } from 'zod';
import { writtenBy, writtenByServer, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import type { Page } from '../../platform/http/paging.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import type { Db } from '../../platform/db/client.ts';
import { hashPassword } from './passwords.ts';
import type { FirstOwner, NewPerson, PersonChange, PersonReply } from './people.schema.ts';
import { resetOwner } from './owner-reset.ts';
import type { OwnerReset } from './tablets.schema.ts';
import * as store from './people.store.ts';

export type PeopleService = ReturnType<typeof createPeopleService>;

export function createPeopleService(platform: Platform, firstOwnerCode: string) {
  const { db, clock } = platform;
  return {
    /** With the code that was printed on the machine itself. */
    resetOwner: (sent: z.infer<typeof OwnerReset>) => resetOwner(platform, sent),

    /** Whether the one-time code for making the owner still counts. */
    ownerMissing: (): boolean => !store.anyOwner(db),

    /** Makes the first owner, once, with the code that the server printed when it started. */
    async makeFirstOwner({ code, password, ...person }: z.infer<typeof FirstOwner>): Promise<z.infer<typeof PersonReply>> {
      if (store.anyOwner(db) || code !== firstOwnerCode) throw firstOwnerRefused();
      const passwordHash = await hashPassword(password);
      return db.transaction((tx) => {
        if (store.anyOwner(tx)) throw firstOwnerRefused();
        return insert(
          tx,
          writtenByServer(clock.now()),
          { ...person, roles: ['owner'], tutor: true, ratePerHour: null, benchMinutesPerDay: null },
          passwordHash,
        );
      });
    },

    async add(actor: Actor, { password, ...person }: z.infer<typeof NewPerson>): Promise<z.infer<typeof PersonReply>> {
      const passwordHash = password === undefined ? null : await hashPassword(password);
      return db.transaction((tx) => insert(tx, writtenBy(actor, clock.now()), person, passwordHash));
    },

    get: (id: string) => show(getPerson(db, id)),

    list: (page: Page) => pageOf(store.listPeople(db, page), page, show),

    async change(
      actor: Actor,
      id: string,
      seen: number,
      { password, ...change }: z.infer<typeof PersonChange>,
    ): Promise<z.infer<typeof PersonReply>> {
      const passwordHash = password === undefined ? undefined : await hashPassword(password);
      return db.transaction((tx) => {
        const before = getPerson(tx, id);
        holdToVersion('person', before.version, seen);
        if (change.signInName && change.signInName !== before.signInName) holdNameFree(tx, change.signInName);
        const given = membersSent(change);
        const after = store.updatePerson(tx, id, {
          ...given,
          ...(passwordHash && { passwordHash }),
          version: before.version + 1,
        });
        if (!store.anyOwner(tx))
          throw new Problem('condition-not-met', 'Cannot take this role away: someone must remain the owner');
        const by = writtenBy(actor, clock.now());
        if (passwordHash || !after.active) {
          // Who knew the old password may sit in another session, or have made tokens to come back by.
          store.revokeSessionsOf(tx, id, by.at.toISOString(), actor.keyId);
          store.revokeTokensOf(tx, id, by.at.toISOString(), actor.keyId);
        }
        writeJournal(tx, by, { what: 'person', id, before: show(before), after: show(after) });
        return show(after);
      });
    },
  };
}

function firstOwnerRefused(): Problem {
  return new Problem(
    'forbidden',
    'Cannot make the owner: the code is not the one the server printed, or there is an owner already',
  );
}

function insert(
  tx: Db,
  by: WrittenBy,
  person: Omit<z.infer<typeof NewPerson>, 'password'>,
  passwordHash: string | null,
): z.infer<typeof PersonReply> {
  if (person.signInName !== null) holdNameFree(tx, person.signInName);
  const row = store.insertPerson(tx, { id: newId(by.at), ...person, passwordHash, createdAt: by.at.toISOString() });
  writeJournal(tx, by, { what: 'person', id: row.id, after: show(row) });
  return show(row);
}

function holdNameFree(tx: Db, signInName: string): void {
  if (store.findBySignInName(tx, signInName))
    throw new Problem('already-used', `Cannot use the sign-in name ${signInName}: someone has it`);
}

function getPerson(db: Db, id: string): store.PersonRow {
  const row = store.findPerson(db, id);
  if (!row) throw notFound('person', id);
  return row;
}

function show({ passwordHash: _hash, createdAt: _at, ...person }: store.PersonRow): z.infer<typeof PersonReply> {
  return person;
}
