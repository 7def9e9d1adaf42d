import type { Form, Place } from './design.ts';

type Axis = 'xMm' | 'yMm' | 'alongMm' | 'acrossMm';
type Range = readonly [fromMm: number, toMm: number];

const AXES: readonly Axis[] = ['xMm', 'yMm', 'alongMm', 'acrossMm'];
/** Of a size typed to the hundredth, what rounding may leave over. */
const ROUNDING_MM = 0.01;

/**
 * What is wrong with a place on a part: an axis that its form does not have, or a position off the metal, by axis.
 *
 * Round a ring or band a position may be counted either way from the seam, so it may be negative. An outline is known by its
 * area alone, so any position near it may be on it.
 */
export function placeFaults(form: Form, place: Place): { axis: Axis; detail: string }[] {
  const axes = axesOf(form);
  const faults = AXES.flatMap((axis) => {
    const at = place[axis];
    if (at === undefined) return [];
    const range = axes[axis];
    if (!range) return [{ axis, detail: `a ${form.kind} has no ${axis}${has(axes)}` }];
    const [fromMm, toMm] = range;
    return at >= fromMm - ROUNDING_MM && at <= toMm + ROUNDING_MM
      ? []
      : [{ axis, detail: `${axis} ${at} is off the metal, which goes from ${print(fromMm)} to ${print(toMm)} mm` }];
  });
  if (faults.length > 0 || !isRound(form)) return faults;
  const fromCentreMm = Math.hypot(place.xMm ?? 0, place.yMm ?? 0);
  const radiusMm = axes.xMm![1];
  return fromCentreMm <= radiusMm + ROUNDING_MM
    ? []
    : [
        {
          axis: 'xMm',
          detail: `it lies ${print(fromCentreMm)} mm from the centre, off the metal, whose radius is ${print(radiusMm)} mm`,
        },
      ];
}

function axesOf(form: Form): Partial<Record<Axis, Range>> {
  switch (form.kind) {
    case 'sheet':
      return { xMm: [0, form.lengthMm], yMm: [0, form.widthMm] };
    case 'disc':
      return across(form.diameterMm);
    case 'washer':
      return across(form.outsideDiameterMm);
    case 'dome':
      return across(form.blankDiameterMm);
    case 'outline':
      // Ten times the square of its area: longer than that it is a wire.
      return across(10 * Math.sqrt(form.areaMm2));
    case 'band':
      return { alongMm: round(form.insideDiameterMm + form.thicknessMm), acrossMm: [0, form.heightMm] };
    case 'wire_ring':
      return { alongMm: round(form.insideDiameterMm + form.diameterMm) };
    case 'square_ring':
      return { alongMm: round(form.meanDiameterMm) };
    case 'cone':
      return { alongMm: [0, form.slantMm] };
    case 'bar':
    case 'round_wire':
    case 'square_wire':
    case 'half_round_wire':
    case 'tube':
      return { alongMm: [0, form.lengthMm] };
    case 'ball':
    case 'weighed':
      return {};
  }
}

/** From the centre of a disc. */
function across(diameterMm: number): Record<'xMm' | 'yMm', Range> {
  const range = [-diameterMm / 2, diameterMm / 2] as const;
  return { xMm: range, yMm: range };
}

/** Either way round from the seam. */
function round(meanDiameterMm: number): Range {
  return [-Math.PI * meanDiameterMm, Math.PI * meanDiameterMm];
}

function isRound({ kind }: Form): boolean {
  return kind === 'disc' || kind === 'washer' || kind === 'dome';
}

function has(axes: Partial<Record<Axis, Range>>): string {
  const names = Object.keys(axes);
  return names.length === 0 ? ': it has just one place' : `; it has ${names.join(' and ')}`;
}

function print(mm: number): number {
  return Number(mm.toFixed(2));
}
