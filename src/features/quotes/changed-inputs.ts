import { isRecord } from '../../platform/merge-patch.ts';

export interface ChangedInput {
  /** Names from the outside in; what stands in a list goes by its id or operation. */
  input: string;
  before: unknown;
  after: unknown;
}

/** Everything that two requests do not have alike, leaf by leaf; what only one of them has is null in the other. */
export function changedInputs(before: unknown, after: unknown, at: readonly string[] = []): ChangedInput[] {
  const [was, is] = [named(before), named(after)];
  if (was === null || is === null)
    return JSON.stringify(before) === JSON.stringify(after)
      ? []
      : [{ input: at.join('.'), before: before ?? null, after: after ?? null }];
  const names = new Set([...Object.keys(was), ...Object.keys(is)]);
  return [...names].flatMap((name) => changedInputs(was[name], is[name], [...at, name]));
}

/** A record, or a list whose members have names, as one. */
function named(value: unknown): Record<string, unknown> | null {
  if (isRecord(value)) return value;
  if (!Array.isArray(value)) return null;
  const entries = value.map((one: unknown): [unknown, unknown] => [
    isRecord(one) ? (one['id'] ?? one['operation']) : undefined,
    one,
  ]);
  const names = new Set(entries.map(([name]) => name));
  if (names.size < entries.length || names.has(undefined)) return null;
  return Object.fromEntries(entries.map(([name, one]) => [String(name), one]));
}
