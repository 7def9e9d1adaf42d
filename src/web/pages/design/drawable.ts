import type { Contact, Design, Joint, Part } from '../../../../shared/design/design.ts';
import { layOutParts, type Layout } from '../../../../shared/drawing/lay-out-parts.ts';
import { formSize } from '../../../../shared/forms/form-size.ts';
import { names } from './names.ts';
import type { Draft } from './draft.ts';
import { unlessRefused, wholeForm } from './weigh-draft.ts';

export interface Drawn extends Layout {
  /** Where in the draft each joint of the drawing stands. */
  indexes: number[];
}

/** The drawing of all that can be drawn yet: parts with all their sizes, joints between two of them; null of none. */
export function layOutDraft(draft: Draft): Drawn | null {
  const parts = new Map<string, Part>();
  for (const part of draft.parts) {
    const form = wholeForm(part.form);
    if (form && !parts.has(part.id) && unlessRefused(() => formSize(form, part.id)))
      parts.set(part.id, { ...part, form } as Part);
  }
  if (parts.size === 0) return null;
  // A place on one of several alike is drawn on the one that stands for them.
  const drawn = (id: string) => [...parts.keys()].find((part) => names(id, part));
  const indexes: number[] = [];
  const joints = draft.joints.flatMap((joint, index): Joint[] => {
    const ends = joint.closes === undefined ? (joint.between ?? []).map(({ part }) => part) : [joint.closes];
    const on = ends.map(drawn);
    if (on.length === 0 || on.includes(undefined)) return [];
    indexes.push(index);
    const between = joint.between?.map((place, side) => ({ ...place, part: on[side]! }));
    return [{ ...joint, ...(between ? { between } : { closes: on[0] }) } as unknown as Joint];
  });
  const contacts = (draft.contacts ?? []).flatMap((contact): Contact[] => {
    const [one, other] = contact.between.map((place) => ({ ...place, part: drawn(place.part) ?? '' }));
    return parts.has(one!.part) && parts.has(other!.part) && one!.part !== other!.part
      ? [{ ...contact, between: [one!, other!] }]
      : [];
  });
  const design: Design = { parts: [...parts.values()], joints, contacts };
  return { ...layOutParts(design), indexes };
}
