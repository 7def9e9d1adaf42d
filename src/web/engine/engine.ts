import type { PlanSearchStep } from '../../../shared/sequencing/search-plan.ts';
import type { Ask, FromEngine, Questions, ToEngine } from './questions.ts';

/** What the model does not cover, said as the server would say it. */
export class OutsideModel extends Error {}

interface Waiting {
  resolve: (reply: never) => void;
  reject: (error: Error) => void;
  onProgress: ((step: PlanSearchStep) => void) | undefined;
}

const waiting = new Map<number, Waiting>();
let worker: Worker | undefined;
let lastId = 0;

export interface Asked<K extends Ask> {
  answer: Promise<Questions[K]['reply']>;
  /** Lets it answer with what it has by now. */
  finish: () => void;
  /** Forgets it; its answer rejects as an AbortError. */
  drop: () => void;
}

/**
 * Asks the engine in this browser; questions are answered one after the other.
 *
 * @param onProgress how far a search is, some ten times a second
 */
export function askEngine<K extends Ask>(
  ask: K,
  request: Questions[K]['request'],
  onProgress?: (step: PlanSearchStep) => void,
): Asked<K> {
  worker ??= started();
  const id = (lastId += 1);
  const answer = new Promise<Questions[K]['reply']>((resolve, reject) => waiting.set(id, { resolve, reject, onProgress }));
  send({ id, kind: 'ask', ask, request });
  const drop = () => {
    waiting.get(id)?.reject(new DOMException('dropped', 'AbortError'));
    waiting.delete(id);
    send({ id, kind: 'drop' });
  };
  return { answer, finish: () => send({ id, kind: 'finish' }), drop };
}

function started(): Worker {
  const made = new Worker(new URL('./engine-worker.ts', import.meta.url), { type: 'module' });
  made.addEventListener('message', ({ data }: MessageEvent<FromEngine>) => {
    const one = waiting.get(data.id);
    if (!one) return;
    if (data.kind === 'progress') return one.onProgress?.(data.step);
    waiting.delete(data.id);
    if (data.kind === 'answered') one.resolve(data.reply as never);
    else one.reject(data.kind === 'outside_model' ? new OutsideModel(data.detail) : new Error(data.detail));
  });
  made.addEventListener('error', ({ message }) => {
    for (const { reject } of waiting.values()) reject(new Error(message));
    waiting.clear();
    worker = undefined;
  });
  return made;
}

function send(message: ToEngine): void {
  worker?.postMessage(message);
}
