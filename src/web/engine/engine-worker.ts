/// <reference lib="webworker" />
/** The engine in a thread of the browser: the very code the server runs, in slices, so that a question can be dropped or cut short. */

import { EngineInputError } from '../../../shared/engine-input-error.ts';
import {
  checkPlanSteps,
  concludeCheck,
  expandedHeats,
  planToCheck,
  type PlanCheckRequest,
  type PlanServices,
} from '../../../shared/sequencing/check-plan.ts';
import { checkHeats } from '../../../shared/sequencing/heat-check.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { PlanCheckOutcome } from '../../../shared/sequencing/plan-check-answer.ts';
import { planFaults } from '../../../shared/sequencing/plan-faults.ts';
import { searchPlanSteps, type PlanSearchStep } from '../../../shared/sequencing/search-plan.ts';
import { whatIfSteps } from '../../../shared/sequencing/what-if.ts';
import type { Ask, FromEngine, Questions, ToEngine } from './questions.ts';

const SLICE_MS = 12;
const PROGRESS_MS = 100;

/** Heats that were simulated once are known to every question after. */
const physics = heatModel();
const dropped = new Set<number>();
const finishing = new Set<number>();
let last: Promise<void> = Promise.resolve();

self.addEventListener('message', ({ data }: MessageEvent<ToEngine>) => {
  if (data.kind === 'drop') dropped.add(data.id);
  else if (data.kind === 'finish') finishing.add(data.id);
  else last = last.then(() => answer(data));
});

async function answer({ id, ask, request }: Extract<ToEngine, { kind: 'ask' }>): Promise<void> {
  try {
    const reply = await inSlices(id, stepsOf(id, ask, request));
    if (!dropped.has(id)) say({ id, kind: 'answered', reply });
  } catch (error) {
    if (dropped.has(id)) return;
    const detail = error instanceof Error ? error.message : String(error);
    say({ id, kind: error instanceof EngineInputError ? 'outside_model' : 'failed', detail });
  } finally {
    dropped.delete(id);
    finishing.delete(id);
  }
}

function stepsOf(id: number, ask: Ask, request: unknown): Iterator<PlanSearchStep | void, unknown> {
  const began = performance.now();
  const services = { physics, isStopped: () => finishing.has(id), elapsedMs: () => performance.now() - began };
  switch (ask) {
    case 'heats':
      return heatsAlone(request as Questions['heats']['request'], services);
    case 'check':
      return checkPlanSteps(request as Questions['check']['request'], services);
    case 'what_if': {
      const { edits, ...rest } = request as Questions['what_if']['request'];
      return whatIfSteps(rest, edits, services);
    }
    case 'search':
      return searchPlanSteps(request as Questions['search']['request'], services);
  }
}

function* heatsAlone(request: PlanCheckRequest, services: PlanServices): Generator<void, PlanCheckOutcome> {
  const input = planToCheck(request, services);
  const faults = input ? planFaults(input) : [];
  // What is wrong in names and rules is told by the whole check.
  if (!input || faults.length > 0) return yield* checkPlanSteps(request, services);
  const checked = yield* checkHeats(input, expandedHeats(input));
  const helps = checked.problems.map(() => ({ helps: [], nothingHelps: null }));
  return { outcome: 'checked', check: concludeCheck(input, checked, { fixes: [], helps, isCutShort: true }) };
}

/** Runs steps to their end, and lets messages in between slices. */
async function inSlices(id: number, steps: Iterator<PlanSearchStep | void, unknown>): Promise<unknown> {
  let told = 0;
  for (;;) {
    const until = performance.now() + SLICE_MS;
    do {
      const step = steps.next();
      if (step.done) return step.value;
      if (step.value && performance.now() - told > PROGRESS_MS) {
        told = performance.now();
        say({ id, kind: 'progress', step: step.value });
      }
    } while (performance.now() < until);
    await turn();
    if (dropped.has(id)) throw new Error('dropped');
  }
}

/** A turn of the event loop: messages that have come are heard. A timer would wait four milliseconds. */
function turn(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', () => {
      port1.close();
      resolve();
    });
    port1.start();
    port2.postMessage(null);
  });
}

function say(message: FromEngine): void {
  self.postMessage(message);
}
