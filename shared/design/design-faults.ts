import { EngineInputError } from '../engine-input-error.ts';
import { formSize } from '../forms/form-size.ts';
import { getMetal } from '../materials/metal.ts';
import type { Contact, Design, Joint, Part, Place } from './design.ts';
import { placeFaults } from './place-faults.ts';

export interface DesignFault {
  /** JSON pointer into the design. */
  pointer: string;
  detail: string;
}

/**
 * Everything that keeps a design from being a piece: ids given twice or naming nothing, metals in no table, sizes that are no
 * solid (a tube with no wall), rules that run in a circle. An empty list: it can be weighed, planned and heated.
 *
 * @param design one whose fields have the right shape; it is not changed
 * @returns all faults, in the order of the design; each detail is a sentence for a person
 */
export function designFaults(design: Design): DesignFault[] {
  const circle = circleIn(design.rules?.before ?? []);
  const detail = `${circle?.join(' before ')}: the order runs in a circle`;
  return [...pieceFaults(design), ...ruleNameFaults(design), ...(circle ? [{ pointer: '/rules/before', detail }] : [])];
}

/** Those of its parts, joints and contacts alone. */
export function pieceFaults(design: Design): DesignFault[] {
  return [
    ...repeated(design.parts, 'part'),
    ...repeated(design.joints, 'joint'),
    ...design.parts.flatMap(partFaults),
    ...design.joints.flatMap((joint, index) => jointFaults(design, joint, index)),
    ...(design.contacts ?? []).flatMap((contact, index) => contactFaults(design, contact, index)),
  ];
}

/** Ids that another has taken; the copies of a counted thing (grain.1, grain.2) take theirs as well. */
function repeated(things: Design['parts'] | Design['joints'], what: 'part' | 'joint'): DesignFault[] {
  const taken = new Set<string>();
  return things.flatMap((thing, index) => {
    const claims = idsOf(thing);
    const isTaken = claims.some((id) => taken.has(id));
    for (const id of claims) taken.add(id);
    return isTaken
      ? [{ pointer: `/${what}s/${index}/id`, detail: `There are two ${what}s ${thing.id}: give each its own id` }]
      : [];
  });
}

/** The id a thing was given, and those of its copies. */
export function idsOf({ id, count = 1 }: { id: string; count?: number }): string[] {
  return count === 1 ? [id] : [id, ...Array.from({ length: count }, (_, i) => `${id}.${i + 1}`)];
}

function partFaults(part: Part, index: number): DesignFault[] {
  const faults: DesignFault[] = [];
  const metal = refusalOf(() => getMetal(part.metal));
  if (metal) faults.push({ pointer: `/parts/${index}/metal`, detail: `Part ${part.id}: ${metal}` });
  const form = refusalOf(() => formSize(part.form, part.id));
  if (form) faults.push({ pointer: `/parts/${index}/form`, detail: `Part ${part.id}: ${form}` });
  return faults;
}

function refusalOf(look: () => unknown): string | null {
  try {
    look();
    return null;
  } catch (error) {
    if (error instanceof EngineInputError) return error.message;
    throw error;
  }
}

function jointFaults({ parts }: Design, joint: Joint, index: number): DesignFault[] {
  const unknown = (pointer: string, part: string): DesignFault[] =>
    parts.some((one) => idsOf(one).includes(part))
      ? []
      : [{ pointer: `/joints/${index}/${pointer}`, detail: `Joint ${joint.id} lies on part ${part}: there is no such part` }];
  if (joint.closes !== undefined) return unknown('closes', joint.closes);
  return joint.between.flatMap((place, side) => [
    ...unknown(`between/${side}/part`, place.part),
    ...offTheMetal(parts, place, `/joints/${index}/between/${side}`),
  ]);
}

function offTheMetal(parts: Design['parts'], place: Place, pointer: string): DesignFault[] {
  const form = parts.find((part) => idsOf(part).includes(place.part))?.form;
  // Sizes that are no solid are told by themselves.
  if (!form || refusalOf(() => formSize(form, place.part))) return [];
  return placeFaults(form, place).map(({ axis, detail }) => ({
    pointer: `${pointer}/${axis}`,
    detail: `This is no place on part ${place.part}: ${detail}`,
  }));
}

function contactFaults({ parts }: Design, { between }: Contact, index: number): DesignFault[] {
  const known = new Set(parts.flatMap(idsOf));
  return between.flatMap((place, side) =>
    known.has(place.part)
      ? offTheMetal(parts, place, `/contacts/${index}/between/${side}`)
      : [
          {
            pointer: `/contacts/${index}/between/${side}/part`,
            detail: `A contact lies on part ${place.part}: there is no such part`,
          },
        ],
  );
}

/** Joints that a rule names and that are not there. */
export function ruleNameFaults({ joints, rules = {} }: Design): DesignFault[] {
  const known = new Set<string>(joints.flatMap(idsOf));
  const faults: DesignFault[] = [];
  for (const name of ['before', 'sameHeat', 'notSameHeat'] as const) {
    for (const [index, ids] of (rules[name] ?? []).entries()) {
      for (const [at, id] of ids.entries()) {
        if (!known.has(id))
          faults.push({
            pointer: `/rules/${name}/${index}/${at}`,
            detail: `The rule names joint ${id}: there is no such joint`,
          });
      }
    }
  }
  for (const id of Object.keys(rules.grades ?? {})) {
    if (!known.has(id))
      faults.push({
        pointer: `/rules/grades/${escapePointer(id)}`,
        detail: `The rule names joint ${id}: there is no such joint`,
      });
  }
  return faults;
}

/** A name as one step of a JSON pointer. @source RFC 6901, section 3 */
export const escapePointer = (id: string): string => id.replaceAll('~', '~0').replaceAll('/', '~1');

/** A way from a joint back to itself along "before"; null where there is none. */
function circleIn(before: readonly (readonly [string, string])[]): string[] | null {
  const done = new Set<string>();
  const walk = (id: string, way: string[]): string[] | null => {
    if (way.includes(id)) return [...way.slice(way.indexOf(id)), id];
    if (done.has(id)) return null;
    for (const [earlier, later] of before) {
      const found = earlier === id ? walk(later, [...way, id]) : null;
      if (found) return found;
    }
    done.add(id);
    return null;
  };
  for (const [earlier] of before) {
    const found = walk(earlier, []);
    if (found) return found;
  }
  return null;
}
