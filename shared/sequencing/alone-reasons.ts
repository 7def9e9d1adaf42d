/** Why a joint cannot be made even as the first of all: with each solder, what stands in its way. */

import type { Joint } from '../design/design.ts';
import { toFive } from '../thermal/to-five.ts';
import { unfit, type DesignQuestion } from './design-problem.ts';
import { checkHeat, problemsOf } from './heat-check.ts';
import { jointsBefore } from './heat-question.ts';

/** Solders that fail for one and the same reason are named together. */
export function aloneReasons(question: DesignQuestion, joint: Joint): string {
  const before = jointsBefore(question, [], 0);
  const byReason = new Map<string, string[]>();
  for (const { id } of question.solders) {
    const reason = unfit(question, joint, id) ?? reasonInFire(question, joint.id, id, before);
    byReason.set(reason, [...(byReason.get(reason) ?? []), id]);
  }
  return [...byReason].map(([reason, solders]) => `${solders.join(', ')}: ${reason}`).join('; ');
}

function reasonInFire(question: DesignQuestion, joint: string, solder: string, before: ReturnType<typeof jointsBefore>): string {
  const check = checkHeat(question, { joints: [joint], solder }, 1, before);
  if (check.flow === 'does_not_flow') {
    const settles = check.settlesC === null ? '' : `, it settles at about ${toFive(check.settlesC)} °C`;
    return `does not flow with this torch${settles}`;
  }
  const [problem] = problemsOf(check);
  if (problem) return problem.says;
  const soft = check.earlierJoints.toSorted((a, b) => a.solidMarginK - b.solidMarginK)[0];
  if (soft) return `${soft.joint}: ${soft.says}`;
  const near = check.parts.toSorted((a, b) => a.limitC - a.peakC - (b.limitC - b.peakC))[0];
  return near ? `${near.part}: ${near.says}` : 'no heat of it can be done';
}
