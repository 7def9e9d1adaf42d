import { expect, test } from 'vitest';
import { checkPlanSteps, type PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import { unlikeProngs } from '../../support/unlike-prongs.ts';

const { design, solders, bench } = unlikeProngs(12);
const heats = design.joints.map(({ id }) => ({ joints: [id], solder: 'hard' }));

function stepsOf(request: PlanCheckRequest, mayTry: number) {
  let asked = 0;
  const steps = checkPlanSteps(request, { isStopped: () => (asked += 1) > mayTry });
  for (let count = 0; ; count++) {
    const { done, value } = steps.next();
    if (done) return { count, value };
  }
}

test('a check that may try nothing more still lets others have their turn at every problem', () => {
  const { count, value } = stepsOf({ design, solders, bench, plan: { heats } }, 0);
  if (value.outcome !== 'checked') throw new Error('the plan has faults');
  const { problems } = value.check;
  expect(problems.length).toBeGreaterThan(30);
  expect(count).toBeGreaterThanOrEqual(heats.length + problems.length);
});

test('edits of a plan that breaks a rule are looked at one a turn, and none any more once it is stopped', () => {
  const rules = { ...design.rules, before: [['j11', 'j0']] as const };
  const broken = { design: { ...design, rules }, solders, bench, plan: { heats } };
  const whole = stepsOf(broken, Infinity);
  // Each of the twelve heats at eleven other places, alone or with the other solder, and in eleven others.
  expect(whole.count).toBeGreaterThan(12 * 3 * 11);
  expect(whole.value).toMatchObject({ outcome: 'faults', faults: [{ bestFix: { faultsLeft: 0 } }] });
  const stopped = stepsOf(broken, 20);
  expect(stopped.count).toBeLessThan(30);
  expect(stopped.value.outcome).toBe('faults');
});
