import { createHash } from 'node:crypto';
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { z } from 'zod';
import type { StepAnswer } from '../../platform/db/bench-tables.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem } from '../../platform/http/problem.ts';
import { toProblem } from '../../platform/http/problem-handler.ts';
import type { Platform } from '../../platform/platform.ts';
import type { NewSteps, StepSent, StepsReply } from './bench-steps.schema.ts';
import * as store from './bench-steps.store.ts';
import { stepOrder } from './step-order.ts';
import { parseStep, takeStep, type StepServices } from './take-step.ts';

export type BenchStepService = ReturnType<typeof createBenchStepService>;

type Sent = z.infer<typeof NewSteps>;
type Reply = z.infer<typeof StepsReply>;

/** A device whose clock is further off than this is asked about. */
const CLOCK_OFF_MS = 2 * 60_000;
const TIMES = ['occurredAt', 'startedAt', 'stoppedAt', 'seenAt'];

export function createBenchStepService({ db, clock }: Platform, services: StepServices) {
  /** The last sending of each person that is not answered yet. */
  const underWay = new Map<string, Promise<void>>();

  async function takeAll(actor: Actor, { sentAt, mendClock, steps }: Sent): Promise<Reply> {
    const now = clock.now();
    const offMs = now.getTime() - Date.parse(sentAt);
    if (!mendClock) holdToClock(actor, sentAt, now);
    const answers = new Map<number, StepAnswer>();
    for (const index of stepOrder(steps)) {
      const step = steps[index]!;
      const answer = db.transaction((tx) => answerOnce(tx, { actor, now, services }, step, mendClock ? offMs : 0));
      answers.set(index, answer);
      await nextTurn();
    }
    return { answers: steps.map((_, index) => answers.get(index) as Reply['answers'][number]) };
  }

  return {
    /**
     * Takes up what a device has noted, each step by itself: one that no longer fits is answered with what holds now, and does not
     * stop the others. Between two steps others have their turn, but nothing that the same person sent later.
     */
    async take(actor: Actor, sent: Sent): Promise<Reply> {
      const { personId } = actor;
      const taken = (underWay.get(personId) ?? Promise.resolve()).then(() => takeAll(actor, sent));
      const over = () => {
        if (underWay.get(personId) === ended) underWay.delete(personId);
      };
      const ended = taken.then(over, over);
      underWay.set(personId, ended);
      return taken;
    },
  };
}

interface Asked {
  actor: Actor;
  now: Date;
  services: StepServices;
}

/**
 * The answer that this very step got before, or does it now and keeps the answer, whatever it is. One that was refused because it
 * overtook an earlier step of its device is done when it comes again after that.
 */
function answerOnce(tx: Db, asked: Asked, sent: StepSent, offMs: number): StepAnswer {
  const { actor, now } = asked;
  const { key, deviceId, deviceSeq } = sent;
  const requestHash = createHash('sha256').update(JSON.stringify(sent)).digest('hex');
  const kept = store.findStep(tx, actor.personId, key);
  if (kept && kept.requestHash !== requestHash) return refused(key, keyReused(key));
  if (kept && !(cameTooEarly(kept) && store.doneSince(tx, kept))) return kept.answer;
  const mended = inOurTime(sent, offMs);
  const firstLine = store.lastLine(tx) + 1;
  const answer = answerTo(tx, asked, mended);
  store.putStep(tx, {
    personId: actor.personId,
    key,
    requestHash,
    kind: sent.do,
    deviceId,
    deviceSeq,
    occurredAt: mended.occurredAt,
    recordedAt: now.toISOString(),
    answer,
    firstLine,
    lastLine: store.lastLine(tx),
  });
  return answer;
}

/** It was refused for the state that then held: what had to go before it may have been on its way. */
function cameTooEarly({ answer }: store.StepRow): boolean {
  return answer.status === 409;
}

/** What a step that is refused has written is taken back, without what was written before it. */
function answerTo(tx: Db, { actor, now, services }: Asked, sent: StepSent): StepAnswer {
  try {
    const step = parseStep(sent);
    const by: Actor = { ...actor, deviceId: sent.deviceId, confirmed: step.confirm ?? null };
    const result = tx.transaction((inner) => takeStep(inner, services, { actor: by, step, now }));
    return { key: sent.key, status: 200, result, problem: null };
  } catch (error) {
    const problem = toProblem(error as Error);
    // A fault of the server is no answer to keep: the step may come again.
    if (problem.status >= 500) throw error;
    return refused(sent.key, problem);
  }
}

function refused(key: string, problem: Problem): StepAnswer {
  return { key, status: problem.status, result: null, problem: problem.toJSON() };
}

function keyReused(key: string): Problem {
  return new Problem('idempotency-key-reused', `The key ${key} was sent before, with another step`);
}

function inOurTime(sent: StepSent, offMs: number): StepSent {
  if (offMs === 0) return sent;
  const moved = TIMES.flatMap((name) => {
    const at = sent[name];
    const time = typeof at === 'string' ? Date.parse(at) : Number.NaN;
    return Number.isNaN(time) ? [] : [[name, new Date(time + offMs).toISOString()] as const];
  });
  return { ...sent, ...Object.fromEntries(moved) };
}

function holdToClock(actor: Actor, sentAt: string, now: Date): void {
  const offMs = Date.parse(sentAt) - now.getTime();
  if (Math.abs(offMs) <= CLOCK_OFF_MS) return;
  const minutes = Math.round(Math.abs(offMs) / 60_000);
  holdFields(
    [
      {
        pointer: '/sentAt',
        detail: `The clock of this device is ${minutes} min ${offMs > 0 ? 'ahead' : 'behind'}. Have its times moved by as much (mendClock), or confirm that they are right as they are.`,
        given: sentAt,
        perhaps: now.toISOString(),
        confirmable: true,
      },
    ],
    actor.confirmed,
  );
}
