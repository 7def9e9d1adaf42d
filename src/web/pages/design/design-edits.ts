import type { DesignRules, Place } from '../../../../shared/design/design.ts';
import type { Picking } from './design-context.ts';
import { put, without, type Draft, type DraftJoint } from './draft.ts';
import { names } from './names.ts';
import { withUsualSizes } from './usual-sizes.ts';

/** Which joints lie on a part. */
export function jointsOn({ joints }: Draft, part: string): DraftJoint[] {
  return joints.filter((joint) => isOn(joint, part));
}

function isOn({ closes, between }: DraftJoint, part: string): boolean {
  return (closes !== undefined && names(closes, part)) || (between ?? []).some((place) => names(place.part, part));
}

/** With another place of a joint or a contact; a joint takes the sizes it lacks from the part it lies on now. */
export function withPlace(draft: Draft, { list, index, side }: Picking, place: Place): Draft {
  const placed = put(draft, `/${list}/${index}/between/${side}`, place);
  return list === 'contacts' ? placed : put(placed, `/joints/${index}`, withUsualSizes(placed.joints[index]!, placed));
}

/** Without a part, and without what lies on it. */
export function withoutPart(draft: Draft, index: number): Draft {
  const { id } = draft.parts[index]!;
  let left = draft;
  for (let joint = draft.joints.length - 1; joint >= 0; joint -= 1)
    if (isOn(draft.joints[joint]!, id)) left = withoutJoint(left, joint);
  const contacts = left.contacts?.filter(({ between }) => !between.some(({ part }) => names(part, id)));
  return without({ ...left, ...(contacts && { contacts }) }, 'parts', index);
}

/** Without a joint, and without what the rules say of it. */
export function withoutJoint(draft: Draft, index: number): Draft {
  const { id } = draft.joints[index]!;
  return { ...without(draft, 'joints', index), ...(draft.rules && { rules: rulesWithout(draft.rules, id) }) };
}

function rulesWithout(rules: DesignRules, id: string): DesignRules {
  const isOther = (one: string) => !names(one, id);
  const together = (sets: DesignRules['sameHeat']) =>
    sets?.map((set) => set.filter(isOther)).filter((set) => set.length > 1) ?? [];
  return {
    ...rules,
    ...(rules.before && { before: rules.before.filter((pair) => pair.every(isOther)) }),
    ...(rules.sameHeat && { sameHeat: together(rules.sameHeat) }),
    ...(rules.notSameHeat && { notSameHeat: together(rules.notSameHeat) }),
    ...(rules.grades && { grades: Object.fromEntries(Object.entries(rules.grades).filter(([one]) => isOther(one))) }),
  };
}

/** A part under another id, wherever it is named. */
export function withPartRenamed(draft: Draft, index: number, to: string): Draft {
  const from = draft.parts[index]!.id;
  const told = (id: string) => (names(id, from) ? to + id.slice(from.length) : id);
  const places = <T extends { part: string }>(between: readonly [T, T]) =>
    between.map((place) => ({ ...place, part: told(place.part) })) as unknown as readonly [T, T];
  return {
    ...draft,
    parts: draft.parts.map((part, i) => (i === index ? { ...part, id: to } : part)),
    joints: draft.joints.map((joint) => ({
      ...joint,
      ...(joint.closes !== undefined && { closes: told(joint.closes) }),
      ...(joint.between && { between: places(joint.between) }),
    })),
    ...(draft.contacts && { contacts: draft.contacts.map((one) => ({ ...one, between: places(one.between) })) }),
  };
}

/** A joint under another id, in the rules as well. */
export function withJointRenamed(draft: Draft, index: number, to: string): Draft {
  const from = draft.joints[index]!.id;
  const told = (id: string) => (names(id, from) ? to + id.slice(from.length) : id);
  const sets = (given: readonly (readonly string[])[]) => given.map((set) => set.map(told));
  const { rules } = draft;
  return {
    ...draft,
    joints: draft.joints.map((joint, i) => (i === index ? { ...joint, id: to } : joint)),
    ...(rules && {
      rules: {
        ...rules,
        ...(rules.before && { before: sets(rules.before) as unknown as NonNullable<DesignRules['before']> }),
        ...(rules.sameHeat && { sameHeat: sets(rules.sameHeat) }),
        ...(rules.notSameHeat && { notSameHeat: sets(rules.notSameHeat) }),
        ...(rules.grades && {
          grades: Object.fromEntries(Object.entries(rules.grades).map(([id, grade]) => [told(id), grade])),
        }),
      },
    }),
  };
}
