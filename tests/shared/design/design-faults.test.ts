import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { designFaults } from '../../../shared/design/design-faults.ts';
import type { Design, Joint } from '../../../shared/design/design.ts';
import { solderUse } from '../../../shared/costing/solder-use.ts';
import { pendant } from '../../support/pendant.ts';

const pointersOf = (design: Design) => designFaults(design).map(({ pointer }) => pointer);

test('designFaults() finds none in a sound design, whatever the order of its parts and joints', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...pendant.parts], { minLength: 3 }),
      fc.shuffledSubarray([...pendant.joints], { minLength: 4 }),
      (parts, joints) => {
        expect(designFaults({ ...pendant, parts, joints })).toEqual([]);
      },
    ),
  );
});

test('designFaults() tells an id that a copy of a counted thing has taken', () => {
  const [plate] = pendant.parts;
  const grain = { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } as const };
  const parts = [plate!, { ...grain, count: 2 }, { ...grain, id: 'grain.2' }];
  expect(pointersOf({ parts, joints: [] })).toEqual(['/parts/2/id']);
  expect(pointersOf({ parts: parts.slice(0, 2), joints: [] })).toEqual([]);
});

test('designFaults() tells unknown metals, impossible sizes, missing parts and joints all at once', () => {
  const design: Design = {
    parts: [
      { id: 'a', metal: 'moonmetal', form: { kind: 'washer', outsideDiameterMm: 4, insideDiameterMm: 6, thicknessMm: 1 } },
      { id: 'b', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } },
    ],
    joints: [{ id: 'j', kind: 'seam', closes: 'c', lengthMm: 3, thicknessMm: 1, gapMm: 0.05 }],
    rules: { grades: { 'k/1': { only: 'hard' } }, notSameHeat: [['j', 'k']] },
  };
  expect(pointersOf(design)).toEqual([
    '/parts/0/metal',
    '/parts/0/form',
    '/joints/0/closes',
    '/rules/notSameHeat/0/1',
    '/rules/grades/k~11',
  ]);
});

test('designFaults() finds the circle in an order, however it is entered', () => {
  const before = [
    ['wall-seam', 'bezel'],
    ['bezel', 'bail-on'],
    ['bail-on', 'wall-seam'],
  ] as const;
  fc.assert(
    fc.property(fc.shuffledSubarray([...before], { minLength: 3 }), (order) => {
      expect(pointersOf({ ...pendant, rules: { before: order } })).toEqual(['/rules/before']);
    }),
  );
  expect(pointersOf({ ...pendant, rules: { before: before.slice(0, 2) } })).toEqual([]);
});

test('designFaults() tells a contact on a part that is not there; the id of a counted part stands for its copies', () => {
  const [plate] = pendant.parts;
  const parts = [plate!, { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } as const, count: 2 }];
  const touches = (part: string) => ({ kind: 'loose', between: [{ part: plate!.id }, { part }] }) as const;
  expect(pointersOf({ parts, joints: [], contacts: [touches('grain'), touches('ghost'), touches('grain.2')] })).toEqual([
    '/contacts/1/between/1/part',
  ]);
});

test('a joint may lie on one copy of a counted part, and takes the sizes it leaves out from it', () => {
  const ring = { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1 } as const;
  const design: Design = {
    parts: [{ id: 'link', metal: 'sterling-925', form: ring, count: 2 }],
    joints: [{ id: 'second', kind: 'jump_ring', closes: 'link.2', gapMm: 0.05, solder: 'hard' }],
  };
  expect(designFaults(design)).toEqual([]);
  expect(designFaults({ ...design, joints: [{ ...design.joints[0]!, closes: 'link.3' } as Joint] })).toHaveLength(1);
  // π/4 · 1² · 0.05 mm³ of a solder of 10 g/cm³.
  const { joints } = solderUse({ design, solders: [{ id: 'hard', densityGPerCm3: 10 }] });
  expect(joints[0]!.inJointG).toBeCloseTo((Math.PI / 4) * 0.05 * 0.01, 12);
});
