import type { ReplyOf } from '../api/reply.ts';
import type { Note } from './step-queue.ts';

export type BenchNow = ReplyOf<'/api/v1/bench/now'>;
export type HeatNow = NonNullable<BenchNow['heat']>;

/** The heat as it is at the bench: as the book told it, with what was done here since laid over it. */
export function heatAsDone(heat: HeatNow, notes: readonly Note[], toldAtMs: number): HeatNow {
  const own = notes.filter(({ step, problem }) => problem === null && (step['heatId'] === heat.id || step.do === 'undo'));
  const byKey = new Map(own.map((note) => [note.step.key, note]));
  const isNew = (note: Note) => note.answeredAtMs === null || note.answeredAtMs >= toldAtMs;
  const undone = new Set(own.map(({ step }) => step['undoes']));
  return own
    .filter(isNew)
    .filter(({ step }) => !undone.has(step.key))
    .reduce((now, { step }) => {
      if (step.do !== 'undo') return withStep(now, step);
      const back = byKey.get(String(step['undoes']));
      return back && !isNew(back) ? withoutStep(now, back.step) : now;
    }, heat);
}

function withStep(heat: HeatNow, step: Note['step']): HeatNow {
  if (step.do === 'see_in_heat' && heat.alightAt !== null) {
    const seconds = Math.round((Date.parse(step.occurredAt) - Date.parse(heat.alightAt)) / 100) / 10;
    const name = step['saw'] === 'flow' ? 'secondsToFlow' : 'secondsToFluxClear';
    return { ...heat, observed: { [name]: seconds, ...heat.observed } };
  }
  if (step.do !== 'move_heat' || step['from'] !== heat.state) return heat;
  const to = step['to'] as HeatNow['state'];
  const lot = heat.lots.find(({ id }) => id === step['lotId']);
  return {
    ...heat,
    state: to,
    ...(lot && { lot }),
    ...(to === 'alight' && { alightAt: step.occurredAt, observed: null }),
    ...(to === 'primed' && { alightAt: null }),
  };
}

function withoutStep(heat: HeatNow, step: Note['step']): HeatNow {
  if (step.do === 'see_in_heat') {
    const { secondsToFlow, secondsToFluxClear, ...rest } = heat.observed ?? {};
    const left = step['saw'] === 'flow' ? { secondsToFluxClear } : { secondsToFlow };
    return { ...heat, observed: { ...rest, ...left } };
  }
  if (step.do !== 'move_heat' || step['to'] !== heat.state) return heat;
  return { ...heat, state: step['from'] as HeatNow['state'], ...(step['to'] === 'alight' && { alightAt: null }) };
}
