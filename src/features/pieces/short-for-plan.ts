import { solderNeedG } from '../../../shared/costing/solder-need.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { Db } from '../../platform/db/client.ts';
import { toG, toTenthMg } from '../stock/index.ts';
import { findDesign } from './pieces.store.ts';
import type { PlanRow } from './plans.store.ts';

interface ShortSolder {
  solder: string;
  needG: number;
  availableG: number;
  says: string;
}

const BEFORE_USE = new Set(['draft', 'checked', 'signed']);

/** Solder that a plan takes more of than the drawer had free when it was last checked; of a plan in use the heats themselves tell. */
export function shortForPlan(db: Db, { state, designId, body, solders }: PlanRow): ShortSolder[] {
  if (!BEFORE_USE.has(state) || solders.every(({ availableG }) => availableG === undefined)) return [];
  const needOf = solderNeedG(expandDesign(findDesign(db, designId)!.body).design, solders);
  return solders.flatMap(({ id, availableG = Infinity }) => {
    const joints = body.heats.flatMap((heat) => (heat.solder === id && heat.purpose !== 'anneal' ? heat.joints : []));
    const needG = toG(joints.reduce((sum, joint) => sum + toTenthMg(needOf(joint, id)), 0));
    if (needG <= availableG) return [];
    const says = `The plan takes ${needG} g of ${id}, and the drawer has ${availableG} g free: order it before the piece is begun.`;
    return [{ solder: id, needG, availableG, says }];
  });
}
