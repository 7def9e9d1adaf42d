/** What the bench knows (common practice, no source): directions, and how far in wide bands. The torches were tuned to such times. */

import { expect, test } from 'vitest';
import type { Design, Form } from '../../../shared/design/design.ts';
import type { Bench, TorchPreset } from '../../../shared/design/plan.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import type { HeatQuestion, SolderRun } from '../../../shared/thermal/heat-run.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';

const WIRE: Form = { kind: 'round_wire', lengthMm: 100, diameterMm: 2 };
const STRIP: Form = { kind: 'bar', lengthMm: 100, widthMm: 4, thicknessMm: 1.5 };
const SHEET: Form = { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 };
const SHANK: Form = { kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 };

/** A form with a grain being joined near its middle, and grains made before it so many mm farther along. */
function grained(form: Form, awayMm: readonly number[], more: Partial<HeatQuestion> = {}): HeatQuestion {
  const startMm = form.kind === 'sheet' ? 7.5 : form.kind === 'band' ? 20 : 50;
  const at: Record<string, number> = { target: startMm, ...Object.fromEntries(awayMm.map((mm) => [`at${mm}`, startMm + mm])) };
  const design: Design = {
    parts: [
      { id: 'base', metal: 'sterling-925', form },
      ...Object.keys(at).map((id) => ({ id, metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2.2 } as const })),
    ],
    joints: Object.entries(at).map(([id, along]) => ({
      id,
      kind: 'granule',
      between: [form.kind === 'sheet' ? { part: 'base', xMm: along } : { part: 'base', alongMm: along }, { part: id }],
      diameterMm: 2.2,
      neckRadiusMm: 0.6,
      gapMm: 0,
    })),
  };
  const made = Object.keys(at).filter((id) => id !== 'target');
  return { design, bench: { torch: 'medium', support: 'brick' }, targets: ['target'], made, solders: SOLDERS, ...more };
}

const on = (torch: Bench['torch'], support: Bench['support'] = 'brick') => ({ bench: { torch, support } });
const medium = (question: HeatQuestion): SolderRun => simulateHeat(question).bySolder['medium']!;
const timeS = (question: HeatQuestion): number => {
  const run = medium(question);
  expect(run.flow).not.toBe('does_not_flow');
  return run.timeToFlowS!;
};
const peak = (run: SolderRun, awayMm: number): number => run.joints[`at${awayMm}`]!.peakC;
/** How many K cooler than the target a joint so many mm away peaks. */
const coolerK = (question: HeatQuestion, awayMm: number): number => {
  const run = medium(question);
  return run.flowC - peak(run, awayMm);
};
const FORMS: [string, Form][] = [
  ['wire', WIRE],
  ['strip', STRIP],
  ['shank', SHANK],
  ['sheet', SHEET],
];

// Half as long again with the medium torch; a strip of 100 mm stalls with it.
test.each<[string, Form, TorchPreset]>([
  ['wire', WIRE, 'medium'],
  ['strip', STRIP, 'large'],
  ['shank', SHANK, 'medium'],
  ['sheet', SHEET, 'medium'],
])('a %s hung in the air is slower than on a block', (_, form, torch) => {
  const ratio = timeS(grained(form, [10], on(torch, 'air'))) / timeS(grained(form, [10], on(torch)));
  expect(ratio).toBeGreaterThan(1.1);
  expect(ratio).toBeLessThan(2.5);
});

test('a weak torch that just does it on a block never does in the air', () => {
  expect(medium(grained(STRIP, [10], on('micro'))).flow).toBe('only_just');
  expect(medium(grained(STRIP, [10], on('micro', 'air'))).flow).toBe('does_not_flow');
});

test('charcoal is sooner than brick under a sheet, and about the same under a ring that stands', () => {
  const [sheet, shank] = [SHEET, SHANK].map(
    (form) => timeS(grained(form, [10], on('medium', 'charcoal'))) / timeS(grained(form, [10])),
  );
  expect(sheet).toBeGreaterThan(0.7);
  expect(sheet).toBeLessThan(0.96);
  expect(shank).toBeGreaterThan(0.94);
  expect(shank).toBeLessThanOrEqual(1);
});

test('the nearer a torch is to its limit, the more charcoal gains on brick under a sheet', () => {
  const [large, medium, small] = (['large', 'medium', 'small'] as const).map(
    (torch) => 1 - timeS(grained(SHEET, [10], on(torch, 'charcoal'))) / timeS(grained(SHEET, [10], on(torch))),
  ) as [number, number, number];
  expect(large).toBeGreaterThan(0.03);
  expect(medium).toBeGreaterThan(large);
  expect(small).toBeGreaterThan(medium);
  expect(small).toBeLessThan(0.25);
});

test.each(FORMS)('tweezers on an earlier joint of a %s help it and slow the heat', (_, form) => {
  for (const mm of [6, 10, 15]) {
    const bare = grained(form, [mm]);
    const held: HeatQuestion = { ...bare, protections: [{ kind: 'sink', sink: 'tweezers', at: { joint: `at${mm}` } }] };
    const helpsK = peak(medium(bare), mm) - peak(medium(held), mm);
    expect(helpsK).toBeGreaterThan(3);
    expect(helpsK).toBeLessThan(60);
    expect(timeS(held) / timeS(bare)).toBeGreaterThan(1.05);
    expect(timeS(held) / timeS(bare)).toBeLessThan(1.8);
  }
});

test('a sink at the target can stop a heat that one farther off lets through', () => {
  const bare = grained(WIRE, [10], on('micro'));
  const held = (mm: number): SolderRun =>
    medium({ ...bare, protections: [{ kind: 'sink', sink: 'tweezers', at: { part: 'base', alongMm: 50 + mm } }] });
  expect(medium(bare).flow).not.toBe('does_not_flow');
  expect(held(1).flow).toBe('does_not_flow');
  expect(held(10).flow).not.toBe('does_not_flow');
});

test.each(FORMS)('tilting the flame away from an earlier joint of a %s helps a little, toward it harms as much', (_, form) => {
  const leant = (flame: HeatQuestion['flame']) => peak(medium(grained(form, [10], flame && { flame })), 10);
  const [away, upright, toward] = [
    leant({ tiltDeg: 45, awayFrom: 'at10' }),
    leant(undefined),
    leant({ tiltDeg: 45, towards: 'at10' }),
  ];
  for (const differenceK of [upright - away, toward - upright]) {
    expect(differenceK).toBeGreaterThan(1);
    expect(differenceK).toBeLessThan(25);
  }
});

test.each(FORMS)('on a %s a joint of the same solder within 10 mm does not stay solid', (_, form) => {
  const { design, bench } = grained(form, [3, 6, 10]);
  for (const { id } of SOLDERS) {
    const answer = checkPlan({
      design,
      bench,
      solders: SOLDERS,
      plan: { heats: ['at3', 'at6', 'at10', 'target'].map((joint) => ({ joints: [joint], solder: id })) },
    });
    if (answer.outcome !== 'checked') throw new Error(JSON.stringify(answer));
    const joints = answer.check.heats[3]!.earlierJoints;
    expect(joints).toHaveLength(3);
    for (const { verdict } of joints) expect(['runs', 'may_run', 'softens']).toContain(verdict);
  }
});

test.each<[string, Form]>(FORMS.filter(([name]) => name !== 'shank'))(
  'on a %s a soft big flame is more even, a hot small one more local',
  (_, form) => {
    const at = (torch: Bench['torch']) => coolerK(grained(form, [15], on(torch)), 15);
    expect(at('large')).toBeLessThan(at('medium') - 5);
    expect(at('hot_point')).toBeGreaterThan(at('medium') + 25);
    // Twice the power at the same size: hotter, sooner, more local. It is the size that makes a flame even.
    const hotter = { powerW: 500, spreadMm: 10, gasC: 1500 };
    expect(at(hotter)).toBeGreaterThan(at('medium'));
    expect(timeS(grained(form, [15], on(hotter)))).toBeLessThan(0.7 * timeS(grained(form, [15])));
  },
);

test('the seam of a sterling ring in hard solder is no problem', () => {
  const answer = checkPlan({
    design: {
      parts: [{ id: 'shank', metal: 'sterling-925', form: SHANK }],
      joints: [{ id: 'seam', kind: 'seam', closes: 'shank', lengthMm: 4, thicknessMm: 1.5, gapMm: 0.05 }],
    },
    solders: SOLDERS,
    bench: { torch: 'medium', support: 'brick' },
    plan: { heats: [{ joints: ['seam'], solder: 'hard' }] },
  });
  if (answer.outcome !== 'checked') throw new Error(answer.outcome);
  const { verdict, heats, problems } = answer.check;
  expect([verdict, problems, heats[0]!.flow]).toEqual(['clear_to_heat', [], 'flows']);
  expect(heats[0]!.parts).toMatchObject([{ part: 'shank', severity: 'note' }]);
  expect(heats[0]!.timeToFlowS).toBeGreaterThan(8);
  expect(heats[0]!.timeToFlowS).toBeLessThan(60);
});

test('a beaker of 70 g flows with the extra large torch, and with none smaller', () => {
  const wall = { kind: 'band', insideDiameterMm: 54, heightMm: 50, thicknessMm: 0.6 } as const;
  const base = { kind: 'disc', diameterMm: 58, thicknessMm: 0.6 } as const;
  const massG = (10.36 / 1000) * 0.6 * (Math.PI * 54.6 * 50 + (Math.PI / 4) * 58 ** 2);
  expect(Math.abs(massG - 70)).toBeLessThan(1);
  const run = (torch: TorchPreset) =>
    medium({
      design: {
        parts: [
          { id: 'wall', metal: 'sterling-925', form: wall },
          { id: 'base', metal: 'sterling-925', form: base },
        ],
        joints: [
          { id: 'seam', kind: 'seam', closes: 'wall', lengthMm: 50, thicknessMm: 0.6, gapMm: 0.05 },
          { id: 'foot', kind: 'loop_base', between: [{ part: 'base' }, { part: 'wall', acrossMm: 0 }], gapMm: 0.05 },
        ],
      },
      bench: { torch, support: 'charcoal' },
      targets: ['foot'],
      made: ['seam'],
      solders: SOLDERS,
    });
  expect(run('large').flow).toBe('does_not_flow');
  const flowed = run('extra_large');
  expect(flowed.flow).not.toBe('does_not_flow');
  expect(flowed.timeToFlowS).toBeGreaterThan(20);
  expect(flowed.timeToFlowS).toBeLessThan(300);
});
