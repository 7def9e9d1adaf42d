import type { Contact, DesignRules, FormKind, Joint, Part, Place } from '../../../../shared/design/design.ts';

/** A part while it is drawn: sizes may still be missing. */
export type DraftPart = Omit<Part, 'form' | 'hollow'> & { form: DraftForm; hollow?: { ventMm?: number } };
export type DraftForm = { kind: FormKind } & Readonly<Record<string, unknown>>;
export type JointKindName = Joint['kind'];
export type DraftJoint = {
  id: string;
  kind: JointKindName;
  name?: string;
  closes?: string;
  between?: readonly [Place, Place];
  count?: number;
  made?: { solder: 'unknown' | Readonly<Record<string, unknown>> };
} & Readonly<Record<string, unknown>>;

/** What is sent, as far as it goes; whatever was typed in another unit stands in `entered`, by pointer. */
export interface Draft {
  parts: readonly DraftPart[];
  joints: readonly DraftJoint[];
  contacts?: readonly Contact[];
  rules?: DesignRules;
  entered: Readonly<Record<string, string>>;
}

export const EMPTY: Draft = { parts: [], joints: [], entered: {} };

/** What a draft holds at a JSON pointer. @source RFC 6901 */
export function at(draft: Draft, pointer: string): unknown {
  return stepsOf(pointer).reduce<unknown>((node, step) => (node as Record<string, unknown> | undefined)?.[step], draft);
}

/** The draft with another value at a pointer; undefined takes what is there away. What was typed for what stays the same stays. */
export function put(draft: Draft, pointer: string, value: unknown, typed: string | null = null): Draft {
  const next = putAt(draft, stepsOf(pointer), value) as Draft;
  const kept = Object.entries(draft.entered).filter(
    ([one]) => one !== pointer && !(one.startsWith(`${pointer}/`) && at(next, one) !== at(draft, one)),
  );
  return { ...next, entered: Object.fromEntries(typed === null ? kept : [...kept, [pointer, typed]]) };
}

function putAt(node: unknown, [step, ...rest]: readonly string[], value: unknown): unknown {
  if (step === undefined) return value;
  if (Array.isArray(node)) {
    const list = [...(node as readonly unknown[])];
    if (rest.length === 0 && value === undefined) list.splice(Number(step), 1);
    else list[Number(step)] = putAt(list[Number(step)], rest, value);
    return list;
  }
  const { [step]: before, ...others } = (node ?? {}) as Record<string, unknown>;
  const after = putAt(before, rest, value);
  return after === undefined ? others : { ...others, [step]: after };
}

function stepsOf(pointer: string): string[] {
  return pointer
    .split('/')
    .slice(1)
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
}

type ListName = 'parts' | 'joints';

/** Without one part or joint; what was typed for those after it moves up with them. */
export function without(draft: Draft, list: ListName, index: number): Draft {
  const entered = Object.entries(draft.entered).flatMap(([pointer, typed]): [string, string][] => {
    const [, name, place, ...rest] = pointer.split('/');
    if (name !== list || Number(place) < index) return [[pointer, typed]];
    return Number(place) === index ? [] : [[`/${list}/${Number(place) - 1}/${rest.join('/')}`, typed]];
  });
  return { ...draft, [list]: draft[list].filter((_, i) => i !== index), entered: Object.fromEntries(entered) };
}

/** With a copy of one part or joint at the end, under an id of its own. */
export function withCopy(draft: Draft, list: ListName, index: number): Draft {
  const one = draft[list][index]!;
  const copy = { ...one, id: freeId(draft[list], one.id.replace(/-\d+$/, '')) };
  const from = `/${list}/${index}/`;
  const entered = Object.entries(draft.entered)
    .filter(([pointer]) => pointer.startsWith(from))
    .map(([pointer, typed]) => [`/${list}/${draft[list].length}/${pointer.slice(from.length)}`, typed] as const);
  return { ...draft, [list]: [...draft[list], copy], entered: { ...draft.entered, ...Object.fromEntries(entered) } };
}

/** An id that none of them has: the word itself, or with a number. */
export function freeId(things: readonly { id: string }[], word: string): string {
  const taken = new Set(things.map(({ id }) => id));
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? word : `${word}-${number}`;
    if (!taken.has(id)) return id;
  }
}
