import { and, eq, gt, isNull } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById } from '../../platform/db/rows.ts';
import { oneTimeCodes, people, pins, pinTries, sessions, sharedTablets } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import type { PersonRow } from './people.store.ts';

export type TabletRow = typeof sharedTablets.$inferSelect;
export type PinRow = typeof pins.$inferSelect;

export function insertTablet(db: Db, row: typeof sharedTablets.$inferInsert): TabletRow {
  return insertRow(db, sharedTablets, row);
}

export function findTablet(db: Db, id: string): TabletRow | undefined {
  return rowById(db, sharedTablets, id);
}

export function findTabletByToken(db: Db, tokenHash: string): TabletRow | undefined {
  const open = and(eq(sharedTablets.tokenHash, tokenHash), isNull(sharedTablets.revokedAt));
  return db.select().from(sharedTablets).where(open).get();
}

export function listTablets(db: Db, { limit, cursor }: Page): TabletRow[] {
  return newestRows(db, sharedTablets, { limit, cursor });
}

export function revokeTablet(db: Db, id: string, at: string): TabletRow {
  return db.update(sharedTablets).set({ revokedAt: at }).where(eq(sharedTablets.id, id)).returning().get();
}

/** Whoever is at a tablet is no more. */
export function lockTablet(db: Db, tabletId: string, at: string): void {
  const open = and(eq(sessions.tabletId, tabletId), isNull(sessions.revokedAt));
  db.update(sessions).set({ revokedAt: at }).where(open).run();
}

export function lockTabletsOf(db: Db, personId: string, at: string): void {
  const open = and(eq(sessions.personId, personId), gt(sessions.tabletId, ''), isNull(sessions.revokedAt));
  db.update(sessions).set({ revokedAt: at }).where(open).run();
}

export function touchSession(db: Db, id: string, at: string): void {
  db.update(sessions).set({ touchedAt: at }).where(eq(sessions.id, id)).run();
}

export function findPin(db: Db, personId: string): PinRow | undefined {
  return db.select().from(pins).where(eq(pins.personId, personId)).get();
}

export function putPin(db: Db, row: PinRow): void {
  db.insert(pins).values(row).onConflictDoUpdate({ target: pins.personId, set: row }).run();
}

export function deletePin(db: Db, personId: string): void {
  db.delete(pins).where(eq(pins.personId, personId)).run();
}

/** Who works here and has a PIN, by name. */
export function peopleWithPin(db: Db): PersonRow[] {
  return db
    .select({ person: people })
    .from(pins)
    .innerJoin(people, eq(people.id, pins.personId))
    .where(eq(people.active, true))
    .orderBy(people.name)
    .all()
    .map(({ person }) => person);
}

export function triesOf(db: Db, who: string): { wrong: number; nextAt: string | null } {
  return db.select().from(pinTries).where(eq(pinTries.who, who)).get() ?? { wrong: 0, nextAt: null };
}

export function putTries(db: Db, row: typeof pinTries.$inferInsert): void {
  db.insert(pinTries).values(row).onConflictDoUpdate({ target: pinTries.who, set: row }).run();
}

export function insertCode(db: Db, row: typeof oneTimeCodes.$inferInsert): void {
  // A newer code takes the place of those before it.
  const before = and(eq(oneTimeCodes.personId, row.personId), eq(oneTimeCodes.purpose, row.purpose), isNull(oneTimeCodes.usedAt));
  db.update(oneTimeCodes).set({ usedAt: row.createdAt }).where(before).run();
  db.insert(oneTimeCodes).values(row).run();
}

/** Whose code it is, once: after that it is used up. */
export function useCode(
  db: Db,
  { codeHash, purpose, at }: { codeHash: string; purpose: 'pin' | 'password'; at: string },
): string | undefined {
  const good = and(
    eq(oneTimeCodes.codeHash, codeHash),
    eq(oneTimeCodes.purpose, purpose),
    isNull(oneTimeCodes.usedAt),
    gt(oneTimeCodes.expiresAt, at),
  );
  return db.update(oneTimeCodes).set({ usedAt: at }).where(good).returning({ personId: oneTimeCodes.personId }).get()?.personId;
}
