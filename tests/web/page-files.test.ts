import { expect, test } from 'vitest';
import supertest from 'supertest';
import { thermal } from '../../src/web/words/de/said/thermal.ts';
import { startApp } from '../support/start-app.ts';

test('every address of the page is answered with the page, under a strict policy', async () => {
  const { baseUrl } = await startApp();
  const get = (path: string) => supertest(baseUrl).get(path);
  for (const path of ['/', '/bench', '/pieces/0190/plan']) {
    const { text, headers } = await get(path)
      .expect(200)
      .expect('content-type', /^text\/html/);
    expect(text).toContain('<script type="module"');
    expect(headers['content-security-policy']).toMatch(/^default-src 'none'; script-src 'self'; style-src 'self';/);
    expect(headers['cache-control']).toBe('no-cache');
    expect(text).not.toMatch(/https?:\/\//);
  }
  const script = /src="(\/assets\/[^"]+)"/.exec((await get('/')).text)![1]!;
  await get(script).expect(200).expect('cache-control', 'public, max-age=31536000, immutable');
});

test('what is no file of the page is not found, and nothing outside it is served', async () => {
  const { baseUrl } = await startApp();
  const get = (path: string) => supertest(baseUrl).get(path);
  await get('/assets/nothing.js')
    .expect(404)
    .expect('content-type', /problem\+json/);
  await get('/package.json').expect(404);
  await get('/api/v1/nothing').expect(401);
  await get('/docs/nothing').expect(404);
  await get('/link/nothing').expect(404);
  for (const path of ['/..%2fpackage.json', '/assets/..%2f..%2fpackage.json', '/%2e%2e/package.json'])
    expect((await get(path)).text).not.toContain('"dependencies"');
});

test('what the engine says in German is no part of the first load', async () => {
  const { baseUrl } = await startApp();
  const get = async (path: string) => (await supertest(baseUrl).get(path).expect(200)).text;
  const german = Object.values(thermal).find((words) => words.length > 20 && !words.includes('{'))!;
  const found = [...(await get('/')).matchAll(/(?:src|href)="(\/assets\/[^"]+\.js)"/g)].map(([, path]) => path!);
  const loaded = new Set<string>();
  for (let path = found.pop(); path !== undefined; path = found.pop()) {
    if (loaded.has(path)) continue;
    loaded.add(path);
    const script = await get(path);
    expect(script).not.toContain(german);
    // What it imports at once; the rest comes by import().
    found.push(...[...script.matchAll(/(?:from|import)"\.\/([^"]+\.js)"/g)].map(([, name]) => `/assets/${name}`));
  }
  expect(loaded.size).toBeGreaterThan(1);
  const files = JSON.parse(await get('/files.json')) as string[];
  const said = await Promise.all(files.filter((path) => path.endsWith('.js')).map(get));
  expect(said.filter((script) => script.includes(german))).toHaveLength(1);
});
