import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { holdToOwner, writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { allowedMoves, holdToLifecycle } from '../../platform/http/moves.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { addDays, dateInZone } from '../../platform/clock.ts';
import { getSettings } from '../settings/index.ts';
import type {
  BenchTimeChange,
  BenchTimeMove,
  BenchTimeReply,
  CurrentReply,
  DaysQuery,
  DaysReply,
  NewBenchTime,
  NewBenchTimeReply,
  NewCorrection,
} from './bench-time.schema.ts';
import * as store from './bench-time.store.ts';
import { correctionOf } from './corrections.ts';
import { minutesByDay } from './days.ts';
import { holdMonthOpen } from './months.ts';
import { minutesBetween, spanErrors } from './spans.ts';
import { shapeErrors, targetOf } from './target.ts';
import { endTimer, refuseOverlap, wasForgotten, whenDidYouStop, workOf, writeChange } from './time-records.ts';

export type BenchTimeService = ReturnType<typeof createBenchTimeService>;
type Reply = z.infer<typeof BenchTimeReply>;

export function createBenchTimeService({ db, clock }: Platform) {
  return {
    /**
     * Starts a timer, or notes work that is over.
     *
     * @param late a device noted it, and what it noted after may have come before: a timer ends where the next one started
     */
    add(actor: Actor, body: z.infer<typeof NewBenchTime>, late = false): z.infer<typeof NewBenchTimeReply> {
      return db.transaction((tx) => {
        const now = clock.now();
        const by = writtenBy(actor, now);
        const { startedAt = now.toISOString() } = body;
        const next =
          late && body.stoppedAt === undefined && body.minutesByHand === undefined
            ? store.nextStart(tx, actor.personId, startedAt)
            : null;
        const stoppedAt = body.stoppedAt ?? next;
        holdFields(shapeErrors(body), null);
        holdFields(spanErrors({ startedAt, stoppedAt, now }), actor.confirmed);
        holdMonthOpen(tx, startedAt);
        const target = targetOf(tx, actor, body);
        const starts = stoppedAt === null && body.minutesByHand === undefined;
        const running = starts ? store.findRunning(tx, actor.personId) : undefined;
        const ended = running && running.startedAt <= startedAt ? endTimer(tx, by, running, startedAt) : undefined;
        const id = newId(now);
        if (body.minutesByHand === undefined)
          refuseOverlap(tx, by, { personId: actor.personId, span: { startedAt, stoppedAt }, time: { body } }, (rows) =>
            showAll(tx, actor, rows),
          );
        // Over four hours till the next start: nobody knows when it ended.
        const doubted = next !== null && wasForgotten(tx, { startedAt, stoppedAt: next });
        const row = store.insertBenchTime(tx, {
          id,
          personId: actor.personId,
          ...target,
          operation: body.operation,
          startedAt,
          stoppedAt: doubted ? null : stoppedAt,
          minutesByHand: body.minutesByHand ?? null,
          ratePerHour: rateOf(tx, actor),
          state: starts ? 'running' : doubted ? 'in_doubt' : 'stopped',
          note: body.note,
          createdAt: now.toISOString(),
        });
        writeJournal(tx, by, { what: 'bench_time', id, after: row });
        return { ...show(tx, actor, row), stoppedBefore: ended ? tellEnded(tx, actor, ended) : null };
      });
    },

    get: (actor: Actor, id: string): Reply => show(db, actor, getOwn(db, actor, id)),

    /** What fences compare with: of a time that is another's nothing, so that they tell nothing of it. */
    stored: (actor: Actor, id: string) => findOwn(db, actor, id),

    list(actor: Actor, query: Page & store.BenchTimeFilter) {
      const owner = actor.roles.has('owner');
      if (query.personId !== undefined && query.personId !== actor.personId)
        holdToOwner(actor, 'show the times of another person');
      const rows = store.listBenchTimes(db, owner ? query : { ...query, personId: actor.personId });
      const names = store.namesFor(db, rows);
      return pageOf(rows, query, (row) => showNamed(actor, row, names));
    },

    /** What runs for this person now, and what they forgot. */
    current(actor: Actor): z.infer<typeof CurrentReply> {
      const running = store.findRunning(db, actor.personId);
      return {
        running: running ? show(db, actor, running) : null,
        inDoubt: store.inDoubtOf(db, actor.personId).map((row) => ({
          benchTime: show(db, actor, row),
          says: whenDidYouStop(db, row),
          suggestedStoppedAt: store.lastWrite(db, actor.personId, row.startedAt),
        })),
      };
    },

    change(actor: Actor, id: string, seen: number, body: z.infer<typeof BenchTimeChange>): Reply {
      return db.transaction((tx) => {
        const now = clock.now();
        const before = getOwn(tx, actor, id);
        holdToVersion('bench time', before.version, seen);
        if (before.state === 'locked')
          throw new Problem(
            'condition-not-met',
            'Cannot change this time: its month is closed. Note a correction of it, with its reason (POST /bench-times/{id}/corrections)',
          );
        const change = membersSent(body);
        const wanted = { ...before, ...change };
        holdFields(changeErrors(before, body, now), actor.confirmed);
        if (wanted.startedAt !== before.startedAt) holdMonthOpen(tx, wanted.startedAt);
        const by = writtenBy(actor, now);
        refuseOverlapOf(tx, actor, by, { before, wanted });
        return show(tx, actor, writeChange(tx, by, before, change));
      });
    },

    /** More or fewer minutes for a time whose month is closed: a time of its own, of today, with the reason. */
    correct(actor: Actor, id: string, { minutes, reason }: z.infer<typeof NewCorrection>): Reply {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = getOwn(tx, actor, id);
        const row = store.insertBenchTime(tx, correctionOf(tx, by, before, { minutes, reason }));
        writeJournal(tx, by, { what: 'bench_time', id: row.id, after: row });
        return show(tx, actor, row);
      });
    },

    /** One's own minutes day by day, in the studio's zone; the owner may ask for another's. */
    days(actor: Actor, { personId = actor.personId, ...asked }: z.infer<typeof DaysQuery>): z.infer<typeof DaysReply> {
      if (personId !== actor.personId) holdToOwner(actor, 'show the times of another person');
      const to = asked.to ?? (asked.from ? addDays(asked.from, 6) : dateInZone(clock.now(), getSettings(db).timeZone));
      return { items: minutesByDay(db, { personId, from: asked.from ?? addDays(to, -6), to }) };
    },

    /**
     * A device says when a timer of its own stopped, after a later start of the same hand had ended it here: it ended when it says.
     *
     * @returns undefined where there is nothing to mend
     */
    endedSooner(
      actor: Actor,
      id: string,
      { from, to, occurredAt, stoppedAt = occurredAt, deviceId }: z.infer<typeof BenchTimeMove>,
    ): Reply | undefined {
      return db.transaction((tx) => {
        const before = getOwn(tx, actor, id);
        const isOver = before.state === 'stopped' && before.stoppedAt !== null && before.stoppedAt > stoppedAt;
        if (from !== 'running' || to !== 'stopped' || !isOver || before.startedAt > stoppedAt) return undefined;
        return show(tx, actor, writeChange(tx, writtenBy(actor, clock.now(), deviceId), before, { stoppedAt }));
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof BenchTimeMove>): Reply {
      return db.transaction((tx) => {
        const now = clock.now();
        const before = getOwn(tx, actor, id);
        const own = before.personId === actor.personId;
        holdToLifecycle('bench_time', actor, { state: before.state, sent, own, now });
        const stoppedAt = stopOf(before, sent);
        if (before.minutesByHand === null && stoppedAt === null)
          throw new Problem('condition-not-met', `Cannot agree to this time: ${whenDidYouStop(tx, before)}`);
        const changed = stoppedAt !== before.stoppedAt;
        if (changed) holdFields(spanErrors({ startedAt: before.startedAt, stoppedAt, now }), actor.confirmed);
        const wanted = { ...before, stoppedAt };
        const by = writtenBy(actor, now, sent.deviceId);
        if (changed) refuseOverlapOf(tx, actor, by, { before, wanted });
        return show(tx, actor, writeChange(tx, by, before, { state: sent.to, stoppedAt }));
      });
    },
  };
}

/** A running timer stops when the move was made, unless another time is said; a sum of minutes has no stop. */
function stopOf(before: store.BenchTimeRow, sent: z.infer<typeof BenchTimeMove>): string | null {
  if (sent.stoppedAt !== undefined) {
    holdFields(
      before.minutesByHand === null
        ? []
        : [{ pointer: '/stoppedAt', detail: 'This time is a sum of minutes: it has no stop.', given: sent.stoppedAt }],
      null,
    );
    return sent.stoppedAt;
  }
  return before.state === 'running' ? sent.occurredAt : before.stoppedAt;
}

function changeErrors(before: store.BenchTimeRow, body: z.infer<typeof BenchTimeChange>, now: Date) {
  const byHand = before.minutesByHand !== null;
  const { startedAt = before.startedAt, stoppedAt = before.stoppedAt } = body;
  const timesChange = startedAt !== before.startedAt || stoppedAt !== before.stoppedAt;
  return [
    ...(byHand && body.stoppedAt !== undefined
      ? [{ pointer: '/stoppedAt', detail: 'This time is a sum of minutes: it has no stop.', given: body.stoppedAt }]
      : []),
    ...(!byHand && body.minutesByHand !== undefined
      ? [{ pointer: '/minutesByHand', detail: 'This time has a start and a stop: change those.', given: body.minutesByHand }]
      : []),
    ...(before.state === 'running' && body.stoppedAt !== undefined
      ? [{ pointer: '/stoppedAt', detail: 'This timer is running: stop it first.', given: body.stoppedAt }]
      : []),
    ...(timesChange ? spanErrors({ startedAt, stoppedAt: byHand ? null : stoppedAt, now }) : []),
  ];
}

function refuseOverlapOf(
  tx: Db,
  actor: Actor,
  by: WrittenBy,
  { before, wanted }: { before: store.BenchTimeRow; wanted: store.BenchTimeRow },
): void {
  const { personId, startedAt, stoppedAt, minutesByHand, state } = wanted;
  // A sum of minutes has no place in the day, and a time in doubt no end.
  if (minutesByHand !== null || (stoppedAt === null && state !== 'running')) return;
  const span = { startedAt, stoppedAt };
  refuseOverlap(tx, by, { personId, span, time: { row: before } }, (rows) => showAll(tx, actor, rows));
}

/** What an hour of this person costs today, kept with the time. */
function rateOf(db: Db, actor: Actor): string {
  const { ratesPerHour } = getSettings(db);
  const role = (['bench', 'desk', 'student'] as const).find((one) => actor.roles.has(one)) ?? 'student';
  return store.findRate(db, actor.personId) ?? ratesPerHour[role];
}

/** Times are shown to the person whose they are, and to the owner. */
function findOwn(db: Db, actor: Actor, id: string): store.BenchTimeRow | undefined {
  const row = store.findBenchTime(db, id);
  return row?.personId === actor.personId || actor.roles.has('owner') ? row : undefined;
}

function getOwn(db: Db, actor: Actor, id: string): store.BenchTimeRow {
  const row = findOwn(db, actor, id);
  if (!row) throw notFound('bench time', id);
  return row;
}

function tellEnded(db: Db, actor: Actor, row: store.BenchTimeRow) {
  const says =
    row.state === 'in_doubt'
      ? whenDidYouStop(db, row)
      : `Stopped the timer on ${workOf(db, row)} at ${row.stoppedAt}, after ${minutesBetween(row.startedAt, row.stoppedAt!)} min`;
  return { benchTime: show(db, actor, row), says };
}

function showAll(db: Db, actor: Actor, rows: store.BenchTimeRow[]): Reply[] {
  const names = store.namesFor(db, rows);
  return rows.map((row) => showNamed(actor, row, names));
}

function show(db: Db, actor: Actor, row: store.BenchTimeRow): Reply {
  return showNamed(actor, row, store.namesFor(db, [row]));
}

function showNamed(actor: Actor, row: store.BenchTimeRow, { people, pieces }: store.Names): Reply {
  const { ratePerHour: _, state, ...shown } = row;
  return {
    ...shown,
    personName: people.get(row.personId) ?? '',
    pieceNumber: row.pieceId === null ? null : (pieces.get(row.pieceId) ?? null),
    minutes: row.minutesByHand ?? (row.stoppedAt === null ? null : minutesBetween(row.startedAt, row.stoppedAt)),
    state: state as Reply['state'],
    allowedMoves: allowedMoves('bench_time', actor, { state, own: row.personId === actor.personId }),
  };
}
