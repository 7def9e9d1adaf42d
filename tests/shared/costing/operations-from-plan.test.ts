import { expect, test } from 'vitest';
import { operationsFromPlan } from '../../../shared/costing/operations-from-plan.ts';
import { USUAL_MINUTES } from '../../../shared/costing/usual-minutes.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { Plan } from '../../../shared/design/plan.ts';

const pendant: Design = {
  parts: [
    { id: 'plate', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 } },
    { id: 'wall', metal: 'fine-silver-999', form: { kind: 'band', insideDiameterMm: 10, heightMm: 3, thicknessMm: 0.35 } },
    { id: 'bail', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 } },
    { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 }, count: 3 },
  ],
  joints: [
    { id: 'wall-seam', kind: 'seam', closes: 'wall', lengthMm: 3, thicknessMm: 0.35, gapMm: 0.05 },
    { id: 'bezel', kind: 'loop_base', between: [{ part: 'plate' }, { part: 'wall' }], gapMm: 0.05 },
    { id: 'bail-seam', kind: 'jump_ring', closes: 'bail', diameterMm: 1.2, gapMm: 0.05 },
    {
      id: 'grains',
      kind: 'granule',
      between: [{ part: 'plate' }, { part: 'grain' }],
      diameterMm: 2,
      neckRadiusMm: 0.5,
      gapMm: 0.05,
      count: 3,
    },
  ],
};
const plan: Plan = {
  heats: [
    { joints: [], purpose: 'anneal' },
    { joints: ['wall-seam'], solder: 'hard' },
    { joints: ['bezel', 'bail-seam'], solder: 'medium', protections: [{ kind: 'anti_flow', guards: 'wall-seam' }] },
    {
      joints: ['grains'],
      solder: 'easy',
      protections: [
        { kind: 'shield', guards: 'wall' },
        { kind: 'anti_flow', guards: 'bezel' },
      ],
    },
  ],
};

// The trade's usual minutes, counted by hand: 100 mm of cut 10; a bezel 8; a seam 6 and a loop at the high end 15; a ring 4;
// three grains 2 each; an anneal 6; three heats 8; three protections 2; four dips 3; six joints to clean up 5 each.
test('operationsFromPlan() counts what a pendant takes', () => {
  expect(operationsFromPlan({ design: pendant, plan })).toEqual([
    { operation: 'marking out and sawing', role: 'bench', minutes: 10 },
    { operation: 'forming bezels and rings', role: 'bench', minutes: 8 },
    { operation: 'fitting joints', role: 'bench', minutes: 21 },
    { operation: 'closing jump rings', role: 'bench', minutes: 4 },
    { operation: 'making and placing grains', role: 'bench', minutes: 6 },
    { operation: 'annealing', role: 'bench', minutes: 6 },
    { operation: 'heats, set up to cool', role: 'bench', minutes: 24 },
    { operation: 'placing protections and taking them off', role: 'bench', minutes: 6 },
    { operation: 'pickle, rinse, look', role: 'bench', minutes: 12 },
    { operation: 'cleaning up joints', role: 'bench', minutes: 30 },
    { operation: 'filing and emery', role: 'bench', minutes: 45 },
    { operation: 'polishing', role: 'bench', minutes: 30 },
    { operation: 'photo, label, pack', role: 'bench', minutes: 15 },
  ]);
});

const minutesOf = (design: Design, heats: Plan['heats'] = []) =>
  Object.fromEntries(operationsFromPlan({ design, plan: { heats } }).map(({ operation, minutes }) => [operation, minutes]));
const alone = (form: Design['parts'][number]['form']): Design => ({
  parts: [{ id: 'part', metal: 'sterling-925', form }],
  joints: [],
});

test.each([
  [{ kind: 'outline', areaMm2: 400, thicknessMm: 1 }, { 'marking out and sawing': 8 }],
  [{ kind: 'disc', diameterMm: 20, thicknessMm: 1 }, { 'marking out and sawing': 6.3 }],
  [
    { kind: 'washer', outsideDiameterMm: 20, insideDiameterMm: 5, thicknessMm: 1 },
    { 'marking out and sawing': 6.3, 'piercing inside shapes': 5 },
  ],
  [{ kind: 'dome', blankDiameterMm: 20, thicknessMm: 1 }, { 'cutting and doming': 5 }],
  [{ kind: 'square_wire', lengthMm: 90, sideMm: 5 }, { 'marking out and sawing': 2 }],
  [
    { kind: 'band', insideDiameterMm: 40, heightMm: 40, thicknessMm: 1 },
    { 'rolling walls': 45, 'filing and emery': 120, polishing: 75 },
  ],
  [
    { kind: 'cone', smallDiameterMm: 30, largeDiameterMm: 60, slantMm: 50, thicknessMm: 1 },
    { 'rolling walls': 45, polishing: 75 },
  ],
  [
    { kind: 'square_ring', meanDiameterMm: 20, sideMm: 2 },
    { 'forming bezels and rings': 8, 'filing and emery': 25, polishing: 30 },
  ],
  [{ kind: 'weighed', massG: 3, areaMm2: 100 }, { 'filing and emery': 45 }],
] as const)('operationsFromPlan() of a single %j', (form, expected) => {
  expect(minutesOf(alone(form))).toMatchObject(expected);
});

test('operationsFromPlan() takes the heats of hollow ware as such', () => {
  const beaker = alone({ kind: 'band', insideDiameterMm: 40, heightMm: 40, thicknessMm: 1 });
  expect(minutesOf(beaker, plan.heats)).toMatchObject({ 'heats of hollow ware, set up to cool': 45, annealing: 6 });
});

test('operationsFromPlan() makes nothing that is made already', () => {
  const joints = pendant.joints.map((joint) => ({ ...joint, made: { solder: 'unknown' as const } }));
  expect(Object.keys(minutesOf({ ...pendant, joints }))).toEqual(['filing and emery', 'polishing', 'photo, label, pack']);
});

test('usual minutes lie between low and high', () => {
  for (const { operation, low, usual, high } of Object.values(USUAL_MINUTES)) {
    expect(low, operation).toBeLessThan(usual);
    expect(usual, operation).toBeLessThan(high);
  }
});
