import { expect, test } from 'vitest';
import { planToCheck } from '../../../shared/sequencing/check-plan.ts';
import type { DesignQuestion } from '../../../shared/sequencing/design-problem.ts';
import { heatModelOracle } from '../../../shared/sequencing/heat-model-oracle.ts';
import { leastBadHeats } from '../../../shared/sequencing/least-bad-plan.ts';
import { runToEnd } from '../../../shared/run-to-end.ts';
import { unlikeProngs } from '../../support/unlike-prongs.ts';

test('leastBadHeats() looks no further once it is long over: one joint a heat, grades falling', () => {
  const { design, solders, bench } = unlikeProngs(8);
  const input = planToCheck({ design, solders, bench, plan: { heats: [] } }, {})!;
  const question: DesignQuestion = { ...input, policy: 'do_not_run', targetMarginK: 0, protections: [] };
  const whatIsFound = (isLongOver: boolean) => {
    const oracle = heatModelOracle(question);
    let runs = 0;
    const counted: typeof oracle = { ...oracle, run: (...asked) => (runs++, oracle.run(...asked)) };
    return {
      heats: runToEnd(leastBadHeats(question, counted, { workUnits: 20_000, isLongOver: () => isLongOver })),
      runs: () => runs,
    };
  };
  const looked = whatIsFound(false);
  const over = whatIsFound(true);
  expect(over.runs()).toBeLessThan(looked.runs() / 2);
  const [hard, easy] = ['hard', 'easy'].map((solder) => Array.from({ length: 4 }, () => solder));
  expect(over.heats.map(({ joints }) => joints)).toEqual(design.joints.map(({ id }) => [id]));
  expect(over.heats.map(({ solder }) => solder)).toEqual([...hard!, ...easy!]);
});
