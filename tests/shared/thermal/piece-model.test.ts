import { expect, test } from 'vitest';
import type { Design, Form } from '../../../shared/design/design.ts';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { cellCountOf } from '../../../shared/thermal/form-grid.ts';
import { weightsAt } from '../../../shared/thermal/grid-points.ts';
import { buildPiece } from '../../../shared/thermal/piece-model.ts';
import { grainedWire } from '../../support/heated-pieces.ts';
import { pendant } from '../../support/pendant.ts';

const SIZE = { barMm: 1.5, plateMm: 2 };
const TAU = 2 * Math.PI;

/** Volumes in mm³ from the drawing-office formulas of each form, worked out by hand. */
const VOLUMES: [Form, number][] = [
  [{ kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 }, 480],
  [{ kind: 'disc', diameterMm: 12, thicknessMm: 0.8 }, Math.PI * 36 * 0.8],
  [{ kind: 'outline', areaMm2: 150, thicknessMm: 1 }, 150],
  [{ kind: 'washer', outsideDiameterMm: 20, insideDiameterMm: 10, thicknessMm: 1 }, Math.PI * 75],
  [{ kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 }, Math.PI * 19.5 * 6],
  [{ kind: 'band', insideDiameterMm: 10, heightMm: 3, thicknessMm: 0.35 }, Math.PI * 10.35 * 1.05],
  [{ kind: 'bar', lengthMm: 40, widthMm: 4, thicknessMm: 1.5 }, 240],
  [{ kind: 'round_wire', lengthMm: 100, diameterMm: 2 }, 100 * Math.PI],
  [{ kind: 'square_wire', lengthMm: 50, sideMm: 2 }, 200],
  // Half a circle of radius 2.
  [{ kind: 'half_round_wire', lengthMm: 10, widthMm: 4, heightMm: 2 }, 10 * TAU],
  [{ kind: 'tube', lengthMm: 20, outsideDiameterMm: 4, insideDiameterMm: 3 }, Math.PI * 20 * (4 - 2.25)],
  [{ kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 }, Math.PI * 0.36 * Math.PI * 5.2],
  [{ kind: 'square_ring', meanDiameterMm: 20, sideMm: 2 }, 4 * Math.PI * 20],
  [{ kind: 'cone', smallDiameterMm: 10, largeDiameterMm: 20, slantMm: 8, thicknessMm: 0.5 }, Math.PI * 15 * 4],
  [{ kind: 'dome', blankDiameterMm: 14, thicknessMm: 0.6 }, Math.PI * 49 * 0.6],
  [{ kind: 'ball', diameterMm: 3 }, (Math.PI / 6) * 27],
];

/** The form with a grain on it, and the grain as the target. */
function alone(form: Form, supportContactFraction?: number): Design {
  return {
    parts: [
      { id: 'it', metal: 'sterling-925', form, ...(supportContactFraction !== undefined && { supportContactFraction }) },
      { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 1 } },
    ],
    joints: [
      { id: 'on', kind: 'granule', between: [{ part: 'it' }, { part: 'grain' }], diameterMm: 1, neckRadiusMm: 0.3, gapMm: 0.05 },
    ],
  };
}

const fire = (targets: string[], made: string[]) => buildPiece(pendant, { targets, made }, SIZE).parts.map(({ id }) => id);
const isClosed = (targets: string[], made: string[]) =>
  buildPiece(pendant, { targets, made }, SIZE).parts.find(({ id }) => id === 'wall')!.grid.closed;
const solidus = (of: Design) => buildPiece(of, { targets: ['a'], made: [] }, SIZE).parts[0]!.solidusC;
const built = (form: Form, size = SIZE) => buildPiece(alone(form), { targets: ['on'], made: [] }, size).parts[0]!;

test.each(VOLUMES)('buildPiece() of %o weighs what the form does', (form, volumeMm3) => {
  const part = built(form);
  expect(part.cellMassG * cellCountOf(part.grid)).toBeCloseTo((volumeMm3 * 10.36) / 1000, 9);
});

test('buildPiece() keeps the mass and area of a weighed part', () => {
  const part = built({ kind: 'weighed', massG: 3.2, areaMm2: 240 });
  expect([part.cellMassG, part.surfacesMm2[0]]).toEqual([3.2, 240]);
});

test.each<[Form, number]>([
  [{ kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 }, 2 * 600 + 100 * 0.8],
  [{ kind: 'round_wire', lengthMm: 100, diameterMm: 2 }, 100 * TAU + TAU],
  [{ kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 }, Math.PI * 1.2 * Math.PI * 5.2],
  // Outside whole, inside half, two rims.
  [{ kind: 'band', insideDiameterMm: 10, heightMm: 3, thicknessMm: 0.35 }, Math.PI * 10.35 * (1.5 * 3 + 0.7)],
  // A shank: all round its section.
  [{ kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 }, Math.PI * 19.5 * 11],
])('buildPiece() of %o has its surface', (form, areaMm2) => {
  expect(built(form).surfacesMm2.reduce((a, b) => a + b, 0)).toBeCloseTo(areaMm2, 9);
});

test('buildPiece() cuts no longer cells than asked, at least 4 along a bar and 4 × 3 on a plate', () => {
  const wire = built({ kind: 'round_wire', lengthMm: 100, diameterMm: 2 }).grid;
  const chip = built({ kind: 'sheet', lengthMm: 2, widthMm: 1, thicknessMm: 0.5 }).grid;
  const stub = built({ kind: 'round_wire', lengthMm: 2, diameterMm: 1 }).grid;
  expect([wire.nx, chip.nx, chip.ny, stub.nx]).toEqual([67, 4, 3, 4]);
});

test('buildPiece() takes larger cells where a piece would have too many', () => {
  const vast = built({ kind: 'sheet', lengthMm: 400, widthMm: 300, thicknessMm: 1 }, { barMm: 0.75, plateMm: 0.75 });
  expect(cellCountOf(vast.grid)).toBeLessThanOrEqual(2000);
});

test('buildPiece() takes only what hangs together with the targets', () => {
  expect(fire(['bail-seam'], ['wall-seam', 'bezel'])).toEqual(['bail']);
  expect(fire(['bezel'], ['wall-seam', 'bail-seam'])).toEqual(['plate', 'wall']);
  expect(fire(['bail-on'], ['wall-seam', 'bezel', 'bail-seam'])).toEqual(['plate', 'wall', 'bail']);
});

test('buildPiece() leaves a ring open until its seam is made or being made', () => {
  expect(isClosed(['bezel'], [])).toBe(false);
  expect(isClosed(['bezel'], ['wall-seam'])).toBe(true);
  expect(isClosed(['wall-seam'], [])).toBe(true);
});

test.each<[string, () => unknown]>([
  ['an unknown joint', () => buildPiece(pendant, { targets: ['clasp'], made: [] }, SIZE)],
  ['no target', () => buildPiece(pendant, { targets: [], made: [] }, SIZE)],
  ['targets that do not hang together', () => buildPiece(pendant, { targets: ['bezel', 'bail-seam'], made: [] }, SIZE)],
  ['a size of zero', () => built({ kind: 'ball', diameterMm: 0 })],
  ['a size that is no number', () => built({ kind: 'ball', diameterMm: NaN })],
  ['a tube wider inside than out', () => built({ kind: 'tube', lengthMm: 9, outsideDiameterMm: 3, insideDiameterMm: 4 })],
  [
    'a contact beyond the whole',
    () => buildPiece(alone({ kind: 'ball', diameterMm: 2 }, 1.2), { targets: ['on'], made: [] }, SIZE),
  ],
])('buildPiece() refuses %s', (_, build) => {
  expect(build).toThrow(EngineInputError);
});

test('buildPiece() says how large a size may be', () => {
  expect(() => built({ kind: 'sheet', lengthMm: 1e5, widthMm: 3, thicknessMm: 1 })).toThrow(
    'lengthMm must be > 0 and < 100000; it is 100000',
  );
});

test('a casting is held to the eutectic', () => {
  const design = grainedWire({ a: 50 });
  const cast = { ...design, parts: design.parts.map((part) => ({ ...part, cast: true })) };
  expect([solidus(design), solidus(cast)]).toEqual([802, 779]);
});

test('weightsAt() sums to one and finds its point again between the outermost centres', () => {
  const { grid } = built({ kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 });
  const weights = weightsAt(grid, { xMm: 11.3, yMm: 7.9 });
  const x = weights.reduce((sum, { cell, weight }) => sum + weight * ((cell % grid.nx) + 0.5) * 2, 0);
  expect(weights.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  expect(x).toBeCloseTo(11.3, 12);
  expect(weightsAt(grid, { xMm: 0, yMm: 0 })).toEqual([{ cell: 0, weight: 1 }]);
});
