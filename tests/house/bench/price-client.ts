/** Asks a server for the same thing so many times over eight connections, in a process of its own, and tells how long it took. */

import { Agent, request } from 'node:http';

export interface Load {
  url: string;
  token: string;
  body?: string;
  times: number;
}

const CONNECTIONS = 8;

process.on('message', (load: Load) => {
  void ask(load).then((elapsedMs) => process.send!(elapsedMs));
});

async function ask({ url, token, body, times }: Load): Promise<number> {
  const agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });
  const headers = { authorization: `Bearer ${token}`, ...(body === undefined ? {} : { 'content-type': 'application/json' }) };
  let left = times;
  const one = () =>
    new Promise<void>((resolve, reject) => {
      const call = request(url, { agent, method: body === undefined ? 'GET' : 'POST', headers }, (reply) => {
        reply.resume().on('end', () => (reply.statusCode === 200 ? resolve() : reject(new Error(`${url}: ${reply.statusCode}`))));
      });
      call.on('error', reject).end(body);
    });
  const begun = performance.now();
  await Promise.all(
    Array.from({ length: CONNECTIONS }, async () => {
      while (left-- > 0) await one();
    }),
  );
  const elapsedMs = performance.now() - begun;
  agent.destroy();
  return elapsedMs;
}
