import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { designFromTrueState } from '../../../shared/sequencing/true-state.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

const [hard, medium] = solders;

test('designFromTrueState() fixes sound joints, opens remelted ones, and keeps the solder on one that did not flow', () => {
  const design = designFromTrueState(pendant, {
    joints: [
      { joint: 'wall-seam', state: 'made', made: { solder: hard! } },
      { joint: 'bail-seam', state: 'made', made: { solder: medium! }, doubtful: true },
      { joint: 'bezel', state: 'open', solderOnIt: 'medium' },
    ],
  });
  const byId = Object.fromEntries(design.joints.map((joint) => [joint.id, joint]));
  expect(byId['wall-seam']).toMatchObject({ made: { solder: hard } });
  expect(byId['bail-seam']).toMatchObject({ made: { solder: medium }, load: 'own_weight' });
  expect(byId['bezel']!.made).toBeUndefined();
  expect(design.rules!.grades).toEqual({ bezel: { only: 'medium' }, 'bail-on': { exclude: ['hard'] } });
});

test('a plan from the true state makes only what is open, and no doubtful joint softens', () => {
  const state = {
    joints: [
      { joint: 'wall-seam', state: 'made', made: { solder: hard! }, doubtful: true } as const,
      { joint: 'bail-seam', state: 'made', made: { solder: hard! } } as const,
    ],
  };
  const extraEasy = { id: 'extra-easy', solidusC: 618, liquidusC: 652, silverFraction: 0.65 };
  const answer = searchPlan({
    design: designFromTrueState(pendant, state),
    solders: [...solders, extraEasy],
    bench,
    options: { policy: 'do_not_run' },
  });
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  expect(answer.outcome).toBe('optimal');
  expect(answer.plan!.heats.flatMap(({ joints }) => joints).sort()).toEqual(['bail-on', 'bezel']);
  const wallSeam = answer.check!.heats.flatMap(({ earlierJoints }) => earlierJoints.filter(({ joint }) => joint === 'wall-seam'));
  expect(wallSeam.length).toBeGreaterThan(0);
  expect(wallSeam.every(({ verdict }) => verdict === 'stays_solid')).toBe(true);
});

test('designFromTrueState() refuses two states of one joint', () => {
  const twice = { joints: [{ joint: 'bezel', state: 'open' } as const, { joint: 'bezel', state: 'open' } as const] };
  expect(() => designFromTrueState(pendant, twice)).toThrow(EngineInputError);
});
