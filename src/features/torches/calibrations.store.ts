import { and, desc, eq, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById } from '../../platform/db/rows.ts';
import { calibrations } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type CalibrationRow = typeof calibrations.$inferSelect;

export function findCalibration(db: Db, id: string): CalibrationRow | undefined {
  return rowById(db, calibrations, id);
}

/** The one in force for a person with a torch. */
export function findNewest(db: Db, personId: string, torchId: string): CalibrationRow | undefined {
  return db
    .select()
    .from(calibrations)
    .where(and(eq(calibrations.personId, personId), eq(calibrations.torchId, torchId)))
    .orderBy(desc(calibrations.version))
    .limit(1)
    .get();
}

export function isCalibrated(db: Db, torchId: string): boolean {
  const found = db.select({ id: calibrations.id }).from(calibrations).where(eq(calibrations.torchId, torchId)).limit(1).get();
  return found !== undefined;
}

export interface CalibrationSought extends Page {
  torchId?: string | undefined;
  personId?: string | undefined;
  onlyOf: string | undefined;
}

export function listCalibrations(db: Db, { limit, cursor, torchId, personId, onlyOf }: CalibrationSought): CalibrationRow[] {
  return db
    .select()
    .from(calibrations)
    .where(
      and(
        cursor === undefined ? undefined : lt(calibrations.id, cursor),
        torchId === undefined ? undefined : eq(calibrations.torchId, torchId),
        personId === undefined ? undefined : eq(calibrations.personId, personId),
        onlyOf === undefined ? undefined : eq(calibrations.personId, onlyOf),
      ),
    )
    .orderBy(desc(calibrations.id))
    .limit(limit + 1)
    .all();
}

export function insertCalibration(db: Db, row: typeof calibrations.$inferInsert): CalibrationRow {
  return insertRow(db, calibrations, row);
}
