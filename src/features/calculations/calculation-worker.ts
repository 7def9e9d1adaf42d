/** What runs on a thread of its own: functions of this file are called by name, from planning.ts. */

import type { PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import {
  searchPlanSteps,
  USUAL_WORK_UNITS,
  type PlanSearchOutcome,
  type PlanSearchStep,
} from '../../../shared/sequencing/search-plan.ts';
import { calibrateTorchSteps, type TorchCalibration } from '../../../shared/thermal/calibration/calibrate-torch.ts';
import type { TorchCalibrationRequest } from '../../../shared/thermal/calibration/observation.ts';
import type { SearchProgress } from '../../platform/db/search-tables.ts';
import { answerOnThread, type FromThread, type OnThread } from '../../platform/workers/on-thread.ts';
import { needOf } from './need-of.ts';

/** How often a search tells how far it is, besides when it has found something better. */
const TELL_MS = 200;

export async function searchPlan({ given, port }: OnThread<PlanSearchRequest>): Promise<FromThread<PlanSearchOutcome>> {
  const begun = performance.now();
  const elapsedMs = () => Math.round(performance.now() - begun);
  const workUnitsAllowed = given.options?.workUnits ?? USUAL_WORK_UNITS;
  let toldMs = 0;
  let best: SearchProgress['best'] = null;
  const tell = ({ workUnits, thermalRuns, policy, proof }: PlanSearchStep): void => {
    // What earlier joints must do under the first policy is worth more than anything under the second.
    const isBetter = proof !== undefined && proof !== best?.levels && (best === null || best.policy === policy);
    if (isBetter) best = { policy: policy!, levels: proof };
    if (!isBetter && elapsedMs() - toldMs < TELL_MS) return;
    toldMs = elapsedMs();
    port.postMessage({ workUnits, workUnitsAllowed, thermalRuns, elapsedMs: toldMs, best } satisfies SearchProgress);
  };
  return answerOnThread(
    { port },
    (isStopped) => searchPlanSteps(given, { solderNeedG: needOf(given), elapsedMs, isStopped }),
    tell,
  );
}

export async function fitTorch({ given, port }: OnThread<TorchCalibrationRequest>): Promise<FromThread<TorchCalibration>> {
  return answerOnThread({ port }, () => calibrateTorchSteps(given));
}
