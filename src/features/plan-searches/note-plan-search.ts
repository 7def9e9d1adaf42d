import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { writeJournal } from '../../platform/journal.ts';
import * as store from './plan-searches.store.ts';

export function noteAsked(tx: Db, by: WrittenBy, asked: Parameters<typeof store.insertPlanSearch>[1]): store.PlanSearchRow {
  const row = store.insertPlanSearch(tx, asked);
  writeJournal(tx, by, { what: 'plan-search', id: row.id, after: inShort(row) });
  return row;
}

export function notePlanSearch(
  tx: Db,
  by: WrittenBy,
  before: store.PlanSearchRow,
  change: Partial<store.PlanSearchRow>,
): store.PlanSearchRow {
  const after = store.updatePlanSearch(tx, before.id, change);
  writeJournal(tx, by, { what: 'plan-search', id: before.id, before: inShort(before), after: inShort(after) });
  return after;
}

/** What was asked and answered stays in the record itself: it never changes. */
function inShort({ pieceId, personId, state, answer, failure, planId }: store.PlanSearchRow) {
  return { pieceId, personId, state, outcome: answer?.outcome ?? null, failure, planId };
}
