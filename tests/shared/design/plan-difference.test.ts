import { expect, test } from 'vitest';
import { planDifference } from '../../../shared/design/plan-difference.ts';
import type { Plan } from '../../../shared/design/plan.ts';

const plan: Plan = {
  heats: [
    { joints: ['seam'], solder: 'hard' },
    { joints: ['base', 'foot'], solder: 'medium', protections: [{ kind: 'shield', guards: 'seam' }] },
    { joints: [], purpose: 'anneal' },
  ],
};

test('planDifference() of a plan and itself is nothing, however it is written', () => {
  expect(planDifference(plan, plan)).toEqual([]);
  const same: Plan = {
    heats: [
      { solder: 'hard', joints: ['seam'], protections: [] },
      { solder: 'medium', protections: [{ guards: 'seam', kind: 'shield' }], joints: ['foot', 'base'] },
      { joints: [], purpose: 'anneal' },
    ],
  };
  expect(planDifference(plan, same)).toEqual([]);
});

test('planDifference() sets heats that make the same joints beside each other', () => {
  const theirs: Plan = {
    heats: [
      { joints: ['base', 'foot'], solder: 'easy', flame: { tiltDeg: 30, awayFrom: 'seam' } },
      { joints: ['seam'], solder: 'hard' },
      { joints: ['handle'], solder: 'easy' },
    ],
  };
  expect(planDifference(plan, theirs).map(({ fields, says }) => [fields, says])).toEqual([
    [['heat'], 'seam: heat 1 in yours, 2 in theirs'],
    [
      ['heat', 'solder', 'flame', 'protections'],
      'base and foot: heat 2 in yours, 1 in theirs; medium in yours, easy in theirs; another flame; another set of protections',
    ],
    [['heat'], 'the anneal: heat 3 of yours, in none of theirs'],
    [['heat'], 'handle: heat 3 of theirs, in none of yours'],
  ]);
  const [first] = planDifference(theirs, plan);
  expect(first).toMatchObject({
    joints: ['base', 'foot'],
    yours: { heat: 1, solder: 'easy' },
    theirs: { heat: 2, solder: 'medium' },
  });
});
