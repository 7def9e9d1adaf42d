import type { Db } from '../../platform/db/client.ts';
import { writtenByServer } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { giveCode, takeCode } from './one-time-codes.ts';
import { hashPassword } from './passwords.ts';
import * as store from './people.store.ts';

const CODE_HOURS = 1;

/** Who could be let in again from the machine itself: owners who sign in. */
export function ownersWhoSignIn(db: Db): { id: string; signInName: string }[] {
  return store.owners(db).flatMap(({ id, signInName }) => (signInName === null ? [] : [{ id, signInName }]));
}

/** A code with which an owner who lost the password sets another; for who has the machine itself in hand. */
export function giveOwnerCode({ db, clock }: Platform, personId: string): { code: string; expiresAt: string } {
  return db.transaction((tx) => {
    const by = writtenByServer(clock.now());
    writeJournal(tx, by, { what: 'person', id: personId, after: { ownerCodeGiven: true } });
    return giveCode(tx, by.at, { personId, purpose: 'password', hours: CODE_HOURS });
  });
}

/** Sets an owner's password by that code, and ends every session they have open and every token they have made. */
export async function resetOwner({ db, clock }: Platform, { code, password }: { code: string; password: string }) {
  const passwordHash = await hashPassword(password);
  return db.transaction((tx) => {
    const by = writtenByServer(clock.now());
    const personId = takeCode(tx, by.at, { code, purpose: 'password' });
    if (personId === undefined)
      throw new Problem('forbidden', 'Cannot set the password: the code is wrong, used, or older than an hour');
    const before = store.findPerson(tx, personId)!;
    const after = store.updatePerson(tx, personId, { passwordHash, version: before.version + 1 });
    store.revokeSessionsOf(tx, personId, by.at.toISOString());
    store.revokeTokensOf(tx, personId, by.at.toISOString());
    writeJournal(tx, by, { what: 'person', id: personId, after: { passwordSet: true } });
    return { personId, name: after.name, signInName: after.signInName! };
  });
}
