import type { z } from 'zod';
import type { Solder } from '../../../shared/design/solder.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { whatIfOrRefuse, type Planning } from '../calculations/index.ts';
import { getSettings } from '../settings/index.ts';
import { benchFromBook } from '../torches/index.ts';
import { holdFireFreeOfCadmium } from './cadmium-in-fire.ts';
import { isLearner, leftToGuess } from './guess-first.ts';
import { getPiece } from './piece-reads.ts';
import { basisOfPlan, planBasis, soldersFor } from './plan-basis.ts';
import { askedOfPiece, checked, draftFound, holdPlannable, madeFrom, searchOf, withoutStock, type Draft } from './plan-drafts.ts';
import { holdNewest, holdRewritable } from './plan-edits.ts';
import { movePlan } from './plan-moves.ts';
import { showPlan } from './plan-reply.ts';
import type { NewPlan, PlanChange, PlanMove, PlanWhatIf } from './plans.schema.ts';
import * as store from './plans.store.ts';
import { sameMadeJoints } from './true-state.ts';

export type PlanService = ReturnType<typeof createPlanService>;

type Asked = z.infer<typeof NewPlan>;

export function createPlanService({ db, clock }: Platform, planning: Planning) {
  return {
    /**
     * What a new draft would hold: the plan given and checked, or the best found, from the true state of the piece's joints, by the
     * bench given or the studio's own, a torch of the book as this person has calibrated it.
     * Keeps nothing; a search lets the server answer others.
     *
     * @param gone aborts when nobody waits for it any more
     */
    async draft({ personId }: Actor, pieceId: string, asked: Asked, gone?: AbortSignal): Promise<Draft> {
      if (asked.after !== undefined && asked.plan) holdNewest(db, pieceId, { after: asked.after, yours: asked.plan });
      const question = askedOfPiece(db, { personId, now: clock.now() }, pieceId, asked);
      if (!asked.search) return checked(question, asked.plan!);
      const answer = await planning.search({ personId, gone }, searchOf(question, asked.search));
      const { basis, ...made } = question;
      return draftFound({ ...made, ...madeFrom(basis) }, answer);
    },

    /** Keeps a draft as the piece's next plan version, if the piece is still what it was made from. */
    keep(actor: Actor, draft: Draft, after?: number) {
      return db.transaction((tx) => {
        const { pieceId } = draft;
        if (after !== undefined) holdNewest(tx, pieceId, { after, yours: draft.body });
        holdKeepable(tx, draft);
        const by = writtenBy(actor, clock.now());
        const row = store.insertPlan(tx, {
          ...draft,
          id: newId(by.at),
          number: store.highestPlanNumber(tx, pieceId) + 1,
          state: 'draft',
          madeBy: actor.personId,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'plan', id: row.id, after: row });
        return showPlan(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => showPlan(db, actor, store.getPlan(db, id)),

    list(actor: Actor, pieceId: string, page: Page) {
      getPiece(db, pieceId);
      return pageOf(store.listPlans(db, pieceId, page), page, (row) => showPlan(db, actor, row));
    },

    /** Writes the heats of a draft anew, checked at once, from the true state of the piece. */
    async rewrite(actor: Actor, id: string, seen: number, { plan: yours }: z.infer<typeof PlanChange>) {
      const before = store.getPlan(db, id);
      holdRewritable(db, before, { seen, yours });
      const { pieceId, bench, solders } = before;
      holdPlannable(db, pieceId);
      const draft = await checked({ pieceId, basis: planBasis(db, pieceId, solders), bench, solders }, yours);
      return db.transaction((tx) => {
        holdRewritable(tx, store.getPlan(tx, id), { seen, yours });
        holdKeepable(tx, draft);
        const by = writtenBy(actor, clock.now());
        const after = store.updatePlan(tx, id, draft);
        writeJournal(tx, by, { what: 'plan', id, before, after });
        return showPlan(tx, actor, after);
      });
    },

    /** Checks a plan again, with today's stock, settings and state of the piece; only a draft keeps the answer. */
    async checkAgain(actor: Actor, id: string) {
      const before = store.getPlan(db, id);
      const solders = todaysSolders(db, before, clock.now());
      const { riseK, antiFlowBudgetS } = getSettings(db).bench;
      const bench = { ...benchFromBook(db, actor.personId, before.bench), riseK, antiFlowBudgetS };
      const isDraft = before.state === 'draft';
      const basis = isDraft ? planBasis(db, before.pieceId, solders) : basisOfPlan(db, { ...before, solders });
      const { checkResult } = await checked({ basis, pieceId: before.pieceId, bench, solders }, before.body);
      if (!isDraft) return showPlan(db, actor, { ...before, bench, solders, checkResult });
      return db.transaction((tx) => {
        const { state, version } = store.getPlan(tx, id);
        if (state !== before.state || version !== before.version)
          throw new Problem('moved-on', 'Cannot keep this check: the plan has changed since it was asked for', { state });
        const by = writtenBy(actor, clock.now());
        const after = store.updatePlan(tx, id, {
          checkResult,
          solders,
          bench,
          designId: basis.design.id,
          madeJoints: basis.state.made,
        });
        writeJournal(tx, by, { what: 'plan', id, before, after });
        return showPlan(tx, actor, after);
      });
    },

    /** What edits would change, from what the plan was made with. Keeps nothing. */
    async whatIf(actor: Actor, id: string, edits: z.infer<typeof PlanWhatIf>['edits']) {
      const row = store.getPlan(db, id);
      holdGuessed(db, actor, row);
      const { bench, solders, body: plan } = row;
      return whatIfOrRefuse({ design: basisOfPlan(db, row).state.design, solders: withoutStock(solders), bench, plan }, edits);
    },

    move(actor: Actor, id: string, sent: z.infer<typeof PlanMove>) {
      return db.transaction((tx) => showPlan(tx, actor, movePlan(tx, { actor, row: store.getPlan(tx, id), sent }, clock.now())));
    },
  };
}

/** A draft is kept while the piece is still what it was made from, and nothing in its fires may hold cadmium. */
function holdKeepable(tx: Db, { pieceId, designId, madeJoints, solders, checkResult }: Draft): void {
  holdPlannable(tx, pieceId);
  const { design, state } = planBasis(tx, pieceId, solders);
  if (design.id !== designId || !sameMadeJoints(state.made, madeJoints))
    throw new Problem('moved-on', 'Cannot keep this plan: the piece has changed since it was asked for');
  for (const { heat, inFire } of checkResult?.heats ?? [])
    holdFireFreeOfCadmium(tx, design, { heat: `the parts of heat ${heat}`, inFire });
}

/** The solders of a plan as they are today: those of the drawer anew, others as they were given. */
function todaysSolders(tx: Db, { pieceId, solders }: store.PlanRow, now: Date): Solder[] {
  const today = new Map(soldersFor(tx, now, pieceId).map((solder) => [solder.id, solder]));
  return solders.map((solder) => today.get(solder.id) ?? solder);
}

/** An edit that changes nothing would tell a student all that they have yet to guess. */
function holdGuessed(db: Db, actor: Actor, row: store.PlanRow): void {
  const left = isLearner(actor) ? leftToGuess(db, row, actor.personId) : new Map<number, string[]>();
  if (left.size === 0) return;
  const missing = [...left].map(([heat, joints]) => `guess first what becomes of ${joints.join(', ')} in heat ${heat}`);
  throw new Problem('condition-not-met', `Cannot ask what if: ${missing.join('; ')}`, { missing });
}
