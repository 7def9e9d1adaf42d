import type { FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { effectiveRoles, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { confirmedPointers } from '../../platform/http/validate.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { hashSecret, newSecret, passwordFits } from './passwords.ts';
import type { NewToken, SignIn, TokenReply } from './people.schema.ts';
import * as store from './people.store.ts';

export const SESSION_DAYS = 30;

export type KeysService = ReturnType<typeof createKeysService>;

/** Keys to the door: sessions for the page, bearer tokens for programs. Only their hashes are kept. */
export function createKeysService({ db, clock }: Platform) {
  return {
    async signIn({ signInName, password }: z.infer<typeof SignIn>): Promise<{ secret: string; actor: Actor }> {
      const person = store.findBySignInName(db, signInName.trim().toLowerCase());
      const fits = await passwordFits(password, person?.passwordHash ?? null);
      if (!person || !fits || !person.active)
        throw new Problem('sign-in-refused', 'Cannot sign in: the name or the password is wrong');
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
    whoAsks(request: FastifyRequest, cookie: string | undefined): Actor | undefined {
      const bearer = /^Bearer ([\w-]+)$/.exec(request.headers.authorization ?? '')?.[1];
      const person = bearer
        ? store.findPersonByToken(db, hashSecret(bearer))
        : cookie && store.findPersonBySession(db, hashSecret(cookie), clock.now().toISOString());
      if (!person) return undefined;
      const pointers = confirmedPointers(request);
      const reason = request.headers['confirm-reason'];
      const deviceId = request.headers['device-id'];
      return {
        ...actorFrom(person),
        deviceId: typeof deviceId === 'string' ? deviceId.slice(0, 64) : null,
        confirmed: pointers.length > 0 ? { pointers, reason: String(reason) } : null,
      };
    },

    /** Makes a token for oneself; the owner may make one for anybody. */
    addToken(
      actor: Actor,
      { name, personId = actor.personId }: z.infer<typeof NewToken>,
    ): z.infer<typeof TokenReply> & { token: string } {
      if (personId !== actor.personId && !actor.roles.has('owner'))
        throw new Problem('forbidden', 'Cannot make a token for someone else: that is for the owner');
      if (!store.findPerson(db, personId)) throw notFound('person', personId);
      const token = newSecret();
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const row = store.insertToken(tx, {
          id: newId(by.at),
          personId,
          name,
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

/** A person as the one who asks. */
export function actorFrom({ id, name, roles, tutor }: store.PersonRow): Actor {
  return { personId: id, name, roles: effectiveRoles(roles), tutor, deviceId: null, confirmed: null };
}

function show({ tokenHash: _hash, ...token }: store.TokenRow): z.infer<typeof TokenReply> {
  return token;
}
