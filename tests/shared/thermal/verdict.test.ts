import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { flowTemperatureC } from '../../../shared/thermal/flow-temperature.ts';
import { uncertaintyK } from '../../../shared/thermal/uncertainty.ts';
import { judgeJoint, judgePart } from '../../../shared/thermal/verdict.ts';
import type { JointReading } from '../../../shared/thermal/verdict.ts';

const reading = (more: Partial<JointReading>): JointReading => ({
  peakC: 700,
  solidusC: 740,
  liquidusC: 788,
  flowC: 700,
  riseK: 0,
  calibrated: false,
  secondsAboveSolidus: 0,
  load: 'none',
  ...more,
});

test('flowTemperatureC() of hard solder on sterling is 797 °C, on a casting 793', () => {
  expect([flowTemperatureC(788, 802), flowTemperatureC(788, 779), flowTemperatureC(738, 802)]).toEqual([797, 793, 748]);
});

test('uncertaintyK() grows with the fall from the target, less so when calibrated', () => {
  expect(uncertaintyK({ flowC: 728, peakC: 740, calibrated: false })).toBe(15);
  expect(uncertaintyK({ flowC: 728, peakC: 688, calibrated: false })).toBe(25);
  expect(uncertaintyK({ flowC: 728, peakC: 678, calibrated: true })).toBeCloseTo(21.213, 3);
});

test.each<[Partial<JointReading>, string, string]>([
  [{ peakC: 789 }, 'runs', 'problem'],
  [{ peakC: 788 }, 'may_run', 'problem'],
  [{ peakC: 773 }, 'softens', 'note'],
  [{ peakC: 741 }, 'softens', 'note'],
  [{ peakC: 740 }, 'may_soften', 'note'],
  [{ peakC: 725 }, 'stays_solid', 'none'],
  [{ peakC: 741, load: 'own_weight' }, 'softens', 'caution'],
  [{ peakC: 741, load: 'sprung' }, 'softens', 'problem'],
  [{ peakC: 735, load: 'tied' }, 'may_soften', 'problem'],
  [{ peakC: 789, riseK: 20 }, 'softens', 'note'],
  [{ peakC: 800, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 6 }, 'held', 'caution'],
  [{ peakC: 828, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 15 }, 'held', 'caution'],
  [{ peakC: 829, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 6 }, 'runs', 'problem'],
  [{ peakC: 800, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 15.1 }, 'runs', 'problem'],
  [{ peakC: 780, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 6 }, 'held', 'caution'],
  [{ peakC: 750, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 6 }, 'softens', 'note'],
])('judgeJoint() with %o says %s, a %s', (more, verdict, severity) => {
  expect(judgeJoint(reading(more))).toMatchObject({ verdict, severity });
});

test('judgeJoint() speaks in steps of 5 °C and never of safety', () => {
  expect(judgeJoint(reading({ peakC: 703 })).says).toBe('Predicted to stay solid by 35 °C');
  expect(judgeJoint(reading({ peakC: 800, antiFlow: { budgetS: 15 }, secondsAboveSolidus: 6.4 })).says).toBe(
    "Held by anti-flow with 8 s to spare: don't touch or load it",
  );
  fc.assert(
    fc.property(fc.double({ min: 400, max: 900, noNaN: true }), (peakC) => {
      const { says } = judgeJoint(reading({ peakC }));
      expect(says).not.toMatch(/safe/iu);
      for (const [number] of says.matchAll(/\d+/gu)) expect(Number(number) % 5).toBe(0);
    }),
  );
});

const ORDER = ['stays_solid', 'may_soften', 'softens', 'may_run', 'runs'];
const rank = (peakC: number) => ORDER.indexOf(judgeJoint(reading({ peakC, flowC: 748 })).verdict);

test('judgeJoint() is never milder for a hotter joint', () => {
  const anyPeak = fc.double({ min: 400, max: 900, noNaN: true });
  fc.assert(
    fc.property(anyPeak, anyPeak, (a, b) => {
      expect(rank(Math.max(a, b))).toBeGreaterThanOrEqual(rank(Math.min(a, b)));
    }),
  );
});

test.each([
  [{ peakC: 700, limitC: 802 }, 'within', 'none'],
  [{ peakC: 792, limitC: 802 }, 'near_limit', 'caution'],
  [{ peakC: 803, limitC: 802 }, 'over_limit', 'problem'],
  // Hard solder on sterling is brought to 797 °C; the half second of reaction takes it beyond.
  [{ peakC: 803, limitC: 802, targetFlowC: 797 }, 'near_limit', 'note'],
  [{ peakC: 825, limitC: 802, targetFlowC: 797 }, 'over_limit', 'problem'],
  // On a casting it is too hot by itself.
  [{ peakC: 795, limitC: 779, targetFlowC: 793 }, 'over_limit', 'problem'],
  // Medium is not: what gets so hot there has run ahead.
  [{ peakC: 795, limitC: 802, targetFlowC: 748 }, 'near_limit', 'caution'],
  [{ peakC: 350, limitC: 300 }, 'over_limit', 'problem'],
])('judgePart() of %o says %s, a %s', (part, verdict, severity) => {
  expect(judgePart(part)).toMatchObject({ verdict, severity });
});
