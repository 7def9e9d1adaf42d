import { and, eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { heats, joints, solderHistory, solderLots, solderProducts } from '../../platform/db/tables.ts';

export type JointRow = typeof joints.$inferSelect;

/** Every joint of a piece, a counted one copy by copy, in the order of its id. */
export function jointsOf(db: Db, pieceId: string): JointRow[] {
  return jointsOfPiece(db).all({ pieceId });
}

const jointsOfPiece = prepared((db) =>
  db
    .select()
    .from(joints)
    .where(eq(joints.pieceId, sql.placeholder('pieceId')))
    .orderBy(joints.jointId)
    .prepare(),
);

export function findJoint(db: Db, pieceId: string, jointId: string): JointRow | undefined {
  return db
    .select()
    .from(joints)
    .where(and(eq(joints.pieceId, pieceId), eq(joints.jointId, jointId)))
    .get();
}

export function putJoint(db: Db, row: typeof joints.$inferInsert): void {
  db.insert(joints)
    .values(row)
    .onConflictDoUpdate({ target: [joints.pieceId, joints.jointId], set: row })
    .run();
}

export function updateJoint(db: Db, { pieceId, jointId }: JointRow, change: Partial<JointRow>): JointRow {
  return db
    .update(joints)
    .set(change)
    .where(and(eq(joints.pieceId, pieceId), eq(joints.jointId, jointId)))
    .returning()
    .get();
}

/** Joints of a design that was replaced before any heat. */
export function removeJoints(db: Db, pieceId: string): void {
  db.delete(joints).where(eq(joints.pieceId, pieceId)).run();
}

export function insertHistory(db: Db, row: typeof solderHistory.$inferInsert): void {
  db.insert(solderHistory).values(row).run();
}

/** What solder has run in a piece, oldest first, with the names a person knows it by. */
export function historyOf(db: Db, pieceId: string) {
  return db
    .select({
      history: solderHistory,
      heatNumber: heats.number,
      code: solderProducts.code,
      name: solderProducts.name,
      lotNumber: solderLots.number,
    })
    .from(solderHistory)
    .innerJoin(heats, eq(heats.id, solderHistory.heatId))
    .innerJoin(solderProducts, eq(solderProducts.id, solderHistory.productId))
    .innerJoin(solderLots, eq(solderLots.id, solderHistory.lotId))
    .where(eq(solderHistory.pieceId, pieceId))
    .orderBy(solderHistory.id)
    .all();
}
