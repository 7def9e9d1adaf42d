import type { Form } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';

/**
 * How a part is cut into cells: one lump, a line of nx cells, or nx × ny cells (cell x + y·nx).
 *
 * A bent grid (ring, band) runs round a mean circle: distances on it are chords. It may still be open.
 */
export interface FormGrid {
  shape: 'lump' | 'line' | 'plate';
  nx: number;
  ny: number;
  lengthMm: number;
  heightMm: number;
  /** Mean diameter when bent; null when straight. */
  bentDiameterMm: number | null;
  closed: boolean;
  /** Position of the place (0, 0) on the grid: discs count from their centre. */
  originMm: number;
  /** Area across a line, or thickness of a plate. */
  sectionMm2: number;
  thicknessMm: number;
  /** Of a line, that sees flame and air; of a lump, its whole area. */
  perimeterMm: number;
  areaMm2: number;
  /** D of the loss law. */
  lossDiameterMm: number;
  /** Of a weighed lump: its mass; otherwise null. */
  massG: number | null;
  /** Share of the surface that lies on the support unless the part says otherwise. */
  contactFraction: number;
}

export interface GridSize {
  barMm: number;
  plateMm: number;
}

/** Longest cells of a heat, where the flame is wide: on half of them joints come out within 5 K, times within 2 %. */
export const USUAL_CELLS: GridSize = { barMm: 1.5, plateMm: 2 };

/** A band is a 1-D ring, a finger-ring shank, up to this many thicknesses high. */
const LOW_BAND_THICKNESSES = 3;
/** Shares of a surface that lie on a support; judgement. */
const SHEET_CONTACT = 0.45;
const BAR_CONTACT = 0.15;

/** No size in mm, mm² or g of what one hearth warms is larger. */
const MOST_SIZE = 1e5;

function checkSizes(form: Form): void {
  for (const [name, value] of Object.entries(form)) {
    if (name !== 'kind' && !(typeof value === 'number' && value > 0 && value < MOST_SIZE))
      throw new EngineInputError(name, value, `> 0 and < ${MOST_SIZE}`);
  }
  if ((form.kind === 'tube' || form.kind === 'washer') && !(form.insideDiameterMm < form.outsideDiameterMm)) {
    throw new EngineInputError('insideDiameterMm', form.insideDiameterMm, `below outsideDiameterMm, ${form.outsideDiameterMm}`);
  }
}

interface Section {
  lengthMm: number;
  sectionMm2: number;
  perimeterMm: number;
  bentDiameterMm?: number;
}

function line(size: GridSize, { lengthMm, sectionMm2, perimeterMm, bentDiameterMm }: Section): FormGrid {
  const nx = Math.max(4, Math.ceil(lengthMm / size.barMm - 1e-9));
  return {
    shape: 'line',
    nx,
    ny: 1,
    lengthMm,
    heightMm: 0,
    bentDiameterMm: bentDiameterMm ?? null,
    closed: bentDiameterMm !== undefined,
    originMm: 0,
    sectionMm2,
    thicknessMm: 0,
    perimeterMm,
    areaMm2: 0,
    lossDiameterMm: perimeterMm / Math.PI,
    massG: null,
    contactFraction: BAR_CONTACT,
  };
}

function plate(
  size: GridSize,
  of: { lengthMm: number; heightMm: number; thicknessMm: number; bentDiameterMm?: number; contactFraction: number },
): FormGrid {
  const { lengthMm, heightMm, thicknessMm, bentDiameterMm, contactFraction } = of;
  return {
    shape: 'plate',
    nx: Math.max(4, Math.ceil(lengthMm / size.plateMm - 1e-9)),
    ny: Math.max(3, Math.ceil(heightMm / size.plateMm - 1e-9)),
    lengthMm,
    heightMm,
    bentDiameterMm: bentDiameterMm ?? null,
    closed: bentDiameterMm !== undefined,
    originMm: 0,
    sectionMm2: 0,
    thicknessMm,
    perimeterMm: 0,
    areaMm2: 0,
    lossDiameterMm: Math.sqrt(lengthMm * heightMm),
    massG: null,
    contactFraction,
  };
}

function square(size: GridSize, areaMm2: number, thicknessMm: number, contactFraction = SHEET_CONTACT): FormGrid {
  const sideMm = Math.sqrt(areaMm2);
  return { ...plate(size, { lengthMm: sideMm, heightMm: sideMm, thicknessMm, contactFraction }), originMm: sideMm / 2 };
}

function lump(areaMm2: number, massG: number | null): FormGrid {
  return {
    shape: 'lump',
    nx: 1,
    ny: 1,
    lengthMm: 0,
    heightMm: 0,
    bentDiameterMm: null,
    closed: false,
    originMm: 0,
    sectionMm2: 0,
    thicknessMm: 0,
    perimeterMm: 0,
    areaMm2,
    lossDiameterMm: Math.sqrt(areaMm2 / Math.PI),
    massG,
    contactFraction: 0,
  };
}

function band(size: GridSize, meanDiameterMm: number, heightMm: number, thicknessMm: number): FormGrid {
  const lengthMm = Math.PI * meanDiameterMm;
  return plate(size, { lengthMm, heightMm, thicknessMm, bentDiameterMm: meanDiameterMm, contactFraction: BAR_CONTACT });
}

/**
 * The grid of a form, whole: rings and bands closed and without a seam.
 *
 * Cells are no longer than asked, at least 4 along a bar and 4 × 3 on a plate. Discs, outlines, washers and domes are squares of
 * equal area; a cone is a band of its mean diameter; a tube's bore is left out of its perimeter, since it sees only itself.
 *
 * @param size longest cell of a line and of a plate, mm
 * @throws {EngineInputError} if a size is not positive, or past 100 000
 */
export function formGrid(form: Form, size: GridSize): FormGrid {
  checkSizes(form);
  switch (form.kind) {
    case 'sheet':
      return plate(size, {
        lengthMm: form.lengthMm,
        heightMm: form.widthMm,
        thicknessMm: form.thicknessMm,
        contactFraction: SHEET_CONTACT,
      });
    case 'disc':
      return square(size, (Math.PI / 4) * form.diameterMm ** 2, form.thicknessMm);
    case 'outline':
      return square(size, form.areaMm2, form.thicknessMm);
    case 'washer':
      return square(size, (Math.PI / 4) * (form.outsideDiameterMm ** 2 - form.insideDiameterMm ** 2), form.thicknessMm);
    case 'dome':
      return square(size, (Math.PI / 4) * form.blankDiameterMm ** 2, form.thicknessMm, BAR_CONTACT);
    case 'band': {
      const meanMm = form.insideDiameterMm + form.thicknessMm;
      if (form.heightMm > LOW_BAND_THICKNESSES * form.thicknessMm) return band(size, meanMm, form.heightMm, form.thicknessMm);
      const perimeterMm = 2 * (form.heightMm + form.thicknessMm);
      return line(size, {
        lengthMm: Math.PI * meanMm,
        sectionMm2: form.heightMm * form.thicknessMm,
        perimeterMm,
        bentDiameterMm: meanMm,
      });
    }
    case 'cone':
      return band(size, (form.smallDiameterMm + form.largeDiameterMm) / 2, form.slantMm, form.thicknessMm);
    case 'bar': {
      const { lengthMm, widthMm, thicknessMm } = form;
      return line(size, { lengthMm, sectionMm2: widthMm * thicknessMm, perimeterMm: 2 * (widthMm + thicknessMm) });
    }
    case 'round_wire':
      return line(size, {
        lengthMm: form.lengthMm,
        sectionMm2: (Math.PI / 4) * form.diameterMm ** 2,
        perimeterMm: Math.PI * form.diameterMm,
      });
    case 'square_wire':
      return line(size, { lengthMm: form.lengthMm, sectionMm2: form.sideMm ** 2, perimeterMm: 4 * form.sideMm });
    case 'half_round_wire': {
      // A circular segment: flat w, height h. acos(1 − h/R) passes π/2 by itself when h > R.
      const { lengthMm, widthMm, heightMm } = form;
      const radiusMm = (widthMm ** 2 / 4 + heightMm ** 2) / (2 * heightMm);
      const half = Math.acos(1 - heightMm / radiusMm);
      const segmentMm2 = radiusMm ** 2 * half - (radiusMm - heightMm) * Math.sqrt(2 * radiusMm * heightMm - heightMm ** 2);
      return line(size, { lengthMm, sectionMm2: segmentMm2, perimeterMm: widthMm + 2 * radiusMm * half });
    }
    case 'tube': {
      const sectionMm2 = (Math.PI / 4) * (form.outsideDiameterMm ** 2 - form.insideDiameterMm ** 2);
      return line(size, { lengthMm: form.lengthMm, sectionMm2, perimeterMm: Math.PI * form.outsideDiameterMm });
    }
    case 'wire_ring': {
      const meanMm = form.insideDiameterMm + form.diameterMm;
      const sectionMm2 = (Math.PI / 4) * form.diameterMm ** 2;
      return line(size, {
        lengthMm: Math.PI * meanMm,
        sectionMm2,
        perimeterMm: Math.PI * form.diameterMm,
        bentDiameterMm: meanMm,
      });
    }
    case 'square_ring':
      return line(size, {
        lengthMm: Math.PI * form.meanDiameterMm,
        sectionMm2: form.sideMm ** 2,
        perimeterMm: 4 * form.sideMm,
        bentDiameterMm: form.meanDiameterMm,
      });
    case 'ball':
      return lump(Math.PI * form.diameterMm ** 2, null);
    case 'weighed':
      return lump(form.areaMm2, form.massG);
  }
}

export function cellCountOf(grid: FormGrid): number {
  return grid.nx * grid.ny;
}

/** The same grid once a joint has to close it: bent round its length if it was straight, and open until that joint is made. */
export function withSeam(grid: FormGrid, closed: boolean): FormGrid {
  if (grid.shape === 'lump') return grid;
  return { ...grid, bentDiameterMm: grid.bentDiameterMm ?? grid.lengthMm / Math.PI, closed };
}
