import type { z } from 'zod';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { isOpenAt, locksAt } from './keys.service.ts';
import { hashSecret, newSecret, passwordFits } from './passwords.ts';
import { benchRoles } from './people-at-tablets.ts';
import * as people from './people.store.ts';
import { chargeTry, creditTry } from './pin-tries.ts';
import type { TabletNow, TabletReply } from './tablets.schema.ts';
import * as store from './tablets.store.ts';

export type TabletService = ReturnType<typeof createTabletService>;

/** A session at a tablet that is never touched ends with the day. */
const SESSION_HOURS = 24;

/** Tablets that several people use at the bench, each by a short PIN. */
export function createTabletService({ db, clock }: Platform) {
  function tabletOf(secret: string | undefined): store.TabletRow {
    const tablet = secret === undefined ? undefined : store.findTabletByToken(db, hashSecret(secret));
    if (!tablet) throw new Problem('not-signed-in', 'This device is no shared tablet: the owner makes it one');
    return tablet;
  }

  return {
    tabletOf,

    /** Makes the device that asks a shared tablet. It starts locked: who made it is signed out on it. */
    add(actor: Actor, { name }: { name: string }, sessionSecret: string | undefined) {
      const secret = newSecret();
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const createdAt = by.at.toISOString();
        const row = store.insertTablet(tx, {
          id: newId(by.at),
          name,
          tokenHash: hashSecret(secret),
          addedBy: actor.personId,
          createdAt,
        });
        if (sessionSecret !== undefined) people.revokeSession(tx, actor.personId, hashSecret(sessionSecret), createdAt);
        writeJournal(tx, by, { what: 'shared-tablet', id: row.id, after: show(row) });
        return { secret, tablet: show(row) };
      });
    },

    list: (page: Page) => pageOf(store.listTablets(db, page), page, show),

    /** The device is a shared tablet no more, wherever it is. */
    remove(actor: Actor, id: string): z.infer<typeof TabletReply> {
      return db.transaction((tx) => {
        const before = store.findTablet(tx, id);
        if (!before) throw notFound('shared tablet', id);
        const by = writtenBy(actor, clock.now());
        const after = store.revokeTablet(tx, id, before.revokedAt ?? by.at.toISOString());
        store.lockTablet(tx, id, by.at.toISOString());
        writeJournal(tx, by, { what: 'shared-tablet', id, before: show(before), after: show(after) });
        return show(after);
      });
    },

    /** What the tablet shows: who may unlock it, and who did. */
    now(tabletSecret: string | undefined, sessionSecret: string | undefined): z.infer<typeof TabletNow> {
      const tablet = tabletSecret === undefined ? undefined : store.findTabletByToken(db, hashSecret(tabletSecret));
      if (!tablet) return { tablet: null, people: [], unlockedBy: null, locksAt: null };
      const at = clock.now();
      const found = sessionSecret === undefined ? undefined : people.findSession(db, hashSecret(sessionSecret), at.toISOString());
      const isOpen = found?.session.tabletId === tablet.id && isOpenAt(db, found.session, at.toISOString());
      return {
        tablet: { id: tablet.id, name: tablet.name },
        people: store
          .peopleWithPin(db)
          .filter(({ roles }) => benchRoles(roles).size > 0)
          .map(named),
        unlockedBy: isOpen ? named(found.person) : null,
        locksAt: isOpen ? locksAt(db, found.session) : null,
      };
    },

    /** Unlocks a tablet for a person, in place of whoever was at it. */
    async unlock(tabletSecret: string | undefined, { personId, pin }: { personId: string; pin: string }) {
      const tablet = tabletOf(tabletSecret);
      const tried = { personId, tabletId: tablet.id };
      db.transaction((tx) => chargeTry(tx, tried, clock.now()));
      const fits = await passwordFits(pin, store.findPin(db, personId)?.pinHash ?? null);
      const secret = newSecret();
      return db.transaction((tx) => {
        const person = people.findPerson(tx, personId);
        if (!fits || !person?.active || benchRoles(person.roles).size === 0)
          throw new Problem('sign-in-refused', 'Cannot unlock the tablet: the PIN is not that of this person');
        const at = clock.now();
        const touchedAt = at.toISOString();
        creditTry(tx, tried);
        store.lockTablet(tx, tablet.id, touchedAt);
        const expiresAt = new Date(at.getTime() + SESSION_HOURS * 3_600_000).toISOString();
        const session = { id: newId(at), personId, tokenHash: hashSecret(secret), tabletId: tablet.id, touchedAt, expiresAt };
        people.insertSession(tx, { ...session, createdAt: touchedAt });
        writeJournal(
          tx,
          { personId, at, deviceId: `tablet ${tablet.name}`, confirmed: null },
          { what: 'session', id: personId, after: { unlocked: tablet.name } },
        );
        return { secret, unlocked: { ...named(person), locksAt: locksAt(tx, { touchedAt }) } };
      });
    },

    /** Somebody is there, though nothing was written. */
    touch(sessionSecret: string | undefined): { locksAt: string | null } {
      const at = clock.now().toISOString();
      const found = sessionSecret === undefined ? undefined : people.findSession(db, hashSecret(sessionSecret), at);
      if (!found?.session.tabletId) return { locksAt: null };
      store.touchSession(db, found.session.id, at);
      return { locksAt: locksAt(db, { touchedAt: at }) };
    },
  };
}

function named({ id, name }: people.PersonRow): { personId: string; name: string } {
  return { personId: id, name };
}

function show({ tokenHash: _hash, ...tablet }: store.TabletRow): z.infer<typeof TabletReply> {
  return tablet;
}
