import type { Contact, Joint } from './design.ts';

/** The ids of the two parts of a joint: the same one twice where it closes a part on itself. */
export function endsOf(joint: Joint): readonly [string, string] {
  return joint.closes === undefined ? [joint.between[0].part, joint.between[1].part] : [joint.closes, joint.closes];
}

/** The ids of the two parts that touch. */
export function contactEndsOf({ between: [a, b] }: Contact): readonly [string, string] {
  return [a.part, b.part];
}
