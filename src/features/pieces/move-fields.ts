import { invalidFields, Problem } from '../../platform/http/problem.ts';

/** Refuses what is sent with a move that it has no use for, all of it by name. */
export function holdToFieldsOfMove(sent: object, extras: readonly string[], taken: readonly string[]): void {
  const given: [string, unknown][] = Object.entries(sent);
  const wrong = given.filter(([name, value]) => value !== undefined && extras.includes(name) && !taken.includes(name));
  if (wrong.length === 0) return;
  throw invalidFields(wrong.map(([name]) => ({ pointer: `/${name}`, detail: `There is no field "${name}" with this move.` })));
}

/** Refuses a move for what is missing, all of it. */
export function holdToMissing(what: string, to: string, missing: readonly string[], more: Record<string, unknown> = {}): void {
  if (missing.length === 0) return;
  throw new Problem('condition-not-met', `Cannot move ${what} to ${to.replaceAll('_', ' ')}: ${missing.join('; ')}`, {
    missing,
    ...more,
  });
}
