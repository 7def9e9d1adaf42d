import { EngineInputError } from '../engine-input-error.ts';

/**
 * Length to cut a strip for a closed ring of an inside circumference: L = C + π·t, and about 0.5 mm more when the strip
 * is wider than 4 mm, because a wide band feels tighter.
 *
 * @param ring inside circumference (the ring size of ISO 8653), thickness and width of the strip, in mm, > 0
 * @throws {EngineInputError} for a size that is not positive
 * @source length of the neutral line at half thickness; the half millimetre is workshop practice
 */
export function ringBlankMm(ring: { insideCircumferenceMm: number; thicknessMm: number; widthMm: number }): number {
  for (const [quantity, given] of Object.entries(ring)) {
    if (!(given > 0 && given < Infinity)) throw new EngineInputError(quantity, given, '> 0');
  }
  return ring.insideCircumferenceMm + Math.PI * ring.thicknessMm + (ring.widthMm > 4 ? 0.5 : 0);
}
