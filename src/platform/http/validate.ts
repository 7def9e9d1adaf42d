import type { FastifyInstance, FastifyRequest, FastifyServerOptions } from 'fastify';
import { serializerCompiler } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { widthErrors } from './body-width.ts';
import { escapePointer, fenceErrors } from './fences.ts';
import { issueWords } from './issue-words.ts';
import { invalidFields, type FieldError } from './problem.ts';

declare module 'fastify' {
  interface FastifyContextConfig {
    /** What is kept now under the request's path: fields that have not changed are not asked about again. */
    stored?: (params: never, request: FastifyRequest) => unknown;
    /** Reads a body that is not JSON, such as a form with a file. */
    readBody?: (request: FastifyRequest) => Promise<unknown>;
  }
}

/**
 * What stands in for Fastify's own compilers of schemas, which are not loaded then: the hook of validateRequests() parses, where the
 * own step would stop at the first part and knows no fences.
 */
export const schemaController = {
  compilersFactory: { buildValidator: () => () => (value: unknown) => ({ value }), buildSerializer: () => serializerCompiler },
} as unknown as NonNullable<FastifyServerOptions['schemaController']>;

/**
 * Parses path, query and body of every request with the route's own schemas, and answers every bad field at once:
 * wrong shape, unknown name, outside a fence. What the headers Confirm and Confirm-Reason name passes the ask fence.
 */
export function validateRequests(app: FastifyInstance): void {
  z.config({ customError: issueWords });
  app.addHook('preValidation', async (request) => {
    const { schema, config } = request.routeOptions;
    if (!schema) return;
    if (config.readBody) request.body = await config.readBody(request);
    const tooWide = widthErrors(request.body);
    if (tooWide.length > 0) throw invalidFields(tooWide);
    const confirmed = confirmedPointers(request);
    const errors: FieldError[] = [];
    const parse = (part: unknown, value: unknown, prefix: string): unknown => {
      if (!(part instanceof z.ZodType)) return value;
      const result = part.safeParse(value, { reportInput: true });
      if (!result.success) errors.push(...result.error.issues.flatMap((issue) => fieldErrors(issue, prefix)));
      return result.success ? result.data : value;
    };
    const params = parse(schema.params, request.params, ':');
    const query = parse(schema.querystring, request.query, '?');
    const body = parse(schema.body, request.body, '');
    if (schema.body instanceof z.ZodType) {
      const stored = config.stored?.(params as never, request);
      errors.push(
        ...fenceErrors(schema.body, request.body, stored).filter(
          ({ confirmable, pointer }) => !confirmable || !confirmed.includes(pointer),
        ),
      );
    }
    if (errors.length > 0) throw invalidFields(errors);
    request.params = params;
    request.query = query;
    request.body = body;
  });
}

/** JSON Pointers that the person has looked at again and stands by. */
export function confirmedPointers(request: FastifyRequest): string[] {
  const header = request.headers['confirm'];
  if (typeof header !== 'string') return [];
  // A pointer begins with a slash, so that a name in it may have a comma.
  const pointers = header.split(/,\s*(?=\/)/).map((pointer) => pointer.trim());
  const reason = request.headers['confirm-reason'];
  if (typeof reason !== 'string' || reason.trim().length < 3) {
    throw invalidFields([{ pointer: '', detail: 'Say why in the header Confirm-Reason, in 3 letters or more.' }]);
  }
  return pointers;
}

/**
 * One issue of a schema as errors of fields.
 *
 * @param prefix of the pointer: empty for the body itself
 */
export function fieldErrors(issue: z.core.$ZodIssue, prefix: string): FieldError[] {
  const pointer = toPointer(issue.path, prefix);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      pointer: toPointer([...issue.path, key], prefix),
      detail: `There is no field "${key}" here.`,
    }));
  }
  if (issue.code === 'invalid_key') return issue.issues.flatMap((inner) => fieldErrors({ ...inner, path: issue.path }, prefix));
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    // Of the shapes it might have had, tell what is wrong with the one it comes nearest to.
    const nearest = issue.errors.toSorted((a, b) => depth(b) - depth(a) || a.length - b.length)[0] ?? [];
    return nearest.flatMap((inner) => fieldErrors({ ...inner, path: [...issue.path, ...inner.path] }, prefix));
  }
  const given = 'input' in issue && isPlain(issue.input) && !isSecret(issue) ? { given: issue.input } : {};
  return [{ pointer, detail: sentence(issue), ...given }];
}

/** What must not be shown again, nor end in a log: passwords, and what a schema marks with `params: { secret: true }`. */
function isSecret(issue: z.core.$ZodIssue): boolean {
  const last = issue.path.at(-1);
  return last === 'password' || last === 'pin' || ('params' in issue && issue.params?.['secret'] === true);
}

function depth(issues: readonly z.core.$ZodIssue[]): number {
  return Math.max(0, ...issues.map((issue) => issue.path.length));
}

function sentence(issue: z.core.$ZodIssue): string {
  return issue.message.endsWith('.') ? issue.message : `${issue.message}.`;
}

function toPointer(path: readonly PropertyKey[], prefix: string): string {
  if (prefix !== '') return prefix + path.map(String).join('/');
  return path.map((key) => `/${escapePointer(String(key))}`).join('');
}

function isPlain(value: unknown): value is string | number | boolean | null {
  return value === null || ['string', 'number', 'boolean'].includes(typeof value);
}
