import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import { outsideModel, Problem } from '../http/problem.ts';
import { FairQueue } from './fair-queue.ts';
import type { EndsWith, FromThread, OnThread } from './on-thread.ts';

/** Whether somebody holds the line for the answer, or it is written down for later. */
export type Lane = 'at_once' | 'for_later';

export interface Work<Progress> {
  personId: string;
  lane: Lane;
  /** The function of the file that does it. */
  name: string;
  given: unknown;
  onBegin?: (() => void) | undefined;
  onProgress?: ((progress: Progress) => void) | undefined;
}

export interface Working<Answer> {
  answer: Promise<Answer>;
  end: (how: EndsWith) => void;
}

/** A thread that nobody needs gives its memory back. */
const IDLE_MS = 5000;
/** A search that needs more ends as failed, and the server goes on. */
const MOST_HEAP_MB = 1024;
const MOST_WAITING = 24;
const MOST_WAITING_EACH = 3;

/** One core is left for answering. */
const usualThreads = (): number => Math.max(1, availableParallelism() - 1);

/**
 * Threads for work that computes for long. They start with the first work and end when idle. Each thread does one piece of work at
 * once and one for later side by side, in slices, so that neither waits for the other.
 */
export function createWorkerPool({ file, threads = usualThreads() }: { file: URL; threads?: number | undefined }) {
  let pool: Piscina | undefined;
  const limits = { places: threads, mostWaiting: MOST_WAITING, mostWaitingEach: MOST_WAITING_EACH };
  const lanes: Record<Lane, FairQueue> = { at_once: new FairQueue(limits), for_later: new FairQueue(limits) };
  const underWay = new Set<(how: EndsWith) => void>();

  const onThreads = (): Piscina =>
    (pool ??= new Piscina({
      filename: fileURLToPath(file),
      minThreads: 0,
      maxThreads: threads,
      concurrentTasksPerWorker: Object.keys(lanes).length,
      idleTimeout: IDLE_MS,
      resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP_MB },
      execArgv: [],
      // Between two turns of a task a thread must go on listening.
      atomics: 'disabled',
    }));

  return {
    /** @throws {Problem} too-many-requests, as begin() would */
    holdRoom: (lane: Lane, personId: string): void => lanes[lane].holdRoom(personId),

    /** Puts work in its lane. The answer rejects with too-many-requests where there is no room for it, and with too-slow when it was ended with nothing. */
    begin<Answer, Progress = never>(asked: Work<Progress>): Working<Answer> {
      const { personId, lane, name, given, onBegin, onProgress } = asked;
      const { port1, port2 } = new MessageChannel();
      const waiting = new AbortController();
      let hasBegun = false;
      const end = (how: EndsWith): void => {
        if (hasBegun) port1.postMessage(how);
        else waiting.abort(endedWithNothing());
      };
      const work = async (): Promise<Answer> => {
        waiting.signal.throwIfAborted();
        hasBegun = true;
        onBegin?.();
        if (onProgress) port1.on('message', onProgress).unref();
        const task: OnThread<unknown> = { given, port: port2 };
        return answerOf<Answer>(await onThreads().run(task, { name, transferList: [port2] }));
      };
      underWay.add(end);
      const answer = lanes[lane].enter(personId, work, waiting.signal).finally(() => {
        underWay.delete(end);
        port1.close();
      });
      return { answer, end };
    },

    /** Ends all that is under way: what runs answers with what it has, what waits is not begun. */
    endAll(): void {
      for (const end of underWay) end('what_it_has');
    },

    /** Ends the threads themselves. */
    async close(): Promise<void> {
      await pool?.destroy();
    },
  };
}

function answerOf<Answer>(told: FromThread<Answer>): Answer {
  if (told.ended === 'answered') return told.answer;
  if (told.ended === 'outside_model') throw outsideModel(told.detail, told);
  throw endedWithNothing();
}

const endedWithNothing = (): Problem => new Problem('too-slow', 'It was ended before there was an answer');
