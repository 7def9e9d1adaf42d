/** One value that a line of the journal wrote, by its place in what was written. */
export interface Change {
  path: readonly string[];
  before: unknown;
  after: unknown;
}

/** The values that are not alike before and after; a list is one value. */
export function changesOf(before: unknown, after: unknown): Change[] {
  const [then, now] = [leavesOf(before), leavesOf(after)];
  const places = new Map([...then, ...now].map(([place, { path }]) => [place, path]));
  return [...places].flatMap(([place, path]) => {
    const change = { path, before: then.get(place)?.value, after: now.get(place)?.value };
    return JSON.stringify(change.before ?? null) === JSON.stringify(change.after ?? null) ? [] : [change];
  });
}

interface Leaf {
  path: readonly string[];
  value: unknown;
}

function leavesOf(value: unknown, path: readonly string[] = []): Map<string, Leaf> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return new Map([[path.join('.'), { path, value }]]);
  return new Map(Object.entries(value).flatMap(([name, member]) => [...leavesOf(member, [...path, name])]));
}
