import { asc, eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { heats, incidents, people, plans, solderHistory } from '../../platform/db/tables.ts';
import { effectiveRoles } from '../../platform/http/actor.ts';

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

export function plansMade(db: Db): { id: string; personId: string; at: string }[] {
  return db.select({ id: plans.id, personId: plans.madeBy, at: plans.createdAt }).from(plans).orderBy(asc(plans.id)).all();
}

/** The first soldering of every joint, with who lit its heat. */
export function firstSolderings(db: Db) {
  const all = db
    .select({
      pieceId: solderHistory.pieceId,
      jointId: solderHistory.jointId,
      heatId: solderHistory.heatId,
      outcome: solderHistory.outcome,
      at: solderHistory.at,
      personId: heats.litBy,
    })
    .from(solderHistory)
    .innerJoin(heats, eq(heats.id, solderHistory.heatId))
    .orderBy(asc(solderHistory.at), sql`${solderHistory}.rowid`)
    .all();
  const seen = new Set<string>();
  return all.filter(({ pieceId, jointId }) => {
    const joint = JSON.stringify([pieceId, jointId]);
    const isFirst = !seen.has(joint);
    seen.add(joint);
    return isFirst;
  });
}

/** Incidents with who lit the heat, or else saw them. */
export function incidentsByHand(db: Db): { id: string; personId: string; at: string }[] {
  return db
    .select({ id: incidents.id, litBy: heats.litBy, seenBy: incidents.seenBy, at: incidents.seenAt })
    .from(incidents)
    .leftJoin(heats, eq(heats.id, incidents.heatId))
    .orderBy(asc(incidents.id))
    .all()
    .map(({ litBy, seenBy, ...incident }) => ({ ...incident, personId: litBy ?? seenBy }));
}
