import type { FastifyRequest } from 'fastify';
import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Role } from '../../platform/db/json-columns.ts';
import { effectiveRoles, holdToOwner, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { READING, type Asking } from '../../platform/http/sign-in.ts';
import { invalidFields, notFound, Problem } from '../../platform/http/problem.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { confirmedPointers } from '../../platform/http/validate.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { benchRoles } from './people-at-tablets.ts';
import { findTablet, touchSession } from './tablets.store.ts';
import { hashSecret, newSecret, passwordFits } from './passwords.ts';
import type { NewToken, SignIn, TokenReply } from './people.schema.ts';
import * as store from './people.store.ts';
import { createSignInTries } from './sign-in-tries.ts';

export const SESSION_DAYS = 30;

type NewTokenGiven = z.input<typeof NewToken>;

export type KeysService = ReturnType<typeof createKeysService>;

/** Keys to the door: sessions for the page, bearer tokens for programs. Only their hashes are kept. */
export function createKeysService({ db, clock }: Platform) {
  const tries = createSignInTries(clock);
  return {
    async signIn({ signInName, password }: z.infer<typeof SignIn>): Promise<{ secret: string; actor: Actor }> {
      const name = signInName.trim().toLowerCase();
      tries.charge(name);
      const person = store.findBySignInName(db, name);
      const fits = await passwordFits(password, person?.passwordHash ?? null);
      if (!person || !fits || !person.active)
        throw new Problem('sign-in-refused', 'Cannot sign in: the name or the password is wrong');
      tries.forget(name);
      const secret = newSecret();
      const actor = actorFrom(person);
      const at = clock.now();
      db.transaction((tx) => {
        store.insertSession(tx, {
          id: newId(at),
          personId: person.id,
          tokenHash: hashSecret(secret),
          createdAt: at.toISOString(),
          expiresAt: new Date(at.getTime() + SESSION_DAYS * 86_400_000).toISOString(),
        });
        writeJournal(tx, writtenBy(actor, at), { what: 'session', id: person.id, after: { signedIn: true } });
      });
      return { secret, actor };
    },

    signOut(actor: Actor, secret: string): void {
      db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        if (store.revokeSession(tx, actor.personId, hashSecret(secret), by.at.toISOString()))
          writeJournal(tx, by, { what: 'session', id: actor.personId, after: { signedIn: false } });
      });
    },

    /** Who a request comes from, by its cookie or its bearer token; undefined when it carries neither, or one that is over. */
    whoAsks(request: FastifyRequest, cookie: string | undefined): Asking | undefined {
      const bearer = /^Bearer ([\w-]+)$/.exec(request.headers.authorization ?? '')?.[1];
      const at = clock.now().toISOString();
      const session = bearer || cookie === undefined ? undefined : store.findSession(db, hashSecret(cookie), at);
      const key = bearer ? store.findKey(db, hashSecret(bearer)) : undefined;
      const found = key ?? session;
      if (!found) return undefined;
      const { person } = found;
      const tablet = session ? tabletOf(db, session.session, { at, isReading: READING.has(request.method) }) : undefined;
      const pointers = confirmedPointers(request);
      const reason = request.headers['confirm-reason'];
      const deviceId = request.headers['device-id'];
      const actor = {
        ...actorFrom(person),
        ...(tablet === undefined ? {} : { roles: benchRoles(person.roles) }),
        ...(key?.token.roles ? { roles: rolesFor(key.token.roles, person.roles) } : {}),
        keyId: 'token' in found ? found.token.id : found.session.id,
        deviceId: typeof deviceId === 'string' ? deviceId.slice(0, 64) : (tablet ?? null),
        confirmed: pointers.length > 0 ? { pointers, reason: String(reason) } : null,
      };
      const onlyReads = key?.token.onlyReads ?? false;
      const isForLess = onlyReads || (key !== undefined && key.token.roles !== null);
      return { actor, by: tablet !== undefined ? 'pin' : isForLess ? 'token_for_less' : 'password', onlyReads };
    },

    /** Who is signed in: one's own sessions, for the owner everybody's. */
    listSessions(actor: Actor, page: Page) {
      const rows = store.listSessions(db, actor.roles.has('owner') ? null : actor.personId, clock.now().toISOString(), page);
      return pageOf(rows, page, (row) => ({ ...row, isThisOne: row.id === actor.keyId }));
    },

    /** Ends a session on whatever device it is. */
    endSession(actor: Actor, id: string): void {
      db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const personId = store.endSession(tx, id, actor.roles.has('owner') ? null : actor.personId, by.at.toISOString());
        if (personId === undefined) throw notFound('session', id);
        writeJournal(tx, by, { what: 'session', id: personId, after: { signedIn: false } });
      });
    },

    /** Makes a token for oneself; the owner may make one for anybody. */
    addToken(
      actor: Actor,
      { name, personId = actor.personId, roles = null, onlyReads = false }: NewTokenGiven,
    ): z.infer<typeof TokenReply> & { token: string } {
      if (personId !== actor.personId) holdToOwner(actor, 'make a token for someone else');
      const person = store.findPerson(db, personId);
      if (!person) throw notFound('person', personId);
      const most = effectiveRoles(person.roles);
      const beyond = (roles ?? []).flatMap((role, index) => (most.has(role) ? [] : [{ index, role }]));
      if (beyond.length > 0)
        throw invalidFields(
          beyond.map(({ index, role }) => ({
            pointer: `/roles/${index}`,
            detail: `A token is worth no more than its person: ${person.name} has not the role ${role}.`,
            given: role,
          })),
        );
      const token = newSecret();
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const row = store.insertToken(tx, {
          id: newId(by.at),
          personId,
          name,
          roles,
          onlyReads,
          tokenHash: hashSecret(token),
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'token', id: row.id, after: show(row) });
        return { ...show(row), token };
      });
    },

    listTokens: (actor: Actor, page: Page) =>
      pageOf(store.listTokens(db, actor.roles.has('owner') ? null : actor.personId, page), page, show),

    revokeToken(actor: Actor, id: string): z.infer<typeof TokenReply> {
      return db.transaction((tx) => {
        const before = store.findToken(tx, id);
        if (!before || (before.personId !== actor.personId && !actor.roles.has('owner'))) throw notFound('token', id);
        const by = writtenBy(actor, clock.now());
        const after = store.revokeToken(tx, id, by.at.toISOString());
        writeJournal(tx, by, { what: 'token', id, before: show(before), after: show(after) });
        return show(after);
      });
    },
  };
}

/** The tablet a session is on, by name, if it is on one. @throws {Problem} once it has locked itself */
function tabletOf(db: Db, session: store.SessionRow, { at, isReading }: { at: string; isReading: boolean }): string | undefined {
  if (session.tabletId === null) return undefined;
  if (!isOpenAt(db, session, at))
    throw new Problem('tablet-locked', 'The tablet has locked itself: enter your PIN; nothing you did is lost');
  // A page that only looks, and looks again by itself, keeps no tablet open.
  if (!isReading) touchSession(db, session.id, at);
  return `tablet ${findTablet(db, session.tabletId)!.name}`;
}

/** Whether a session on a tablet is open still: not after it has locked itself, nor before it was touched, by a clock that was put back. */
export function isOpenAt(db: Db, session: Pick<store.SessionRow, 'touchedAt'>, at: string): boolean {
  const before = new Date(Date.parse(session.touchedAt!) - lockMs(db)).toISOString();
  return before < at && at < locksAt(db, session);
}

/** When a session on a tablet locks itself, unless somebody does something before. */
export function locksAt(db: Db, { touchedAt }: Pick<store.SessionRow, 'touchedAt'>): string {
  return new Date(Date.parse(touchedAt!) + lockMs(db)).toISOString();
}

const lockMs = (db: Db): number => getSettings(db).sharedTablets.lockMinutes * 60_000;

/** Of what a token is worth, what its person still has. */
function rolesFor(worth: readonly Role[], has: readonly Role[]): ReadonlySet<Role> {
  const all = effectiveRoles(has);
  return new Set([...effectiveRoles(worth)].filter((role) => all.has(role)));
}

/** A person as the one who asks. */
export function actorFrom({ id, name, roles, tutor }: store.PersonRow): Actor {
  return { personId: id, name, roles: effectiveRoles(roles), tutor, deviceId: null, confirmed: null };
}

function show({ tokenHash: _hash, ...token }: store.TokenRow): z.infer<typeof TokenReply> {
  return token;
}
