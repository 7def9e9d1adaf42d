/** What of a thing is sent anew: the members that are not as they were. */
export function changedMembers<T extends object>(now: T, before: T): Partial<T> {
  const changed = Object.entries(now).filter(
    ([member, value]) => JSON.stringify(value) !== JSON.stringify(before[member as keyof T]),
  );
  return Object.fromEntries(changed) as Partial<T>;
}
