import { and, asc, desc, eq, exists, inArray, lt, notInArray } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateRow } from '../../platform/db/rows.ts';
import { hallmarkPacketPieces, hallmarkPackets, pieces, solderHistory, solderProducts } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type PacketRow = typeof hallmarkPackets.$inferSelect;
export type PackedRow = typeof hallmarkPacketPieces.$inferSelect;

export interface PacketFilter {
  state?: string | undefined;
  pieceId?: string | undefined;
}

export function getPacket(db: Db, id: string): PacketRow {
  const row = rowById(db, hallmarkPackets, id);
  if (!row) throw notFound('packet', id);
  return row;
}

export function listPackets(db: Db, { limit, cursor, state, pieceId }: Page & PacketFilter): PacketRow[] {
  const holds = (wanted: string) =>
    exists(
      db
        .select({ id: hallmarkPacketPieces.pieceId })
        .from(hallmarkPacketPieces)
        .where(and(eq(hallmarkPacketPieces.packetId, hallmarkPackets.id), eq(hallmarkPacketPieces.pieceId, wanted))),
    );
  return db
    .select()
    .from(hallmarkPackets)
    .where(
      and(
        cursor === undefined ? undefined : lt(hallmarkPackets.id, cursor),
        state === undefined ? undefined : eq(hallmarkPackets.state, state),
        pieceId === undefined ? undefined : holds(pieceId),
      ),
    )
    .orderBy(desc(hallmarkPackets.id))
    .limit(limit + 1)
    .all();
}

export function insertPacket(db: Db, row: typeof hallmarkPackets.$inferInsert): PacketRow {
  return insertRow(db, hallmarkPackets, row);
}

export function updatePacket(db: Db, id: string, change: Partial<PacketRow>): PacketRow {
  return updateRow(db, hallmarkPackets, id, change);
}

/** What is in a packet, by the numbers of the pieces. */
export function packedIn(db: Db, packetId: string): PackedRow[] {
  return db
    .select({ packed: hallmarkPacketPieces })
    .from(hallmarkPacketPieces)
    .innerJoin(pieces, eq(pieces.id, hallmarkPacketPieces.pieceId))
    .where(eq(hallmarkPacketPieces.packetId, packetId))
    .orderBy(asc(pieces.number))
    .all()
    .map(({ packed }) => packed);
}

export function replacePacked(db: Db, packetId: string, rows: (typeof hallmarkPacketPieces.$inferInsert)[]): void {
  db.delete(hallmarkPacketPieces).where(eq(hallmarkPacketPieces.packetId, packetId)).run();
  db.insert(hallmarkPacketPieces).values(rows).run();
}

export function updatePacked(db: Db, { packetId, pieceId }: PackedRow, change: Partial<PackedRow>): void {
  db.update(hallmarkPacketPieces)
    .set(change)
    .where(and(eq(hallmarkPacketPieces.packetId, packetId), eq(hallmarkPacketPieces.pieceId, pieceId)))
    .run();
}

/** The packet a piece is in that has not come to its end. */
export function openPacketOf(db: Db, pieceId: string): PacketRow | undefined {
  return db
    .select({ packet: hallmarkPackets })
    .from(hallmarkPacketPieces)
    .innerJoin(hallmarkPackets, eq(hallmarkPackets.id, hallmarkPacketPieces.packetId))
    .where(and(eq(hallmarkPacketPieces.pieceId, pieceId), notInArray(hallmarkPackets.state, ['back', 'lost', 'dropped'])))
    .get()?.packet;
}

/** Silver of every solder that was put into a piece, as its heats were cleared; null where a product does not say. */
export function silverPutInto(db: Db, pieceId: string): { code: string; silverFraction: number | null }[] {
  return db
    .selectDistinct({ code: solderProducts.code, silverFraction: solderProducts.silverFraction })
    .from(solderHistory)
    .innerJoin(solderProducts, eq(solderProducts.id, solderHistory.productId))
    .where(and(eq(solderHistory.pieceId, pieceId), inArray(solderHistory.outcome, ['sound', 'spoilt'])))
    .all();
}
