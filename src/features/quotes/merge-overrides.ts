import { escapePointer } from '../../platform/http/fences.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { isRecord, mergePatch } from '../../platform/merge-patch.ts';

/** Lists of a request whose members have names, and the field that names them. */
const NAMED_BY = { metals: 'id', solders: 'id', labour: 'operation', passThrough: 'id' } as const;
const LISTS = Object.keys(NAMED_BY) as (keyof typeof NAMED_BY)[];

type Overrides = Readonly<Record<string, unknown>>;

/**
 * JSON Merge Patch, in which a list may also be patched member by member, under their names:
 * {"labour": {"polishing": {"minutes": 20}}}. null takes a member out, an unknown name adds one; a list replaces the list.
 */
export function mergeOverrides(target: unknown, overrides: Overrides): unknown {
  const lists = LISTS.filter((name) => isRecord(target) && Array.isArray(target[name]) && isRecord(overrides[name]));
  const rest = Object.fromEntries(Object.entries(overrides).filter(([name]) => !(lists as string[]).includes(name)));
  const merged = mergePatch(target, rest) as Record<string, unknown>;
  for (const name of lists) {
    const members = (target as Record<string, unknown[]>)[name]!;
    merged[name] = patched(members, overrides[name] as Record<string, unknown>, NAMED_BY[name]);
  }
  return merged;
}

function patched(members: readonly unknown[], patch: Record<string, unknown>, named: string): unknown[] {
  const nameOf = (member: unknown) => String((member as Record<string, unknown>)[named]);
  const names = new Set(members.map(nameOf));
  return [
    ...members
      .filter((member) => patch[nameOf(member)] !== null)
      .map((member) => (Object.hasOwn(patch, nameOf(member)) ? mergePatch(member, patch[nameOf(member)]) : member)),
    ...Object.entries(patch)
      .filter(([name, member]) => !names.has(name) && member !== null)
      .map(([name, member]) => (isRecord(member) ? { [named]: name, ...member } : member)),
  ];
}

/** Points to members by the names they were sent under, not by where they came to stand. */
export function pointByName(errors: readonly FieldError[], merged: unknown, overrides: Overrides): FieldError[] {
  return errors.map((error) => {
    const [, , list = '', index = '', ...rest] = error.pointer.split('/');
    const named = NAMED_BY[list as keyof typeof NAMED_BY] as string | undefined;
    if (named === undefined || !isRecord(overrides[list]) || !isRecord(merged)) return error;
    const name = (merged[list] as Record<string, unknown>[])[Number(index)]?.[named];
    return typeof name === 'string' ? { ...error, pointer: ['/overrides', list, escapePointer(name), ...rest].join('/') } : error;
  });
}
