import type { Contact, Form, Joint, Place } from '../design/design.ts';
import { formFinder, withOwnSizes } from '../design/own-sizes.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { cellCentre, isFlat, middleOf, positionOf } from './grid-points.ts';
import type { FormGrid, GridSize } from './form-grid.ts';
import type { Position } from './grid-points.ts';

export interface PartPoint {
  part: number;
  position: Position;
}

/** A joint as pairs of touching points, one on either side; its area is shared equally among them. */
export interface JointPoints {
  id: string;
  areaMm2: number;
  /** Index of the part it closes on itself. */
  closes: number | null;
  pairs: (readonly [PartPoint, PartPoint])[];
  /** Where its middle lies on either side. */
  middles: readonly [PartPoint, PartPoint];
  /** Aimed at itself, not beside itself: closing joints, posts, granules, loops, jump rings. */
  round: boolean;
}

/** Two parts touching at a point without solder. */
export interface ContactPoints {
  between: readonly [PartPoint, PartPoint];
  conductanceWPerK: number;
}

export interface GriddedPart {
  id: string;
  form: Form;
  grid: FormGrid;
}

/** No joint of a piece that one hearth warms is longer, wider or thicker. */
const MOST_MM = 1000;
const LEAST_LINE_POINTS = 3;
const LEAST_LOOP_POINTS = 12;

function sizeOf(joint: Joint, quantity: string, valueMm: number | undefined): number {
  if (!(valueMm !== undefined && valueMm > 0))
    throw new EngineInputError(`${quantity} of joint ${joint.id}`, valueMm, '> 0: no part tells it');
  return valueMm;
}

function loopMeanMm(joint: Joint & { kind: 'loop_base' }): number {
  return sizeOf(joint, 'insideDiameterMm', joint.insideDiameterMm) + sizeOf(joint, 'thicknessMm', joint.thicknessMm);
}

/** Of a joint that has its own sizes and those its parts tell. */
function areaOf(joint: Joint): number {
  switch (joint.kind) {
    case 'seam':
    case 'tee':
      return joint.lengthMm * joint.thicknessMm;
    case 'butt':
      return joint.widthMm * joint.thicknessMm;
    case 'lap':
      return joint.widthMm * joint.overlapMm;
    case 'loop_base':
      return Math.PI * loopMeanMm(joint) * sizeOf(joint, 'thicknessMm', joint.thicknessMm);
    case 'jump_ring':
      return (Math.PI / 4) * sizeOf(joint, 'diameterMm', joint.diameterMm) ** 2;
    case 'post':
      return (Math.PI / 4) * joint.diameterMm ** 2;
    case 'granule':
      return Math.PI * joint.neckRadiusMm ** 2;
  }
}

/** Length along which a joint between two places is spread; 0 for a spot. */
function spreadOf(joint: Joint): number {
  if (joint.kind === 'tee' || joint.kind === 'seam') return joint.lengthMm;
  return joint.kind === 'lap' ? joint.widthMm : 0;
}

function cellMm(grid: FormGrid, size: GridSize): number {
  if (grid.shape === 'lump') return Infinity;
  return grid.shape === 'line' ? size.barMm : size.plateMm;
}

/** Shifts of the points of a joint from its place: [along both parts, on the circle of a loop]. */
function pairsBetween(joint: Joint, sides: readonly [Side, Side], size: GridSize): (readonly [PartPoint, PartPoint])[] {
  if (joint.kind === 'loop_base') {
    const radiusMm = loopMeanMm(joint) / 2;
    const cells = sides.map(({ grid }) => (grid.bentDiameterMm === null ? 0 : grid.nx));
    const count = Math.max(LEAST_LOOP_POINTS, ...cells);
    return Array.from({ length: count }, (_, k) => {
      const turn = k / count;
      const angle = 2 * Math.PI * turn;
      const on = (side: Side): PartPoint => {
        const { grid, form, place } = side;
        if (isFlat(grid)) return pointOn(side, { xMm: radiusMm * Math.cos(angle), yMm: radiusMm * Math.sin(angle) });
        if (grid.bentDiameterMm === null) return pointOn(side);
        const { yMm } = positionOf(form, grid, place);
        return { part: side.part, position: { xMm: turn * grid.lengthMm, yMm } };
      };
      return [on(sides[0]), on(sides[1])] as const;
    });
  }
  const lengthMm = spreadOf(joint);
  if (lengthMm === 0) return [[pointOn(sides[0]), pointOn(sides[1])]];
  const finestMm = Math.min(...sides.map(({ grid }) => cellMm(grid, size)));
  const count = Math.max(LEAST_LINE_POINTS, Math.ceil(lengthMm / finestMm - 1e-9));
  return Array.from({ length: count }, (_, k) => {
    const shift = { xMm: lengthMm * (k / (count - 1) - 0.5), yMm: 0 };
    return [pointOn(sides[0], shift), pointOn(sides[1], shift)] as const;
  });
}

interface Side extends GriddedPart {
  part: number;
  place: Place;
}

function pointOn({ part, form, grid, place }: Side, shift?: Position): PartPoint {
  return { part, position: positionOf(form, grid, place, shift) };
}

/** Both ends of every row of cells at the seam; a lump or disc, which has no ends, meets itself in its middle. */
function pairsClosing(part: number, grid: FormGrid): (readonly [PartPoint, PartPoint])[] {
  if (grid.bentDiameterMm === null) {
    const middle = { part, position: middleOf(grid) };
    return [[middle, middle]];
  }
  return Array.from({ length: grid.ny }, (_, row) => {
    const { yMm } = grid.ny === 1 ? { yMm: 0 } : cellCentre(grid, row * grid.nx);
    return [
      { part, position: { xMm: 0, yMm } },
      { part, position: { xMm: grid.lengthMm, yMm } },
    ] as const;
  });
}

/**
 * The points of a joint on its parts' grids.
 *
 * A tee, lap or seam between two places has max(3, ⌈length/cell⌉) pairs, ends included, centred on the places, along both parts
 * (the finer cell of the two counts); a loop max(12, cells round its band) round its mean circle; others one. A joint that closes
 * a part meets itself along the seam, row by row.
 *
 * @param indexOf index of a part by id, among the gridded parts
 * @throws {EngineInputError} if a size is not positive or a part is unknown
 */
export function jointPoints(
  given: Joint,
  parts: readonly GriddedPart[],
  size: GridSize,
  indexOf: (id: string) => number,
): JointPoints {
  const joint = withOwnSizes(given, formFinder(parts));
  checkSizes(joint);
  if (joint.closes !== undefined) {
    const part = indexOf(joint.closes);
    const { grid } = parts[part]!;
    const areaMm2 = areaOf(joint);
    checkArea(joint.id, areaMm2);
    const middle = { part, position: grid.bentDiameterMm === null ? middleOf(grid) : { xMm: 0, yMm: grid.heightMm / 2 } };
    return { id: joint.id, areaMm2, closes: part, pairs: pairsClosing(part, grid), middles: [middle, middle], round: true };
  }
  const side = (place: Place): Side => {
    const part = indexOf(place.part);
    return { ...parts[part]!, part, place };
  };
  const sides = [side(joint.between[0]), side(joint.between[1])] as const;
  const areaMm2 = areaOf(joint);
  checkArea(joint.id, areaMm2);
  return {
    id: joint.id,
    areaMm2,
    closes: null,
    pairs: pairsBetween(joint, sides, size),
    middles: [pointOn(sides[0]), pointOn(sides[1])],
    round: joint.kind === 'post' || joint.kind === 'granule' || joint.kind === 'loop_base' || joint.kind === 'jump_ring',
  };
}

/** How well loose links touch, W/K. Assumed; no source. A third or three times of it moves a neighbour by about 30 % of its lag. */
export const LOOSE_CONTACT_W_PER_K = 0.01;

/** The two points of a contact; throws EngineInputError for a conductance that is not positive or an unknown part. */
export function contactPoints(
  { between, conductanceWPerK = LOOSE_CONTACT_W_PER_K }: Contact,
  parts: readonly GriddedPart[],
  indexOf: (id: string) => number,
): ContactPoints {
  if (!(conductanceWPerK > 0 && conductanceWPerK < Infinity))
    throw new EngineInputError('conductanceWPerK', conductanceWPerK, '> 0');
  const on = (place: Place): PartPoint => {
    const part = indexOf(place.part);
    const { form, grid } = parts[part]!;
    return { part, position: positionOf(form, grid, place) };
  };
  return { between: [on(between[0]), on(between[1])], conductanceWPerK };
}

/** Sizes that its kind needs must be there and positive, as its area tells; none may be past all measure. */
function checkSizes(joint: Joint): void {
  for (const [name, value] of Object.entries(joint)) {
    if (name.endsWith('Mm') && value !== undefined && !(typeof value === 'number' && value >= 0 && value <= MOST_MM))
      throw new EngineInputError(`${name} of joint ${joint.id}`, value, `0 to ${MOST_MM}`);
  }
}

function checkArea(id: string, areaMm2: number): void {
  if (!(areaMm2 > 0 && areaMm2 < Infinity)) throw new EngineInputError(`area of joint ${id}`, areaMm2, '> 0');
}
