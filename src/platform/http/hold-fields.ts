import type { Confirmation } from '../db/json-columns.ts';
import { invalidFields, type FieldError } from './problem.ts';

/** Refuses, all at once, what a service found wrong with fields, save what may be confirmed and was. */
export function holdFields(errors: readonly FieldError[], confirmed: Confirmation | null): void {
  const left = errors.filter(({ confirmable, pointer }) => !confirmable || !confirmed?.pointers.includes(pointer));
  if (left.length > 0) throw invalidFields(left);
}
