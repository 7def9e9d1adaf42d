import Fastify from 'fastify';
import { expect, onTestFinished, test, vi } from 'vitest';
import { openEventStream, type EventStream } from '../../src/platform/http/event-stream.ts';

test('a comment keeps a quiet line open, until the one who listens has gone', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  onTestFinished(() => void vi.useRealTimers());
  const app = Fastify();
  onTestFinished(() => app.close());
  let stream: EventStream | undefined;
  let isClosed = false;
  app.get('/', (_request, reply) => {
    stream = openEventStream(reply);
    stream.onClose(() => (isClosed = true));
    stream.send({ event: 'progress', id: '7', data: { says: 'a line\nand another' } });
    return reply.send(stream.body);
  });
  const line = new AbortController();
  const reply = await fetch(await app.listen({ host: '127.0.0.1', port: 0 }), { signal: line.signal });
  const reader = reply.body!.getReader();
  const read = async () => Buffer.from((await reader.read()).value ?? []).toString();
  let text = '';
  while (!text.includes('data')) text += await read();
  expect(text).toBe('retry: 2000\n\nevent: progress\nid: 7\ndata: {"says":"a line\\nand another"}\n\n');
  await vi.advanceTimersByTimeAsync(15_000);
  expect(await read()).toBe(':\n\n');
  expect(vi.getTimerCount()).toBe(1);
  line.abort();
  await expect.poll(() => isClosed).toBe(true);
  expect(vi.getTimerCount()).toBe(0);
  // Nobody hears it, and nothing breaks.
  stream!.send({ event: 'progress', id: '8', data: null });
  stream!.end({ event: 'end', id: 'end', data: null });
});
