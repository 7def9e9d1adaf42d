import { and, desc, eq, inArray, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateVersion } from '../../platform/db/rows.ts';
import { incidents } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { practicePieces } from './known-pieces.ts';

export type IncidentRow = typeof incidents.$inferSelect;

export function findIncident(db: Db, id: string): IncidentRow | undefined {
  return rowById(db, incidents, id);
}

export interface IncidentQuery extends Page {
  pieceId?: string | undefined;
  state?: string | undefined;
  practiceOnly: boolean;
}

export function listIncidents(db: Db, { limit, cursor, pieceId, state, practiceOnly }: IncidentQuery): IncidentRow[] {
  return db
    .select()
    .from(incidents)
    .where(
      and(
        cursor === undefined ? undefined : lt(incidents.id, cursor),
        pieceId === undefined ? undefined : eq(incidents.pieceId, pieceId),
        state === undefined ? undefined : eq(incidents.state, state),
        practiceOnly ? inArray(incidents.pieceId, practicePieces(db)) : undefined,
      ),
    )
    .orderBy(desc(incidents.id))
    .limit(limit + 1)
    .all();
}

/** Whether something that went wrong with a piece has not been brought to an end. */
export function anyOpenIncident(db: Db, pieceId: string): boolean {
  const open = and(eq(incidents.pieceId, pieceId), inArray(incidents.state, ['seen', 'explained']));
  return db.select({ id: incidents.id }).from(incidents).where(open).limit(1).get() !== undefined;
}

export function insertIncident(db: Db, row: typeof incidents.$inferInsert): IncidentRow {
  return insertRow(db, incidents, row);
}

export function updateIncident(db: Db, id: string, change: Partial<IncidentRow>): IncidentRow {
  return updateVersion(db, incidents, id, change);
}
