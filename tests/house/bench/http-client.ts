/**
 * Asks a server in a process of its own. Closed: eight connections, each asking anew as soon as it is answered. Open: at a rate,
 * whether or not there was an answer yet; a reply is timed from when it was to be asked for, so that a server that stands still
 * cannot hide it. It never sleeps: waking it up would be work of whoever answers, and more of it the slower the answer.
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
  let isAsking = true;
  let inTurn: (() => void) | undefined;
  const stayAwake = () => {
    inTurn?.();
    if (isAsking) setImmediate(stayAwake);
  };
  const begun = performance.now();
  stayAwake();
  if (rate === undefined) {
    let left = times;
    const ask8 = Array.from({ length: CONNECTIONS }, async () => {
      while (left-- > 0) await one(performance.now());
    });
    await Promise.all(ask8);
  } else {
    const sent: Promise<void>[] = [];
    const due = () => begun + (sent.length / rate) * 1000;
    await new Promise<void>((resolve) => {
      inTurn = () => {
        while (sent.length < times && due() <= performance.now()) sent.push(one(due()));
        if (sent.length === times) resolve();
      };
    });
    await Promise.all(sent);
  }
  const elapsedMs = performance.now() - begun;
  isAsking = false;
  agent.destroy();
  took.sort((a, b) => a - b);
  const share = (of: number) => took[Math.min(took.length - 1, Math.floor(of * took.length))]!;
  return { elapsedMs, p50Ms: share(0.5), p99Ms: share(0.99) };
}

let asked = 0;
