import { EngineInputError } from '../engine-input-error.ts';
import type { Contact, Design, DesignRules, Joint, Part, Place } from './design.ts';
import type { Heat, Protection, SinkPlace } from './plan.ts';

/** A design of single parts and joints, and what became of each id. Parts and joints may share an id; they are told apart. */
export interface ExpandedDesign {
  design: Design;
  /** Copies of a part by the id it was entered with (or the id of one copy); throws EngineInputError for an unknown one. */
  partsOf: (id: string) => readonly string[];
  jointsOf: (id: string) => readonly string[];
}

type Copies = ReadonlyMap<string, readonly string[]>;

function copiesOf(things: readonly { id: string; count?: number }[], what: string): Copies {
  const copies = new Map<string, readonly string[]>();
  const taken = new Set<string>();
  for (const { id, count = 1 } of things) {
    if (!(Number.isInteger(count) && count >= 1 && count <= 1000))
      throw new EngineInputError(`count of ${what} ${id}`, count, 'a whole number, 1 to 1000');
    const ids = count === 1 ? [id] : Array.from({ length: count }, (_, i) => `${id}.${i + 1}`);
    if (copies.has(id)) throw new EngineInputError(`id of a ${what}`, id, 'used once');
    copies.set(id, ids);
    for (const copy of ids) {
      if (taken.has(copy)) throw new EngineInputError(`id of a ${what}`, copy, 'used once');
      taken.add(copy);
    }
  }
  for (const copy of taken) if (!copies.has(copy)) copies.set(copy, [copy]);
  return copies;
}

function lookUp(copies: Copies, what: string): (id: string) => readonly string[] {
  return (id) => {
    const found = copies.get(id);
    if (!found) throw new EngineInputError(what, id, `one of ${[...copies.keys()].join(', ')}`);
    return found;
  };
}

/** Every way of taking one copy of each. */
function products(lists: readonly (readonly string[])[]): string[][] {
  return lists.reduce<string[][]>((all, list) => all.flatMap((some) => list.map((id) => [...some, id])), [[]]);
}

/** Ids of two different entries that may not share a heat: each copy of one against each of the other, never copies of one entry. */
function pairsApart(ids: readonly string[], jointsOf: (id: string) => readonly string[]): string[][] {
  return ids.flatMap((a, i) => ids.slice(i + 1).flatMap((b) => products([jointsOf(a), jointsOf(b)])));
}

function expandRules(rules: DesignRules, jointsOf: (id: string) => readonly string[]): DesignRules {
  const expanded: DesignRules = { ...rules };
  if (rules.before)
    expanded.before = rules.before.flatMap(([a, b]) => products([jointsOf(a), jointsOf(b)]).map(([x, y]) => [x!, y!] as const));
  if (rules.sameHeat) expanded.sameHeat = rules.sameHeat.map((group) => group.flatMap((id) => jointsOf(id)));
  if (rules.notSameHeat) expanded.notSameHeat = rules.notSameHeat.flatMap((group) => pairsApart(group, jointsOf));
  if (rules.grades) {
    expanded.grades = Object.fromEntries(
      Object.entries(rules.grades).flatMap(([id, rule]) => jointsOf(id).map((copy) => [copy, rule])),
    );
  }
  return expanded;
}

/**
 * Single parts and joints in place of counts: a part `grain` with count 3 becomes `grain.1`, `grain.2`, `grain.3`, a joint likewise;
 * count 1 keeps its id.
 *
 * Copy i of a joint attaches to copy i of a part that has one, and to the first copy otherwise: three joints between one plate and
 * three grains join the plate to each grain; a contact likewise, once for each copy of its more numerous part. Parts that no joint
 * names stay. In the rules an id stands for all its copies; *not the same heat* keeps copies of different entries apart, not the
 * copies of one.
 *
 * @throws {EngineInputError} for an unknown or repeated id, or a count that is not a whole number from 1 to 1000
 */
export function expandDesign(design: Design): ExpandedDesign {
  const partsOf = lookUp(copiesOf(design.parts, 'part'), 'part');
  const jointsOf = lookUp(copiesOf(design.joints, 'joint'), 'joint');
  const copyFor = (part: string, i: number) => {
    const copies = partsOf(part);
    return copies[i] ?? copies[0]!;
  };
  const placed = (place: Place, i: number): Place => ({ ...place, part: copyFor(place.part, i) });
  const parts = design.parts.flatMap((part): Part[] => partsOf(part.id).map((id) => ({ ...withoutCount(part), id })));
  const joints = design.joints.flatMap((joint): Joint[] =>
    jointsOf(joint.id).map((id, i) => {
      const single = { ...withoutCount(joint), id };
      return single.closes === undefined
        ? { ...single, between: [placed(single.between[0], i), placed(single.between[1], i)] as const }
        : { ...single, closes: copyFor(single.closes, i) };
    }),
  );
  const expanded: Design = { parts, joints };
  if (design.contacts) {
    expanded.contacts = design.contacts.flatMap((contact): Contact[] => {
      const [a, b] = contact.between;
      const count = Math.max(partsOf(a.part).length, partsOf(b.part).length);
      return Array.from({ length: count }, (_, i) => ({ ...contact, between: [placed(a, i), placed(b, i)] }));
    });
  }
  if (design.rules) expanded.rules = expandRules(design.rules, jointsOf);
  return { design: expanded, partsOf, jointsOf };
}

function withoutCount<T extends { count?: number }>(thing: T): T {
  const { count: _, ...single } = thing;
  return single as T;
}

/**
 * A heat in the ids of the expanded design: an id of the design as entered stands for all its copies, and a sink or shield on it is
 * set on each. Where one place is meant (where the flame points or leans), the first copy is.
 *
 * @throws {EngineInputError} for an id that is neither a joint nor, where one may stand, a part
 */
export function expandHeat(heat: Heat, { partsOf, jointsOf }: ExpandedDesign): Heat {
  const either = (id: string): readonly string[] => {
    try {
      return jointsOf(id);
    } catch {
      return partsOf(id);
    }
  };
  const places = (at: SinkPlace): SinkPlace[] =>
    'joint' in at ? jointsOf(at.joint).map((joint) => ({ joint })) : partsOf(at.part).map((part) => ({ ...at, part }));
  const expanded: Heat = { ...heat, joints: heat.joints.flatMap((id) => jointsOf(id)) };
  if (heat.protections) {
    expanded.protections = heat.protections.flatMap((protection): Protection[] =>
      protection.kind === 'sink'
        ? places(protection.at).map((at) => ({ ...protection, at }))
        : either(protection.guards).map((guards) => ({ ...protection, guards })),
    );
  }
  if (heat.flame) {
    const { towards, awayFrom, aim } = heat.flame;
    expanded.flame = {
      ...heat.flame,
      ...(towards !== undefined && { towards: either(towards)[0]! }),
      ...(awayFrom !== undefined && { awayFrom: either(awayFrom)[0]! }),
      ...(aim && { aim: { ...aim, part: partsOf(aim.part)[0]! } }),
    };
  }
  return expanded;
}
