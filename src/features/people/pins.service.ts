import { writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import type { Db } from '../../platform/db/client.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { giveCode, takeCode } from './one-time-codes.ts';
import { hashPassword } from './passwords.ts';
import { benchRoles } from './people-at-tablets.ts';
import * as people from './people.store.ts';
import * as store from './tablets.store.ts';

export type PinService = ReturnType<typeof createPinService>;

const CODE_HOURS = 24;

/** PINs for shared tablets. Only their hashes are kept, made as hard to guess back as those of passwords. */
export function createPinService({ db, clock }: Platform) {
  return {
    /** Sets one's own PIN, signed in by password or token. */
    async set(actor: Actor, pin: string) {
      holdBenchWork(db, actor.personId);
      const pinHash = await hashPassword(pin);
      return db.transaction((tx) => put(tx, writtenBy(actor, clock.now()), actor.personId, pinHash));
    },

    /** Takes a PIN away: one's own, or as the owner anybody's. */
    remove(actor: Actor, personId: string): void {
      db.transaction((tx) => {
        const isTheirs = personId === actor.personId || actor.roles.has('owner');
        if (!isTheirs || !store.findPin(tx, personId)) throw notFound('PIN of person', personId);
        takeAway(tx, writtenBy(actor, clock.now()), personId);
      });
    },

    /** Takes a person's PIN away, and gives a code to choose another with, at a tablet. */
    reset(actor: Actor, personId: string): { code: string; expiresAt: string } {
      return db.transaction((tx) => {
        if (!people.findPerson(tx, personId)) throw notFound('person', personId);
        holdBenchWork(tx, personId);
        const by = writtenBy(actor, clock.now());
        if (store.findPin(tx, personId)) takeAway(tx, by, personId);
        writeJournal(tx, by, { what: 'pin', id: personId, after: { codeGiven: true } });
        return giveCode(tx, by.at, { personId, purpose: 'pin', hours: CODE_HOURS });
      });
    },

    /** Sets a PIN at a tablet, by the code that the owner gave. */
    async setByCode(
      { personId, code, pin }: { personId?: string | undefined; code: string; pin: string },
      tablet: store.TabletRow,
    ) {
      const pinHash = await hashPassword(pin);
      return db.transaction((tx) => {
        const at = clock.now();
        const owed = takeCode(tx, at, { code, purpose: 'pin' });
        if (owed === undefined || (personId !== undefined && owed !== personId))
          throw new Problem('forbidden', 'Cannot set the PIN: the code is wrong, used, or older than a day');
        holdBenchWork(tx, owed);
        return put(tx, { personId: owed, at, deviceId: `tablet ${tablet.name}`, confirmed: null }, owed, pinHash);
      });
    },
  };
}

function put(tx: Db, by: WrittenBy, personId: string, pinHash: string) {
  const createdAt = by.at.toISOString();
  store.putPin(tx, { personId, pinHash, createdAt });
  store.putTries(tx, { who: `person ${personId}`, wrong: 0, nextAt: null });
  store.lockTabletsOf(tx, personId, createdAt);
  writeJournal(tx, by, { what: 'pin', id: personId, after: { set: true } });
  return { personId, createdAt };
}

function takeAway(tx: Db, by: WrittenBy, personId: string): void {
  store.deletePin(tx, personId);
  store.lockTabletsOf(tx, personId, by.at.toISOString());
  writeJournal(tx, by, { what: 'pin', id: personId, before: { set: true } });
}

/** A PIN is good for bench work alone. */
function holdBenchWork(db: Db, personId: string): void {
  const person = people.findPerson(db, personId);
  if (person?.active && benchRoles(person.roles).size > 0) return;
  throw new Problem('condition-not-met', 'Cannot set a PIN: it is for the work at the bench, and this person has none');
}
