import type { Form } from '../../../../shared/design/design.ts';
import { EngineInputError } from '../../../../shared/engine-input-error.ts';
import { weigh } from '../../../../shared/forms/form-size.ts';
import type { ReplyOf } from '../../api/reply.ts';
import type { Draft, DraftPart } from './draft.ts';
import { FORM_SIZES } from './sizes.ts';

export type MetalOfBook = ReplyOf<'/api/v1/metals'>['items'][number];

/** What a part weighs, all of its count together; null while a size or its metal is missing, or they are no solid. */
export function weighPart({ id, form, metal, count = 1 }: DraftPart, metals: readonly MetalOfBook[]): number | null {
  const whole = wholeForm(form);
  const density = typeof metal === 'object' ? metal.densityGPerCm3 : metals.find((one) => one.id === metal)?.densityGPerCm3.value;
  if (whole === null || density === undefined) return null;
  return unlessRefused(() => weigh(whole, density, id).massG.times(count).toNumber());
}

/** What the parts weigh that can be weighed, and how many cannot yet. */
export function weighDraft({ parts }: Draft, metals: readonly MetalOfBook[]): { totalG: number; open: number } {
  const weights = parts.map((part) => weighPart(part, metals));
  return {
    totalG: weights.reduce<number>((sum, grams) => sum + (grams ?? 0), 0),
    open: weights.filter((grams) => grams === null).length,
  };
}

/** A shape with all its sizes; null while one is missing. */
export function wholeForm(form: DraftPart['form']): Form | null {
  return FORM_SIZES[form.kind].every((size) => typeof form[size] === 'number') ? (form as unknown as Form) : null;
}

/** Null for what the engine cannot use. */
export function unlessRefused<T>(look: () => T): T | null {
  try {
    return look();
  } catch (error) {
    if (error instanceof EngineInputError) return null;
    throw error;
  }
}
