import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { toG } from '../stock/index.ts';
import { cautionsDue } from './heat-cautions-due.ts';
import { heatShown, isLearner, leftToGuess } from './guess-first.ts';
import { tutorYesOf } from './guesses.store.ts';
import { fluxOf } from './heat-flux.ts';
import { heatContext, planContext, type HeatContext, type PlanContext } from './heat-context.ts';
import type { HeatReply } from './heats.schema.ts';
import { lotOf, productOf, type HeatRow } from './heats.store.ts';
import { solderTerms } from './plan-for-pricing.ts';
import { photosOf } from './photos-of.ts';
import { solderOfHeat, type SolderTerms } from './planned-solder.ts';

/** A heat as the bench needs it: what to do, with what, what to expect, what to mind. */
export function showHeat(db: Db, actor: Actor, row: HeatRow, now: Date): z.infer<typeof HeatReply> {
  return shownIn(db, { actor, now, known: planShown(db, actor, row.planId) }, row);
}

/** The same of one heat after the other; what those of one plan have in common is looked up once. */
export function heatShower(db: Db, actor: Actor, now: Date): (row: HeatRow) => z.infer<typeof HeatReply> {
  const plans = new Map<string, PlanShown>();
  return (row) => {
    const known = plans.get(row.planId) ?? planShown(db, actor, row.planId);
    plans.set(row.planId, known);
    return shownIn(db, { actor, now, known }, row);
  };
}

interface PlanShown {
  context: PlanContext;
  /** Earlier joints that whoever asks has yet to guess, by the heat. */
  left: ReadonlyMap<number, readonly string[]>;
  terms: SolderTerms;
}

function planShown(db: Db, actor: Actor, planId: string): PlanShown {
  const context = planContext(db, planId);
  const left = isLearner(actor) ? leftToGuess(db, context.plan, actor.personId) : new Map<number, string[]>();
  return { context, left, terms: solderTerms(db, context.plan.solders) };
}

function shownIn(
  db: Db,
  { actor, now, known }: { actor: Actor; now: Date; known: PlanShown },
  row: HeatRow,
): z.infer<typeof HeatReply> {
  const heat = heatContext(db, row, known.context);
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
    placed: solderOfHeat(known.context.single, planned, known.terms).map(({ joint, tenthMg, pieces }) => ({
      joint,
      placedG: toG(tenthMg),
      chips: pieces,
    })),
    flame: planned.flame ?? null,
    protections: planned.protections ?? [],
    torch: planned.torch ?? null,
    support: planned.support ?? null,
    ...expectedFor(heat, known.left.get(row.position)),
    cautions: cautionsDue(db, heat, { personId: actor.personId, at: now }),
    flux: fluxOf(db, heat),
    photos: photosOf(db, 'heat', row.id),
    tutorsYes: tutorYesOf(db, row.id).map(({ heatId: _id, ...yes }) => yes),
    allowedMoves: allowedMoves('heat', actor, { state: row.state }),
  } as z.infer<typeof HeatReply>;
}

/** What the check expects of a heat; a student guesses what its earlier joints do before they are told. */
function expectedFor({ checked }: HeatContext, left: readonly string[] = []) {
  const shown = checked && heatShown(checked, left);
  return { expected: shown ?? null, guessFirst: shown?.guessFirst ?? [] };
}

/** What the plan lays on each joint of a heat. */
export function placedFor(db: Db, { plan, single, planned }: Pick<HeatContext, 'plan' | 'single' | 'planned'>) {
  return solderOfHeat(single, planned, solderTerms(db, plan.solders));
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
