import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { jointVolume, type GapJoint } from '../../../shared/costing/joint-volume.ts';
import type { Form, FormKind } from '../../../shared/design/design.ts';
import { weigh } from '../../../shared/forms/form-size.ts';
import { gapAndFillet, volumeAndArea } from '../../support/geometry-by-hand.ts';

const mm = fc.integer({ min: 1, max: 4000 }).map((hundredths) => hundredths / 100);
const two = fc
  .tuple(mm, mm)
  .filter(([a, b]) => a !== b)
  .map(([a, b]) => ({ less: Math.min(a, b), more: Math.max(a, b) }));

const FORMS: { [Kind in FormKind]: fc.Arbitrary<Extract<Form, { kind: Kind }>> } = {
  sheet: fc.record({ kind: fc.constant('sheet'), lengthMm: mm, widthMm: mm, thicknessMm: mm }),
  disc: fc.record({ kind: fc.constant('disc'), diameterMm: mm, thicknessMm: mm }),
  outline: fc.record({ kind: fc.constant('outline'), areaMm2: mm, thicknessMm: mm }),
  washer: fc
    .tuple(two, mm)
    .map(([{ less, more }, thicknessMm]) => ({ kind: 'washer', outsideDiameterMm: more, insideDiameterMm: less, thicknessMm })),
  band: fc.record({ kind: fc.constant('band'), insideDiameterMm: mm, heightMm: mm, thicknessMm: mm }),
  bar: fc.record({ kind: fc.constant('bar'), lengthMm: mm, widthMm: mm, thicknessMm: mm }),
  round_wire: fc.record({ kind: fc.constant('round_wire'), lengthMm: mm, diameterMm: mm }),
  square_wire: fc.record({ kind: fc.constant('square_wire'), lengthMm: mm, sideMm: mm }),
  // No higher than a half circle: beyond it the second reading's arc would need its other branch.
  half_round_wire: fc
    .tuple(mm, mm, fc.integer({ min: 5, max: 50 }))
    .map(([lengthMm, widthMm, percent]) => ({ kind: 'half_round_wire', lengthMm, widthMm, heightMm: (widthMm * percent) / 100 })),
  tube: fc
    .tuple(two, mm)
    .map(([{ less, more }, lengthMm]) => ({ kind: 'tube', outsideDiameterMm: more, insideDiameterMm: less, lengthMm })),
  wire_ring: fc.record({ kind: fc.constant('wire_ring'), insideDiameterMm: mm, diameterMm: mm }),
  square_ring: two.map(({ less, more }) => ({ kind: 'square_ring', meanDiameterMm: more, sideMm: less })),
  cone: fc.tuple(two, mm, mm).map(([{ less, more }, slantMm, thicknessMm]) => ({
    kind: 'cone',
    smallDiameterMm: less,
    largeDiameterMm: more,
    slantMm,
    thicknessMm,
  })),
  dome: fc.record({ kind: fc.constant('dome'), blankDiameterMm: mm, thicknessMm: mm }),
  ball: fc.record({ kind: fc.constant('ball'), diameterMm: mm }),
  weighed: fc.record({ kind: fc.constant('weighed'), massG: mm, areaMm2: mm }),
};

test.each(Object.entries(FORMS))('a %s weighs what its solid weighs', (_kind, form) => {
  fc.assert(
    fc.property(form as fc.Arbitrary<Form>, (one) => {
      const hand = volumeAndArea(one);
      const { massG, areaMm2 } = weigh(one, 10.36, 'part');
      expect(massG.toNumber() / (hand.massG ?? (hand.volumeMm3! * 10.36) / 1000)).toBeCloseTo(1, 9);
      expect(areaMm2.toNumber() / hand.areaMm2).toBeCloseTo(1, 9);
    }),
  );
});

const gapMm = fc.integer({ min: 5, max: 500 }).map((micron) => micron / 1000);
const filletMm = fc.integer({ min: 0, max: 30 }).map((tenths) => tenths / 10);
const cornerAngleDeg = fc.integer({ min: 20, max: 160 });
const base = { id: fc.constant('joint'), gapMm };

const JOINTS: { [Kind in GapJoint['kind']]: fc.Arbitrary<Extract<GapJoint, { kind: Kind }>> } = {
  seam: fc.record({ ...base, kind: fc.constant('seam'), lengthMm: mm, thicknessMm: mm }),
  butt: fc.record({ ...base, kind: fc.constant('butt'), widthMm: mm, thicknessMm: mm }),
  lap: fc.record({ ...base, kind: fc.constant('lap'), widthMm: mm, overlapMm: mm, filletMm, cornerAngleDeg }),
  tee: fc.record({ ...base, kind: fc.constant('tee'), lengthMm: mm, thicknessMm: mm, filletMm, cornerAngleDeg }),
  loop_base: fc.record({
    ...base,
    kind: fc.constant('loop_base'),
    insideDiameterMm: mm,
    thicknessMm: mm,
    filletInsideMm: filletMm,
    filletOutsideMm: filletMm,
    cornerAngleDeg,
  }),
  jump_ring: fc.record({ ...base, kind: fc.constant('jump_ring'), diameterMm: mm }),
  post: fc.record({ ...base, kind: fc.constant('post'), diameterMm: mm, filletMm, exactRing: fc.boolean() }),
  granule: fc.tuple(two, gapMm).map(([{ less, more }, gap]) => ({
    id: 'joint',
    kind: 'granule',
    diameterMm: 2 * more,
    neckRadiusMm: less,
    gapMm: gap,
  })),
};

test.each(Object.entries(JOINTS))('a %s takes the solder that its gap and corners hold', (_kind, joint) => {
  fc.assert(
    fc.property(joint as fc.Arbitrary<GapJoint>, (one) => {
      const { gapMm3, filletMm3 } = jointVolume(one);
      const hand = gapAndFillet(one);
      // The neck of a granule is a difference of near equals in doubles.
      expect(Math.abs(gapMm3.plus(filletMm3).toNumber() - hand)).toBeLessThanOrEqual(1e-9 * Math.max(1, hand) + 1e-8);
    }),
  );
});
