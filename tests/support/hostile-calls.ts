import fc from 'fast-check';
import { resolved, type ApiDocument, type Operation, type Schema } from './api-document.ts';
import type { SmallStudio } from './a-small-studio.ts';
import { fromSchema, type Known } from './from-schema.ts';
import { aForm, FORM_TYPE } from './hostile-forms.ts';
import { aTable } from './hostile-tables.ts';
import { perhapsSpoilt } from './hostile-bytes.ts';
import { aBodyText, anOddQuery, anOddValueOf, aWrongId, oddHeaders } from './hostile.ts';
import type { RawAnswer, RawRequest } from './raw-request.ts';

/** Stands for the ETag that the thing has when the request is sent. */
const CURRENT = 'as it is now';
const READ_FIRST = new Set(['PATCH', 'PUT']);

export interface HostileStudio {
  studio: SmallStudio;
  document: ApiDocument;
  bodies: Record<string, unknown[]>;
  /** Who sends, as the header says it; often the owner, who may do most. */
  senders: fc.Arbitrary<Record<string, string>>;
}

const bearing = (token: string) => fc.constant({ authorization: `Bearer ${token}` });

/** Mostly the owner, now and then another role, nobody, or one whose token is none. */
export function anySender({ services, actors, ownerToken }: SmallStudio): HostileStudio['senders'] {
  const others = (['bench', 'desk', 'student'] as const).map((role) =>
    bearing(services.keys.addToken(actors[role], { name: 'raw' }).token),
  );
  const strangers: fc.Arbitrary<Record<string, string>>[] = [
    fc.constant({}),
    bearing('no-such-token'),
    fc.constant({ authorization: 'Basic eDp5' }),
    fc.constant({ cookie: 'hearthbook_session=no-such-session' }),
  ];
  return fc.oneof(
    { weight: 26, arbitrary: bearing(ownerToken) },
    { weight: 3, arbitrary: fc.oneof(...others) },
    { weight: 1, arbitrary: fc.oneof(...strangers) },
  );
}

/** Requests of one route, from sound to absurd. */
export function hostileCalls(
  operation: Operation,
  { studio, document, bodies, senders }: HostileStudio,
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
      sender: senders,
      headers: fc.oneof({ weight: 2, arbitrary: fc.constant({}) }, { weight: 1, arbitrary: oddHeaders }),
      body: aBody(operation, known, bodies),
      key: fc.uuid(),
    })
    .map(({ path, query, sender, headers, body, key }) => ({
      method: operation.method,
      path: `/api/v1${path}${query}`,
      headers: {
        ...sender,
        // One seed draws the same keys for every route; a key is used for one thing only.
        'idempotency-key': `${key}${operation.route.replaceAll(/\W+/g, '.')}`.slice(0, 100),
        ...(READ_FIRST.has(operation.method) ? { 'if-match': CURRENT } : {}),
        ...(body === undefined ? {} : { 'content-type': typeOf(operation, body) }),
        ...headers,
      },
      ...(body === undefined ? {} : { body }),
    }));
}

function typeOf({ table, form }: Operation, body: string | Buffer): string {
  if (table) return 'text/csv';
  return form && typeof body !== 'string' ? FORM_TYPE : 'application/json';
}

function aBody(operation: Operation, known: Known, bodies: Record<string, unknown[]>): fc.Arbitrary<string | Buffer | undefined> {
  const { route, body, form, table } = operation;
  if (table) return aTable(bodies[route] as string[]);
  if (form) return fc.oneof({ weight: 9, arbitrary: aForm(form, known, bodies[route] as Buffer[]) }, fc.constantFrom('{}', '{'));
  return body ? perhapsSpoilt(aBodyText(bodyOf(operation, known, bodies))) : fc.constantFrom(undefined, undefined, '{}', '{');
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
    const some = (name === 'jointId' ? values['jointId'] : ids[thing]) as string[] | undefined;
    // The small studio has one of everything but of what a book in memory cannot have.
    if (some === undefined) return aWrongId;
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
  const oddValue = asked.length === 0 ? anOddQuery : anOddValueOf(asked.map(({ name }) => name));
  const odd = fc.array(fc.oneof(anOddQuery, oddValue), { maxLength: 1 });
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

/** A request as it is sent; one that is to carry the ETag of now reads it. */
export async function withEtag(asked: RawRequest, send: (asked: RawRequest) => Promise<RawAnswer>): Promise<RawRequest> {
  const { 'if-match': seen, ...headers } = asked.headers ?? {};
  if (seen !== CURRENT) return asked;
  const { etag } = await send({ method: 'GET', path: asked.path, headers: only(headers, 'authorization') });
  return { ...asked, headers: etag === undefined ? headers : { ...headers, 'if-match': etag } };
}

function only(headers: Record<string, string | string[]>, name: string): Record<string, string | string[]> {
  const value = headers[name];
  return value === undefined ? {} : { [name]: value };
}
