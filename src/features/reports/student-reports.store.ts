import { and, asc, eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { heats, incidents, people, plans, solderHistory } from '../../platform/db/tables.ts';
import { effectiveRoles } from '../../platform/http/actor.ts';
import { isIn, type Moments } from './report-numbers.ts';

/** Who only learns here, by name. */
export function students(db: Db): { id: string; name: string }[] {
  return db
    .select()
    .from(people)
    .orderBy(asc(people.name), asc(people.id))
    .all()
    .filter(({ roles }) => {
      const may = effectiveRoles(roles);
      return may.has('student') && !may.has('bench');
    });
}

/** Plans that some people made then. */
export function plansMade(
  db: Db,
  personIds: readonly string[],
  moments: Moments,
): { id: string; personId: string; at: string }[] {
  return db
    .select({ id: plans.id, personId: plans.madeBy, at: plans.createdAt })
    .from(plans)
    .where(and(isAmong(plans.madeBy, personIds), isIn(plans.createdAt, moments)))
    .orderBy(asc(plans.id))
    .all();
}

/** Joints that were soldered for the first time then, in heats that some people lit. */
export function firstSolderings(db: Db, personIds: readonly string[], moments: Moments) {
  const earlier = sql`EXISTS (SELECT 1 FROM ${solderHistory} AS earlier WHERE earlier.piece_id = ${solderHistory.pieceId} AND earlier.joint_id = ${solderHistory.jointId} AND (earlier.at, earlier.rowid) < (${solderHistory.at}, ${solderHistory}.rowid))`;
  return db
    .select({
      heatId: solderHistory.heatId,
      outcome: solderHistory.outcome,
      at: solderHistory.at,
      personId: heats.litBy,
    })
    .from(solderHistory)
    .innerJoin(heats, eq(heats.id, solderHistory.heatId))
    .where(and(isIn(solderHistory.at, moments), isAmong(heats.litBy, personIds), sql`NOT ${earlier}`))
    .orderBy(asc(solderHistory.at), sql`${solderHistory}.rowid`)
    .all();
}

/** Incidents that were seen then, with who lit the heat, or else saw them. */
export function incidentsByHand(db: Db, moments: Moments): { id: string; personId: string; at: string }[] {
  return db
    .select({ id: incidents.id, litBy: heats.litBy, seenBy: incidents.seenBy, at: incidents.seenAt })
    .from(incidents)
    .leftJoin(heats, eq(heats.id, incidents.heatId))
    .where(isIn(incidents.seenAt, moments))
    .orderBy(asc(incidents.id))
    .all()
    .map(({ litBy, seenBy, ...incident }) => ({ ...incident, personId: litBy ?? seenBy }));
}
