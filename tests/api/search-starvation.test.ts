import { expect, test } from 'vitest';
import type { PlanSearchRequest } from '../../shared/sequencing/plan-search-request.ts';
import { rawClient } from '../support/raw-request.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { slowSearch, unlikeProngs } from '../support/unlike-prongs.ts';

const small: PlanSearchRequest = { ...unlikeProngs(3), options: {} };

const longFor = (timeMs: number): PlanSearchRequest => {
  const { options, ...request } = slowSearch();
  return { ...request, options: { ...options, timeMs } };
};

/** Searches of one person, each on a line of its own that can be hung up. */
function searcher(app: TestApp, role: 'bench' | 'student') {
  const { token } = app.services.keys.addToken(app.actors[role], { name: 'searches' });
  return async (request: PlanSearchRequest, signal?: AbortSignal): Promise<number> => {
    const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
    const init = { method: 'POST', headers, body: JSON.stringify(request), ...(signal && { signal }) };
    const reply = await fetch(`${app.baseUrl}/api/v1/calculations/plan-search`, init);
    await reply.arrayBuffer();
    return reply.status;
  };
}

test('while one person has all the long searches they may, others are answered, and have their turn', async () => {
  const app = await startApp();
  const one = searcher(app, 'bench');
  let over = 0;
  const long = Array.from({ length: 5 }, () => one(longFor(4000)));
  // One runs and three wait: which of the five comes too late is told at once.
  expect(await Promise.race(long)).toBe(429);
  for (const search of long) void search.then(() => (over += 1));
  const read = rawClient(app.baseUrl);
  for (let n = 0; n < 50; n++) expect((await read({ method: 'GET', path: '/api/v1/health' })).status).toBe(200);
  await app.desk.post('/benches', { name: 'Anvil' }).expect(403);
  await app.owner.post('/benches', { name: 'Anvil' }).expect(201);
  expect(await searcher(app, 'student')(small)).toBe(200);
  expect(over).toBeLessThan(5);
  expect((await Promise.all(long)).toSorted((a, b) => a - b)).toEqual([200, 200, 200, 200, 429]);
});

test('who hangs up has nothing running or waiting any longer', async () => {
  const app = await startApp();
  const one = searcher(app, 'bench');
  const gone = new AbortController();
  const long = Array.from({ length: 5 }, () => one(longFor(60_000), gone.signal));
  expect(await Promise.race(long)).toBe(429);
  gone.abort();
  const ended = await Promise.allSettled(long);
  expect(ended.filter(({ status }) => status === 'rejected')).toHaveLength(4);
  // While those four were kept this one would be refused, for a minute and longer.
  await expect.poll(() => one(small), { timeout: 30_000 }).toBe(200);
});
