import { api, bodyOf } from '../api/client.ts';
import { doneHere, idempotencyKey } from '../api/device.ts';
import { ApiProblem, Unreachable, type ProblemBody } from '../api/problem.ts';
import type { BodyOf } from '../api/reply.ts';
import { keep, placesOf, readKept } from './kept.ts';

type Step = BodyOf<'/api/v1/bench/steps', 'post'>['steps'][number];
export type StepGiven = { do: Step['do'] } & Record<string, unknown>;

/** A step noted at the bench: done here at once, and told to the book when there is a way to it. */
export interface Note {
  step: Step;
  /** What it was done to, as people know it, for words about it later. */
  of: string;
  /** When the book answered it, by the clock of this device; null while it waits. */
  answeredAtMs: number | null;
  /** Why the book did not take it; kept until somebody has read it. */
  problem: ProblemBody | null;
  /** What a guess was answered with, until somebody has read it. */
  answer?: unknown;
}

/** How the last sending went; a refusal of the whole, such as of a wrong clock, waits for somebody to say what is to be done. */
type QueueState = 'quiet' | 'sending' | 'unreachable' | ApiProblem;

export type StepQueue = ReturnType<typeof createStepQueue>;

const PLACE = 'bench-steps:';

/** So long a step may be taken back, and so long it is remembered for that. */
export const UNDO_MS = 10 * 60_000;
/** The book takes so many at once. */
const MOST = 200;

/** What is kept of the steps of one person. */
export function keptNotes(personId: string): Note[] {
  return (readKept(PLACE + personId) as Note[] | undefined) ?? [];
}

/**
 * The steps of one person on this device. They are kept in its storage before anything is sent, so neither a reload nor a flat battery
 * loses one; each has a key, so sending it twice does it once.
 */
export function createStepQueue(personId: string) {
  const place = PLACE + personId;
  const heard = new Set<() => void>();
  let state: QueueState = 'quiet';
  const notes = () => keptNotes(personId);
  const tell = () => heard.forEach((listener) => listener());
  const write = (next: Note[]) => {
    const now = Date.now();
    keep(
      place,
      next.filter(({ answeredAtMs, problem }) => answeredAtMs === null || problem !== null || now - answeredAtMs < UNDO_MS),
    );
    tell();
  };
  const become = (next: QueueState) => {
    state = next;
    tell();
  };

  async function send(clock: { mendClock?: true; headers?: Record<string, string> } = {}): Promise<void> {
    const waiting = notes().filter(({ answeredAtMs }) => answeredAtMs === null);
    if (state === 'sending' || waiting.length === 0) return;
    become('sending');
    try {
      const { answers } = await bodyOf(
        api.POST('/api/v1/bench/steps', {
          body: {
            sentAt: new Date().toISOString(),
            ...(clock.mendClock && { mendClock: true }),
            steps: waiting.slice(0, MOST).map(({ step }) => step),
          },
          headers: clock.headers,
        }),
      );
      const byKey = new Map(answers.map((answer) => [answer.key, answer]));
      const answeredAtMs = Date.now();
      state = 'quiet';
      write(
        notes().map((note) => {
          const answer = byKey.get(note.step.key);
          if (!answer) return note;
          const told = note.step.do === 'guess' && answer.problem === null ? { answer: answer.result } : {};
          return { ...note, answeredAtMs, problem: answer.problem, ...told };
        }),
      );
    } catch (error) {
      if (error instanceof ApiProblem && error.body.status < 500) become(error);
      else if (error instanceof ApiProblem || error instanceof Unreachable) become('unreachable');
      else throw error;
      return;
    }
    // What was noted while this was on its way.
    await send(clock);
  }

  return {
    notes,
    /** Somebody else has steps on this device that the book has not heard of; only they can tell them. */
    othersWait: (): boolean =>
      placesOf(PLACE).some((one) => one !== personId && keptNotes(one).some(({ answeredAtMs }) => answeredAtMs === null)),
    state: () => state,
    /** Tells of every change, until the function that comes back is called. */
    listen(listener: () => void): () => void {
      heard.add(listener);
      return () => void heard.delete(listener);
    },
    /**
     * @param at when it was done, for one that is told again
     * @returns the step as it will be told
     */
    note(of: string, given: StepGiven, at?: string): Step {
      const step = { ...given, ...doneHere(), ...(at !== undefined && { occurredAt: at }), key: idempotencyKey() } as Step;
      write([...notes(), { step, of, answeredAtMs: null, problem: null }]);
      void send();
      return step;
    },
    send,
    dismiss(key: string): void {
      write(notes().filter(({ step }) => step.key !== key));
    },
  };
}
