import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { secondsAbove } from '../../../shared/thermal/heat-run.ts';
import type { HeatQuestion, SolderRun } from '../../../shared/thermal/heat-run.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { bailHeat, grainedWire, SOLDERS } from '../../support/heated-pieces.ts';
import { pendant } from '../../support/pendant.ts';

const easy = (question: HeatQuestion): SolderRun => simulateHeat(question).bySolder['easy']!;
const peak = (run: SolderRun, joint: string): number => run.joints[joint]!.peakC;

const wireHeat = (more: Partial<HeatQuestion> = {}): HeatQuestion => ({
  design: grainedWire({ target: 50, near: 60, far: 75 }),
  bench: { torch: 'medium', support: 'brick' },
  targets: ['target'],
  made: ['near', 'far'],
  solders: SOLDERS.slice(2),
  ...more,
});

test('simulateHeat() answers for every solder as it would for each alone', () => {
  const together = simulateHeat(bailHeat({ solders: SOLDERS })).bySolder;
  expect(Object.keys(together)).toEqual(['hard', 'medium', 'easy']);
  for (const solder of SOLDERS) {
    const alone = simulateHeat(bailHeat({ solders: [solder] })).bySolder[solder.id]!;
    const shared = together[solder.id]!;
    expect([shared.flow, shared.timeToFlowS]).toEqual([alone.flow, alone.timeToFlowS]);
    expect(peak(shared, 'bezel')).toBe(peak(alone, 'bezel'));
  }
});

test('simulateHeat() keeps what it saw of every earlier joint, from lighting to 6.5 s past flow', () => {
  const run = easy(bailHeat());
  const { history, peakC } = run.joints['bezel']!;
  expect(Object.keys(run.joints)).toEqual(['wall-seam', 'bezel', 'bail-seam']);
  expect(history.timesS[0]).toBe(0);
  expect(history.temperaturesC[0]).toBeCloseTo(20, 9);
  expect(history.timesS.at(-1)).toBeCloseTo(run.timeToFlowS! + 6.5, 9);
  expect(Math.max(...history.temperaturesC)).toBe(peakC);
  expect(secondsAbove(history, 671)).toBeGreaterThan(secondsAbove(history, 691));
  expect(run.parts['bail']!.peakC).toBeGreaterThanOrEqual(peak(run, 'bail-seam'));
});

test('simulateHeat() does not hear how parts and joints are called or listed', () => {
  const before = easy(bailHeat());
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...pendant.parts], { minLength: 3, maxLength: 3 }),
      fc.shuffledSubarray([...pendant.joints], { minLength: 4, maxLength: 4 }),
      (parts, joints) => {
        const renamed = JSON.parse(
          JSON.stringify({ parts, joints }).replaceAll(/"(id|part|closes)":"([^"]+)"/gu, '"$1":"x-$2"'),
        ) as Design;
        const after = easy(
          bailHeat({ design: renamed, targets: ['x-bail-on'], made: ['x-bail-seam', 'x-bezel', 'x-wall-seam'] }),
        );
        expect(after.timeToFlowS).toBeCloseTo(before.timeToFlowS!, 6);
        for (const id of Object.keys(before.joints)) expect(peak(after, `x-${id}`)).toBeCloseTo(peak(before, id), 4);
      },
    ),
    { numRuns: 8 },
  );
});

const withOneMade = (design: Design) => easy(wireHeat({ design, targets: ['a'], made: ['b'] }));

test('simulateHeat() of the mirrored piece is the mirrored answer', () => {
  fc.assert(
    fc.property(fc.double({ min: 5, max: 40, noNaN: true }), fc.double({ min: 45, max: 90, noNaN: true }), (a, b) => {
      const one = withOneMade(grainedWire({ a, b }));
      const other = withOneMade(grainedWire({ a: 100 - a, b: 100 - b }));
      expect(other.flow).toBe(one.flow);
      expect(other.joints['b']!.peakC).toBeCloseTo(one.joints['b']!.peakC, 4);
    }),
    { numRuns: 10 },
  );
});

test('simulateHeat() never has an earlier joint colder than the room or hotter than the gas, on any wire', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('micro', 'small', 'medium', 'large', 'extra_large', 'hot_point'),
      fc.constantFrom('brick', 'charcoal', 'hard_brick', 'air'),
      fc.double({ min: 2, max: 98, noNaN: true }),
      (torch, support, near) => {
        const run = easy(wireHeat({ design: grainedWire({ target: 50, near }), made: ['near'], bench: { torch, support } }));
        const { history } = run.joints['near']!;
        for (const t of history.temperaturesC) expect(t).toBeGreaterThanOrEqual(20 - 1e-6);
        for (const t of history.temperaturesC) expect(t).toBeLessThan(torch === 'hot_point' ? 2200 : 1500);
        expect(run.settlesC === null).toBe(run.flow !== 'does_not_flow');
        if (run.flow === 'does_not_flow') expect(run.settlesC).toBeLessThan(run.flowC);
        else expect(run.energyJ).toBeGreaterThan(0);
      },
    ),
    { numRuns: 40 },
  );
});

test('the farther a joint along a wire, the cooler it stays', () => {
  const run = easy(
    wireHeat({ design: grainedWire({ target: 50, a: 53, b: 56, c: 60, d: 70, e: 90 }), made: ['a', 'b', 'c', 'd', 'e'] }),
  );
  const peaks = ['a', 'b', 'c', 'd', 'e'].map((id) => peak(run, id));
  expect(peaks).toEqual(peaks.toSorted((x, y) => y - x));
});

test('tweezers and shields keep an earlier joint cooler and cost time', () => {
  const bare = easy(wireHeat());
  for (const protection of [
    { kind: 'sink', sink: 'tweezers', at: { joint: 'near' } },
    { kind: 'shield', guards: 'near' },
  ] as const) {
    const guarded = easy(wireHeat({ protections: [protection] }));
    expect(peak(guarded, 'near')).toBeLessThan(peak(bare, 'near') - 5);
    expect(guarded.timeToFlowS).toBeGreaterThan(bare.timeToFlowS!);
  }
});

test('a shield on a part leaves 0.15 of the flame on it', () => {
  // Bench practice: a light part runs ahead of its plate; out of the flame it follows.
  const bare = easy(bailHeat());
  const guarded = easy(bailHeat({ protections: [{ kind: 'shield', guards: 'bail' }] }));
  expect(guarded.parts['bail']!.peakC).toBeLessThan(bare.parts['bail']!.peakC - 10);
});

test('a heavy clamp or a wet pack beside the target of a medium torch: never', () => {
  for (const sink of ['heavy_clamp', 'wet_pack'] as const) {
    const run = easy(wireHeat({ protections: [{ kind: 'sink', sink, at: { part: 'wire', alongMm: 53 } }] }));
    expect(run.flow).toBe('does_not_flow');
    expect(run.settlesC).toBeLessThan(600);
  }
});

const farPeak = (flame: HeatQuestion['flame']) => peak(easy(wireHeat({ ...(flame && { flame }) })), 'far');

test('a flame leant away spares a joint, leant toward it does not', () => {
  const upright = farPeak(undefined);
  expect(farPeak({ tiltDeg: 45, awayFrom: 'far' })).toBeLessThan(upright - 3);
  expect(farPeak({ tiltDeg: 45, towards: 'far' })).toBeGreaterThan(upright + 3);
});

test('anti-flow is no part of the network', () => {
  expect(easy(wireHeat({ protections: [{ kind: 'anti_flow', guards: 'near' }] }))).toEqual(easy(wireHeat()));
});

const flowAt = (powerW: number) =>
  easy(wireHeat({ bench: { torch: { powerW, spreadMm: 10, gasC: 1500 }, support: 'air' } })).flow;

test('only just: reached at full power and not at three quarters of it', () => {
  const seen = new Set<string>();
  for (let powerW = 60; powerW <= 300; powerW += 20) {
    const [full, weak] = [flowAt(powerW), flowAt(0.75 * powerW)];
    seen.add(full);
    if (full === 'flows') expect(weak).not.toBe('does_not_flow');
    if (full === 'only_just') expect(weak).toBe('does_not_flow');
  }
  expect([...seen]).toEqual(['does_not_flow', 'only_just', 'flows']);
});

test('two targets that no play of the flame brings together say how far apart they are', () => {
  // Aimed beyond one of them, the flame is not the model's to share out.
  const run = easy(
    wireHeat({
      design: grainedWire({ a: 50, b: 58 }),
      targets: ['a', 'b'],
      made: [],
      flame: { aim: { part: 'wire', alongMm: 44 } },
    }),
  );
  expect(run.flow).toBe('flows');
  expect(run.targetSpreadK).toBeGreaterThan(10);
});

test('two targets flow together though one is heavier', () => {
  const design = grainedWire({ a: 30, b: 42 });
  const parts = design.parts.map((part) =>
    part.id === 'b' ? { ...part, form: { kind: 'ball', diameterMm: 5 } as const } : part,
  );
  const run = easy(wireHeat({ design: { ...design, parts }, targets: ['a', 'b'], made: [] }));
  expect(run.flow).toBe('flows');
  expect(run.targetSpreadK).toBeLessThan(5);
  expect(easy(wireHeat()).targetSpreadK).toBeUndefined();
});

test.each<[string, Partial<HeatQuestion>]>([
  ['a tilt past 80°', { flame: { tiltDeg: 85, towards: 'near' } }],
  ['a lean to nothing known', { flame: { tiltDeg: 30, towards: 'clasp' } }],
  ['a shield on nothing known', { protections: [{ kind: 'shield', guards: 'clasp' }] }],
  ['a sink at a joint that is not in the fire', { protections: [{ kind: 'sink', sink: 'tweezers', at: { joint: 'clasp' } }] }],
  [
    'a loss factor of zero',
    { bench: { torch: 'medium', support: 'brick', calibration: { powerFactor: 1, lossFactor: 0, spreadFactor: 1 } } },
  ],
  ['a target that is unknown', { targets: ['clasp'] }],
])('simulateHeat() refuses %s', (_, more) => {
  expect(() => simulateHeat(wireHeat(more))).toThrow(EngineInputError);
});
