import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { toG } from '../stock/index.ts';
import { cautionsDue } from './heat-cautions-due.ts';
import { heatShown, isLearner, leftToGuess } from './guess-first.ts';
import { tutorYesOf } from './guesses.store.ts';
import { fluxOf } from './heat-flux.ts';
import { heatContext, type HeatContext } from './heat-context.ts';
import type { HeatReply } from './heats.schema.ts';
import { lotOf, productOf, type HeatRow } from './heats.store.ts';
import { solderTerms } from './plan-for-pricing.ts';
import { photosOf } from './photos-of.ts';
import { plannedSolder } from './planned-solder.ts';

/** A heat as the bench needs it: what to do, with what, what to expect, what to mind. */
export function showHeat(db: Db, actor: Actor, row: HeatRow, now: Date): z.infer<typeof HeatReply> {
  const heat = heatContext(db, row);
  const { piece, plan, planned } = heat;
  const { productId: _productId, lotId: _lotId, plannedTenthMg, usedTenthMg, ...rest } = row;
  // What the columns hold was written by the schemas and the engine; its readonly lists are the reply's lists.
  return {
    ...rest,
    number: `${piece.number} H${row.number}`,
    planNumber: plan.number,
    partsInFire: heat.partsInFire.map(({ id }) => id),
    product: showProduct(db, row),
    lot: showLot(db, row),
    plannedG: toG(plannedTenthMg),
    usedG: usedTenthMg === null ? null : toG(usedTenthMg),
    placed: placedFor(db, heat).map(({ joint, tenthMg, pieces }) => ({ joint, placedG: toG(tenthMg), chips: pieces })),
    flame: planned.flame ?? null,
    protections: planned.protections ?? [],
    torch: planned.torch ?? null,
    support: planned.support ?? null,
    ...expectedFor(db, actor, heat),
    cautions: cautionsDue(db, heat, { personId: actor.personId, at: now }),
    flux: fluxOf(db, heat),
    photos: photosOf(db, 'heat', row.id),
    tutorsYes: tutorYesOf(db, row.id).map(({ heatId: _id, ...yes }) => yes),
    allowedMoves: allowedMoves('heat', actor, { state: row.state }),
  } as z.infer<typeof HeatReply>;
}

/** What the check expects of a heat; a student guesses what its earlier joints do before they are told. */
function expectedFor(db: Db, actor: Actor, { row, plan, checked }: HeatContext) {
  const left = isLearner(actor) ? (leftToGuess(db, plan, actor.personId).get(row.position) ?? []) : [];
  const shown = checked && heatShown(checked, left);
  return { expected: shown ?? null, guessFirst: shown?.guessFirst ?? [] };
}

/** What the plan lays on each joint of a heat. */
export function placedFor(db: Db, { row, plan, design }: HeatContext) {
  const placed = plannedSolder(design.body, plan.body, solderTerms(db, plan.solders));
  return placed.filter(({ position }) => position === row.position);
}

function showProduct(db: Db, row: HeatRow): z.infer<typeof HeatReply>['product'] {
  const product = productOf(db, row);
  if (!product) return null;
  const { id, code, name, gradeWord, form, solidusC, liquidusC } = product;
  return { id, code, name, gradeWord, form, solidusC, liquidusC };
}

function showLot(db: Db, row: HeatRow): z.infer<typeof HeatReply>['lot'] {
  const lot = lotOf(db, row);
  return lot ? { id: lot.id, number: lot.number, markOnMetal: lot.markOnMetal } : null;
}
