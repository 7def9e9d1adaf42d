import { compareEstimates } from '../../../../shared/costing/compare-estimates.ts';
import type { Estimate, EstimateRequest } from '../../../../shared/costing/estimate-request.ts';
import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import type { ItemOf, ReplyOf } from '../../api/reply.ts';

export type Commission = ReplyOf<'/api/v1/commissions/{id}'>;
export type Quote = ItemOf<'/api/v1/quotes'>;
export type Version = ReplyOf<'/api/v1/quotes/{id}'>;
export type FromBook = ReplyOf<'/api/v1/estimates', 'post'>;
export type Answer = FromBook['answer'];
export type Profit = FromBook['profit'];
export type Differences = ReplyOf<'/api/v1/quotes/{id}/comparison'>['differences'];

/** The book itself, or a version, as what changes begin from. */
export interface Base {
  version: Version | undefined;
  request: EstimateRequest;
  answer: Answer;
  profit: Profit;
  fromBook: FromBook | undefined;
}

/** A price after some numbers were changed, beside that of before. */
export interface Moved {
  answer: Answer;
  profit: Profit;
  differences: Differences;
  /** What looks odd and may be right: asked about when it is kept. */
  asks: string[];
}

/** @param versionId the book itself when empty */
export async function loadBase(commissionId: string, versionId: string, signal: AbortSignal): Promise<Base> {
  if (versionId === '') {
    const fromBook = await bodyOf(api.POST('/api/v1/estimates', { body: { commissionId, overrides: {} }, signal }));
    const { answer, profit } = fromBook;
    return { version: undefined, request: fromBook.request as unknown as EstimateRequest, answer, profit, fromBook };
  }
  return baseOf(await bodyOf(api.GET('/api/v1/quotes/{id}', { params: { path: { id: versionId } }, signal })));
}

export function baseOf(version: Version): Base {
  const { request, answer, profit } = version.inside!;
  return { version, request: request as unknown as EstimateRequest, answer, profit, fromBook: undefined };
}

/** What it would come to; nothing is kept, so what is only unusual is let through and told. */
export async function whatIf(
  commissionId: string,
  base: Base,
  overrides: Record<string, unknown>,
  signal: AbortSignal,
): Promise<Moved> {
  if (Object.keys(overrides).length === 0) return unmoved(base);
  if (base.version) {
    const params = { path: { id: base.version.id } };
    const { body, asks } = await lettingThrough((headers) =>
      bodyOf(api.POST('/api/v1/quotes/{id}/what-if', { params, body: { overrides }, headers, signal })),
    );
    return { answer: body.answer, profit: body.after.profit, differences: body.differences, asks };
  }
  const { body, asks } = await lettingThrough((headers) =>
    bodyOf(api.POST('/api/v1/estimates', { body: { commissionId, overrides }, headers, signal })),
  );
  return { answer: body.answer, profit: body.profit, differences: between(base.answer, body.answer), asks };
}

export function unmoved({ answer, profit }: Base): Moved {
  return { answer, profit, differences: between(answer, answer), asks: [] };
}

function between(before: Answer, after: Answer): Differences {
  return compareEstimates(before as Estimate, after as Estimate);
}

async function lettingThrough<T>(call: (headers: Record<string, string>) => Promise<T>): Promise<{ body: T; asks: string[] }> {
  try {
    return { body: await call({}), asks: [] };
  } catch (error) {
    if (!(error instanceof ApiProblem && error.confirmable)) throw error;
    const confirm = error.errors.map(({ pointer }) => pointer).join(', ');
    const body = await call({ confirm, 'confirm-reason': 'only tried, not kept' });
    return { body, asks: error.errors.map(({ detail }) => detail) };
  }
}
