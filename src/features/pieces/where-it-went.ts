import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import type { HeatContext } from './heat-context.ts';
import { heatsOfPlan } from './heats.store.ts';
import { findPlanInUse } from './plans.store.ts';

/** The states in which a newer plan leaves the heats of an older one. */
const LEFT = new Set(['skipped', 'on_hold']);

/**
 * Runs a step of a heat. Where it comes too late, since a newer plan took the heat's place, the refusal says which heats make those
 * joints now: what was done at the bench is noted there.
 */
export function sayWhereItWent<Done>(tx: Db, heat: HeatContext, step: () => Done): Done {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof Problem) || error.slug !== 'moved-on' || !LEFT.has(heat.row.state)) throw error;
    const nowIn = heatsNow(tx, heat);
    const where = nowIn.map(({ number, joints }) => `${joints.join(', ')} in ${number}`).join(', ');
    const says = [error.message, ...(nowIn.length === 0 ? [] : [`A newer plan makes ${where}: note there what was done`])];
    throw new Problem(error.slug, says.join('. '), { ...error.extensions, nowIn });
  }
}

function heatsNow(tx: Db, { row, piece }: HeatContext) {
  const plan = findPlanInUse(tx, row.pieceId);
  if (!plan || plan.id === row.planId) return [];
  return heatsOfPlan(tx, plan.id).flatMap(({ id, number, joints, state, productId }) => {
    const shared = joints.filter((joint) => row.joints.includes(joint));
    if (shared.length === 0) return [];
    return [{ heatId: id, number: `${piece.number} H${number}`, joints: shared, state, sameSolder: productId === row.productId }];
  });
}
