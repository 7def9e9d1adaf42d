import { Agent, request } from 'node:http';
import { onTestFinished } from 'vitest';

export interface RawAnswer {
  status: number;
  contentType: string;
  etag: string | undefined;
  text: string;
}

export interface RawRequest {
  method: string;
  /** With the query, unescaped: it goes out as it is. */
  path: string;
  headers?: Record<string, string | string[]>;
  body?: string | Buffer;
}

/** No route takes so long, however busy the machine: what has not answered by then hangs. */
const HANGS_MS = 20_000;

/**
 * A client that sends what it is told, also what no proper client would.
 *
 * @param whenDone takes what closes it
 */
export function rawClient(
  baseUrl: string,
  whenDone: (close: () => void) => void = onTestFinished,
): (asked: RawRequest) => Promise<RawAnswer> {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  whenDone(() => agent.destroy());
  const { hostname, port } = new URL(baseUrl);
  return ({ method, path, headers = {}, body }) =>
    new Promise((resolve, reject) => {
      const length = body === undefined ? {} : { 'content-length': Buffer.byteLength(body) };
      const signal = AbortSignal.timeout(HANGS_MS);
      const asked = request({ agent, hostname, port, method, path, signal, headers: { ...headers, ...length } }, (answer) => {
        let text = '';
        answer.setEncoding('utf8');
        answer.on('data', (chunk: string) => (text += chunk));
        answer.on('error', reject);
        answer.on('end', () => {
          const { 'content-type': contentType = '', etag } = answer.headers;
          resolve({ status: answer.statusCode!, contentType, etag, text });
        });
      });
      asked.on('error', reject);
      asked.end(body);
    });
}
