import { randomBytes } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { z } from 'zod';
import { Problem } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import type { SampleReply, SampleStart } from './samples.schema.ts';

/** How far the making of a sample is. */
export type SampleStep = NonNullable<z.infer<typeof SampleReply>['step']>;

/** What the program that makes a sample tells, each in a message of its own. */
export type SampleMessage = { step: SampleStep } | { book: Uint8Array };

/** Another book that answers in this server. */
export interface OpenSample {
  answer: (request: IncomingMessage, response: ServerResponse) => void;
  close: () => Promise<void>;
}

/** How an invented studio is made and opened; neither may hold the server up. */
export interface SampleStudio {
  /** @returns the book as SQLite writes it; rejects once the signal ends it */
  make: (onStep: (step: SampleStep) => void, signal: AbortSignal) => Promise<Uint8Array>;
  open: (book: Uint8Array) => Promise<OpenSample>;
}

/** Everybody of the sample signs in by the name of their role, with this; behind it is nothing but what was invented. */
export const SAMPLE_SIGN_IN = { names: ['owner', 'bench', 'desk', 'student'], password: 'a look round the quay' } as const;

/** So many at once: each is a whole book in memory. */
const MOST = 2;
const IDLE_MS = 12 * 3_600_000;

interface Sample {
  name: string;
  state: 'making' | 'ready' | 'failed';
  step: SampleStep | null;
  opened: OpenSample | undefined;
  usedAtMs: number;
  ending: AbortController;
}

export type SampleService = ReturnType<typeof createSampleService>;

/** Sample studios to look round in, each of one browser, beside the book and apart from it. They are kept nowhere. */
export function createSampleService(
  { clock }: Platform,
  {
    studio,
    ownerMissing,
    firstOwnerCode,
  }: { studio: SampleStudio | undefined; ownerMissing: () => boolean; firstOwnerCode: string },
) {
  const samples = new Map<string, Sample>();

  async function end(secret: string): Promise<void> {
    const sample = samples.get(secret);
    samples.delete(secret);
    sample?.ending.abort();
    await sample?.opened?.close();
  }

  async function make(sample: Sample, { make: made, open }: SampleStudio): Promise<void> {
    const { signal } = sample.ending;
    try {
      const opened = await open(await made((step) => (sample.step = step), signal));
      if (signal.aborted) return await opened.close();
      Object.assign(sample, { opened, state: 'ready', usedAtMs: clock.now().getTime() });
    } catch (error) {
      if (signal.aborted) return;
      sample.state = 'failed';
      throw error;
    }
  }

  return {
    /** Whose word opens one. @param isHere the one who asks is at the server's own machine */
    startFor(isHere: boolean): z.infer<typeof SampleStart> {
      if (!studio) return 'none';
      if (!ownerMissing()) return 'owner';
      return isHere ? 'free' : 'code';
    },

    /** Before there is an owner, whoever may make one may look round too. */
    holdToFirstLook(isHere: boolean, code: string | undefined): void {
      if (!studio) throw noneToShow();
      if (!ownerMissing()) throw new Problem('forbidden', 'Cannot open the sample so: there is an owner, who opens it signed in');
      if (!isHere && code !== firstOwnerCode)
        throw new Problem('forbidden', 'Cannot open the sample: the code is not the one the server printed when it started');
    },

    /**
     * Begins to make a sample, or goes on with the one that this browser has already.
     *
     * @param secret of the sample this browser has, if it has one
     * @param onFault hears of what went wrong in the making
     * @returns the secret that leads to it
     */
    start(secret: string | undefined, onFault: (error: unknown) => void): string {
      if (!studio) throw noneToShow();
      const own = secret === undefined ? undefined : samples.get(secret);
      if (secret !== undefined && own && own.state !== 'failed') return secret;
      if (secret !== undefined) void end(secret);
      // Whoever has long gone from one is not to keep others out.
      while (samples.size >= MOST) void end(longestUnused(samples));
      const made = randomBytes(32).toString('base64url');
      const sample: Sample = {
        name: randomBytes(6).toString('base64url'),
        state: 'making',
        step: null,
        opened: undefined,
        usedAtMs: clock.now().getTime(),
        ending: new AbortController(),
      };
      samples.set(made, sample);
      void make(sample, studio).catch(onFault);
      return made;
    },

    /** What a secret leads to; undefined once it was left. */
    find: (secret: string | undefined): Readonly<Sample> | undefined => (secret === undefined ? undefined : samples.get(secret)),

    use(secret: string): void {
      const sample = samples.get(secret);
      if (sample) sample.usedAtMs = clock.now().getTime();
    },

    end,

    endAll: async (): Promise<void> => void (await Promise.all([...samples.keys()].map(end))),

    /** Ends what nobody has looked at for half a day. */
    async endIdle(): Promise<void> {
      const now = clock.now().getTime();
      for (const [secret, { usedAtMs }] of samples) if (now - usedAtMs >= IDLE_MS) await end(secret);
    },
  };
}

function longestUnused(samples: ReadonlyMap<string, Sample>): string {
  return [...samples].reduce((a, b) => (b[1].usedAtMs < a[1].usedAtMs ? b : a))[0];
}

function noneToShow(): Problem {
  return new Problem('condition-not-met', 'Cannot open a sample studio: this server has none to show');
}
