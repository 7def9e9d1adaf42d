import { and, asc, eq, ne, notInArray, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import {
  benchTimes,
  hallmarkPacketPieces,
  hallmarkPackets,
  metalMovements,
  pieces,
  stockMovements,
} from '../../platform/db/tables.ts';

/** Spans at the bench on the pieces of a commission that ended and are not in doubt. */
export function timesOf(db: Db, commissionId: string) {
  return db
    .select({ time: benchTimes, pieceState: pieces.state })
    .from(benchTimes)
    .innerJoin(pieces, eq(pieces.id, benchTimes.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), ne(benchTimes.state, 'running'), ne(benchTimes.state, 'in_doubt')))
    .orderBy(asc(benchTimes.startedAt))
    .all()
    .map(({ time: { id, pieceId, startedAt, stoppedAt, minutesByHand, ratePerHour }, pieceState }) => ({
      id,
      pieceId,
      pieceState,
      ratePerHour,
      minutes: minutesByHand ?? (Date.parse(stoppedAt ?? startedAt) - Date.parse(startedAt)) / 60_000,
    }));
}

/** What left the lots of solder for the pieces of a commission (negative), or came back. */
export function solderOf(db: Db, commissionId: string) {
  return db
    .select({ id: stockMovements.id, pieceId: stockMovements.pieceId, onHandTenthMg: stockMovements.onHandTenthMg })
    .from(stockMovements)
    .innerJoin(pieces, eq(pieces.id, stockMovements.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), ne(stockMovements.onHandTenthMg, 0)))
    .orderBy(sql`${stockMovements}.rowid`)
    .all();
}

/** The same of metal, the client's own among it. */
export function metalOf(db: Db, commissionId: string) {
  return db
    .select({ id: metalMovements.id, pieceId: metalMovements.pieceId, onHandTenthMg: metalMovements.onHandTenthMg })
    .from(metalMovements)
    .innerJoin(pieces, eq(pieces.id, metalMovements.pieceId))
    .where(eq(pieces.commissionId, commissionId))
    .orderBy(sql`${metalMovements}.rowid`)
    .all();
}

/** Packets that the pieces of a commission went to be marked with, or were lost with. */
export function packetsOf(db: Db, commissionId: string) {
  return db
    .select({ packet: hallmarkPackets, packed: hallmarkPacketPieces })
    .from(hallmarkPacketPieces)
    .innerJoin(hallmarkPackets, eq(hallmarkPackets.id, hallmarkPacketPieces.packetId))
    .innerJoin(pieces, eq(pieces.id, hallmarkPacketPieces.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), notInArray(hallmarkPackets.state, ['packing', 'dropped'])))
    .orderBy(asc(hallmarkPackets.id))
    .all()
    .map(({ packet, packed }) => ({ ...packet, pieceId: packed.pieceId, partMarksMinor: packed.partMarksMinor }));
}
