import { expect, test } from 'vitest';
import type { Design, Joint } from '../../../shared/design/design.ts';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { jointDistances } from '../../../shared/thermal/joint-distance.ts';
import { buildPiece } from '../../../shared/thermal/piece-model.ts';
import { grainedWire } from '../../support/heated-pieces.ts';
import { pendant } from '../../support/pendant.ts';

const SIZE = { barMm: 1.5, plateMm: 2 };
const bezel = () => buildPiece(pendant, { targets: ['bezel'], made: ['wall-seam'] }, SIZE);

test('jointPoints() of a loop lie on its mean circle, on both sides', () => {
  const [, loop] = bezel().joints;
  // 10.35 mm mean: 32.5 mm round, 17 cells of 2 mm at most.
  expect(loop!.pairs).toHaveLength(17);
  expect(loop!.areaMm2).toBeCloseTo(Math.PI * 10.35 * 0.35, 9);
  loop!.pairs.forEach(([onPlate, onWall], k) => {
    expect(Math.hypot(onPlate.position.xMm - 15, onPlate.position.yMm - 8)).toBeCloseTo(5.175, 9);
    expect(onWall.position).toEqual({ xMm: expect.closeTo((k / 17) * Math.PI * 10.35, 9) as number, yMm: 0 });
  });
});

test('jointPoints() of a closing seam meet across it, row by row', () => {
  const [seam] = bezel().joints;
  expect(seam!.pairs).toHaveLength(3);
  expect(seam!.pairs.map(([a, b]) => [a.position.xMm, b.position.xMm])).toEqual(
    Array.from({ length: 3 }, () => [0, expect.closeTo(Math.PI * 10.35, 9)]),
  );
});

const onWire = (joint: Partial<Joint>): Design => ({
  parts: [
    { id: 'wire', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 100, widthMm: 3, thicknessMm: 1 } },
    { id: 'strip', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 20, widthMm: 3, thicknessMm: 1 } },
  ],
  joints: [
    {
      id: 'j',
      between: [
        { part: 'wire', alongMm: 50 },
        { part: 'strip', alongMm: 3 },
      ],
      gapMm: 0.05,
      ...joint,
    } as Joint,
  ],
});

test.each<[Partial<Joint>, number, number]>([
  [{ kind: 'tee', lengthMm: 10, thicknessMm: 1 }, 7, 10],
  [{ kind: 'lap', widthMm: 3, overlapMm: 2 }, 3, 6],
  [{ kind: 'butt', widthMm: 3, thicknessMm: 1 }, 1, 3],
  [{ kind: 'post', diameterMm: 2 }, 1, Math.PI],
  [{ kind: 'granule', diameterMm: 3, neckRadiusMm: 1 }, 1, Math.PI],
])('jointPoints() of %o has its points and area', (joint, count, areaMm2) => {
  const [built] = buildPiece(onWire(joint), { targets: ['j'], made: [] }, SIZE).joints;
  expect(built!.pairs).toHaveLength(count);
  expect(built!.areaMm2).toBeCloseTo(areaMm2, 9);
});

test('jointPoints() are spread evenly, ends included, and held on a bar that ends', () => {
  const [tee] = buildPiece(onWire({ kind: 'tee', lengthMm: 10, thicknessMm: 1 }), { targets: ['j'], made: [] }, SIZE).joints;
  expect(tee!.pairs.map(([a]) => a.position.xMm)).toEqual(
    [45, 46.7, 48.3, 50, 51.7, 53.3, 55].map((x) => expect.closeTo(x, 1) as number),
  );
  expect(tee!.pairs.map(([, b]) => b.position.xMm)).toEqual(
    [0, 0, 1.3, 3, 4.7, 6.3, 8].map((x) => expect.closeTo(x, 1) as number),
  );
});

test('jointPoints() refuses a loop whose circle nobody tells', () => {
  expect(() => buildPiece(onWire({ kind: 'loop_base' }), { targets: ['j'], made: [] }, SIZE)).toThrow(EngineInputError);
});

test('jointDistances() runs along a wire', () => {
  const distanceMm = jointDistances(grainedWire({ a: 20, b: 55, c: 90 }));
  expect(distanceMm('a', 'b')).toBeCloseTo(35, 9);
  expect(distanceMm('c', 'a')).toBeCloseTo(70, 9);
  expect(distanceMm('b', 'b')).toBe(0);
  expect(() => distanceMm('a', 'd')).toThrow(EngineInputError);
});

test('jointDistances() takes chords of a ring and 0.2 mm a joint', () => {
  const design: Design = {
    parts: [
      { id: 'ring', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 18, diameterMm: 2 } },
      { id: 'bar', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 30, widthMm: 2, thicknessMm: 1 } },
      { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } },
      { id: 'far', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } },
    ],
    joints: [
      { id: 'seam', kind: 'jump_ring', closes: 'ring', diameterMm: 2, gapMm: 0.05 },
      {
        id: 'foot',
        kind: 'butt',
        between: [
          { part: 'ring', alongMm: 5 * Math.PI },
          { part: 'bar', alongMm: 0 },
        ],
        widthMm: 2,
        thicknessMm: 1,
        gapMm: 0.05,
      },
      {
        id: 'tip',
        kind: 'granule',
        between: [{ part: 'bar', alongMm: 30 }, { part: 'grain' }],
        diameterMm: 2,
        neckRadiusMm: 0.5,
        gapMm: 0.05,
      },
    ],
  };
  const distanceMm = jointDistances(design);
  // A quarter of a circle of 20 mm: chord 10·√2; then across the foot and along the bar.
  expect(distanceMm('seam', 'foot')).toBeCloseTo(Math.SQRT2 * 10, 9);
  expect(distanceMm('seam', 'tip')).toBeCloseTo(Math.SQRT2 * 10 + 0.2 + 30, 9);
});
