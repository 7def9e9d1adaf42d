import { BOOK } from '../offline/book.ts';
import { deviceId } from './device.ts';
import { ApiProblem, Unreachable, type ProblemBody } from './problem.ts';
import type { ReplyOf } from './reply.ts';

export type Photo = ReplyOf<'/api/v1/photos', 'post'>;

/**
 * Sends a form with a picture. `fetch` tells nothing of what has gone out already, so this is the one call that is made by hand.
 *
 * @param onSent the share of it that has gone out, 0 to 1
 * @throws {ApiProblem} what the server refused
 * @throws {Unreachable} when no answer came
 * @throws {DOMException} AbortError when the signal ended it
 */
export function sendPhoto(
  form: FormData,
  {
    key,
    confirming,
    onSent,
    signal,
  }: {
    key: string;
    confirming: Readonly<Record<string, string>>;
    onSent: (share: number) => void;
    signal: AbortSignal;
  },
): Promise<Photo> {
  return new Promise((resolve, reject) => {
    const sending = new XMLHttpRequest();
    sending.open('POST', '/api/v1/photos');
    sending.responseType = 'json';
    for (const [name, value] of Object.entries({ 'device-id': deviceId(), book: BOOK, 'idempotency-key': key, ...confirming }))
      sending.setRequestHeader(name, value);
    sending.upload.addEventListener('progress', ({ loaded, total }) => onSent(total > 0 ? loaded / total : 0));
    sending.addEventListener('load', () => {
      const { status, statusText, response } = sending;
      if (status === 201) return resolve(response as Photo);
      return reject(new ApiProblem((response as ProblemBody | null) ?? { status, title: statusText }));
    });
    sending.addEventListener('error', () => reject(new Unreachable()));
    sending.addEventListener('abort', () => reject(new DOMException('ended', 'AbortError')));
    signal.addEventListener('abort', () => sending.abort());
    sending.send(form);
  });
}
