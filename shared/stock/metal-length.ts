import type { Form } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { weigh } from '../forms/form-size.ts';

/** Metal as it is bought by the length; sheet is cut from its width, which is said with each length. */
export type LengthForm =
  | { kind: 'sheet'; thicknessMm: number }
  | { kind: 'strip'; widthMm: number; thicknessMm: number }
  | { kind: 'round_wire'; diameterMm: number }
  | { kind: 'square_wire'; sideMm: number }
  | { kind: 'half_round_wire'; widthMm: number; heightMm: number }
  | { kind: 'tube'; outsideDiameterMm: number; insideDiameterMm: number };

interface Bought {
  form: LengthForm;
  densityGPerCm3: number;
  /** How wide a piece of sheet is, mm, > 0; of nothing else. */
  widthMm?: number | undefined;
}

/**
 * What a length of sheet, strip, wire or tube weighs: m = A · L · ρ / 1000, A its cross-section.
 *
 * @param bought sizes in mm and density in g/cm³, each > 0
 * @param lengthMm > 0
 * @throws {EngineInputError} for a size that is not positive, or sheet without its width
 * @source conservation of mass; cross-sections as in formSize()
 */
export function massOfLengthG(bought: Bought, lengthMm: number): number {
  return weigh(piece(bought, lengthMm), bought.densityGPerCm3, 'metal').massG.toNumber();
}

/**
 * How long a piece of so much metal is: the inverse of massOfLengthG().
 *
 * @param massG > 0
 * @throws {EngineInputError} as massOfLengthG()
 * @source as massOfLengthG()
 */
export function lengthOfMassMm(bought: Bought, massG: number): number {
  if (!(massG > 0 && massG < Infinity)) throw new EngineInputError('massG', massG, '> 0');
  return massG / massOfLengthG(bought, 1);
}

function piece({ form, widthMm }: Bought, lengthMm: number): Form {
  if (form.kind === 'strip') return { ...form, kind: 'bar', lengthMm };
  if (form.kind !== 'sheet') return { ...form, lengthMm };
  if (widthMm === undefined) throw new EngineInputError('widthMm', widthMm, 'said, for sheet');
  return { ...form, lengthMm, widthMm };
}
