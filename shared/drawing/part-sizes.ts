import type { Form } from '../design/design.ts';

/** The sizes of a part in mm as a drawing writes them, without a word of any language: "30 × 20 × 0.8", "ø 10.7 / 10 × 3". */
export function partSizes(form: Form): string {
  switch (form.kind) {
    case 'sheet':
    case 'bar':
      return times(form.lengthMm, form.widthMm, form.thicknessMm);
    case 'disc':
      return `ø ${times(form.diameterMm, form.thicknessMm)}`;
    case 'dome':
      return `ø ${times(form.blankDiameterMm, form.thicknessMm)}`;
    case 'outline':
      return `${size(form.areaMm2)} mm² × ${size(form.thicknessMm)}`;
    case 'washer':
      return `ø ${size(form.outsideDiameterMm)} / ${times(form.insideDiameterMm, form.thicknessMm)}`;
    case 'band':
      return `ø ${size(form.insideDiameterMm + 2 * form.thicknessMm)} / ${times(form.insideDiameterMm, form.heightMm)}`;
    case 'round_wire':
      return `ø ${times(form.diameterMm, form.lengthMm)}`;
    case 'square_wire':
      return times(form.sideMm, form.sideMm, form.lengthMm);
    case 'half_round_wire':
      return times(form.widthMm, form.heightMm, form.lengthMm);
    case 'tube':
      return `ø ${size(form.outsideDiameterMm)} / ${times(form.insideDiameterMm, form.lengthMm)}`;
    case 'wire_ring':
      return `ø ${size(form.insideDiameterMm + 2 * form.diameterMm)} / ${size(form.insideDiameterMm)}`;
    case 'square_ring':
      return `ø ${size(form.meanDiameterMm + form.sideMm)} / ${size(form.meanDiameterMm - form.sideMm)}`;
    case 'cone':
      return `ø ${size(form.smallDiameterMm)} – ${times(form.largeDiameterMm, form.slantMm, form.thicknessMm)}`;
    case 'ball':
      return `ø ${size(form.diameterMm)}`;
    case 'weighed':
      return `${size(form.massG)} g`;
  }
}

function times(...sizesMm: number[]): string {
  return sizesMm.map(size).join(' × ');
}

/** To the hundredth of a millimetre. */
function size(value: number): string {
  return String(Number(value.toFixed(2)));
}
