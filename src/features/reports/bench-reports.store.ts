import { and, asc, desc, eq, gte, inArray, isNotNull, isNull, lte, ne, or, sql } from 'drizzle-orm';
import { groupBy } from '../../../shared/group-by.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { EarlierJoint } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { prepared } from '../../platform/db/prepared.ts';
import {
  commissions,
  designs,
  hallmarkPacketPieces,
  hallmarkPackets,
  heats,
  incidents,
  journal,
  people,
  pieces,
  plans,
  quotes,
  solderHistory,
  solderProducts,
} from '../../platform/db/tables.ts';
import { isIn, type Moments } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

/** A heat that was lit and is over. */
export interface EndedHeat {
  id: string;
  pieceId: string;
  outcome: string | null;
  alightAt: string;
  endedAt: string;
  /** Where the journal says that it was lit. */
  litSeq: number;
  riseK: number;
  antiFlowOn: string[];
  earlierJoints: EarlierJoint[];
}

/** Heats that are over, of pieces of which one ended then, in the order in which they were lit, as the plan of each predicted them. */
export function endedHeats(db: Db, moments: Moments): EndedHeat[] {
  const { id: heatId, pieceId: ofPiece, outcome: cameOut, alightAt: litAt, endedAt: overAt, position: place } = heats;
  const then = isIn(heats.endedAt, moments);
  const worked =
    then &&
    db
      .select({ id: heats.pieceId })
      .from(heats)
      .where(or(then, and(isNull(heats.endedAt), isIn(heats.alightAt, moments))));
  return (
    db
      .select({
        heat: { id: heatId, pieceId: ofPiece, outcome: cameOut, alightAt: litAt, endedAt: overAt, position: place },
        plan: { body: plans.body, bench: plans.bench, checkResult: plans.checkResult },
        litSeq: sql<number>`coalesce((SELECT max(${journal.seq}) FROM ${journal} WHERE ${journal.thingId} = ${heats.id} AND ${journal.what} = 'heat' AND json_extract(${journal.before}, '$.state') = 'primed' AND json_extract(${journal.after}, '$.state') = 'alight'), 0)`,
      })
      .from(heats)
      .innerJoin(plans, eq(plans.id, heats.planId))
      // By the pieces, not by the state, which nearly every heat of the book is in.
      .where(
        and(
          inArray(sql`+${heats.state}`, ['cleared', 'spoilt']),
          isNotNull(heats.alightAt),
          worked && inArray(heats.pieceId, worked),
        ),
      )
      .all()
      .map(({ heat: { id, pieceId, outcome, alightAt, endedAt, position }, plan, litSeq }): EndedHeat => {
        const protections = plan.body.heats[position - 1]?.protections ?? [];
        return {
          id,
          pieceId,
          outcome,
          alightAt: alightAt!,
          endedAt: endedAt ?? alightAt!,
          litSeq,
          riseK: plan.bench.riseK ?? 0,
          antiFlowOn: protections.flatMap((protection) => (protection.kind === 'anti_flow' ? [protection.guards] : [])),
          earlierJoints: plan.checkResult?.heats[position - 1]?.earlierJoints ?? [],
        };
      })
      .toSorted((a, b) => a.litSeq - b.litSeq)
  );
}

/** Joints of some pieces that moved, where the journal says so; what was taken back is not among them. */
export function movedJoints(db: Db, pieceIds: readonly string[]): { pieceId: string; jointId: string; seq: number }[] {
  const lines = db.all<{ pieceId: string; jointId: string; seq: number; was: string; is: string }>(
    sql`SELECT ${journal.thingId} AS pieceId, json_extract(${journal.after}, '$.jointId') AS jointId, ${journal.seq} AS seq, json_extract(${journal.before}, '$.state') AS was, json_extract(${journal.after}, '$.state') AS "is" FROM json_each(${JSON.stringify(pieceIds)}) AS piece CROSS JOIN ${journal} ON ${journal.thingId} = piece.value WHERE ${journal.what} = 'joint' AND 'moved' IN (json_extract(${journal.before}, '$.state'), json_extract(${journal.after}, '$.state')) ORDER BY ${journal.seq}`,
  );
  const moved: typeof lines = [];
  for (const line of lines) {
    if (line.is === 'moved' && line.was !== 'moved') moved.push(line);
    // A moved joint is opened; only taking the step back makes it what it was.
    else if (line.is !== 'open' && line.is !== 'moved') {
      const index = moved.findLastIndex(({ pieceId, jointId }) => pieceId === line.pieceId && jointId === line.jointId);
      if (index !== -1) moved.splice(index, 1);
    }
  }
  return moved;
}

/** Incidents in which a joint of some pieces reflowed, whether or not its heat was named. */
export function reflowIncidents(
  db: Db,
  pieceIds: readonly string[],
): { pieceId: string; heatId: string | null; jointId: string; seenAt: string }[] {
  return db
    .select({ pieceId: incidents.pieceId, heatId: incidents.heatId, jointId: incidents.jointId, seenAt: incidents.seenAt })
    .from(incidents)
    .where(and(isAmong(incidents.pieceId, pieceIds), eq(incidents.kind, 'reflow'), isNotNull(incidents.jointId)))
    .orderBy(asc(incidents.id))
    .all()
    .map(({ jointId, ...seen }) => ({ ...seen, jointId: jointId! }));
}

/** Versions of a commission that were sent, oldest first. */
export function quotesSent(db: Db, commissionId: string): { id: string; number: number; sentAt: string }[] {
  return db
    .select({ id: quotes.id, number: quotes.number, sentAt: quotes.sentAt })
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), isNotNull(quotes.sentAt)))
    .orderBy(asc(quotes.sentAt), asc(quotes.id))
    .all()
    .map(({ sentAt, ...quote }) => ({ ...quote, sentAt: sentAt! }));
}

/** When a commission came into the state it is in. */
export function stateSinceOf(db: Db, commissionId: string): string {
  return db.select({ since: commissions.stateSince }).from(commissions).where(eq(commissions.id, commissionId)).get()!.since;
}

/** Pieces of clients that are ready, of commissions that are made or were handed over, with when they became so. */
export function readyPieces(db: Db) {
  return db
    .select({
      piece: pieces,
      commission: commissions.number,
      readyAt: sql<string>`coalesce((SELECT max(${journal.at}) FROM ${journal} WHERE ${journal.thingId} = ${pieces.id} AND ${journal.what} = 'piece' AND json_extract(${journal.after}, '$.state') = 'ready' AND coalesce(json_extract(${journal.before}, '$.state'), '') <> 'ready'), ${pieces.createdAt})`,
    })
    .from(pieces)
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .where(
      and(
        eq(pieces.state, 'ready'),
        isNotNull(commissions.clientId),
        inArray(commissions.state, ['made', 'handed_over', 'settled']),
      ),
    )
    .orderBy(asc(pieces.number))
    .all();
}

export type PacketRow = typeof hallmarkPackets.$inferSelect;
export type PackedRow = typeof hallmarkPacketPieces.$inferSelect;

/** Packets that were sent in a period with what is in them, oldest first, without those that were dropped; open, those not sent too. */
export function packetsWithPieces(db: Db, { from, to }: Period): { packet: PacketRow; packed: PackedRow[] }[] {
  const packets = db
    .select()
    .from(hallmarkPackets)
    .where(
      and(
        ne(hallmarkPackets.state, 'dropped'),
        from === null ? undefined : gte(hallmarkPackets.sentOn, from),
        to === null ? undefined : lte(hallmarkPackets.sentOn, to),
      ),
    )
    .orderBy(asc(hallmarkPackets.id))
    .all();
  const ids = packets.map(({ id }) => id);
  const packed = db
    .select({ packed: hallmarkPacketPieces })
    .from(hallmarkPacketPieces)
    .innerJoin(pieces, eq(pieces.id, hallmarkPacketPieces.pieceId))
    .where(isAmong(hallmarkPacketPieces.packetId, ids))
    .orderBy(asc(pieces.number))
    .all();
  const byPacket = groupBy(
    packed.map((one) => one.packed),
    ({ packetId }) => packetId,
  );
  return packets.map((packet) => ({ packet, packed: byPacket.get(packet.id) ?? [] }));
}

export interface IncidentWithHeat {
  incident: typeof incidents.$inferSelect;
  commissionId: string;
  seer: string;
  /** Of the plan of its heat; null outside of a heat. */
  designId: string | null;
  heatGrade: string | null;
}

/** Everything that went wrong, as it was noted, with the heat it happened in. */
export function incidentsWithHeat(db: Db, moments: Moments): IncidentWithHeat[] {
  return db
    .select({
      incident: incidents,
      commissionId: pieces.commissionId,
      seer: people.name,
      designId: plans.designId,
      heatGrade: solderProducts.gradeWord,
    })
    .from(incidents)
    .innerJoin(pieces, eq(pieces.id, incidents.pieceId))
    .innerJoin(people, eq(people.id, incidents.seenBy))
    .leftJoin(heats, eq(heats.id, incidents.heatId))
    .leftJoin(plans, eq(plans.id, heats.planId))
    .leftJoin(solderProducts, eq(solderProducts.id, heats.productId))
    .where(isIn(incidents.seenAt, moments))
    .orderBy(asc(incidents.id))
    .all();
}

/** The design that the heat of an incident was planned for; outside of a heat, the newest of the piece. */
export function designOfIncident(db: Db, { designId, incident }: IncidentWithHeat): Design | undefined {
  return designId === null
    ? newestOfPiece(db).get({ pieceId: incident.pieceId })?.body
    : designById(db).get({ id: designId })?.body;
}

const designById = prepared((db) =>
  db
    .select({ body: designs.body })
    .from(designs)
    .where(eq(designs.id, sql.placeholder('id')))
    .prepare(),
);

const newestOfPiece = prepared((db) =>
  db
    .select({ body: designs.body })
    .from(designs)
    .where(eq(designs.pieceId, sql.placeholder('pieceId')))
    .orderBy(desc(designs.number))
    .limit(1)
    .prepare(),
);

/** Of the solder that was in a joint when something was seen; undefined where none was put in here. */
export function gradeInJoint(db: Db, { incident: { pieceId, jointId, seenAt } }: IncidentWithHeat): string | undefined {
  if (jointId === null) return undefined;
  return gradePutIn(db).get({ pieceId, jointId, seenAt })?.gradeWord;
}

const gradePutIn = prepared((db) =>
  db
    .select({ gradeWord: solderProducts.gradeWord })
    .from(solderHistory)
    .innerJoin(solderProducts, eq(solderProducts.id, solderHistory.productId))
    .where(
      and(
        eq(solderHistory.pieceId, sql.placeholder('pieceId')),
        eq(solderHistory.jointId, sql.placeholder('jointId')),
        lte(solderHistory.at, sql.placeholder('seenAt')),
      ),
    )
    .orderBy(desc(solderHistory.at), sql`${solderHistory}.rowid desc`)
    .limit(1)
    .prepare(),
);
