import type { PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import { writtenByServer } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import type { LateNotes } from '../../platform/late-notes.ts';
import type { Platform } from '../../platform/platform.ts';
import type { Planning } from '../calculations/index.ts';
import type { AskedFor } from './asked-for.ts';
import { LiveSearches } from './live-searches.ts';
import { notePlanSearch } from './note-plan-search.ts';
import * as store from './plan-searches.store.ts';

interface Needs {
  planning: Planning;
  /** Hears of what went wrong here, not in what was asked. */
  onFault: (error: unknown) => void;
  lateNotes: LateNotes;
}

export const requestOf = ({
  design,
  solders,
  bench,
  options,
}: Pick<AskedFor, 'design' | 'solders' | 'bench' | 'options'>): PlanSearchRequest => ({ design, solders, bench, options });

/** Runs the searches that are written down, and notes what becomes of them. */
export function createSearchRunner({ db, clock }: Platform, { planning, onFault, lateNotes }: Needs) {
  const live = new LiveSearches();

  /** What the server itself notes of a search, with the time, and what is done once that is kept. */
  const note = (
    id: string,
    change: (row: store.PlanSearchRow, at: string) => Partial<store.PlanSearchRow>,
    then: () => void,
  ): void => {
    const at = clock.now();
    lateNotes.write(() => {
      db.transaction((tx) => {
        const row = store.findPlanSearch(tx, id)!;
        notePlanSearch(tx, writtenByServer(at), row, change(row, at.toISOString()));
      });
      then();
    });
  };

  /** The end of a search; one that was stopped stays so, with what it still answered. */
  const end = (id: string, { state, ...ending }: Partial<store.PlanSearchRow> & { state: string }): void => {
    const progress = live.progressOf(id);
    note(
      id,
      (row, endedAt) => ({ ...ending, state: row.state === 'stopped' ? row.state : state, progress, endedAt }),
      () => live.over(id),
    );
  };

  const interrupt = (id: string): void =>
    end(id, { state: 'interrupted', failure: 'The server was stopped before there was an answer: ask again' });

  const failed = (id: string, error: unknown): void => {
    if (!(error instanceof Problem)) onFault(error);
    // Stopped while it waited: that is noted.
    if (store.findPlanSearch(db, id)!.endedAt !== null) return live.over(id);
    const failure = error instanceof Problem ? error.message : 'Something went wrong here; it is in the log of the server';
    end(id, { state: 'failed', failure });
  };

  return {
    live,

    /** Puts a search in the row of those that wait; one that is there, or over, stays where it is. */
    begin: (id: string): void => {
      const row = store.findPlanSearch(db, id)!;
      if (row.state !== 'waiting' || live.has(id)) return;
      const working = planning.searchForLater(row.personId, requestOf(row), {
        onBegin: () => {
          note(
            id,
            (_row, startedAt) => ({ state: 'running', startedAt }),
            () => live.tell(id),
          );
        },
        onProgress: (progress) => live.tell(id, progress),
      });
      live.begin(id, working.end);
      working.answer
        // What was interrupted is over: the book may be closed.
        .then((answer) => live.has(id) && end(id, { state: 'done', answer }))
        .catch((error: unknown) => live.has(id) && failed(id, error))
        .catch(onFault);
    },

    /** Notes what was under way when a server before this one came to its end. */
    noteInterrupted: (): void => {
      for (const { id } of store.searchesUnderWay(db)) interrupt(id);
    },

    /** This server comes to its end: so does all that it has under way. */
    interruptAll: (): void => {
      for (const id of live.ids()) interrupt(id);
    },
  };
}
