import { planDifference } from '../../../shared/design/plan-difference.ts';
import type { Plan } from '../../../shared/design/plan.ts';
import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { guessesOfPlan } from './guesses.store.ts';
import { findDesign } from './pieces.store.ts';
import { findNewestPlan, lastHandOn, type PlanRow } from './plans.store.ts';
import { expandPlan } from './true-state.ts';

/**
 * Only a draft is rewritten, and by whoever knows what it says now: when two people work on one plan, the later is told heat by heat in
 * what the two differ, and loses nothing.
 *
 * @param seen the version that was read
 * @throws {Problem} stale, condition-not-met
 */
export function holdRewritable(db: Db, row: PlanRow, { seen, yours }: { seen: number; yours: Plan }): void {
  const { number, state, version } = row;
  if (state !== 'draft') {
    const says = `plan ${number} is ${state.replaceAll('_', ' ')}: it never changes after draft, so plan anew (POST /pieces/{id}/plans)`;
    throw new Problem('condition-not-met', `Cannot rewrite it: ${says}`, { missing: [says] });
  }
  if (version !== seen) throw stale(db, row, { seen, yours });
  if (guessesOfPlan(db, row.id).length > 0) {
    const says = `students have guessed what plan ${number} does: plan anew (POST /pieces/{id}/plans)`;
    throw new Problem('condition-not-met', `Cannot rewrite it: ${says}`, { missing: [says] });
  }
}

/**
 * A new version follows the one its maker knows: when somebody else has made another meanwhile, whoever is later is told heat by heat in
 * what the two differ. Both stay: every version is kept.
 *
 * @param after the number of the newest that is known; 0: none
 * @throws {Problem} stale
 */
export function holdNewest(db: Db, pieceId: string, { after, yours }: { after: number; yours: Plan }): void {
  const newest = findNewestPlan(db, pieceId);
  if ((newest?.number ?? 0) === after || !newest) return;
  const { id, number, version, body } = newest;
  const by = lastHandOn(db, id);
  throw new Problem(
    'stale',
    `Cannot keep this plan after plan ${after}: ${by ?? 'somebody'} has made plan ${number} since you read it`,
    {
      version,
      number,
      changedBy: by,
      theirs: body,
      difference: planDifference(yours, body),
      waysOn: [
        {
          says: 'Keep yours as the version after theirs.',
          method: 'POST',
          path: `/api/v1/pieces/${pieceId}/plans`,
          body: { plan: yours, after: number },
        },
      ],
    },
  );
}

function stale(
  db: Db,
  { id, pieceId, designId, number, version, body }: PlanRow,
  { seen, yours }: { seen: number; yours: Plan },
) {
  const differences = planDifference(expandPlan(yours, findDesign(db, designId)!.body), body);
  const by = lastHandOn(db, id);
  return new Problem(
    'stale',
    `Cannot change plan ${number}: ${by ?? 'somebody'} has changed it since you read version ${seen}; it is at version ${version} now`,
    {
      version,
      changedBy: by,
      theirs: body,
      difference: differences,
      waysOn: [
        {
          says: 'Keep yours as a draft of its own.',
          method: 'POST',
          path: `/api/v1/pieces/${pieceId}/plans`,
          body: { plan: yours },
        },
        {
          says: 'Write yours in place of theirs.',
          method: 'PUT',
          path: `/api/v1/plans/${id}`,
          headers: { 'if-match': `"${version}"` },
          body: { plan: yours },
        },
      ],
    },
  );
}
