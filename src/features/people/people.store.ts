import { and, desc, eq, gt, isNotNull, isNull, like, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { people, sessions, tokens } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type PersonRow = typeof people.$inferSelect;
export type TokenRow = typeof tokens.$inferSelect;

export function findPerson(db: Db, id: string): PersonRow | undefined {
  return db.select().from(people).where(eq(people.id, id)).get();
}

export function findBySignInName(db: Db, signInName: string): PersonRow | undefined {
  return db.select().from(people).where(eq(people.signInName, signInName)).get();
}

export function anyOwner(db: Db): boolean {
  const owner = and(eq(people.active, true), like(people.roles, '%"owner"%'));
  return db.select({ id: people.id }).from(people).where(owner).limit(1).get() !== undefined;
}

export function listPeople(db: Db, { limit, cursor }: Page): PersonRow[] {
  return db
    .select()
    .from(people)
    .where(cursor === undefined ? undefined : lt(people.id, cursor))
    .orderBy(desc(people.id))
    .limit(limit + 1)
    .all();
}

export function insertPerson(db: Db, row: typeof people.$inferInsert): PersonRow {
  return db.insert(people).values(row).returning().get();
}

export function updatePerson(db: Db, id: string, change: Partial<PersonRow>): PersonRow {
  return db.update(people).set(change).where(eq(people.id, id)).returning().get();
}

export function insertSession(db: Db, row: typeof sessions.$inferInsert): void {
  db.insert(sessions).values(row).run();
}

export function findPersonBySession(db: Db, tokenHash: string, at: string): PersonRow | undefined {
  const open = and(
    eq(sessions.tokenHash, tokenHash),
    isNull(sessions.revokedAt),
    gt(sessions.expiresAt, at),
    eq(people.active, true),
  );
  return db.select({ person: people }).from(sessions).innerJoin(people, eq(people.id, sessions.personId)).where(open).get()
    ?.person;
}

/** Whether a person's session was open until now. */
export function revokeSession(db: Db, personId: string, tokenHash: string, at: string): boolean {
  const open = and(eq(sessions.personId, personId), eq(sessions.tokenHash, tokenHash), isNull(sessions.revokedAt));
  return db.update(sessions).set({ revokedAt: at }).where(open).run().changes > 0;
}

/** All the doors a person has open: when they leave, or the password is changed. */
export function revokeSessionsOf(db: Db, personId: string, at: string): void {
  db.update(sessions)
    .set({ revokedAt: at })
    .where(and(eq(sessions.personId, personId), isNull(sessions.revokedAt)))
    .run();
}

export function insertToken(db: Db, row: typeof tokens.$inferInsert): TokenRow {
  return db.insert(tokens).values(row).returning().get();
}

export function findPersonByToken(db: Db, tokenHash: string): PersonRow | undefined {
  const open = and(eq(tokens.tokenHash, tokenHash), isNull(tokens.revokedAt), eq(people.active, true));
  return db.select({ person: people }).from(tokens).innerJoin(people, eq(people.id, tokens.personId)).where(open).get()?.person;
}

export function findToken(db: Db, id: string): TokenRow | undefined {
  return db.select().from(tokens).where(eq(tokens.id, id)).get();
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
