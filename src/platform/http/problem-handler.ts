import type { FastifyError, FastifyInstance } from 'fastify';
import { z } from 'zod';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { bookFault } from '../db/book-fault.ts';
import { libraryWords } from './library-words.ts';
import { outsideModel, Problem, PROBLEMS, type ProblemSlug } from './problem.ts';

const FieldErrorReply = z.object({
  pointer: z.string(),
  detail: z.string(),
  given: z.unknown().optional(),
  unit: z.string().optional(),
  perhaps: z.unknown().optional(),
  confirmable: z.boolean().optional(),
  bestFix: z
    .unknown()
    .optional()
    .describe('Of a rule that a plan breaks: the edit that puts it right and leaves least wrong, with the plan it makes.'),
});

/** RFC 9457; some problems carry more members (allowed, state, shortTenthMg …). */
export const ProblemReply = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    errors: z.array(FieldErrorReply).optional(),
  })
  .register(z.globalRegistry, { id: 'Problem' });

/** The statuses any route may answer besides its own, declared so that nothing leaves the server unvalidated. */
export const problemReplies = {
  '4xx': { description: 'Refused: a problem (RFC 9457)', content: { 'application/problem+json': { schema: ProblemReply } } },
  '5xx': { description: 'A fault of the server', content: { 'application/problem+json': { schema: ProblemReply } } },
} as const;

/** The one place that writes an error body. */
export function handleProblems(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError | Error, request, reply) => {
    const problem = toProblem(error);
    if (problem.status >= 500) request.log.error({ err: error }, 'unexpected error');
    else request.log.info({ problem: problem.slug, detail: problem.message }, 'refused');
    const { retryAfterS } = problem.extensions;
    if (typeof retryAfterS === 'number') reply.header('retry-after', retryAfterS);
    return reply.code(problem.status).type('application/problem+json').send(problem.toJSON());
  });
  app.setNotFoundHandler((request, reply) => {
    const problem = new Problem('not-found', `Nothing answers ${request.method} ${request.url.split('?')[0]}`);
    return reply.code(404).type('application/problem+json').send(problem.toJSON());
  });
}

const SLUG_BY_STATUS: Readonly<Record<number, ProblemSlug>> = {
  400: 'malformed-json',
  413: 'too-large',
  415: 'wrong-media-type',
  429: 'too-many-requests',
};

/** What a caller is told of an error; of an unexpected one nothing. */
export function toProblem(error: FastifyError | Error): Problem {
  if (error instanceof Problem) return error;
  if (error instanceof EngineInputError) return outsideModel(error.message, error);
  const fault = bookFault(error);
  if (fault) return new Problem(fault.kind, `Nothing was saved: ${fault.why}`);
  const status = 'statusCode' in error ? error.statusCode : undefined;
  const slug = status === undefined ? undefined : SLUG_BY_STATUS[status];
  if (slug) return new Problem(slug, libraryWords('code' in error ? error.code : '') ?? PROBLEMS[slug].title);
  return new Problem('internal', 'Something went wrong here; it is in the log of the server');
}
