import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Heat } from '../../../shared/design/plan.ts';
import { calibrateTorch, type TorchCalibration } from '../../../shared/thermal/calibration/calibrate-torch.ts';
import type { ObservedHeat } from '../../../shared/thermal/calibration/observation.ts';
import { heatTimes } from '../../../shared/thermal/calibration/predicted-times.ts';
import { variances } from '../../../shared/thermal/calibration/variances.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { HEATS, makeObserved, normals, STRIP } from '../../support/observed-heats.ts';

const TRUTH = { powerFactor: 1.3, lossFactor: 0.75, spreadFactor: 1 };
const REPEATS = 12;

interface Recovered {
  mean: number;
  /** Of the logarithms. */
  scatter: number;
  last: TorchCalibration['power'];
}

/** Twelve hands note the same heats, each with noise of its own. */
function recover(make: ReturnType<typeof makeObserved>): Record<'power' | 'loss' | 'spread', Recovered> {
  const normal = normals(20310505);
  const all = Array.from({ length: REPEATS }, () => calibrateTorch({ torch: 'medium', ...make(normal) }));
  const of = (name: 'power' | 'loss' | 'spread'): Recovered => {
    const logs = all.map((one) => Math.log(one[name].value));
    const mean = logs.reduce((a, b) => a + b, 0) / REPEATS;
    const scatter = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / REPEATS);
    return { mean: Math.exp(mean), scatter, last: all.at(-1)![name] };
  };
  return { power: of('power'), loss: of('loss'), spread: of('spread') };
}

const within = ({ mean }: Recovered, [low, high]: readonly [number, number]): void => {
  expect(mean).toBeGreaterThan(low);
  expect(mean).toBeLessThan(high);
};
const PRIOR_ONLY = {
  loss: { value: 1, standardError: 0.3, toldByData: false },
  spread: { value: 1, standardError: 0.25, toldByData: false },
};

test('calibrateTorch() has the power from the flow of one heat, and of loss and spread its prior only', () => {
  const { power, loss, spread } = recover(makeObserved(TRUTH, [['disc', 'secondsToFlow']]));
  within(power, [1.15, 1.45]);
  expect(power.scatter).toBeLessThan(0.18);
  expect(power.last.toldByData).toBe(true);
  expect(loss.last).toEqual(PRIOR_ONLY.loss);
  expect(spread.last).toEqual(PRIOR_ONLY.spread);
});

test('calibrateTorch() has the power closer from three heats, and still no loss', () => {
  const flow = 'secondsToFlow';
  const { power, loss } = recover(
    makeObserved(TRUTH, [
      ['disc', flow],
      ['ring', flow],
      ['bars', flow],
    ]),
  );
  within(power, [1.2, 1.42]);
  expect(power.scatter).toBeLessThan(0.1);
  expect(power.last.standardError / power.last.value).toBeLessThan(0.1);
  expect(loss.last).toEqual(PRIOR_ONLY.loss);
});

test('calibrateTorch() has the loss from a cooling time', () => {
  const { power, loss, spread } = recover(
    makeObserved(TRUTH, [
      ['disc', 'secondsToFlow'],
      ['ring', 'secondsToFlow', 'secondsToEndOfGlow'],
    ]),
  );
  within(power, [1.18, 1.42]);
  within(loss, [0.66, 0.86]);
  expect(loss.scatter).toBeLessThan(0.2);
  expect(loss.last.toldByData).toBe(true);
  expect(spread.last).toEqual(PRIOR_ONLY.spread);
});

test('calibrateTorch() has the spread from two-chip strips, drawn toward its prior', () => {
  const { power, loss, spread } = recover(
    makeObserved(
      { ...TRUTH, spreadFactor: 1.2 },
      [
        ['disc', 'secondsToFlow'],
        ['ring', 'secondsToFlow', 'secondsToEndOfGlow'],
      ],
      2,
    ),
  );
  within(power, [1.05, 1.45]);
  within(loss, [0.66, 0.86]);
  within(spread, [1.05, 1.28]);
  expect(spread.last.toldByData).toBe(true);
});

test('calibrateTorch() without observations gives the priors back, for any torch, and says what it lacks', () => {
  const own = fc.record({
    powerW: fc.double({ min: 20, max: 3000, noNaN: true }),
    spreadMm: fc.double({ min: 1, max: 60, noNaN: true }),
    gasC: fc.integer({ min: 900, max: 3500 }),
  });
  fc.assert(
    fc.property(fc.oneof(own, fc.constantFrom('micro', 'medium', 'hot_point')), (torch) => {
      const { says, times, ...factors } = calibrateTorch({ torch, observations: [] });
      expect(factors).toEqual({ power: { value: 1, standardError: 0.4, toldByData: false }, ...PRIOR_ONLY });
      expect(times).toEqual([]);
      expect(says).toHaveLength(3);
      expect(says.every((line) => line.startsWith('These observations cannot tell '))).toBe(true);
    }),
  );
});

test('calibrateTorch() keeps within its bounds whatever was noted, comes to the same twice, and says what does not fit', () => {
  const seconds = fc.double({ min: 0.1, max: 1800, noNaN: true });
  fc.assert(
    fc.property(
      fc.constantFrom('disc', 'ring'),
      seconds,
      seconds,
      seconds,
      (name, secondsToFlow, secondsToEndOfGlow, secondsBetweenChips) => {
        const request = {
          torch: 'small' as const,
          observations: [{ ...HEATS[name], secondsToFlow, secondsToEndOfGlow }],
          strips: [{ ...STRIP, secondsBetweenChips }],
        };
        const answer = calibrateTorch(request);
        for (const [factor, most] of [
          ['power', 1.2],
          ['loss', 0.9],
          ['spread', 0.75],
        ] as const) {
          expect(Math.abs(Math.log(answer[factor].value))).toBeLessThanOrEqual(most + 1e-9);
          expect(answer[factor].standardError).toBeGreaterThan(0);
        }
        expect(calibrateTorch(request)).toEqual(answer);
      },
    ),
    { numRuns: 15 },
  );
  const strange = calibrateTorch({ torch: 'medium', observations: [{ ...HEATS.disc, secondsToFlow: 600 }] });
  expect(strange.says).toContainEqual(expect.stringMatching(/^The flow of heat 1 does not fit: 600 s were seen/));
});

const refused = (heat: object) => () =>
  calibrateTorch({ torch: 'medium', observations: [{ ...HEATS.disc, secondsToFlow: 10, ...heat }] });

const strip = (fields: object) => () =>
  calibrateTorch({ torch: 'medium', observations: [], strips: [{ ...STRIP, secondsBetweenChips: 3, ...fields }] });

test('calibrateTorch() refuses what cannot have been seen', () => {
  expect(refused({ secondsToFlow: -3 })).toThrow('over 0 and at most 1800 s');
  expect(refused({ secondsToFlow: Number.NaN })).toThrow('over 0 and at most 1800 s');
  expect(refused({ secondsToFlow: undefined })).toThrow('times of heat 1 must be at least one');
  expect(refused({ secondsToFluxClear: 12 })).toThrow('secondsToFluxClear of heat 1 must be before the flow at 10 s');
  expect(refused({ heat: 2 })).toThrow('heat must be 1 to 1');
  expect(refused({ heat: 1.5 })).toThrow('heat must be 1 to 1');
  expect(refused({ plan: { heats: [{ joints: ['pin-on'], purpose: 'anneal' }] } })).toThrow('one that solders');
  expect(refused({ plan: { heats: [{ joints: ['pin-on'], solder: 'butter' }] } })).toThrow('solder of heat 1');
  expect(refused({ plan: { heats: [{ joints: ['pin'], solder: 'easy' }] } })).toThrow('joint must be one of pin-on');
  const onLarge = { joints: ['pin-on'], solder: 'easy', torch: 'large' } as const;
  expect(refused({ plan: { heats: [onLarge] } })).toThrow('heat must be one with the torch that is calibrated');
  expect(strip({ secondsBetweenChips: 0 })).toThrow('over 0');
  expect(strip({ lengthMm: 15 })).toThrow('chipDistanceMm must be over 0 and at most 10, on the strip');
  expect(strip({ firstChipMm: 41 })).toThrow('firstChipMm must be on the strip');
});

test('heatTimes() plays a heat as a check does', () => {
  const factors = { powerFactor: 1.1, lossFactor: 0.9, spreadFactor: 1 };
  const { flowS, fluxClearS } = heatTimes('medium', { ...HEATS.disc, secondsToFlow: 1 })(factors);
  const { bySolder } = simulateHeat({
    design: HEATS.disc.design,
    bench: { torch: 'medium', support: 'brick', calibration: factors },
    targets: ['pin-on'],
    made: [],
    solders: [{ id: 'easy', liquidusC: 718 }],
  });
  expect(flowS).toBeCloseTo(bySolder['easy']!.timeToFlowS!, 1);
  expect(fluxClearS).toBeLessThan(flowS);
  const timeOn = (own: Partial<Heat>, seen: Partial<ObservedHeat> = {}): number => {
    const plan = { heats: HEATS.disc.plan.heats.map((heat) => ({ ...heat, ...own })) };
    return heatTimes('medium', { ...HEATS.disc, secondsToFlow: 1, plan, ...seen })(factors).flowS;
  };
  expect(timeOn({ torch: 'medium' })).toBe(flowS);
  expect(timeOn({ support: 'charcoal' })).toBe(timeOn({}, { support: 'charcoal' }));
  expect(timeOn({ support: 'charcoal' }, { support: 'brick' })).toBe(flowS);
});

// A ring of silver is all but even in temperature, so that it cools as one body (Incropera et al., 7th ed., eq. 5.15):
// m·c(T)·dT/dt = −hA(T − Tₐ) − εσA(T⁴ − Tₐ⁴), h = 11 + 0.031/D, D the perimeter over π; here by the trapezoidal rule over T.
test('heatTimes() cools a ring to the end of its glow as one body does', () => {
  const [meanMm, widthMm, thickMm] = [18.6, 4, 1.6];
  const perimeterM = (2 * (widthMm + thickMm)) / 1000;
  const lengthM = (Math.PI * meanMm) / 1000;
  const areaM2 = perimeterM * lengthM;
  const massKg = 10360 * widthMm * thickMm * 1e-6 * lengthM;
  const heatTransfer = 11 + 0.031 / (perimeterM / Math.PI);
  const perK = (t: number) => {
    const lossW = areaM2 * (heatTransfer * (t - 20) + 0.35 * 5.670374e-8 * ((t + 273.15) ** 4 - 293.15 ** 4));
    return (massKg * (245 + 0.045 * (t - 20))) / lossW;
  };
  const fromC = 728;
  let seconds = 0;
  for (let t = fromC; t > 520; t -= 1) seconds += (perK(t) + perK(t - 1)) / 2;
  const plan = { heats: [{ joints: ['seam'], solder: 'easy' }] };
  const { endOfGlowS } = heatTimes('large', { ...HEATS.ring, plan, secondsToEndOfGlow: 1 })({
    powerFactor: 1,
    lossFactor: 1,
    spreadFactor: 1,
  });
  // The ring is some kelvins hotter away from its seam when that flows.
  expect(Math.abs(endOfGlowS / seconds - 1)).toBeLessThan(0.08);
});

// The inverse of the Hilbert matrix is known exactly; for n = 3 its diagonal is 9, 192, 180 (Choi, Amer. Math. Monthly 90 (1983) 301).
test('variances() are the diagonal of the inverse', () => {
  const hilbert = [0, 1, 2].map((i) => [0, 1, 2].map((j) => 1 / (i + j + 1)));
  const found = variances(hilbert);
  [9, 192, 180].forEach((exact, i) => expect(found[i]).toBeCloseTo(exact, 8));
});
