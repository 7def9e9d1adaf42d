import { useCallback, useEffect, useMemo, useReducer, useState } from 'preact/hooks';
import { api, bodyOf } from '../api/client.ts';
import { ApiProblem } from '../api/problem.ts';
import { heatAsDone, type BenchNow, type HeatNow } from './heat-as-done.ts';
import { forgetDesigns } from './kept-designs.ts';
import { keep, readKept } from './kept.ts';
import { createStepQueue, type StepQueue } from './step-queue.ts';

interface Told<T> {
  /** When it was asked for, by the clock of this device. */
  atMs: number;
  what: T;
}

/** What the book last told this person's bench page, for when it cannot be asked. */
interface KeptBench {
  now?: Told<BenchNow>;
  heats: Record<string, Told<HeatNow>>;
}

interface BenchState {
  queue: StepQueue;
  now: BenchNow | undefined;
  /** As it is at the bench, what was done here and not told yet included. */
  heat: HeatNow | null;
  /** When the book told of that heat; undefined when it has not yet. */
  toldAtMs: number | undefined;
  /** Other heats that this device knows all about. */
  known: HeatNow[];
  error: Error | undefined;
  reload: () => void;
}

/** So often the book is asked what else has happened, such as a tutor's yes, and told what waits here. */
const ROUND_MS = 10_000;
/** So many heats are fetched ahead, for when the network goes. */
const AHEAD = 6;

export function useBench(personId: string, heatId: string | undefined): BenchState {
  const queue = useMemo(() => createStepQueue(personId), [personId]);
  const place = `bench-now:${personId}`;
  const [kept, setKept] = useState<KeptBench>(() => (readKept(place) as KeptBench | undefined) ?? { heats: {} });
  const [error, setError] = useState<Error>();
  const [, changed] = useReducer((count: number) => count + 1, 0);

  const take = useCallback(
    (change: (before: KeptBench) => KeptBench) =>
      setKept((before) => {
        const next = change(before);
        keep(place, next);
        return next;
      }),
    [place],
  );
  const reload = useCallback(
    async (withAhead = true) => {
      try {
        const told = await askNow(heatId);
        take((before) => withNow(before, told));
        setError(undefined);
        if (!withAhead) return;
        const ahead = await askAhead(told.what);
        take((before) => ({ ...before, heats: { ...before.heats, ...ahead } }));
      } catch (reason) {
        setError(reason as Error);
      }
    },
    [heatId, take],
  );

  useEffect(() => {
    let wasWaiting = 0;
    return queue.listen(() => {
      changed(undefined);
      const waiting = queue.notes().filter(({ answeredAtMs }) => answeredAtMs === null).length;
      if (waiting < wasWaiting) void reload();
      wasWaiting = waiting;
    });
  }, [queue, reload]);

  useEffect(() => {
    const catchUp = () => {
      if (document.visibilityState === 'hidden') return;
      if (!(queue.state() instanceof ApiProblem)) void queue.send();
      void reload();
    };
    catchUp();
    const timer = setInterval(() => {
      if (document.visibilityState === 'hidden') return;
      if (queue.state() === 'unreachable') void queue.send();
      void reload(false);
    }, ROUND_MS);
    for (const event of ['online', 'focus', 'visibilitychange']) window.addEventListener(event, catchUp);
    return () => {
      clearInterval(timer);
      for (const event of ['online', 'focus', 'visibilitychange']) window.removeEventListener(event, catchUp);
    };
  }, [queue, reload]);

  const told = heatId === undefined ? toldOf(kept.now) : kept.heats[heatId];
  const notes = queue.notes();
  return {
    queue,
    now: kept.now?.what,
    heat: told ? heatAsDone(told.what, notes, told.atMs) : null,
    toldAtMs: told?.atMs ?? kept.now?.atMs,
    known: Object.values(kept.heats).map(({ what, atMs }) => heatAsDone(what, notes, atMs)),
    error,
    reload: () => void reload(),
  };
}

function toldOf(now: Told<BenchNow> | undefined): Told<HeatNow> | undefined {
  return now?.what.heat ? { atMs: now.atMs, what: now.what.heat } : undefined;
}

async function askNow(heatId: string | undefined): Promise<Told<BenchNow>> {
  const atMs = Date.now();
  return {
    atMs,
    what: await bodyOf(api.GET('/api/v1/bench/now', { params: { query: heatId === undefined ? {} : { heatId } } })),
  };
}

function withNow({ heats }: KeptBench, now: Told<BenchNow>): KeptBench {
  const { heat, choices } = now.what;
  // Heats of pieces that are no longer at the bench are forgotten, and their drawings.
  const pieces = new Set([heat?.pieceId, ...choices.map(({ pieceId }) => pieceId)]);
  forgetDesigns((pieceId) => !pieces.has(pieceId));
  const left = Object.fromEntries(Object.entries(heats).filter(([, { what }]) => pieces.has(what.pieceId)));
  return { now, heats: { ...left, ...(heat && { [heat.id]: { atMs: now.atMs, what: heat } }) } };
}

/** The heats that could come after this one: those of its own plan, and those there are to choose from. */
async function askAhead({ heat, choices }: BenchNow): Promise<Record<string, Told<HeatNow>>> {
  const own = heat
    ? (await bodyOf(api.GET('/api/v1/heats', { params: { query: { planId: heat.planId, state: 'laid_out', limit: 50 } } }))).items
    : [];
  const later = own.toSorted((a, b) => a.position - b.position).map(({ id }) => id);
  const ids = [...new Set([...later, ...choices.map(({ heatId }) => heatId)])].filter((id) => id !== heat?.id).slice(0, AHEAD);
  const told = await Promise.all(ids.map((id) => askNow(id)));
  return Object.fromEntries(told.flatMap(({ atMs, what }) => (what.heat ? [[what.heat.id, { atMs, what: what.heat }]] : [])));
}
