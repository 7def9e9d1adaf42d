import type { OpenAPIV3_1 } from 'openapi-types';
import { accessOf, rolesLetIn } from './access.ts';
import { USUAL } from './fences.ts';
import { PROBLEMS } from './problem.ts';

type Document = OpenAPIV3_1.Document;
type Operation = OpenAPIV3_1.OperationObject;

const KEY = {
  name: 'Idempotency-Key',
  in: 'header',
  schema: { type: 'string', pattern: '^[\\w.:-]{8,100}$' },
  description:
    'A new one for each new thing that is done, such as a UUID. The same key with the same request gets the same answer, and nothing is done twice; with another request it is refused (422).',
} as const;

/** The headers that requests carry besides who asks, by the name their description goes under. */
const HEADERS = {
  IdempotencyKey: KEY,
  IdempotencyKeyNeeded: { ...KEY, required: true },
  IfMatch: {
    name: 'If-Match',
    in: 'header',
    required: true,
    schema: { type: 'string', pattern: '^"\\d+"$' },
    description: 'The ETag of the version that was read, in its quotes. Without it 428; if somebody changed it since, 412.',
  },
  IfMatchOnceThere: {
    name: 'If-Match',
    in: 'header',
    schema: { type: 'string', pattern: '^"\\d+"$' },
    description: 'The ETag of the version that was read; needed once there is one.',
  },
  Confirm: {
    name: 'Confirm',
    in: 'header',
    schema: { type: 'string' },
    description:
      'Pointers of the fields that were answered as "confirmable" and are meant as they stand, with commas between: /quantityG, /unitCost/amount.',
  },
  ConfirmReason: {
    name: 'Confirm-Reason',
    in: 'header',
    schema: { type: 'string', minLength: 3 },
    description: 'Why they stand; needed with Confirm, and kept in the journal.',
  },
} as const satisfies Readonly<Record<string, OpenAPIV3_1.ParameterObject>>;

type HeaderName = keyof typeof HEADERS;

/** What is made once and then told apart by its name; a second try is refused, so it takes no key. */
const WITHOUT_KEY = new Set([
  '/absences',
  '/benches',
  '/clients',
  '/metals',
  '/people',
  '/people/first-owner',
  '/people/owner-resets',
  '/pins',
  '/pins/{id}/codes',
  '/private-links',
  '/sessions',
  '/shared-tablets',
  '/shared-tablets/current/pins',
  '/shared-tablets/current/unlocks',
  '/suppliers',
  '/tokens',
  '/torches',
]);
/** Ten tries a minute. */
const SLOWED_DOWN = new Set([
  '/people/first-owner',
  '/people/owner-resets',
  '/sessions',
  '/shared-tablets/current/pins',
  '/shared-tablets/current/unlocks',
]);

/** Work that takes turns: past what one person may have waiting, no more is taken. */
const TAKES_TURNS = new Set([
  '/plan-searches',
  '/calculations/plan-search',
  '/calculations/torch-calibration',
  '/pieces/{id}/plans',
  '/calibrations',
]);

/** The document with what no schema says: headers, who may call, each status with what it means; and without what only fills it. */
export function completed(document: Document): Document {
  const paths = Object.entries(document.paths ?? {}).map(([path, methods]) => [
    path,
    Object.fromEntries(
      Object.entries(methods ?? {}).map(([method, operation]) => [
        method,
        completeOperation(path.replace('/api/v1', ''), method.toUpperCase(), operation as Operation),
      ]),
    ),
  ]);
  return withoutUnused(
    tidy({
      ...document,
      paths: Object.fromEntries(paths),
      components: { ...document.components, parameters: HEADERS, responses: REFUSALS },
    }) as Document,
  );
}

function completeOperation(path: string, method: string, operation: Operation): Operation {
  const access = accessOf(method, `/api/v1${path.replaceAll(/\{(\w+)\}/g, ':$1')}`);
  const headers = headersOf(path, method, operation);
  const asked = (operation.parameters ?? []) as OpenAPIV3_1.ParameterObject[];
  const refusals = [
    ...(operation.requestBody ? [400, 413, 415] : []),
    ...(access === 'open' ? [] : [401, 403]),
    ...(asked.some((parameter) => parameter.in === 'path') ? [404] : []),
    ...(method === 'GET' || access === 'open' ? [] : [409]),
    ...(headers.some((name) => name.startsWith('IfMatch')) ? [412, 428] : []),
    ...(operation.requestBody || asked.length > 0 ? [422] : []),
    ...(SLOWED_DOWN.has(path) || (method === 'POST' && TAKES_TURNS.has(path)) ? [429] : []),
  ];
  const roles = typeof access === 'object' ? rolesLetIn(access).join(', ') : '';
  return {
    ...operation,
    ...(roles === '' ? {} : { description: [operation.description, `For: ${roles}.`].filter(Boolean).join('\n\n') }),
    ...(access === 'open' ? { security: [] } : {}),
    ...(asked.length + headers.length === 0
      ? {}
      : { parameters: [...asked, ...headers.map((name) => ({ $ref: `#/components/parameters/${name}` }))] }),
    responses: {
      ...operation.responses,
      ...Object.fromEntries(refusals.map((status) => [status, { $ref: `#/components/responses/Refused${status}` }])),
    },
  };
}

function headersOf(path: string, method: string, { requestBody, responses }: Operation): HeaderName[] {
  if (method === 'GET' || method === 'DELETE' || !requestBody) return [];
  const keyed = method === 'POST' && ('201' in (responses ?? {}) || '202' in (responses ?? {})) && !WITHOUT_KEY.has(path);
  return [
    ...(path.endsWith('/moves') ? (['IdempotencyKeyNeeded'] as const) : []),
    ...(keyed ? (['IdempotencyKey'] as const) : []),
    ...(method === 'PATCH' ? (['IfMatch'] as const) : []),
    ...(method === 'PUT' ? (['IfMatchOnceThere'] as const) : []),
    ...(path === '/sessions' ? [] : (['Confirm', 'ConfirmReason'] as const)),
  ];
}

const REFUSALS: Readonly<Record<string, OpenAPIV3_1.ResponseObject>> = Object.fromEntries(
  [400, 401, 403, 404, 409, 412, 413, 415, 422, 428, 429].map((status) => {
    const meant = Object.entries(PROBLEMS).filter(([, problem]) => problem.status === status);
    return [
      `Refused${status}`,
      {
        description: meant.map(([slug, { title }]) => `${slug}: ${title}`).join('. '),
        content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
      },
    ];
  }),
);

/** A format says what its pattern says; the bounds of a safe integer say nothing; what is asked about is said in words. */
function tidy(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(tidy);
  if (typeof value !== 'object' || value === null) return value;
  const { pattern, minimum, maximum, [USUAL]: usual, ...rest } = value as Record<string, unknown>;
  return {
    ...Object.fromEntries(Object.entries(rest).map(([key, one]) => [key, tidy(one)])),
    ...(typeof usual === 'string' ? { description: [rest['description'], usual].filter(Boolean).join(' ') } : {}),
    ...(pattern === undefined || ['uuid', 'date', 'date-time'].includes(String(rest['format']))
      ? {}
      : { pattern: tidy(pattern) }),
    ...(minimum === undefined || minimum === Number.MIN_SAFE_INTEGER ? {} : { minimum: tidy(minimum) }),
    ...(maximum === undefined || maximum === Number.MAX_SAFE_INTEGER ? {} : { maximum: tidy(maximum) }),
  };
}

/** The type provider describes each named schema twice, as it comes in and as it goes out; what nothing points to is left out. */
function withoutUnused(document: Document): Document {
  const text = JSON.stringify(document);
  const used = <Part>(kind: string, parts: Record<string, Part> = {}) =>
    Object.fromEntries(Object.entries(parts).filter(([name]) => text.includes(`"#/components/${kind}/${name}"`)));
  const { schemas, parameters, responses } = document.components ?? {};
  return {
    ...document,
    components: {
      ...document.components,
      schemas: used('schemas', schemas),
      parameters: used('parameters', parameters),
      responses: used('responses', responses),
    },
  };
}
