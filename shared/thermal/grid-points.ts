import type { Form, Place } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import type { FormGrid } from './form-grid.ts';

/** A point on a part, in its grid's own axes: x along the length or round the mean circle, y up or across. */
export interface Position {
  xMm: number;
  yMm: number;
}

/** Farther along than any part is long, wound round a ring as often as may be. */
const MOST_MM = 1e6;

function onto(grid: FormGrid, position: Position): Position {
  const { lengthMm, heightMm, closed } = grid;
  const xMm = closed
    ? position.xMm - lengthMm * Math.floor(position.xMm / lengthMm)
    : Math.min(lengthMm, Math.max(0, position.xMm));
  return { xMm, yMm: Math.min(heightMm, Math.max(0, position.yMm)) };
}

/**
 * Where a place lies on the grid of a form, shifted by (alongMm, acrossMm) in the grid's axes.
 *
 * What a place leaves out is the middle of a sheet or of a band's height, and the start of a bar or ring. A cone's alongMm runs up
 * its slant. Points beyond a straight edge are put on it; round a closed ring they go on.
 */
export function positionOf(form: Form, grid: FormGrid, place: Partial<Place>, shift: Position = { xMm: 0, yMm: 0 }): Position {
  if (grid.shape === 'lump') return { xMm: 0, yMm: 0 };
  let xMm = place.alongMm ?? 0;
  let yMm = place.acrossMm ?? grid.heightMm / 2;
  if (form.kind === 'sheet') {
    xMm = place.xMm ?? grid.lengthMm / 2;
    yMm = place.yMm ?? grid.heightMm / 2;
  } else if (form.kind === 'cone') {
    xMm = 0;
    yMm = place.alongMm ?? grid.heightMm / 2;
  } else if (isFlat(grid)) {
    xMm = grid.originMm + (place.xMm ?? 0);
    yMm = grid.originMm + (place.yMm ?? 0);
  }
  if (!(Math.abs(xMm) <= MOST_MM && Math.abs(yMm) <= MOST_MM))
    throw new EngineInputError('place', `${xMm}, ${yMm}`, `within ${MOST_MM} mm`);
  return onto(grid, { xMm: xMm + shift.xMm, yMm: yMm + shift.yMm });
}

/** A sheet or disc: not bent, with two directions. */
export function isFlat(grid: FormGrid): boolean {
  return grid.shape === 'plate' && grid.bentDiameterMm === null;
}

/** The middle of a part: of its length and height. On a ring, opposite the seam. */
export function middleOf(grid: FormGrid): Position {
  return { xMm: grid.lengthMm / 2, yMm: grid.heightMm / 2 };
}

/** The centre of a cell. */
export function cellCentre(grid: FormGrid, cell: number): Position {
  const x = cell % grid.nx;
  const y = (cell - x) / grid.nx;
  return { xMm: ((x + 0.5) * grid.lengthMm) / grid.nx, yMm: ((y + 0.5) * grid.heightMm) / grid.ny };
}

/** Distance within one part: straight along a bar, a chord on a ring, √(chord² + Δy²) on a band, 0 inside a lump. */
export function distanceInPartMm(grid: FormGrid, a: Position, b: Position): number {
  const dx = a.xMm - b.xMm;
  const dy = a.yMm - b.yMm;
  const d = grid.bentDiameterMm;
  const along = d === null ? dx : d * Math.sin(dx / d);
  return Math.sqrt(along * along + dy * dy);
}

/** Distance from a point of a part to one of its cells; half a lump's diameter to its only one. */
export function distanceToCellMm(grid: FormGrid, from: Position, cell: number): number {
  return grid.shape === 'lump' ? grid.lossDiameterMm / 2 : distanceInPartMm(grid, from, cellCentre(grid, cell));
}

export interface CellWeight {
  cell: number;
  weight: number;
}

function along(u: number, count: number): [number, number] {
  const at = Math.min(count - 1, Math.max(0, u - 0.5));
  const first = Math.min(count - 2, Math.floor(at));
  return [first, at - first];
}

/** Linear (line) or bilinear (plate) weights of a point between cell centres, held at the outermost centres; they sum to 1. */
export function weightsAt(grid: FormGrid, { xMm, yMm }: Position): CellWeight[] {
  if (grid.shape === 'lump') return [{ cell: 0, weight: 1 }];
  const [x, right] = along((xMm / grid.lengthMm) * grid.nx, grid.nx);
  const [y, up] = grid.shape === 'line' ? [0, 0] : along((yMm / grid.heightMm) * grid.ny, grid.ny);
  return [
    { cell: x + y * grid.nx, weight: (1 - right) * (1 - up) },
    { cell: x + 1 + y * grid.nx, weight: right * (1 - up) },
    { cell: x + (y + 1) * grid.nx, weight: (1 - right) * up },
    { cell: x + 1 + (y + 1) * grid.nx, weight: right * up },
  ].filter(({ weight }) => weight > 1e-9);
}
