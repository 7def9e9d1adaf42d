import { escapePointer } from './fences.ts';
import type { FieldError } from './problem.ts';

/** Wider than any list or table of the book, and far from what would exhaust the stack of who looks into it. */
const MOST_MEMBERS = 10_000;
/** Deeper than any body goes; what lies below is refused by its schema without being looked at. */
const MOST_DEEP = 20;

/** Every list and table of a body that holds more than anything here takes. */
export function widthErrors(value: unknown, pointer = '', depth = 0): FieldError[] {
  if (typeof value !== 'object' || value === null || depth > MOST_DEEP) return [];
  const names = Object.keys(value);
  if (names.length > MOST_MEMBERS) {
    return [{ pointer, detail: `It holds ${names.length} members; nothing here takes more than ${MOST_MEMBERS}.` }];
  }
  return names.flatMap((name) =>
    widthErrors((value as Record<string, unknown>)[name], `${pointer}/${escapePointer(name)}`, depth + 1),
  );
}
