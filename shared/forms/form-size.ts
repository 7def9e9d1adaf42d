import { Decimal, PI, ZERO } from '../decimal.ts';
import type { Form, FormKind } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';

/** Exact decimals, because what a part weighs is multiplied by money. */
export interface FormSize {
  /** Absent for a weighed part: its volume follows from its mass. */
  volumeMm3?: Decimal;
  /** Mass as weighed, for a weighed part alone. */
  massG?: Decimal;
  /** The whole surface that pickle and flux wet. */
  areaMm2: Decimal;
}

/**
 * Volume and wetted surface of a part of a form.
 *
 * Thin forms (band, outline, sheet, dome, cone) count two faces and no rims; wires and tubes count no ends; a dome has
 * the volume of its flat blank, since forming keeps the volume, and twice the blank as surface; a half-round wire is a
 * segment of a circle, R = (w²/4 + h²)/(2h).
 *
 * @param form sizes in mm, each > 0 (a cone may begin in a point); inside less than outside; on a square ring, less than the mean
 * @param part named in errors
 * @throws {EngineInputError} for a size out of those bounds
 * @source elementary solids; Pappus for rings: cross-section × mean circumference
 */
export function formSize(form: Form, part: string): FormSize {
  const wrong = (quantity: string, given: number, allowed: string) => new EngineInputError(`${part}.${quantity}`, given, allowed);
  for (const [quantity, given] of Object.entries(form) as [string, unknown][]) {
    if (typeof given !== 'number') continue;
    const mayBeZero = quantity === 'areaMm2' ? form.kind === 'weighed' : quantity === 'smallDiameterMm';
    if (!(given < Infinity && (given > 0 || (mayBeZero && given === 0))))
      throw wrong(quantity, given, mayBeZero ? '0 or more' : '> 0');
  }
  if (form.kind === 'tube' || form.kind === 'washer') {
    const { insideDiameterMm, outsideDiameterMm } = form;
    if (!(insideDiameterMm < outsideDiameterMm))
      throw wrong('insideDiameterMm', insideDiameterMm, `less than outside, ${outsideDiameterMm} mm`);
  }
  if (form.kind === 'square_ring' && !(form.sideMm < form.meanDiameterMm)) {
    throw wrong('sideMm', form.sideMm, `less than the mean diameter, ${form.meanDiameterMm} mm`);
  }
  if (form.kind === 'cone' && !(form.smallDiameterMm <= form.largeDiameterMm)) {
    throw wrong('smallDiameterMm', form.smallDiameterMm, `at most the large one, ${form.largeDiameterMm} mm`);
  }
  // Each kind has the measure of its own sizes, which the compiler cannot follow through a lookup.
  return (MEASURES[form.kind] as (form: Form) => FormSize)(form);
}

const MEASURES: { [Kind in FormKind]: (form: Extract<Form, { kind: Kind }>) => FormSize } = {
  sheet: (form) => plate(d(form.lengthMm).times(form.widthMm), form.thicknessMm),
  outline: (form) => plate(d(form.areaMm2), form.thicknessMm),
  dome: (form) => plate(circle(form.blankDiameterMm), form.thicknessMm),
  band: (form) => plate(PI.times(d(form.insideDiameterMm).plus(form.thicknessMm)).times(form.heightMm), form.thicknessMm),
  cone: (form) =>
    plate(PI.times(d(form.smallDiameterMm).plus(form.largeDiameterMm)).div(2).times(form.slantMm), form.thicknessMm),
  disc: (form) => ringPlate(form.diameterMm, 0, form.thicknessMm),
  washer: (form) => ringPlate(form.outsideDiameterMm, form.insideDiameterMm, form.thicknessMm),
  bar: (form) =>
    drawn(d(form.widthMm).times(form.thicknessMm), d(form.widthMm).plus(form.thicknessMm).times(2), d(form.lengthMm)),
  round_wire: (form) => drawn(circle(form.diameterMm), PI.times(form.diameterMm), d(form.lengthMm)),
  square_wire: (form) => drawn(d(form.sideMm).pow(2), d(form.sideMm).times(4), d(form.lengthMm)),
  half_round_wire: (form) => halfRound(d(form.widthMm), d(form.heightMm), d(form.lengthMm)),
  tube: (form) =>
    drawn(
      circle(form.outsideDiameterMm).minus(circle(form.insideDiameterMm)),
      PI.times(d(form.outsideDiameterMm).plus(form.insideDiameterMm)),
      d(form.lengthMm),
    ),
  wire_ring: (form) =>
    drawn(circle(form.diameterMm), PI.times(form.diameterMm), PI.times(d(form.insideDiameterMm).plus(form.diameterMm))),
  square_ring: (form) => drawn(d(form.sideMm).pow(2), d(form.sideMm).times(4), PI.times(form.meanDiameterMm)),
  ball: (form) => ({ volumeMm3: PI.times(d(form.diameterMm).pow(3)).div(6), areaMm2: PI.times(d(form.diameterMm).pow(2)) }),
  weighed: (form) => ({ massG: d(form.massG), areaMm2: d(form.areaMm2) }),
};

function d(value: number): Decimal {
  return new Decimal(value);
}

function circle(diameterMm: number): Decimal {
  return PI.times(d(diameterMm).pow(2)).div(4);
}

/** Two faces, no rim. */
function plate(faceMm2: Decimal, thicknessMm: number): FormSize {
  return { volumeMm3: faceMm2.times(thicknessMm), areaMm2: faceMm2.times(2) };
}

/** Two faces and the rims, outer and inner. */
function ringPlate(outsideMm: number, insideMm: number, thicknessMm: number): FormSize {
  const faceMm2 = insideMm === 0 ? circle(outsideMm) : circle(outsideMm).minus(circle(insideMm));
  const rimMm2 = PI.times(d(outsideMm).plus(insideMm)).times(thicknessMm);
  return { volumeMm3: faceMm2.times(thicknessMm), areaMm2: faceMm2.times(2).plus(rimMm2) };
}

/** One cross-section along a length, without its ends. */
function drawn(sectionMm2: Decimal, perimeterMm: Decimal, lengthMm: Decimal): FormSize {
  return { volumeMm3: sectionMm2.times(lengthMm), areaMm2: perimeterMm.times(lengthMm) };
}

function halfRound(widthMm: Decimal, heightMm: Decimal, lengthMm: Decimal): FormSize {
  const radiusMm = widthMm.pow(2).div(4).plus(heightMm.pow(2)).div(heightMm.times(2));
  const halfAngle = Decimal.acos(new Decimal(1).minus(heightMm.div(radiusMm)));
  // √(2Rh − h²) is half the width, whatever the height.
  const sectionMm2 = radiusMm.pow(2).times(halfAngle).minus(radiusMm.minus(heightMm).times(widthMm).div(2));
  return drawn(sectionMm2, widthMm.plus(radiusMm.times(2).times(halfAngle)), lengthMm);
}

/** Mass in grams of a volume in mm³ of a density in g/cm³. */
export function massOf(volumeMm3: Decimal, densityGPerCm3: number): Decimal {
  return volumeMm3.times(densityGPerCm3).div(1000);
}

/** Volume, mass and surface of one part of a metal of this density; a weighed part has the volume its mass says. */
export function weigh(
  form: Form,
  densityGPerCm3: number,
  part: string,
): { volumeMm3: Decimal; massG: Decimal; areaMm2: Decimal } {
  if (!(densityGPerCm3 > 0 && densityGPerCm3 < Infinity))
    throw new EngineInputError(`${part}.densityGPerCm3`, densityGPerCm3, '> 0');
  const { volumeMm3, massG = ZERO, areaMm2 } = formSize(form, part);
  if (volumeMm3) return { volumeMm3, massG: massOf(volumeMm3, densityGPerCm3), areaMm2 };
  return { volumeMm3: massG.times(1000).div(densityGPerCm3), massG, areaMm2 };
}
