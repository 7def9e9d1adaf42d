import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import type { AbsenceChange, AbsenceQuery, BenchChange, NewAbsence, NewBench } from './studio-days.schema.ts';
import * as store from './studio-days.store.ts';

export type StudioDayService = ReturnType<typeof createStudioDayService>;

export function createStudioDayService({ db, clock }: Platform) {
  return {
    addBench(actor: Actor, bench: z.infer<typeof NewBench>): store.BenchRow {
      return db.transaction((tx) => {
        holdFree(tx, bench);
        const by = writtenBy(actor, clock.now());
        const row = store.insertBench(tx, { ...bench, id: newId(by.at), createdAt: by.at.toISOString() });
        writeJournal(tx, by, { what: 'bench', id: row.id, after: row });
        return row;
      });
    },

    getBench: (id: string) => getBench(db, id),

    listBenches: (page: Page) => pageOf(store.listBenches(db, page), page, (row) => row),

    changeBench(actor: Actor, id: string, seen: number, sent: z.infer<typeof BenchChange>): store.BenchRow {
      return db.transaction((tx) => {
        const before = getBench(tx, id);
        holdToVersion('bench', before.version, seen);
        const change = membersSent(sent);
        holdFree(tx, { ...before, ...change }, id);
        const after = store.updateBench(tx, id, change);
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'bench', id, before, after });
        return after;
      });
    },

    addAbsence(actor: Actor, absence: z.infer<typeof NewAbsence>): store.AbsenceRow {
      return db.transaction((tx) => {
        holdFields(personErrors(tx, absence.personId), null);
        const by = writtenBy(actor, clock.now());
        const row = store.insertAbsence(tx, { ...absence, id: newId(by.at), createdAt: by.at.toISOString() });
        writeJournal(tx, by, { what: 'absence', id: row.id, after: row });
        return row;
      });
    },

    getAbsence: (id: string) => getAbsence(db, id),

    listAbsences: (query: z.infer<typeof AbsenceQuery>) => pageOf(store.listAbsences(db, query), query, (row) => row),

    changeAbsence(actor: Actor, id: string, seen: number, sent: z.infer<typeof AbsenceChange>): store.AbsenceRow {
      return db.transaction((tx) => {
        const before = getAbsence(tx, id);
        holdToVersion('absence', before.version, seen);
        const change = membersSent(sent);
        const { firstOn, lastOn, personId } = { ...before, ...change };
        const order =
          firstOn <= lastOn ? [] : [{ pointer: '/lastOn', detail: 'The last day is before the first.', given: lastOn }];
        holdFields([...order, ...personErrors(tx, personId)], null);
        const after = store.updateAbsence(tx, id, change);
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'absence', id, before, after });
        return after;
      });
    },

    /** It did not come about: a day off that was worked after all. The journal keeps it. */
    removeAbsence(actor: Actor, id: string): void {
      db.transaction((tx) => {
        const before = getAbsence(tx, id);
        store.deleteAbsence(tx, id);
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'absence', id, before });
      });
    },
  };
}

function getBench(db: Db, id: string): store.BenchRow {
  const row = store.findBench(db, id);
  if (!row) throw notFound('bench', id);
  return row;
}

function getAbsence(db: Db, id: string): store.AbsenceRow {
  const row = store.findAbsence(db, id);
  if (!row) throw notFound('absence', id);
  return row;
}

/** One name a bench, and one bench a person. */
function holdFree(tx: Db, { name, personId }: { name: string; personId: string | null }, id?: string): void {
  holdFields(personErrors(tx, personId), null);
  const named = store.findBenchBy(tx, 'name', name);
  if (named && named.id !== id) throw new Problem('already-used', `Cannot call a bench ${name}: there is one of that name`);
  const theirs = personId === null ? undefined : store.findBenchBy(tx, 'personId', personId);
  if (theirs && theirs.id !== id)
    throw new Problem('already-used', `Cannot give this bench to them: they work at ${theirs.name}`);
}

function personErrors(tx: Db, personId: string | null): FieldError[] {
  if (personId === null || store.findPerson(tx, personId)) return [];
  return [{ pointer: '/personId', detail: 'There is no person with this id.', given: personId }];
}
