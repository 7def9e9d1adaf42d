import fc from 'fast-check';
import { resolved, type ApiDocument, type Schema } from './api-document.ts';

export interface Known {
  document: ApiDocument;
  /** Values that mean something in the book, by the name of the field that takes them. */
  values: Readonly<Record<string, readonly unknown[]>>;
  /** Schemas that the document cannot give, by the name of the field. */
  schemas?: Readonly<Record<string, Schema>>;
}

/** Values that a schema of the document allows, most of them of the size people give. */
export function fromSchema(schema: Schema, known: Known, name = ''): fc.Arbitrary<unknown> {
  const own = known.schemas?.[name];
  if (own && own !== schema) return fromSchema(own, known, name);
  const values = known.values[name];
  const free = bySchema(schema, known, name);
  return values ? fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...values) }, { weight: 1, arbitrary: free }) : free;
}

function bySchema(schema: Schema, known: Known, name: string): fc.Arbitrary<unknown> {
  if (schema.$ref !== undefined) return bySchema(resolved(schema.$ref, known.document), known, name);
  const options = schema.anyOf ?? schema.oneOf;
  if (options) return fc.oneof(...options.map((option) => bySchema(option, known, name)));
  if ('const' in schema) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  if (Array.isArray(schema.type)) return fc.oneof(...schema.type.map((type) => bySchema({ ...schema, type }, known, name)));
  const type = schema.type ?? 'anything';
  switch (type) {
    case 'object':
      return objectOf(schema, known);
    case 'array':
      return arrayOf(schema, known, name);
    case 'string':
      return textOf(schema);
    case 'integer':
    case 'number':
      return numberOf(schema, name);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    default:
      return fc.jsonValue({ maxDepth: 2 });
  }
}

function objectOf({ properties, required = [], additionalProperties }: Schema, known: Known): fc.Arbitrary<unknown> {
  if (properties) {
    const members = Object.entries(properties).map(([name, member]) => [name, fromSchema(member, known, name)] as const);
    return fc.record(Object.fromEntries(members), { requiredKeys: required });
  }
  const member = typeof additionalProperties === 'object' ? fromSchema(additionalProperties, known) : fc.jsonValue();
  const names = known.values['names'] as string[];
  return fc.dictionary(fc.oneof(fc.constantFrom(...names), fc.string({ maxLength: 8 })), member, { maxKeys: 3 });
}

function arrayOf({ items, prefixItems, minItems = 0, maxItems = 4 }: Schema, known: Known, name: string): fc.Arbitrary<unknown> {
  if (prefixItems) return fc.tuple(...prefixItems.map((item) => fromSchema(item, known, name)));
  const item = typeof items === 'object' ? fromSchema(items, known, name) : fc.jsonValue();
  return fc.array(item, { minLength: minItems, maxLength: Math.max(minItems, Math.min(maxItems, 4)) });
}

function textOf({ format, pattern, minLength = 0, maxLength = 40 }: Schema): fc.Arbitrary<string> {
  if (format === 'uuid') return fc.uuid({ version: 7 });
  if (format === 'date') return aboutNow.map((at) => at.slice(0, 10));
  if (format === 'date-time') return aboutNow;
  if (format === 'email') return fc.emailAddress();
  // What keeps control characters out is met by words; other patterns have their length in them.
  if (pattern !== undefined && !pattern.includes('Cc')) return fc.stringMatching(new RegExp(pattern));
  const word = fc.constantFrom(
    'sawing',
    'Marsh Lantern',
    'blue',
    'x',
    'C31-001',
    'silver & gold',
    'Émail',
    '銀',
    '🔥',
    '{{7*7}}',
  );
  return fc
    .array(word, { minLength: 1, maxLength: 4 })
    .map((words) => words.join(' ').padEnd(minLength, '.').slice(0, Math.max(1, maxLength)));
}

const aboutNow = fc
  .oneof(
    { weight: 4, arbitrary: fc.date({ min: new Date('2031-04-20'), max: new Date('2031-05-20'), noInvalidDate: true }) },
    { weight: 1, arbitrary: fc.date({ min: new Date('0001-01-01'), max: new Date('9999-12-31'), noInvalidDate: true }) },
  )
  .map((date) => date.toISOString());

function numberOf({ type, minimum, exclusiveMinimum, maximum }: Schema, name: string): fc.Arbitrary<number> {
  const least = minimum ?? exclusiveMinimum ?? -1e9;
  const most = maximum ?? 1e9;
  const [low, high] = usual(name).map((bound) => Math.min(most, Math.max(least, bound))) as [number, number];
  if (type === 'integer') {
    const some = { min: Math.ceil(low), max: Math.max(Math.ceil(low), Math.floor(high)) };
    const any = { min: Math.max(least, Number.MIN_SAFE_INTEGER), max: Math.min(most, Number.MAX_SAFE_INTEGER) };
    return fc.oneof(
      { weight: 5, arbitrary: fc.integer(some) },
      { weight: 1, arbitrary: fc.maxSafeInteger() },
      fc.integer(int32(any)),
    );
  }
  return fc.oneof(
    { weight: 5, arbitrary: between(low, high) },
    { weight: 1, arbitrary: between(least, most) },
    { weight: 1, arbitrary: fc.constantFrom(least, most) },
  );
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

const int32 = ({ min, max }: { min: number; max: number }) => ({
  min: Math.max(min, -(2 ** 31)),
  max: Math.min(max, 2 ** 31 - 1),
});

/** Where people's numbers lie, by the unit in the name. */
function usual(name: string): [number, number] {
  if (/^(thickness|gap|fillet|diameter|side|neck)/.test(name)) return [0.05, 2];
  if (name.endsWith('Mm')) return [0, 40];
  if (name.endsWith('solidusC')) return [650, 700];
  if (name.endsWith('C')) return [700, 900];
  if (name.endsWith('Fraction')) return [0, 0.9];
  if (name.endsWith('timeMs')) return [10, 30];
  if (name.endsWith('workUnits')) return [1000, 2000];
  return [0, 10];
}
