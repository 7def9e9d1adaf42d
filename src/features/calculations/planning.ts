import { checkPlanSteps, type PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheck, PlanEdit } from '../../../shared/sequencing/plan-check-answer.ts';
import type { PlanSearchAnswer, PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import type { PlanSearchOutcome } from '../../../shared/sequencing/search-plan.ts';
import type { WhatIf } from '../../../shared/sequencing/what-if-answer.ts';
import { whatIfSteps } from '../../../shared/sequencing/what-if.ts';
import type { TorchCalibration } from '../../../shared/thermal/calibration/calibrate-torch.ts';
import type { TorchCalibrationRequest } from '../../../shared/thermal/calibration/observation.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import type { SearchProgress } from '../../platform/db/search-tables.ts';
import { inSlices } from '../../platform/workers/in-slices.ts';
import { createWorkerPool, type Lane, type Working } from '../../platform/workers/worker-pool.ts';
import { needOf } from './need-of.ts';

/** Milliseconds after which a search answers with what it has, so that nobody holds the line for long; the answer says so. */
const AT_ONCE_MS = 10_000;
/** The same for one that is asked for and read later. */
const FOR_LATER_MS = 60_000;
/** Milliseconds of a check after which no more fixes are tried; a problem may then stay without one. */
const FIXES_MS = 5000;

/** Who asks, and a signal that aborts when they no longer wait for the answer. */
interface Asker {
  personId: string;
  gone?: AbortSignal | undefined;
}

export type Planning = ReturnType<typeof createPlanning>;

/**
 * A plan checked heat by heat, a slice at a time.
 *
 * @throws {Problem} `invalid-fields` with every fault of its structure
 */
export async function checkOrRefuse(request: PlanCheckRequest): Promise<PlanCheck> {
  const begun = performance.now();
  const isStopped = () => performance.now() - begun > FIXES_MS;
  const outcome = await inSlices(checkPlanSteps(request, { solderNeedG: needOf(request), isStopped }));
  if (outcome.outcome === 'faults') throw invalidFields(outcome.faults);
  return outcome.check;
}

/**
 * What edits of a plan would change, a slice at a time.
 *
 * @throws {Problem} `invalid-fields` with every fault of the plan, of an edit, or of the plan as the edits leave it
 */
export async function whatIfOrRefuse(request: PlanCheckRequest, edits: readonly PlanEdit[]): Promise<WhatIf> {
  const outcome = await inSlices(whatIfSteps(request, edits, { solderNeedG: needOf(request) }));
  if (outcome.outcome === 'faults') throw invalidFields(outcome.faults);
  const { outcome: _outcome, ...difference } = outcome;
  return difference;
}

/** What takes long to compute: it is done on threads of its own, and takes turns there. */
export function createPlanning({ threads }: { threads?: number } = {}) {
  const pool = createWorkerPool({ file: new URL('./calculation-worker.ts', import.meta.url), threads });

  return {
    /**
     * The best plan for a design, for somebody who waits for it.
     *
     * @throws {Problem} `invalid-fields` with every fault of the design, its rules and the heats that are kept; `too-many-requests`
     */
    async search({ personId, gone }: Asker, request: PlanSearchRequest): Promise<PlanSearchAnswer> {
      const working = pool.begin<PlanSearchOutcome>({
        personId,
        lane: 'at_once',
        name: 'searchPlan',
        given: withTime(request, AT_ONCE_MS),
      });
      return soundAnswer(await waitedFor(working, gone));
    },

    /** The same for later: the answer has no fault, as the design was held to be sound before. */
    searchForLater(
      personId: string,
      request: PlanSearchRequest,
      { onBegin, onProgress }: { onBegin: () => void; onProgress: (progress: SearchProgress) => void },
    ): Working<PlanSearchAnswer> {
      const { answer, end } = pool.begin<PlanSearchOutcome, SearchProgress>({
        personId,
        lane: 'for_later',
        name: 'searchPlan',
        onBegin,
        onProgress,
        given: withTime(request, FOR_LATER_MS),
      });
      return { answer: answer.then(soundAnswer), end };
    },

    /** What a studio's observed heats say of its torch. @throws {Problem} `too-many-requests` */
    async calibrate({ personId, gone }: Asker, request: TorchCalibrationRequest): Promise<TorchCalibration> {
      return waitedFor(pool.begin<TorchCalibration>({ personId, lane: 'at_once', name: 'fitTorch', given: request }), gone);
    },

    /** @throws {Problem} `too-many-requests` when nothing more is taken from this person now */
    holdRoom: (lane: Lane, personId: string): void => pool.holdRoom(lane, personId),

    endAll: (): void => pool.endAll(),
    close: (): Promise<void> => pool.close(),
  };
}

const withTime = (request: PlanSearchRequest, timeMs: number): PlanSearchRequest => ({
  ...request,
  options: { timeMs, ...request.options },
});

function soundAnswer(outcome: PlanSearchOutcome): PlanSearchAnswer {
  if (outcome.outcome === 'faults') throw invalidFields(outcome.faults);
  return outcome;
}

async function waitedFor<Answer>({ answer, end }: Working<Answer>, gone?: AbortSignal): Promise<Answer> {
  const drop = () => end('nothing');
  gone?.addEventListener('abort', drop);
  try {
    return await answer;
  } finally {
    gone?.removeEventListener('abort', drop);
  }
}
