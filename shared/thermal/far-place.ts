import type { Form, Place } from '../design/design.ts';
import { formGrid, USUAL_CELLS } from './form-grid.ts';
import { distanceInPartMm, positionOf } from './grid-points.ts';

/** In from an edge or an end, so that a sink has metal to hold. */
const EDGE_MM = 1;
const WAYS_ROUND = 8;

/** A way to a part: where on it one arrives, after how far along the metal. */
export interface WayIn {
  at: Partial<Place>;
  beforeMm: number;
}

/**
 * Where on a part, near its ends, corners or edge, the metal is farthest from some start.
 *
 * @param ways from the start to the part; where two arrive, the shorter counts
 * @returns the place by the axes of its form, and how far it is, mm; null where no way leads to it
 */
export function farthestPlace(form: Form, ways: readonly WayIn[]): { at: Omit<Place, 'part'>; awayMm: number } | null {
  if (ways.length === 0) return null;
  const grid = formGrid(form, USUAL_CELLS);
  const starts = ways.map(({ at, beforeMm }) => ({ from: positionOf(form, grid, at), beforeMm }));
  const places = edgePlaces(form).map((at) => {
    const to = positionOf(form, grid, at);
    return { at, awayMm: Math.min(...starts.map(({ from, beforeMm }) => beforeMm + distanceInPartMm(grid, from, to))) };
  });
  return places.reduce((far, place) => (place.awayMm > far.awayMm + 1e-9 ? place : far));
}

/** How far along the metal a place on a part is from the start of some ways to it, mm. */
export function awayMm(form: Form, ways: readonly WayIn[], place: Partial<Place>): number {
  const grid = formGrid(form, USUAL_CELLS);
  const to = positionOf(form, grid, place);
  return Math.min(...ways.map(({ at, beforeMm }) => beforeMm + distanceInPartMm(grid, positionOf(form, grid, at), to)));
}

function edgePlaces(form: Form): Omit<Place, 'part'>[] {
  switch (form.kind) {
    case 'sheet':
      return ends(form.lengthMm).flatMap((xMm) => ends(form.widthMm).map((yMm) => ({ xMm, yMm })));
    case 'disc':
      return round(form.diameterMm);
    case 'washer':
      return round(form.outsideDiameterMm);
    case 'dome':
      return round(form.blankDiameterMm);
    case 'outline':
      // Known by its area alone, the middle half of the equal square is metal if anything is.
      return round(Math.sqrt(form.areaMm2) / 2 + 2 * EDGE_MM);
    case 'band':
      return along(form.insideDiameterMm + form.thicknessMm).flatMap((alongMm) =>
        ends(form.heightMm).map((acrossMm) => ({ alongMm, acrossMm })),
      );
    case 'wire_ring':
      return along(form.insideDiameterMm + form.diameterMm).map((alongMm) => ({ alongMm }));
    case 'square_ring':
      return along(form.meanDiameterMm).map((alongMm) => ({ alongMm }));
    case 'cone':
      return ends(form.slantMm).map((alongMm) => ({ alongMm }));
    case 'bar':
    case 'round_wire':
    case 'square_wire':
    case 'half_round_wire':
    case 'tube':
      return ends(form.lengthMm).map((alongMm) => ({ alongMm }));
    case 'ball':
    case 'weighed':
      return [{}];
  }
}

function ends(lengthMm: number): number[] {
  const inMm = Math.min(EDGE_MM, lengthMm / 4);
  return [hundredths(inMm), hundredths(lengthMm - inMm)];
}

function round(diameterMm: number): { xMm: number; yMm: number }[] {
  const radiusMm = diameterMm / 2 - Math.min(EDGE_MM, diameterMm / 8);
  return Array.from({ length: WAYS_ROUND }, (_, i) => {
    const angle = (2 * Math.PI * i) / WAYS_ROUND;
    return { xMm: hundredths(radiusMm * Math.cos(angle)), yMm: hundredths(radiusMm * Math.sin(angle)) };
  });
}

function along(meanDiameterMm: number): number[] {
  return Array.from({ length: WAYS_ROUND }, (_, i) => hundredths((Math.PI * meanDiameterMm * i) / WAYS_ROUND));
}

const hundredths = (mm: number): number => Math.round(100 * mm) / 100 + 0;
