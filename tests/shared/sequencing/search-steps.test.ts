import { expect, test } from 'vitest';
import { LEVELS } from '../../../shared/sequencing/levels.ts';
import { searchPlanSteps, type PlanSearchStep } from '../../../shared/sequencing/search-plan.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

test('searchPlanSteps() tells on its way what it has spent and the best plan so far, level by level', () => {
  const search = searchPlanSteps({ design: pendant, solders, bench, options: { targetMarginK: 0 } });
  const seen: PlanSearchStep[] = [];
  let step = search.next();
  for (; !step.done; step = search.next()) seen.push(step.value);
  const answer = step.value;
  if (answer.outcome === 'faults') throw new Error('the pendant has no fault');
  expect(seen.length).toBeGreaterThan(10);
  const spent = seen.map(({ workUnits }) => workUnits);
  expect(spent).toEqual(spent.toSorted((a, b) => a - b));
  expect(seen.at(-1)!.workUnits).toBeLessThanOrEqual(answer.stats.workUnits);
  expect(seen.at(-1)!.thermalRuns).toBeLessThanOrEqual(answer.stats.thermalRuns);
  const ofPolicy = seen.filter(({ policy, proof }) => policy === answer.policy && proof);
  expect(ofPolicy.length).toBeGreaterThan(0);
  for (const { proof } of ofPolicy) expect(proof!.map(({ level }) => level)).toEqual(LEVELS);
  // A level that is proven stays at its value; one that is not only comes nearer to it.
  for (const [i, { value }] of answer.proof.entries()) {
    for (const { proof } of ofPolicy) if (proof![i]!.proven) expect(proof![i]!.value).toBe(value);
  }
});
