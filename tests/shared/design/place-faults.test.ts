import { expect, test } from 'vitest';
import type { Form } from '../../../shared/design/design.ts';
import { designFaults } from '../../../shared/design/design-faults.ts';
import { placeFaults } from '../../../shared/design/place-faults.ts';
import * as designs from '../../../seed/designs.ts';

const sheet: Form = { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 };
const disc: Form = { kind: 'disc', diameterMm: 12, thicknessMm: 0.8 };
const band: Form = { kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 };

test.each([
  [sheet, { xMm: 30, yMm: 20 }, []],
  [sheet, { xMm: 400, yMm: -1 }, ['xMm', 'yMm']],
  [sheet, { alongMm: 3 }, ['alongMm']],
  [disc, { xMm: 4, yMm: -4 }, []],
  [disc, { xMm: 5, yMm: 5 }, ['xMm']],
  [band, { alongMm: -20, acrossMm: 4 }, []],
  [band, { alongMm: 70, acrossMm: 5 }, ['alongMm', 'acrossMm']],
  [{ kind: 'ball', diameterMm: 2 } as const, { xMm: 0 }, ['xMm']],
  [
    { kind: 'cone', smallDiameterMm: 5, largeDiameterMm: 9, slantMm: 7, thicknessMm: 0.5 } as const,
    { alongMm: 7.5 },
    ['alongMm'],
  ],
])('placeFaults(%j, %j) names %j', (form, place, axes) => {
  expect(placeFaults(form, { part: 'it', ...place }).map(({ axis }) => axis)).toEqual(axes);
});

test('designFaults() says where a joint lies off the metal, and how far the metal goes', () => {
  const { pendant } = designs;
  const joints = pendant.joints.map((joint) =>
    joint.id === 'bail-on' && joint.between
      ? { ...joint, between: [{ part: 'plate', xMm: 400, yMm: 20 }, joint.between[1]] as const }
      : joint,
  );
  expect(designFaults({ ...pendant, joints })).toEqual([
    {
      pointer: '/joints/3/between/0/xMm',
      detail: 'This is no place on part plate: xMm 400 is off the metal, which goes from 0 to 30 mm',
    },
  ]);
});

test.each(Object.entries(designs))('no joint of the %s lies off its metal', (_name, design) => {
  expect(designFaults(design)).toEqual([]);
});
