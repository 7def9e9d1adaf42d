import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { findProductByCode } from '../stock/index.ts';
import { insertHeat } from './heats.store.ts';
import { solderTerms } from './plan-for-pricing.ts';
import { plannedSolder } from './planned-solder.ts';
import { findDesign } from './pieces.store.ts';
import type { PlanRow } from './plans.store.ts';

/** One row for every heat of a plan. Heats of a piece count on over its plan versions. */
export function layOutHeats(tx: Db, by: WrittenBy, plan: PlanRow): void {
  const design = findDesign(tx, plan.designId)!;
  const products = plan.body.heats.map(({ solder, purpose }, index) =>
    solder === undefined || purpose === 'anneal' ? null : productId(tx, solder, index + 1),
  );
  const placed = plannedSolder(design.body, plan.body, solderTerms(tx, plan.solders));
  for (const [index, { joints, purpose = 'solder' }] of plan.body.heats.entries()) {
    const position = index + 1;
    const row = insertHeat(tx, {
      id: newId(by.at),
      pieceId: plan.pieceId,
      planId: plan.id,
      number: nextNumber(tx, `heat:${plan.pieceId}`),
      position,
      joints: [...joints],
      purpose,
      productId: products[index] ?? null,
      plannedTenthMg: placed.filter((each) => each.position === position).reduce((sum, { tenthMg }) => sum + tenthMg, 0),
      state: 'laid_out',
      createdAt: by.at.toISOString(),
    });
    writeJournal(tx, by, { what: 'heat', id: row.id, after: row });
  }
}

function productId(tx: Db, code: string, position: number): string {
  const product = findProductByCode(tx, code);
  if (product) return product.id;
  throw new Problem(
    'condition-not-met',
    `Cannot lay out heat ${position}: it asks for solder ${code}, and the book has no such product. Add it, or plan with a product of the drawer`,
    { solder: code },
  );
}
