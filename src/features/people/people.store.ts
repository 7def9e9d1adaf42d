import { and, desc, eq, gt, isNotNull, isNull, like, lt, ne, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { people, sessions, sharedTablets, tokens } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type PersonRow = typeof people.$inferSelect;
export type TokenRow = typeof tokens.$inferSelect;
export type SessionRow = typeof sessions.$inferSelect;

export function findPerson(db: Db, id: string): PersonRow | undefined {
  return rowById(db, people, id);
}

export function findBySignInName(db: Db, signInName: string): PersonRow | undefined {
  return db.select().from(people).where(eq(people.signInName, signInName)).get();
}

const isOwner = and(eq(people.active, true), like(people.roles, '%"owner"%'));

export function anyOwner(db: Db): boolean {
  return db.select({ id: people.id }).from(people).where(isOwner).limit(1).get() !== undefined;
}

export function owners(db: Db): PersonRow[] {
  return db.select().from(people).where(isOwner).orderBy(people.id).all();
}

export function listPeople(db: Db, { limit, cursor }: Page): PersonRow[] {
  return newestRows(db, people, { limit, cursor });
}

export function insertPerson(db: Db, row: typeof people.$inferInsert): PersonRow {
  return insertRow(db, people, row);
}

export function updatePerson(db: Db, id: string, change: Partial<PersonRow>): PersonRow {
  return updateRow(db, people, id, change);
}

export function insertSession(db: Db, row: typeof sessions.$inferInsert): void {
  insertRow(db, sessions, row);
}

/** A session that is open at a moment, with its person. */
export function findSession(db: Db, tokenHash: string, at: string): { person: PersonRow; session: SessionRow } | undefined {
  return openSession(db).get({ tokenHash, at });
}

const openSession = prepared((db) => {
  const open = and(
    eq(sessions.tokenHash, sql.placeholder('tokenHash')),
    isNull(sessions.revokedAt),
    gt(sessions.expiresAt, sql.placeholder('at')),
    eq(people.active, true),
  );
  return db
    .select({ person: people, session: sessions })
    .from(sessions)
    .innerJoin(people, eq(people.id, sessions.personId))
    .where(open)
    .prepare();
});

/** Whether a person's session was open until now. */
export function revokeSession(db: Db, personId: string, tokenHash: string, at: string): boolean {
  const open = and(eq(sessions.personId, personId), eq(sessions.tokenHash, tokenHash), isNull(sessions.revokedAt));
  return db.update(sessions).set({ revokedAt: at }).where(open).run().changes > 0;
}

/** Every session a person has open but one: when they leave, or the password is changed. */
export function revokeSessionsOf(db: Db, personId: string, at: string, but = ''): void {
  const open = and(eq(sessions.personId, personId), isNull(sessions.revokedAt), ne(sessions.id, but));
  db.update(sessions).set({ revokedAt: at }).where(open).run();
}

/** The tokens of a person, too: whoever knew the password may have made some. */
export function revokeTokensOf(db: Db, personId: string, at: string, but = ''): void {
  const open = and(eq(tokens.personId, personId), isNull(tokens.revokedAt), ne(tokens.id, but));
  db.update(tokens).set({ revokedAt: at }).where(open).run();
}

/** Sessions that are open at a moment, of a person or of everybody. */
export function listSessions(db: Db, personId: string | null, at: string, { limit, cursor }: Page) {
  const whose = personId === null ? undefined : eq(sessions.personId, personId);
  const from = cursor === undefined ? undefined : lt(sessions.id, cursor);
  return db
    .select({ session: sessions, personName: people.name, tablet: sharedTablets.name })
    .from(sessions)
    .innerJoin(people, eq(people.id, sessions.personId))
    .leftJoin(sharedTablets, eq(sharedTablets.id, sessions.tabletId))
    .where(and(isNull(sessions.revokedAt), gt(sessions.expiresAt, at), eq(people.active, true), whose, from))
    .orderBy(desc(sessions.id))
    .limit(limit + 1)
    .all()
    .map(({ session, ...names }) => ({ ...session, ...names }));
}

/** Ends an open session. @returns whose it was */
export function endSession(db: Db, id: string, personId: string | null, at: string): string | undefined {
  const whose = personId === null ? undefined : eq(sessions.personId, personId);
  const open = and(eq(sessions.id, id), isNull(sessions.revokedAt), gt(sessions.expiresAt, at), whose);
  return db.update(sessions).set({ revokedAt: at }).where(open).returning({ personId: sessions.personId }).get()?.personId;
}

export function insertToken(db: Db, row: typeof tokens.$inferInsert): TokenRow {
  return insertRow(db, tokens, row);
}

/** A token that is good, with its person. */
export function findKey(db: Db, tokenHash: string): { person: PersonRow; token: TokenRow } | undefined {
  return goodToken(db).get({ tokenHash });
}

const goodToken = prepared((db) =>
  db
    .select({ person: people, token: tokens })
    .from(tokens)
    .innerJoin(people, eq(people.id, tokens.personId))
    .where(and(eq(tokens.tokenHash, sql.placeholder('tokenHash')), isNull(tokens.revokedAt), eq(people.active, true)))
    .prepare(),
);

export function findToken(db: Db, id: string): TokenRow | undefined {
  return rowById(db, tokens, id);
}

/** A person's own tokens, or everybody's. */
export function listTokens(db: Db, personId: string | null, { limit, cursor }: Page): TokenRow[] {
  const own = personId === null ? isNotNull(tokens.personId) : eq(tokens.personId, personId);
  return db
    .select()
    .from(tokens)
    .where(and(own, cursor === undefined ? undefined : lt(tokens.id, cursor)))
    .orderBy(desc(tokens.id))
    .limit(limit + 1)
    .all();
}

export function revokeToken(db: Db, id: string, at: string): TokenRow {
  return db.update(tokens).set({ revokedAt: at }).where(eq(tokens.id, id)).returning().get();
}
