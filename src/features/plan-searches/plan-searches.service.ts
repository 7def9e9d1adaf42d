import type { z } from 'zod';
import { searchFaults } from '../../../shared/sequencing/search-plan.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, notFound, Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import type { LateNotes } from '../../platform/late-notes.ts';
import type { Platform } from '../../platform/platform.ts';
import type { Planning } from '../calculations/index.ts';
import { draftFound, knowsPiece, type PlanService } from '../pieces/index.ts';
import { askedFor } from './asked-for.ts';
import type { Follower } from './live-searches.ts';
import { noteAsked, notePlanSearch } from './note-plan-search.ts';
import { showPlanSearch, wholePlanSearch } from './plan-search-reply.ts';
import type { NewPlanSearch, PlanSearchMove, PlanSearchQuery } from './plan-searches.schema.ts';
import * as store from './plan-searches.store.ts';
import { createSearchRunner, requestOf } from './search-runner.ts';

export type PlanSearchService = ReturnType<typeof createPlanSearchService>;

interface Needs {
  planning: Planning;
  plans: PlanService;
  /** Hears of what went wrong here, not in what was asked. */
  onFault: (error: unknown) => void;
  lateNotes: LateNotes;
}

const refuse = (why: string, more: Record<string, unknown> = {}) =>
  new Problem('condition-not-met', `Cannot keep this plan: ${why}`, more);

/** Searches for a plan that are written down: asked now, followed while they run, read when they are done. */
export function createPlanSearchService(platform: Platform, { planning, plans, ...needs }: Needs) {
  const { db, clock } = platform;
  const { live, begin, noteInterrupted, interruptAll } = createSearchRunner(platform, { planning, ...needs });

  const known = (actor: Actor, id: string): store.PlanSearchRow => {
    const row = store.findPlanSearch(db, id);
    const mayKnow = row?.pieceId
      ? knowsPiece(db, actor, row.pieceId)
      : row?.personId === actor.personId || actor.roles.has('owner');
    if (!row || !mayKnow) throw notFound('plan search', id);
    return row;
  };
  const whole = (actor: Actor, row: store.PlanSearchRow) => wholePlanSearch(actor, row, live.progressOf(row.id));

  return {
    /**
     * Writes down what is asked; begin() begins it, once that is kept.
     *
     * @throws {Problem} invalid-fields, condition-not-met, too-many-requests
     */
    ask(actor: Actor, asked: z.infer<typeof NewPlanSearch>) {
      const question = askedFor(db, actor, asked, clock.now());
      const faults = searchFaults(requestOf(question));
      if (faults.length > 0) throw invalidFields(faults);
      planning.holdRoom('for_later', actor.personId);
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { personId } = actor;
        const createdAt = by.at.toISOString();
        return whole(actor, noteAsked(tx, by, { ...question, id: newId(by.at), personId, state: 'waiting', createdAt }));
      });
    },

    begin,
    noteInterrupted,
    interruptAll,

    get: (actor: Actor, id: string) => whole(actor, known(actor, id)),

    list(actor: Actor, query: z.infer<typeof PlanSearchQuery>) {
      const rows = store.listPlanSearches(db, actor, query);
      return pageOf(rows, query, (row) => showPlanSearch(actor, row, live.progressOf(row.id)));
    },

    /** Stops a search: one that waits is over, one that runs answers in a moment with the best it has. */
    move(actor: Actor, id: string, sent: z.infer<typeof PlanSearchMove>) {
      const before = known(actor, id);
      const now = clock.now();
      holdToLifecycle('plan_search', actor, { state: before.state, sent, now, own: before.personId === actor.personId });
      const isRunning = before.state === 'running';
      const ending = isRunning ? {} : { endedAt: now.toISOString() };
      const by = writtenBy(actor, now, sent.deviceId);
      const after = db.transaction((tx) => notePlanSearch(tx, by, before, { state: sent.to, ...ending }));
      live.stop(id, isRunning ? 'what_it_has' : 'nothing');
      live.tell(id);
      return whole(actor, after);
    },

    /** Makes a draft of the answer: the next plan version of the piece, if that still is what it was when the search was asked for. */
    take(actor: Actor, id: string) {
      const row = known(actor, id);
      const { pieceId, designId, madeJoints, bench, solders, answer, planId, state } = row;
      if (pieceId === null || designId === null) throw refuse('it is for a design of no piece');
      if (planId !== null) throw refuse('it is a plan of the piece already', { planId });
      if (!answer) throw refuse(`the search is ${state} and has no answer`, { state });
      return db.transaction((tx) => {
        const plan = plans.keep(actor, draftFound({ pieceId, designId, madeJoints, bench, solders }, answer));
        notePlanSearch(tx, writtenBy(actor, clock.now()), row, { planId: plan.id });
        return plan;
      });
    },

    /** Follows a search from here on; undefined: it is over, and there is nothing to follow. */
    follow(actor: Actor, id: string, follower: Follower): { told: number; letGo: () => void } | undefined {
      const row = known(actor, id);
      const letGo = live.follow(row.id, follower);
      return letGo && { told: live.told(id), letGo };
    },
  };
}
