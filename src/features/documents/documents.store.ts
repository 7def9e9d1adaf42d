import { and, asc, count, eq, inArray, isNotNull, isNull, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { rowById } from '../../platform/db/rows.ts';
import {
  hallmarkPacketPieces,
  hallmarkPackets,
  joints,
  journal,
  payments,
  photos,
  pieces,
  quotes,
  sentLetters,
  solderProducts,
} from '../../platform/db/tables.ts';
import type { Paper } from './paper.ts';

export type QuoteRow = typeof quotes.$inferSelect;
export type PaymentRow = typeof payments.$inferSelect;
export type PacketRow = typeof hallmarkPackets.$inferSelect;

export function findQuote(db: Db, id: string): QuoteRow | undefined {
  return rowById(db, quotes, id);
}

/** The version that was accepted; a commission has one at most. */
export function acceptedQuote(db: Db, commissionId: string): QuoteRow | undefined {
  return db
    .select()
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), eq(quotes.state, 'accepted')))
    .get();
}

export function findPayment(db: Db, id: string): PaymentRow | undefined {
  return rowById(db, payments, id);
}

/** Payments of a commission that were received or sent back, oldest first. */
export function paymentsOf(db: Db, commissionId: string): PaymentRow[] {
  return db
    .select()
    .from(payments)
    .where(and(eq(payments.commissionId, commissionId), isNotNull(payments.receivedOn)))
    .orderBy(asc(payments.id))
    .all();
}

export function findSentLetter(db: Db, quoteId: string): Paper | undefined {
  const row = db.select().from(sentLetters).where(eq(sentLetters.quoteId, quoteId)).get();
  return row && (row.paper as Paper);
}

export function insertSentLetter(db: Db, row: { quoteId: string; paper: Paper; createdAt: string }): void {
  db.insert(sentLetters).values(row).run();
}

export function findPacket(db: Db, id: string): PacketRow | undefined {
  return rowById(db, hallmarkPackets, id);
}

/** What is in a packet for an assay office, by the numbers of the pieces. */
export function packedIn(db: Db, packetId: string) {
  return db
    .select({ packed: hallmarkPacketPieces, piece: pieces })
    .from(hallmarkPacketPieces)
    .innerJoin(pieces, eq(pieces.id, hallmarkPacketPieces.pieceId))
    .where(eq(hallmarkPacketPieces.packetId, packetId))
    .orderBy(asc(pieces.number))
    .all()
    .map(({ packed, piece }) => ({ ...packed, piece }));
}

const HOLDING = ['sound', 'doubtful'];

/** The solders that hold a piece together, each once, the highest first; null stands for solder that nobody knows. */
export function soldersIn(db: Db, pieceId: string): ({ gradeWord: string; liquidusC: number } | null)[] {
  const held = db
    .select({ solder: joints.solder })
    .from(joints)
    .where(and(eq(joints.pieceId, pieceId), inArray(joints.state, HOLDING)))
    .all();
  const words = new Map(
    db
      .select()
      .from(solderProducts)
      .all()
      .map(({ code, gradeWord }) => [code, gradeWord]),
  );
  const known = new Map(
    held.flatMap(({ solder }) =>
      solder ? [[solder.id, { gradeWord: words.get(solder.id) ?? solder.id, liquidusC: solder.liquidusC }] as const] : [],
    ),
  );
  const sorted = [...known.values()].toSorted((a, b) => b.liquidusC - a.liquidusC || (a.gradeWord < b.gradeWord ? -1 : 1));
  return held.some(({ solder }) => solder === null) ? [...sorted, null] : sorted;
}

/** When a commission came into a state, the last time; undefined when it never did. */
export function enteredState(db: Db, commissionId: string, state: string): string | undefined {
  return db.get<{ since: string } | undefined>(
    sql`SELECT json_extract(${journal.after}, '$.stateSince') AS since FROM ${journal} WHERE ${journal.thingId} = ${commissionId} AND ${journal.what} = 'commission' AND json_extract(${journal.after}, '$.state') = ${state} ORDER BY ${journal.seq} DESC LIMIT 1`,
  )?.since;
}

/** How many photos there are of what a client left: those of the commission as a whole, not of a piece we make. */
export function photosTakenIn(db: Db, commissionId: string): number {
  const takenIn = and(eq(photos.commissionId, commissionId), isNull(photos.pieceId));
  return db.select({ photos: count() }).from(photos).where(takenIn).get()!.photos;
}
