/** How the parts of a design hang together through its joints, and what an id of the unexpanded design stands for. */

import type { Design, Joint } from '../design/design.ts';
import { contactEndsOf, endsOf } from '../design/joint-ends.ts';

export interface Fire {
  /** Parts in the fire, in the order of the design. */
  parts: readonly string[];
  targets: readonly string[];
  /** Joints made earlier that are in the fire. */
  made: readonly string[];
  /** Targets that do not hang together with the first one. */
  apart: readonly string[];
}

/**
 * What is in the fire when the targets are made: all that the joints made so far, the targets themselves and loose contacts connect.
 * A chain is heated as it hangs: whether its other links are closed yet or not, they are in the fire with all that is joined to them.
 */
export function fireOf(design: Design, made: Iterable<string>, targets: readonly string[]): Fire {
  const madeIds = new Set(made);
  const present = design.joints.filter(({ id }) => madeIds.has(id) || targets.includes(id));
  const holds = [...present.map(endsOf), ...(design.contacts ?? []).map(contactEndsOf)];
  const first = present.find(({ id }) => id === targets[0]);
  const reached = new Set<string>(first ? endsOf(first) : []);
  for (let size = -1; size !== reached.size;) {
    size = reached.size;
    for (const ends of holds) {
      if (ends.some((part) => reached.has(part))) for (const part of ends) reached.add(part);
    }
  }
  const inFire = (joint: Joint): boolean => reached.has(endsOf(joint)[0]);
  return {
    targets,
    parts: design.parts.map(({ id }) => id).filter((id) => reached.has(id)),
    made: present.filter((joint) => madeIds.has(joint.id) && inFire(joint)).map(({ id }) => id),
    apart: present.filter((joint) => targets.includes(joint.id) && !inFire(joint)).map(({ id }) => id),
  };
}

/** The copies of a joint by the id it was given with, or by the id of one copy. */
export type JointsOf = (id: string) => readonly string[];

/** Names a set of expanded joints by the ids of the design, where all copies of one are there. */
export function nameTogether(given: Design, jointsOf: JointsOf, ids: readonly string[]): string[] {
  const left = new Set(ids);
  const names: string[] = [];
  for (const { id } of given.joints) {
    const own = jointsOf(id);
    if (!own.every((copy) => left.has(copy))) continue;
    names.push(id);
    for (const copy of own) left.delete(copy);
  }
  return [...names, ...left];
}
