import type { z } from 'zod';
import type { Plan } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { checkOrRefuse, searchOrRefuse } from '../calculations/index.ts';
import { getSettings } from '../settings/index.ts';
import { benchFromBook } from '../torches/index.ts';
import { holdFireFreeOfCadmium } from './cadmium-in-fire.ts';
import { getPiece } from './piece-reads.ts';
import { basisOfPlan, planBasis, soldersFor, type PlanBasis } from './plan-basis.ts';
import { movePlan } from './plan-moves.ts';
import { showPlan } from './plan-reply.ts';
import type { NewPlan, PlanMove } from './plans.schema.ts';
import * as store from './plans.store.ts';
import { expandPlan, sameMadeJoints } from './true-state.ts';

export type PlanService = ReturnType<typeof createPlanService>;

type Asked = z.infer<typeof NewPlan>;
type Made = Pick<store.PlanRow, 'origin' | 'body' | 'checkResult' | 'searchResult'>;
/** A plan version that is not kept yet. */
export type Draft = Made & Pick<store.PlanRow, 'pieceId' | 'designId' | 'madeJoints' | 'bench' | 'solders'>;

const OVER = new Set(['given', 'scrapped']);

export function createPlanService({ db, clock }: Platform) {
  return {
    /**
     * What a new draft would hold: the plan given and checked, or the best found, from the true state of the piece's joints, by the
     * bench given or the studio's own, a torch of the book as this person has calibrated it.
     * Keeps nothing; a search lets the server answer others.
     */
    async draft({ personId }: Actor, pieceId: string, asked: Asked): Promise<Draft> {
      holdPlannable(db, pieceId);
      const bench = benchFromBook(db, personId, asked.bench ?? getSettings(db).bench);
      const solders: Solder[] = asked.solders ?? soldersFor(db, pieceId);
      if (solders.length === 0)
        throw new Problem('condition-not-met', 'Cannot plan: there is no solder product free of cadmium and lead in the book');
      const basis = planBasis(db, pieceId, solders);
      const question = { ...asked, bench, solders };
      const made = asked.search ? await find(basis, question) : await check(basis, question);
      return { ...made, pieceId, designId: basis.design.id, madeJoints: basis.state.made, bench, solders };
    },

    /** Keeps a draft as the piece's next plan version, if the piece is still what it was made from. */
    keep(actor: Actor, draft: Draft) {
      return db.transaction((tx) => {
        const { pieceId } = draft;
        holdPlannable(tx, pieceId);
        const { design, state } = planBasis(tx, pieceId, draft.solders);
        if (design.id !== draft.designId || !sameMadeJoints(state.made, draft.madeJoints))
          throw new Problem('moved-on', 'Cannot keep this plan: the piece has changed since it was asked for');
        for (const { heat, inFire } of draft.checkResult?.heats ?? [])
          holdFireFreeOfCadmium(tx, design, { heat: `the parts of heat ${heat}`, inFire });
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

    get: (actor: Actor, id: string) => showPlan(db, actor, getPlan(db, id)),

    list(actor: Actor, pieceId: string, page: Page) {
      getPiece(db, pieceId);
      return pageOf(store.listPlans(db, pieceId, page), page, (row) => showPlan(db, actor, row));
    },

    /** Checks a plan again, with today's stock, settings and state of the piece; only a draft keeps the answer. */
    async checkAgain(actor: Actor, id: string) {
      const before = getPlan(db, id);
      const solders = todaysSolders(db, before);
      const { riseK, antiFlowBudgetS } = getSettings(db).bench;
      const bench = { ...benchFromBook(db, actor.personId, before.bench), riseK, antiFlowBudgetS };
      const isDraft = before.state === 'draft';
      const basis = isDraft ? planBasis(db, before.pieceId, solders) : basisOfPlan(db, { ...before, solders });
      const { checkResult } = await check(basis, { plan: before.body, bench, solders });
      if (!isDraft) return showPlan(db, actor, { ...before, bench, solders, checkResult });
      return db.transaction((tx) => {
        const { state, version } = getPlan(tx, id);
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

    move(actor: Actor, id: string, sent: z.infer<typeof PlanMove>) {
      return db.transaction((tx) => showPlan(tx, actor, movePlan(tx, { actor, row: getPlan(tx, id), sent }, clock.now())));
    },
  };
}

type Question = Pick<Asked, 'search'> & { plan?: Plan | undefined; bench: store.PlanRow['bench']; solders: Solder[] };

async function check({ design, state }: PlanBasis, { plan, bench, solders }: Question): Promise<Made> {
  const body = expandPlan(plan!, design.body);
  const checkResult = await checkOrRefuse({ design: state.design, solders, bench, plan: body });
  return { origin: 'by_hand', body, checkResult, searchResult: null };
}

async function find({ design, state }: PlanBasis, { search, bench, solders }: Question): Promise<Made> {
  if (state.open.length === 0) throw new Problem('condition-not-met', 'Cannot look for a plan: every joint is made already');
  const {
    plan,
    check: checkResult,
    ...searchResult
  } = await searchOrRefuse({
    design: state.design,
    solders,
    bench,
    ...(search && { options: search }),
  });
  if (!plan) {
    const { outcome, conflict, relaxations, searched } = searchResult;
    const says = conflict?.says ?? 'allow more joints in a heat, more protections, or more work for the search';
    throw new Problem('condition-not-met', `No plan was found: ${says}`, { outcome, conflict, relaxations, searched });
  }
  return { origin: 'found', body: expandPlan(plan, design.body), checkResult, searchResult };
}

function holdPlannable(db: Db, pieceId: string): void {
  const { number, state } = getPiece(db, pieceId);
  if (OVER.has(state)) throw new Problem('condition-not-met', `Cannot plan ${number}: it is ${state}`);
}

/** The solders of a plan as they are today: those of the drawer anew, others as they were given. */
function todaysSolders(tx: Db, { pieceId, solders }: store.PlanRow): Solder[] {
  const today = new Map(soldersFor(tx, pieceId).map((solder) => [solder.id, solder]));
  return solders.map((solder) => today.get(solder.id) ?? solder);
}

function getPlan(db: Db, id: string): store.PlanRow {
  const row = store.findPlan(db, id);
  if (!row) throw notFound('plan', id);
  return row;
}
