import type { Form } from '../design/design.ts';
import type { LengthForm } from './metal-length.ts';

type Bought = LengthForm | { kind: 'grain' };

/** A gauge and its millimetres differ by less than this, and two neighbouring sizes by more. */
const SAME_MM = 0.005;

/**
 * Whether a part is cut from metal as it is bought: a disc from sheet of its thickness, a ring of wire from that wire, a band from
 * strip of its height or from sheet, a ball from grain.
 *
 * @param form of the part; a weighed one is cut from nothing in particular
 * @source common practice, no source; sizes are the same within 0.005 mm
 */
export function isCutFrom(form: Form, bought: Bought): boolean {
  switch (bought.kind) {
    case 'sheet':
      return SHEET.has(form.kind) && 'thicknessMm' in form && same(form.thicknessMm, bought.thicknessMm);
    case 'strip':
      return stripOf(form, bought.widthMm) && 'thicknessMm' in form && same(form.thicknessMm, bought.thicknessMm);
    case 'round_wire':
      return (form.kind === 'round_wire' || form.kind === 'wire_ring') && same(form.diameterMm, bought.diameterMm);
    case 'square_wire':
      return (form.kind === 'square_wire' || form.kind === 'square_ring') && same(form.sideMm, bought.sideMm);
    case 'half_round_wire':
      return form.kind === 'half_round_wire' && same(form.widthMm, bought.widthMm) && same(form.heightMm, bought.heightMm);
    case 'tube':
      return (
        form.kind === 'tube' &&
        same(form.outsideDiameterMm, bought.outsideDiameterMm) &&
        same(form.insideDiameterMm, bought.insideDiameterMm)
      );
    case 'grain':
      return form.kind === 'ball';
  }
}

/** A band or bar may be cut from sheet too, where no strip is of its size. */
const SHEET: ReadonlySet<Form['kind']> = new Set(['sheet', 'disc', 'outline', 'washer', 'cone', 'dome', 'band', 'bar']);

function stripOf(form: Form, widthMm: number): boolean {
  if (form.kind === 'band') return same(form.heightMm, widthMm);
  return form.kind === 'bar' && same(form.widthMm, widthMm);
}

function same(aMm: number, bMm: number): boolean {
  return Math.abs(aMm - bMm) <= SAME_MM;
}
