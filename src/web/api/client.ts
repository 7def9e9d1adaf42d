import createClient from 'openapi-fetch';
import type { paths } from './api-schema.d.ts';
import { BOOK } from '../offline/book.ts';
import { deviceId } from './device.ts';
import { ApiProblem, Unreachable, type ProblemBody } from './problem.ts';

/** The one way to the book: every call is typed by the server's own description of itself. */
export const api = createClient<paths>({ baseUrl: '/', headers: { 'device-id': deviceId(), book: BOOK } });

interface Answer<T> {
  data?: T;
  error?: unknown;
  response: Response;
}

/**
 * The body of an answer.
 *
 * @throws {ApiProblem} what the server refused, with every field it could not use
 * @throws {Unreachable} when no answer came
 */
export async function bodyOf<T>(answer: Promise<Answer<T>>): Promise<T> {
  return (await withVersion(answer)).body;
}

/** The body of an answer with the version it is of, for the If-Match of an edit. */
export async function withVersion<T>(answer: Promise<Answer<T>>): Promise<{ body: T; version: string }> {
  let got: Answer<T>;
  try {
    got = await answer;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Unreachable();
  }
  const { data, error, response } = got;
  if (!response.ok) {
    const problem = new ApiProblem(isProblem(error) ? error : { status: response.status, title: response.statusText });
    // A sample was opened or left in another window: loaded anew, the page is of the book that is open.
    if (problem.slug === 'other-book') location.reload();
    throw problem;
  }
  return { body: data as T, version: response.headers.get('etag') ?? '' };
}

function isProblem(error: unknown): error is ProblemBody {
  return typeof error === 'object' && error !== null && 'status' in error && 'title' in error;
}
