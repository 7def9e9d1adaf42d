import type { Form } from '../../../../shared/design/design.ts';
import { names } from './names.ts';
import type { Draft, DraftJoint } from './draft.ts';
import { wholeForm } from './weigh-draft.ts';

/** A joint with the sizes it lacks as its parts have them, where they tell: the height of a band that a seam closes, the wire of a post. */
export function withUsualSizes(joint: DraftJoint, { parts }: Draft): DraftJoint {
  const ends = joint.closes === undefined ? (joint.between ?? []).map(({ part }) => part) : [joint.closes];
  const forms = ends.flatMap((id) => {
    const part = parts.find((one) => names(id, one.id));
    const form = part && wholeForm(part.form);
    return form ? [form] : [];
  });
  const told = forms.map((form) => sizesFrom(joint.kind, form));
  return { ...Object.assign({}, ...told), ...joint } as DraftJoint;
}

function sizesFrom(kind: DraftJoint['kind'], form: Form): Readonly<Record<string, number>> {
  switch (kind) {
    case 'seam':
      if (form.kind === 'band') return { lengthMm: form.heightMm, thicknessMm: form.thicknessMm };
      if (form.kind === 'cone') return { lengthMm: form.slantMm, thicknessMm: form.thicknessMm };
      return form.kind === 'tube'
        ? { lengthMm: form.lengthMm, thicknessMm: (form.outsideDiameterMm - form.insideDiameterMm) / 2 }
        : {};
    case 'butt':
      if (form.kind === 'square_wire' || form.kind === 'square_ring') return { widthMm: form.sideMm, thicknessMm: form.sideMm };
      return form.kind === 'bar' ? { widthMm: form.widthMm, thicknessMm: form.thicknessMm } : {};
    case 'tee':
      if (form.kind === 'wire_ring' || form.kind === 'round_wire')
        return { lengthMm: form.diameterMm, thicknessMm: form.diameterMm };
      if (form.kind === 'bar') return { lengthMm: form.widthMm, thicknessMm: form.thicknessMm };
      return form.kind === 'square_wire' || form.kind === 'square_ring'
        ? { lengthMm: form.sideMm, thicknessMm: form.sideMm }
        : {};
    case 'post':
      return form.kind === 'round_wire' ? { diameterMm: form.diameterMm } : {};
    case 'granule':
      return form.kind === 'ball' ? { diameterMm: form.diameterMm } : {};
    // The recipe takes those of a wall or a wire from the part itself.
    case 'loop_base':
    case 'jump_ring':
    case 'lap':
      return {};
  }
}
