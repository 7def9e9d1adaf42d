import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { defaultAim, flameAims } from '../../../shared/thermal/flame-aim.ts';
import { flameField, mixFields } from '../../../shared/thermal/flame-field.ts';
import { layHeat } from '../../../shared/thermal/heat-setup.ts';
import { createMetalPaths } from '../../../shared/thermal/metal-paths.ts';
import { buildPiece } from '../../../shared/thermal/piece-model.ts';
import type { Piece } from '../../../shared/thermal/piece-model.ts';
import { torchOf, TORCHES } from '../../../shared/thermal/torch.ts';
import type { Design } from '../../../shared/design/design.ts';
import { bailHeat, grainedWire } from '../../support/heated-pieces.ts';
import { pendant } from '../../support/pendant.ts';

const SIZE = { barMm: 1.5, plateMm: 2 };
const pathsOf = (piece: Piece) =>
  createMetalPaths(
    piece.parts.map(({ grid }) => grid),
    piece.joints,
    piece.contacts,
  );

// By its definition: P is the heat that a large cold plate takes, here 400 × 400 mm under one face, from gas 1480 K hotter.
test('flameField() over a large cold plate adds up to the power of the torch', () => {
  const design: Design = {
    parts: [
      { id: 'plate', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 400, widthMm: 400, thicknessMm: 1 } },
      { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 1 } },
    ],
    joints: [
      { id: 'on', kind: 'granule', between: [{ part: 'plate' }, { part: 'grain' }], diameterMm: 1, neckRadiusMm: 0.3, gapMm: 0 },
    ],
  };
  const piece = buildPiece(design, { targets: ['on'], made: [] }, SIZE);
  const { nx, ny } = piece.parts[0]!.grid;
  const aim = { part: 0, position: { xMm: 200, yMm: 200 } };
  const { exchangeWPerMm2K } = flameField(pathsOf(piece), [{ aim, weight: 1 }], TORCHES.medium, null);
  const cellMm2 = (400 / nx) * (400 / ny);
  const heatW = exchangeWPerMm2K.slice(0, nx * ny).reduce((sum, h) => sum + h * cellMm2 * 1480, 0);
  expect(heatW / 250).toBeCloseTo(1, 2);
});

test('flameField() leans: the plume grows on the side it leans to and shrinks on the other, by sin θ', () => {
  const piece = buildPiece(grainedWire({ a: 50 }), { targets: ['a'], made: [] }, SIZE);
  const aims = [{ aim: { part: 0, position: { xMm: 50, yMm: 0 } }, weight: 1 }];
  const point = { part: 0, position: { xMm: 70, yMm: 0 } };
  const field = (angleDeg: number | null) =>
    flameField(pathsOf(piece), aims, TORCHES.medium, angleDeg === null ? null : { angleDeg, point }).exchangeWPerMm2K;
  const [upright, toward, away] = [field(null), field(30), field(-30)];
  // h of the plume alone at a cell 20.1 mm off: 0.35·250/(2π·20²·1480)·exp(−d/20).
  const cell = 46;
  const dMm = ((cell + 0.5) * 100) / 67 - 50;
  const plume = ((0.35 * 250) / (2 * Math.PI * 400 * 1480)) * Math.exp(-dMm / 20);
  expect(toward[cell]! - upright[cell]!).toBeCloseTo(0.5 * plume, 12);
  expect(away[66 - cell]! - upright[66 - cell]!).toBeCloseTo(0.5 * plume, 12);
  expect(toward[66 - cell]).toBeCloseTo(away[cell]!, 12);
});

test('mixFields() of a field with itself is that field', () => {
  const laid = layHeat(bailHeat());
  const [field] = laid.fields;
  const mixed = mixFields([field!, field!], [3, 1]);
  mixed.exchangeWPerMm2K.forEach((h, i) => expect(h / field!.exchangeWPerMm2K[i]!).toBeCloseTo(1, 12));
  mixed.nearness.forEach((near, i) => expect(near).toBeCloseTo(field!.nearness[i]!, 12));
});

test('defaultAim() of a bail on a plate points 0.6 spreads into the plate, toward its centre', () => {
  const piece = buildPiece(pendant, { targets: ['bail-on'], made: ['bail-seam'] }, SIZE);
  const joint = piece.joints.find(({ id }) => id === 'bail-on')!;
  expect(defaultAim(piece, joint, 10)).toEqual({ part: 0, position: { xMm: 15, yMm: 14 } });
  // No farther than the centre.
  expect(defaultAim(piece, joint, 30)).toEqual({ part: 0, position: { xMm: 15, yMm: 10 } });
});

test('defaultAim() of a loop points at the middle of its circle, of a seam at the seam', () => {
  const piece = buildPiece(pendant, { targets: ['bezel'], made: ['wall-seam'] }, SIZE);
  const aimOf = (id: string) =>
    defaultAim(
      piece,
      piece.joints.find((joint) => joint.id === id)!,
      10,
    );
  expect(aimOf('bezel')).toEqual({ part: 0, position: { xMm: 15, yMm: 8 } });
  expect(aimOf('wall-seam')).toEqual({ part: 1, position: { xMm: 0, yMm: 1.5 } });
});

test('defaultAim() on a closed ring stays at the joint', () => {
  const design: Design = {
    parts: [
      { id: 'ring', metal: 'sterling-925', form: { kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 } },
      { id: 'cup', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 8, thicknessMm: 0.6 } },
    ],
    joints: [
      {
        id: 'seat',
        kind: 'tee',
        between: [{ part: 'ring', alongMm: 30 }, { part: 'cup' }],
        lengthMm: 5,
        thicknessMm: 4,
        gapMm: 0,
      },
    ],
  };
  const piece = buildPiece(design, { targets: ['seat'], made: [] }, SIZE);
  expect(defaultAim(piece, piece.joints[0]!, 10)).toEqual({ part: 0, position: { xMm: 30, yMm: 0 } });
});

test('flameAims() sweeps at twelve even quantiles of the mass near the target', () => {
  const piece = buildPiece(grainedWire({ a: 50 }), { targets: ['a'], made: [] }, SIZE);
  const [aims] = flameAims(piece, pathsOf(piece), { targets: piece.joints, flame: { sweepMm: 18 }, spreadMm: 10 });
  expect(aims).toHaveLength(12);
  const onWire = aims!.filter(({ aim }) => aim.part === 0).map(({ aim }) => aim.position.xMm);
  expect(Math.min(...onWire)).toBeGreaterThan(32);
  expect(Math.max(...onWire)).toBeLessThan(68);
  expect(aims!.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
});

test('flameAims() points where it is told, and at each of several targets where it is not', () => {
  const piece = buildPiece(grainedWire({ a: 30, b: 60 }), { targets: ['a', 'b'], made: [] }, SIZE);
  const aims = (flame: object) => flameAims(piece, pathsOf(piece), { targets: piece.joints, flame, spreadMm: 10 });
  expect(aims({}).map(([one]) => one!.aim.position.xMm)).toEqual([30, 60]);
  expect(aims({ aim: { part: 'wire', alongMm: 12 } })).toEqual([
    [{ aim: { part: 0, position: { xMm: 12, yMm: 0 } }, weight: 1 }],
  ]);
  expect(() => aims({ aim: { part: 'clasp' } })).toThrow(EngineInputError);
  expect(() => aims({ sweepMm: -1 })).toThrow(EngineInputError);
});

test('torchOf() takes a calibration into power and spread, and refuses what is no torch', () => {
  const calibration = { powerFactor: 1.2, lossFactor: 0.8, spreadFactor: 0.9 };
  expect(torchOf({ torch: 'medium', calibration })).toEqual({ powerW: 300, spreadMm: 9, gasC: 1500 });
  expect(() => torchOf({ torch: 'huge' as 'large' })).toThrow(EngineInputError);
  expect(() => torchOf({ torch: { powerW: 0, spreadMm: 5, gasC: 1500 } })).toThrow(EngineInputError);
  expect(() => torchOf({ torch: { powerW: 90, spreadMm: 5, gasC: 700 } })).toThrow(EngineInputError);
});
