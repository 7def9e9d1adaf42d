import { Decimal, PI } from '../decimal.ts';
import type { Form } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { formSize, weigh } from './form-size.ts';

/** What a ring is bent from; half-round lies with its flat inside. A wire or strip as a form, without its length. */
export type RingStock =
  | { kind: 'strip'; widthMm: number; thicknessMm: number }
  | { kind: 'round_wire'; diameterMm: number }
  | { kind: 'square_wire'; sideMm: number }
  | { kind: 'half_round_wire'; widthMm: number; heightMm: number };

export interface RingBlank {
  insideCircumferenceMm: number;
  insideDiameterMm: number;
  /** Round the neutral line, which keeps its length when the metal is bent. */
  neutralMm: number;
  /** What a wide ring is made longer, so that it goes over the knuckle as a narrow one does. */
  wideAllowanceMm: number;
  /** To cut: with that, and what is left over to file the ends true. */
  blankMm: number;
  /** Of the length that is cut. */
  massG: number;
  /** Once it is closed, without what was filed off. */
  ringG: number;
}

/** A ring wider than this is tighter than its size. */
const WIDE_MM = 4;
const WIDE_ALLOWANCE_MM = 0.5;

/**
 * How long a straight length of metal has to be to become a ring of a size.
 *
 * L = C + 2π·y + allowance + over, C round the inside and y from the inside to the neutral line: half the thickness, so π·(D + t), and of
 * half-round, with the flat inside, the centroid of its segment, w³/(12·A) − (R − h). More than 4 mm wide: 0.5 mm longer.
 *
 * @param insideCircumferenceMm > 0; a size of ISO 8653 is this number
 * @param overMm left over for filing the ends, 0 or more
 * @returns lengths in mm, masses in g
 * @throws {EngineInputError} for a size out of those bounds, or a half-round higher than it is wide
 * @source Pappus: a bent length keeps that of its centroid; sizes: ISO 8653, the inside circumference in mm; the allowance for wide rings
 *   is that of a trade supplier's public article. Exact while the metal is thin against the ring: bent tightly, the neutral line moves inwards
 */
export function ringBlank({
  insideCircumferenceMm,
  stock,
  densityGPerCm3,
  overMm = 0,
}: {
  insideCircumferenceMm: number;
  stock: RingStock;
  densityGPerCm3: number;
  overMm?: number;
}): RingBlank {
  if (!(insideCircumferenceMm > 0 && insideCircumferenceMm < Infinity))
    throw new EngineInputError('insideCircumferenceMm', insideCircumferenceMm, '> 0');
  if (!(overMm >= 0 && overMm < Infinity)) throw new EngineInputError('overMm', overMm, '0 or more');
  if (stock.kind === 'half_round_wire' && !(stock.heightMm <= stock.widthMm))
    throw new EngineInputError('heightMm', stock.heightMm, `at most its width, ${stock.widthMm} mm`);
  const grams = (lengthMm: Decimal) => weigh(formOf(stock, lengthMm.toNumber()), densityGPerCm3, 'stock').massG.toNumber();
  const neutral = PI.times(2).times(neutralHeight(stock)).plus(insideCircumferenceMm);
  const wideAllowanceMm = widthOf(stock) > WIDE_MM ? WIDE_ALLOWANCE_MM : 0;
  const ring = neutral.plus(wideAllowanceMm);
  const blank = ring.plus(overMm);
  return {
    insideCircumferenceMm,
    insideDiameterMm: new Decimal(insideCircumferenceMm).div(PI).toNumber(),
    neutralMm: neutral.toNumber(),
    wideAllowanceMm,
    blankMm: blank.toNumber(),
    massG: grams(blank),
    ringG: grams(ring),
  };
}

/** The inside circumference of a ring so wide across. */
export function aroundMm(insideDiameterMm: number): number {
  return PI.times(insideDiameterMm).toNumber();
}

function formOf(stock: RingStock, lengthMm: number): Form {
  return stock.kind === 'strip' ? { ...stock, kind: 'bar', lengthMm } : { ...stock, lengthMm };
}

function widthOf(stock: RingStock): number {
  return 'widthMm' in stock ? stock.widthMm : 'sideMm' in stock ? stock.sideMm : stock.diameterMm;
}

/** From the inside of the ring to the centroid of the section. */
function neutralHeight(stock: RingStock): Decimal {
  switch (stock.kind) {
    case 'strip':
      return new Decimal(stock.thicknessMm).div(2);
    case 'round_wire':
      return new Decimal(stock.diameterMm).div(2);
    case 'square_wire':
      return new Decimal(stock.sideMm).div(2);
    case 'half_round_wire': {
      const [width, height] = [new Decimal(stock.widthMm), new Decimal(stock.heightMm)];
      const sectionMm2 = formSize(formOf(stock, 1), 'stock').volumeMm3!;
      const radius = width.pow(2).div(4).plus(height.pow(2)).div(height.times(2));
      return width.pow(3).div(sectionMm2.times(12)).minus(radius.minus(height));
    }
    default:
      throw new EngineInputError('stock', stock satisfies never, 'a strip or a wire');
  }
}
