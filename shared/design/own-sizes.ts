import { idsOf } from './design-faults.ts';
import type { Form, JointSizes, Part, Place } from './design.ts';

type Placed = JointSizes & { between?: readonly [Place, Place] | undefined; closes?: string | undefined };
type FormOf = (partId: string) => Form | undefined;

/** Finds the form of a part by its id or that of one of its copies; of two with one id the first. */
export function formFinder(parts: readonly Pick<Part, 'id' | 'form' | 'count'>[]): FormOf {
  let forms: Map<string, Form> | undefined;
  // Most joints have all their sizes, so most often nothing is looked for.
  return (id) => (forms ??= new Map(parts.toReversed().flatMap((part) => idsOf(part).map((one) => [one, part.form])))).get(id);
}

/**
 * A joint with the sizes it leaves out, as the parts it joins have them: the circle and wall of the band that a loop base
 * stands on, the thickness of the wire that a jump ring closes. What no part tells stays left out.
 *
 * A square wire counts as the round one of the same section.
 */
export function withOwnSizes<J extends Placed>(joint: J, formOf: FormOf): J {
  if (joint.kind === 'jump_ring' && joint.diameterMm === undefined) {
    const diameterMm = sidesOf(joint, formOf)
      .map(({ form }) => wireMm(form))
      .find((mm) => mm !== undefined);
    return diameterMm === undefined ? joint : { ...joint, diameterMm };
  }
  if (joint.kind === 'loop_base' && (joint.insideDiameterMm === undefined || joint.thicknessMm === undefined)) {
    const own = sidesOf(joint, formOf)
      .map(({ form, place }) => loopOf(form, place))
      .find((loop) => loop !== undefined);
    return { ...own, ...joint };
  }
  return joint;
}

function sidesOf({ between, closes }: Placed, formOf: FormOf): { form: Form; place: Place }[] {
  const places = between ?? (closes === undefined ? [] : [{ part: closes }]);
  return places.flatMap((place) => {
    const form = formOf(place.part);
    return form ? [{ form, place }] : [];
  });
}

function wireMm(form: Form): number | undefined {
  if (form.kind === 'wire_ring' || form.kind === 'round_wire') return form.diameterMm;
  if (form.kind === 'square_ring' || form.kind === 'square_wire') return (2 * form.sideMm) / Math.sqrt(Math.PI);
  return undefined;
}

/** The circle that a hollow form stands on. */
function loopOf(form: Form, place: Place): { insideDiameterMm: number; thicknessMm: number } | undefined {
  switch (form.kind) {
    case 'band':
      return { insideDiameterMm: form.insideDiameterMm, thicknessMm: form.thicknessMm };
    case 'cone': {
      const meanMm = (place.alongMm ?? 0) > form.slantMm / 2 ? form.largeDiameterMm : form.smallDiameterMm;
      return { insideDiameterMm: meanMm - form.thicknessMm, thicknessMm: form.thicknessMm };
    }
    case 'tube':
      return { insideDiameterMm: form.insideDiameterMm, thicknessMm: (form.outsideDiameterMm - form.insideDiameterMm) / 2 };
    case 'wire_ring':
      return { insideDiameterMm: form.insideDiameterMm, thicknessMm: form.diameterMm };
    case 'square_ring':
      return { insideDiameterMm: form.meanDiameterMm - form.sideMm, thicknessMm: form.sideMm };
    case 'sheet':
    case 'disc':
    case 'outline':
    case 'washer':
    case 'bar':
    case 'round_wire':
    case 'square_wire':
    case 'half_round_wire':
    case 'dome':
    case 'ball':
    case 'weighed':
      return undefined;
  }
}
