import { z } from 'zod';
import { checkFence, type FenceOutcome } from '../../../shared/limits/check-fence.ts';
import { FENCES, type Fence } from '../../../shared/limits/fences.ts';
import { isRecord } from '../merge-patch.ts';
import type { FieldError } from './problem.ts';

/** Which fence of the table of limits a field is held to. */
interface FenceName {
  thing: string;
  field: string;
}

const fences = z.registry<FenceName>();

/** A field that is held to the refuse and ask fences of the table of limits, and is described with them. */
export function fenced<Thing extends keyof typeof FENCES, Schema extends z.ZodType>(
  thing: Thing,
  field: keyof (typeof FENCES)[Thing] & string,
  schema: Schema,
): Schema {
  const fence: Fence = FENCES[thing][field] as Fence;
  const described = schema.meta({
    ...(fence.refuseBelow === undefined ? {} : { minimum: fence.refuseBelow }),
    ...(fence.refuseAbove === undefined ? {} : { maximum: fence.refuseAbove }),
    ...usual(fence),
  });
  fences.add(described, { thing, field });
  return described;
}

/** The member of the API's document that tells what is asked about. */
export const USUAL = 'x-usual';

function usual({ askBelow, askAbove, unit = '' }: Fence): Record<string, string> {
  const range = [
    ...(askBelow === undefined ? [] : [`under ${askBelow}`]),
    ...(askAbove === undefined ? [] : [`over ${askAbove}`]),
  ].join(' or ');
  return range === '' ? {} : { [USUAL]: `To be confirmed ${range} ${unit}`.trim() + '.' };
}

/**
 * Every fence that a value stands outside of, wherever it is in the body; works on a body whose shape is wrong, so that
 * all bad fields can be told at once.
 *
 * @param stored what is kept now: a field that has not changed is not asked about again
 */
export function fenceErrors(schema: z.ZodType, value: unknown, stored?: unknown, pointer = ''): FieldError[] {
  if (value === undefined || value === null) return [];
  const fence = fences.get(schema);
  if (fence && typeof value === 'number') {
    if (stored === value) return [];
    return fenceError(pointer, checkFence(fence.thing, fence.field, value), value);
  }
  return children(schema, value).flatMap(([key, child, childValue]) =>
    fenceErrors(
      child,
      childValue,
      key === null ? stored : member(stored, key),
      key === null ? pointer : `${pointer}/${escapePointer(key)}`,
    ),
  );
}

/** What a fence says, as the errors of a request have it. */
export function fenceError(pointer: string, found: FenceOutcome, given: unknown): FieldError[] {
  if (found.outcome === 'ok') return [];
  return [
    {
      pointer,
      detail: found.says,
      given,
      ...(found.unit === undefined ? {} : { unit: found.unit }),
      ...(found.perhaps === undefined ? {} : { perhaps: found.perhaps }),
      ...(found.outcome === 'ask' ? { confirmable: true } : {}),
    },
  ];
}

export function escapePointer(key: string): string {
  return key.replaceAll('~', '~0').replaceAll('/', '~1');
}

/** The parts of a value with the schema of each; a null key stands for the value itself behind a wrapper. */
function children(schema: z.ZodType, value: unknown): [string | null, z.ZodType, unknown][] {
  if (
    schema instanceof z.ZodOptional ||
    schema instanceof z.ZodExactOptional ||
    schema instanceof z.ZodNullable ||
    schema instanceof z.ZodDefault ||
    schema instanceof z.ZodReadonly
  ) {
    return [[null, schema.unwrap() as z.ZodType, value]];
  }
  if (schema instanceof z.ZodDiscriminatedUnion) {
    const option = (schema.options as z.ZodObject[]).find((candidate) => matches(candidate, schema.def.discriminator, value));
    return option ? [[null, option, value]] : [];
  }
  if (schema instanceof z.ZodUnion) {
    return (schema.options as z.ZodType[])
      .filter((option) => typeof value === 'object' && option instanceof z.ZodObject)
      .map((option) => [null, option, value]);
  }
  if (schema instanceof z.ZodArray && Array.isArray(value)) {
    return value.map((item, index) => [String(index), schema.element as z.ZodType, item]);
  }
  if (schema instanceof z.ZodTuple && Array.isArray(value)) {
    return value.flatMap((item, index): [string, z.ZodType, unknown][] => {
      const element = (schema.def.items as z.ZodType[])[index];
      return element ? [[String(index), element, item]] : [];
    });
  }
  if (schema instanceof z.ZodRecord && isRecord(value)) {
    return Object.entries(value).map(([key, item]) => [key, schema.valueType as z.ZodType, item]);
  }
  if (schema instanceof z.ZodObject && isRecord(value)) {
    return Object.entries(schema.shape as Record<string, z.ZodType>).map(([key, child]) => [key, child, value[key]]);
  }
  return [];
}

function matches(option: z.ZodObject, discriminator: string, value: unknown): boolean {
  const tag = (option.shape as Record<string, z.ZodType>)[discriminator];
  if (!isRecord(value) || tag === undefined) return false;
  const given = value[discriminator];
  // Trying each kind with the parser would write an error for every kind that it is not.
  return tag instanceof z.ZodLiteral ? tag.values.has(given as z.core.util.Literal) : tag.safeParse(given).success;
}

function member(value: unknown, key: string): unknown {
  if (Array.isArray(value)) return value[Number(key)];
  return isRecord(value) ? value[key] : undefined;
}
