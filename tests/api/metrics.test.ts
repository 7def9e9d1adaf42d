import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';

/** Lines as OpenMetrics 1.0.0, section "Text format", has them: comments, then samples; the last one ends the text. */
const SAMPLE =
  /^[a-zA-Z_:][a-zA-Z0-9_:]*(\{[a-zA-Z_]\w*="(?:[^"\\\n]|\\[\\"n])*"(,[a-zA-Z_]\w*="(?:[^"\\\n]|\\[\\"n])*")*\})? (-?[\d.]+(e[+-]?\d+)?|NaN|[+-]Inf)( \S.*)?$/;

test('metrics are OpenMetrics text: each route is counted by its pattern, never by an id', async () => {
  const { owner } = await startApp();
  await owner.get('/commissions?limit=1').expect(200);
  await owner.get('/clients/0190a000-0000-7000-8000-000000000000').expect(404);
  const { text, headers } = await owner.get('/metrics').expect(200);
  expect(headers['content-type']).toBe('application/openmetrics-text; version=1.0.0; charset=utf-8');
  const lines = text.split('\n');
  expect(lines.slice(-2)).toEqual(['# EOF', '']);
  const samples = lines.filter((line) => line !== '' && !line.startsWith('#'));
  expect(samples.filter((line) => !SAMPLE.test(line))).toEqual([]);
  expect(samples).toContain('http_request_duration_seconds_count{method="GET",route="/api/v1/commissions",status="200"} 1');
  expect(samples).toContain('http_request_duration_seconds_count{method="GET",route="/api/v1/clients/:id",status="404"} 1');
  expect(text).not.toContain('0190a000');
  expect(Number(samples.find((line) => line.startsWith('book_size_bytes '))?.split(' ')[1])).toBeGreaterThan(100_000);
  expect(samples.some((line) => line.startsWith('process_resident_memory_bytes '))).toBe(true);
});

test('nobody but the owner reads them', async () => {
  const { desk, bench, student, stranger } = await startApp();
  await Promise.all([desk, bench, student].map((one) => one.get('/metrics').expect(403)));
  await stranger.get('/metrics').expect(401);
});
