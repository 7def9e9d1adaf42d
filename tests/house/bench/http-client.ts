/**
 * Asks a server in a process of its own. Closed: eight connections, each asking anew as soon as it is answered. Open: at a rate,
 * whether or not there was an answer yet; a reply is timed from when it was to be asked for, so that a server that stands still
 * cannot hide it.
 */

import { Agent, request } from 'node:http';

export interface Load {
  url: string;
  token: string;
  body?: string;
  times: number;
  /** Questions a second; without it closed. */
  rate?: number;
}

export interface Answered {
  elapsedMs: number;
  p50Ms: number;
  p99Ms: number;
}

const CONNECTIONS = 8;

process.on('message', (load: Load) => {
  void ask(load).then((answered) => process.send!(answered));
});

async function ask({ url, token, body, times, rate }: Load): Promise<Answered> {
  const agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });
  const headers = { authorization: `Bearer ${token}`, ...(body === undefined ? {} : { 'content-type': 'application/json' }) };
  const took: number[] = [];
  const one = (since: number) =>
    new Promise<void>((resolve, reject) => {
      const call = request(url, { agent, method: body === undefined ? 'GET' : 'POST', headers }, (reply) => {
        reply.resume().on('end', () => {
          took.push(performance.now() - since);
          if (reply.statusCode! < 300) resolve();
          else reject(new Error(`${url}: ${reply.statusCode}`));
        });
      });
      call.on('error', reject).end(body?.replace('{n}', `${process.pid}-${asked++}`));
    });
  const begun = performance.now();
  if (rate === undefined) {
    let left = times;
    const ask8 = Array.from({ length: CONNECTIONS }, async () => {
      while (left-- > 0) await one(performance.now());
    });
    await Promise.all(ask8);
  } else {
    await Promise.all(
      Array.from({ length: times }, async (_, i) => {
        const due = begun + (i / rate) * 1000;
        await new Promise((resolve) => setTimeout(resolve, Math.max(0, due - performance.now())));
        await one(Math.max(due, begun));
      }),
    );
  }
  const elapsedMs = performance.now() - begun;
  agent.destroy();
  took.sort((a, b) => a - b);
  const share = (of: number) => took[Math.min(took.length - 1, Math.floor(of * took.length))]!;
  return { elapsedMs, p50Ms: share(0.5), p99Ms: share(0.99) };
}

let asked = 0;
