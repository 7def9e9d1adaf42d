import { setImmediate as nextTurn } from 'node:timers/promises';
import { solderNeedG } from '../../../shared/costing/solder-need.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { checkPlanSteps, type PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { PlanSearchAnswer, PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import { searchPlanSteps } from '../../../shared/sequencing/search-plan.ts';
import { calibrateTorchSteps, type TorchCalibration } from '../../../shared/thermal/calibration/calibrate-torch.ts';
import type { TorchCalibrationRequest } from '../../../shared/thermal/calibration/observation.ts';
import { invalidFields } from '../../platform/http/problem.ts';

/** Milliseconds after which a search answers with what it has, so that the server goes on serving; the answer says so. */
const USUAL_TIME_MS = 10_000;
/** Milliseconds of a check after which no more fixes are tried; a problem may then stay without one. */
const FIXES_MS = 5000;
/** How long a search or a fit works before it lets others have their turn. */
const SLICE_MS = 20;

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
 * The best plan for a design. It is looked for a slice at a time, so that the server answers others in between.
 *
 * @throws {Problem} `invalid-fields` with every fault of the design, its rules and the heats that are kept
 */
export async function searchOrRefuse(request: PlanSearchRequest): Promise<PlanSearchAnswer> {
  const begun = performance.now();
  const options = { timeMs: USUAL_TIME_MS, ...request.options };
  const steps = searchPlanSteps(
    { ...request, options },
    { solderNeedG: needOf(request), elapsedMs: () => Math.round(performance.now() - begun) },
  );
  const outcome = await inSlices(steps);
  if (outcome.outcome === 'faults') throw invalidFields(outcome.faults);
  return outcome;
}

/** What a studio's observed heats say of its torch, fitted a slice at a time. */
export async function calibrate(request: TorchCalibrationRequest): Promise<TorchCalibration> {
  return inSlices(calibrateTorchSteps(request));
}

async function inSlices<Answer>(steps: Iterator<unknown, Answer>): Promise<Answer> {
  let sliceBegun = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() - sliceBegun < SLICE_MS) continue;
    await nextTurn();
    sliceBegun = performance.now();
  }
}

function needOf({ design, solders }: Pick<PlanCheckRequest, 'design' | 'solders'>): ReturnType<typeof solderNeedG> {
  let need: ReturnType<typeof solderNeedG> | undefined;
  return (joint, solder) => {
    // Asked only of a design whose names are sound; before that it could not be expanded.
    need ??= solderNeedG(expandDesign(design).design, solders);
    return need(joint, solder);
  };
}
