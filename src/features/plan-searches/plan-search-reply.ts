import type { z } from 'zod';
import type { SearchProgress } from '../../platform/db/search-tables.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { isLearner } from '../pieces/index.ts';
import type { PlanSearchListed, PlanSearchWhole } from './plan-searches.schema.ts';
import type { PlanSearchRow } from './plan-searches.store.ts';

/** @param progress of one under way; of others it is in the row */
export function showPlanSearch(
  actor: Actor,
  row: PlanSearchRow,
  progress: SearchProgress | null,
): z.infer<typeof PlanSearchListed> {
  const { bench: _bench, solders: _solders, answer: _answer, ...listed } = wholePlanSearch(actor, row, progress);
  return listed;
}

/** Of a piece a student is told the plan, and nothing of what it does to the joints, before they have guessed it. */
function answerFor(actor: Actor, { answer, pieceId }: PlanSearchRow): PlanSearchRow['answer'] {
  if (answer === null || pieceId === null || !isLearner(actor)) return answer;
  return { ...answer, check: null, why: [], alternatives: [], proof: answer.proof.filter(({ level }) => level !== 'margin') };
}

export function wholePlanSearch(
  actor: Actor,
  row: PlanSearchRow,
  progress: SearchProgress | null,
): z.infer<typeof PlanSearchWhole> {
  const { design: _design, designId: _designId, madeJoints: _madeJoints, ...shown } = row;
  const own = row.personId === actor.personId;
  // The stored JSON was written by the schemas and the engine; its readonly lists are the reply's lists.
  return {
    ...shown,
    answer: answerFor(actor, row),
    progress: progress ?? row.progress,
    outcome: row.answer?.outcome ?? null,
    allowedMoves: allowedMoves('plan_search', actor, { state: row.state, own }),
  } as unknown as z.infer<typeof PlanSearchWhole>;
}
