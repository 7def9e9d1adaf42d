import { and, asc, eq, ne, notInArray, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import {
  benchTimes,
  hallmarkPacketPieces,
  hallmarkPackets,
  metalMovements,
  pieces,
  stockMovements,
} from '../../platform/db/tables.ts';

/** Spans at the bench on the pieces of some commissions that ended and are not in doubt. */
export function timesOf(db: Db, commissionIds: readonly string[]) {
  const { id, pieceId, startedAt, stoppedAt, minutesByHand, ratePerHour } = benchTimes;
  return db
    .select({
      commissionId: pieces.commissionId,
      pieceState: pieces.state,
      id,
      pieceId,
      startedAt,
      stoppedAt,
      minutesByHand,
      ratePerHour,
    })
    .from(benchTimes)
    .innerJoin(pieces, eq(pieces.id, benchTimes.pieceId))
    .where(and(isAmong(pieces.commissionId, commissionIds), ne(benchTimes.state, 'running'), ne(benchTimes.state, 'in_doubt')))
    .orderBy(asc(benchTimes.startedAt))
    .all()
    .map(({ startedAt: begun, stoppedAt: over, minutesByHand: byHand, ...time }) => ({
      ...time,
      minutes: byHand ?? (Date.parse(over ?? begun) - Date.parse(begun)) / 60_000,
    }));
}

/** What left the lots of solder for the pieces of some commissions (negative), or came back. */
export function solderOf(db: Db, commissionIds: readonly string[]) {
  return db
    .select({
      commissionId: pieces.commissionId,
      id: stockMovements.id,
      pieceId: stockMovements.pieceId,
      onHandTenthMg: stockMovements.onHandTenthMg,
    })
    .from(stockMovements)
    .innerJoin(pieces, eq(pieces.id, stockMovements.pieceId))
    .where(and(isAmong(pieces.commissionId, commissionIds), ne(stockMovements.onHandTenthMg, 0)))
    .orderBy(sql`${stockMovements}.rowid`)
    .all();
}

/** The same of metal, the client's own among it. */
export function metalOf(db: Db, commissionIds: readonly string[]) {
  return db
    .select({
      commissionId: pieces.commissionId,
      id: metalMovements.id,
      pieceId: metalMovements.pieceId,
      onHandTenthMg: metalMovements.onHandTenthMg,
    })
    .from(metalMovements)
    .innerJoin(pieces, eq(pieces.id, metalMovements.pieceId))
    .where(isAmong(pieces.commissionId, commissionIds))
    .orderBy(sql`${metalMovements}.rowid`)
    .all();
}

/** Packets that the pieces of some commissions went to be marked with, or were lost with. */
export function packetsOf(db: Db, commissionIds: readonly string[]) {
  return db
    .select({ commissionId: pieces.commissionId, packet: hallmarkPackets, packed: hallmarkPacketPieces })
    .from(hallmarkPacketPieces)
    .innerJoin(hallmarkPackets, eq(hallmarkPackets.id, hallmarkPacketPieces.packetId))
    .innerJoin(pieces, eq(pieces.id, hallmarkPacketPieces.pieceId))
    .where(and(isAmong(pieces.commissionId, commissionIds), notInArray(hallmarkPackets.state, ['packing', 'dropped'])))
    .orderBy(asc(hallmarkPackets.id))
    .all()
    .map(({ commissionId, packet, packed }) => ({
      ...packet,
      commissionId,
      pieceId: packed.pieceId,
      partMarksMinor: packed.partMarksMinor,
    }));
}
