import fc from 'fast-check';
import { resolved, type ApiDocument, type Operation, type Schema } from './api-document.ts';
import type { SmallStudio } from './a-small-studio.ts';
import { fromSchema, type Known } from './from-schema.ts';
import { aBodyText, anOddQuery, aWrongId, oddHeaders } from './hostile.ts';
import type { RawAnswer, RawRequest } from './raw-request.ts';

/** Stands for the ETag that the thing has when the request is sent. */
const CURRENT = 'as it is now';
const READ_FIRST = new Set(['PATCH', 'PUT']);

/** Requests of one route, from sound to absurd. */
export function hostileCalls(
  operation: Operation,
  { studio, document, bodies }: { studio: SmallStudio; document: ApiDocument; bodies: Record<string, unknown[]> },
): fc.Arbitrary<RawRequest> {
  const known: Known = {
    document,
    values: { ...studio.values, ...statesOf(operation) },
    schemas: { overrides: withoutNeed(resolved('EstimateRequestInput', document), document) },
  };
  return fc
    .record({
      path: pathOf(operation, studio),
      query: queryOf(operation, known),
      headers: oddHeaders,
      body: operation.body ? aBodyText(bodyOf(operation, known, bodies)) : fc.constantFrom(undefined, undefined, '{}', '{'),
      key: fc.uuid(),
    })
    .map(({ path, query, headers, body, key }) => ({
      method: operation.method,
      path: `/api/v1${path}${query}`,
      headers: {
        authorization: `Bearer ${studio.ownerToken}`,
        // One seed draws the same keys for every route; a key is used for one thing only.
        'idempotency-key': `${key}${operation.route.replaceAll(/\W+/g, '.')}`.slice(0, 100),
        ...(READ_FIRST.has(operation.method) ? { 'if-match': CURRENT } : {}),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined ? {} : { body }),
    }));
}

function bodyOf({ route, body }: Operation, known: Known, bodies: Record<string, unknown[]>): fc.Arbitrary<unknown> {
  const free = fromSchema(body!, known);
  const sound = bodies[route];
  return sound ? fc.oneof({ weight: 2, arbitrary: fc.constantFrom(...sound) }, { weight: 1, arbitrary: free }) : free;
}

function pathOf({ path, parameters }: Operation, { ids, values }: SmallStudio): fc.Arbitrary<string> {
  const names = parameters.filter((parameter) => parameter.in === 'path').map(({ name }) => name);
  if (names.length === 0) return fc.constant(path);
  const thing = path.split('/')[1]!;
  const parts = names.map((name) => {
    const some = (name === 'jointId' ? values['jointId'] : ids[thing]) as string[];
    return fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...some) }, { weight: 1, arbitrary: aWrongId });
  });
  return fc
    .tuple(...parts)
    .map((given) => names.reduce((url, name, index) => url.replace(`{${name}}`, () => given[index]!), path));
}

function queryOf({ parameters }: Operation, known: Known): fc.Arbitrary<string> {
  const asked = parameters.filter((parameter) => parameter.in === 'query');
  const sound = fc
    .record(Object.fromEntries(asked.map(({ name, schema }) => [name, fromSchema(schema, known, name)])), { requiredKeys: [] })
    .map((query) => Object.entries(query).map(([name, value]) => `${name}=${encodeURIComponent(String(value))}`));
  const odd = fc.array(anOddQuery, { maxLength: 1 });
  return asked.length === 0
    ? fc.oneof({ weight: 9, arbitrary: fc.constant('') }, { weight: 1, arbitrary: anOddQuery.map((text) => `?${text}`) })
    : fc.tuple(sound, odd).map(([query, more]) => `?${[...query, ...more].join('&')}`);
}

/** Moves start from one of the states they can go to. */
function statesOf({ body }: Operation): Record<string, unknown[]> {
  const states = body?.properties?.['to']?.enum;
  return states ? { from: states } : {};
}

/** The schema of a patch: nothing in it is needed. */
function withoutNeed(schema: Schema, document: ApiDocument): Schema {
  if (schema.$ref !== undefined) return withoutNeed(resolved(schema.$ref, document), document);
  const { required: _required, properties, ...rest } = schema;
  if (!properties) return schema;
  const patched = Object.entries(properties).map(([name, member]) => [name, withoutNeed(member, document)]);
  return { ...rest, properties: Object.fromEntries(patched) as Record<string, Schema> };
}

/** Sends a request; one that is to carry the ETag of now reads it first. */
export function sendAsItIs(send: (asked: RawRequest) => Promise<RawAnswer>): (asked: RawRequest) => Promise<RawAnswer> {
  return async (asked) => {
    const { 'if-match': seen, ...headers } = asked.headers ?? {};
    if (seen !== CURRENT) return send(asked);
    const { etag } = await send({ method: 'GET', path: asked.path, headers: { authorization: headers['authorization']! } });
    return send({ ...asked, headers: etag === undefined ? headers : { ...headers, 'if-match': etag } });
  };
}
