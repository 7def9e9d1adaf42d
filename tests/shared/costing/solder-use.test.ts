import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { jointVolume, type GapJoint } from '../../../shared/costing/joint-volume.ts';
import { solderUse } from '../../../shared/costing/solder-use.ts';
import type { Design, Joint } from '../../../shared/design/design.ts';

const volume = (joint: GapJoint) => {
  const { gapMm3, filletMm3 } = jointVolume(joint);
  return { gapMm3: gapMm3.toNumber(), filletMm3: filletMm3.toNumber() };
};

// A corner fillet is the corner's kite less the sector of its circle: 1 − π/4 of r² at 90°, √3 − π/3 at 60° and
// (√3 − π/2)/3 at 120° (Machinery's Handbook, 31st ed., "Fillet or spandrel": 0.2146 r²).
const quarter = 1 - Math.PI / 4;
test.each([
  [{ kind: 'seam', lengthMm: 30, thicknessMm: 1 }, 30 * 0.05, 0],
  [{ kind: 'butt', widthMm: 5, thicknessMm: 2 }, 10 * 0.05, 0],
  [{ kind: 'lap', widthMm: 6, overlapMm: 3, filletMm: 0.5 }, 18 * 0.05, 0.25 * quarter * 12],
  [{ kind: 'tee', lengthMm: 10, thicknessMm: 1, filletMm: 1 }, 10 * 0.05, quarter * 20],
  [{ kind: 'tee', lengthMm: 10, thicknessMm: 1, filletMm: 1, cornerAngleDeg: 60 }, 10 * 0.05, (Math.sqrt(3) - Math.PI / 3) * 20],
  [
    { kind: 'tee', lengthMm: 10, thicknessMm: 1, filletMm: 1, cornerAngleDeg: 120 },
    10 * 0.05,
    (Math.sqrt(3) - Math.PI / 2) * (20 / 3),
  ],
  [
    { kind: 'loop_base', insideDiameterMm: 9, thicknessMm: 1, filletInsideMm: 0.2, filletOutsideMm: 0.4 },
    10 * Math.PI * 0.05,
    quarter * Math.PI * (0.04 * 9 + 0.16 * 11),
  ],
  [{ kind: 'jump_ring', diameterMm: 2 }, Math.PI * 0.05, 0],
  [{ kind: 'post', diameterMm: 2, filletMm: 0.5 }, Math.PI * 0.05, 0.25 * quarter * 2 * Math.PI],
  [{ kind: 'post', diameterMm: 2, filletMm: 0.5, exactRing: true }, Math.PI * 0.05, 0.25 * quarter * 2 * Math.PI * 1.111675],
  // The whole underside of a ball of radius 1: a cylinder π less half a ball 2π/3.
  [{ kind: 'granule', diameterMm: 2, neckRadiusMm: 1 }, Math.PI / 3, 0],
] as const)('jointVolume(%j)', (sizes, gapMm3, filletMm3) => {
  const found = volume({ id: 'j', gapMm: 0.05, ...sizes });
  expect(found.gapMm3).toBeCloseTo(gapMm3, 9);
  expect(found.filletMm3).toBeCloseTo(filletMm3, 9);
});

// Pappus: a ring is its section times the way of its centroid, which in a corner of radius r lies r·(10 − 3π)/(3·(4 − π)) out.
test('jointVolume() of a post takes the exact ring of its fillet when asked', () => {
  const [d, r] = [1.2, 0.2];
  const centroidMm = (r * (10 - 3 * Math.PI)) / (3 * (4 - Math.PI));
  const exact = r ** 2 * quarter * 2 * Math.PI * (d / 2 + centroidMm);
  const post = { id: 'j', kind: 'post', diameterMm: d, filletMm: r, gapMm: 0.05 } as const;
  expect(volume({ ...post, exactRing: true }).filletMm3 / exact).toBeCloseTo(1, 4);
  expect(volume({ ...post, exactRing: false })).toEqual(volume(post));
  expect(() => volume({ ...post, exactRing: true, cornerAngleDeg: 60 })).toThrow('j.cornerAngleDeg must be 90 for an exact ring');
});

const tee = (cornerAngleDeg: number, gapMm: number) =>
  volume({ id: 'j', kind: 'tee', lengthMm: 5, thicknessMm: 1, filletMm: 0.3, cornerAngleDeg, gapMm });

test('jointVolume() takes less solder for an opener corner, and more for a wider gap', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 20, max: 150, noNaN: true }),
      fc.double({ min: 0.01, max: 0.4, noNaN: true }),
      (angleDeg, gapMm) => {
        expect(tee(angleDeg + 5, gapMm).filletMm3).toBeLessThan(tee(angleDeg, gapMm).filletMm3);
        expect(tee(angleDeg, gapMm + 0.01).gapMm3).toBeGreaterThan(tee(angleDeg, gapMm).gapMm3);
      },
    ),
  );
});

// 30 × 1 × 0.08 mm of 9.7 g/cm³: 2.4 mm³, 0.02328 g, with half as much again 0.03492 g; a worked seam of the reference values.
const seam = (joint: Partial<Joint> = {}): Design => ({
  parts: [{ id: 'strip', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 30, widthMm: 5, thicknessMm: 1 } }],
  joints: [
    {
      id: 'seam',
      kind: 'seam',
      closes: 'strip',
      lengthMm: 30,
      thicknessMm: 1,
      gapMm: 0.08,
      trimFraction: 0.5,
      solder: 'medium',
      ...joint,
    } as Joint,
  ],
});
const medium = { id: 'medium', densityGPerCm3: 9.7 };

test('solderUse() of a seam is volume by density, and the trim', () => {
  const { joints, bySolder } = solderUse({ design: seam(), solders: [medium] });
  expect(joints).toHaveLength(1);
  expect(joints[0]).toMatchObject({ joint: 'seam', filletVolumeMm3: 0, decidedBy: 'volume' });
  expect(joints[0]!.gapVolumeMm3).toBeCloseTo(2.4, 12);
  expect(joints[0]!.inJointG).toBeCloseTo(0.02328, 12);
  expect(bySolder).toEqual([{ solder: 'medium', placedG: joints[0]!.placedG }]);
  expect(bySolder[0]!.placedG).toBeCloseTo(0.03492, 12);
});

const use = (joint: Partial<Joint>, solder: object) =>
  solderUse({ design: seam(joint), solders: [{ ...medium, ...solder }] }).joints[0]!;

test('solderUse() places no less than the chips, and more of a paste', () => {
  expect(use({ pieces: 20 }, { smallestPieceG: 0.002 })).toMatchObject({ placedG: 0.04, decidedBy: 'smallest_piece' });
  expect(use({}, { metalFraction: 0.75 }).placedG).toBeCloseTo(0.03492 / 0.75, 12);
  expect(use({ count: 4 }, {}).placedG).toBeCloseTo(4 * 0.03492, 12);
  expect(use({ trimFraction: undefined as never }, {}).placedG).toBeCloseTo(1.3 * 0.02328, 12);
});

const loop: Design = {
  parts: [
    { id: 'plate', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 16, thicknessMm: 0.8 } },
    { id: 'wall', metal: 'fine-silver-999', form: { kind: 'band', insideDiameterMm: 9, heightMm: 3, thicknessMm: 1 } },
  ],
  joints: [{ id: 'base', kind: 'loop_base', between: [{ part: 'plate' }, { part: 'wall' }], gapMm: 0.05, solder: 'medium' }],
};

test('solderUse() of a loop base takes the sizes of its band', () => {
  expect(solderUse({ design: loop, solders: [medium] }).joints[0]!.gapVolumeMm3).toBeCloseTo(10 * Math.PI * 0.05, 12);
});

test('solderUse() leaves out joints that are made', () => {
  const made: Design = { ...loop, joints: loop.joints.map((joint) => ({ ...joint, made: { solder: 'unknown' as const } })) };
  expect(solderUse({ design: made, solders: [medium] })).toEqual({ joints: [], bySolder: [] });
});

test.each([
  [seam({ solder: 'hard' }), medium, 'seam.solder must be one of medium; it is hard'],
  [seam(), { id: 'medium' }, 'medium.densityGPerCm3 must be given, to weigh solder; it is not given'],
  [seam({ gapMm: 0 }), medium, 'seam.gapMm must be > 0; it is 0'],
  [seam({ pieces: 1.5 }), medium, 'seam.pieces must be a whole number from 1; it is 1.5'],
  [seam({ trimFraction: -0.1 }), medium, 'seam.trimFraction must be 0 or more; it is -0.1'],
  [seam(), { ...medium, metalFraction: 75 }, 'medium.metalFraction must be above 0, to 1; it is 75'],
  [
    seam({ kind: 'granule', diameterMm: 2, neckRadiusMm: 1.5 } as never),
    medium,
    "seam.neckRadiusMm must be at most the ball's radius, 1 mm; it is 1.5",
  ],
  [seam({ kind: 'loop_base' } as never), medium, 'seam.insideDiameterMm must be > 0; it is not given'],
  [
    seam({ kind: 'post', diameterMm: 1, filletMm: 1, cornerAngleDeg: 180 } as never),
    medium,
    'seam.cornerAngleDeg must be above 0, below 180; it is 180',
  ],
])('solderUse() refuses %#', (design, solder, message) => {
  const { thicknessMm: _thickness, ...bare } = design.joints[0] as Joint & { thicknessMm?: number };
  const joints = design.joints[0]!.kind === 'loop_base' ? [bare as Joint] : design.joints;
  expect(() => solderUse({ design: { ...design, joints }, solders: [solder] })).toThrow(message);
});
