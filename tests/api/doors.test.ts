import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import { readConfig } from '../../src/config.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { aClient } from '../support/a-commission.ts';
import { rawClient } from '../support/raw-request.ts';
import { startApp, testClock } from '../support/start-app.ts';

const PASSWORD = 'a long enough sentence';

test('what the book says is kept by no cache, refusals too', async () => {
  const { desk, stranger, owner } = await startApp();
  const clientId = await aClient(desk);
  for (const path of ['/clients', `/clients/${clientId}`, '/sessions/current', '/clients/nobody', `/clients/${clientId}/held`])
    expect([path, (await desk.get(path)).headers['cache-control']]).toEqual([path, 'no-store']);
  expect((await owner.get('/reports/money-owed?format=csv').expect(200)).headers['cache-control']).toBe('no-store');
  expect((await stranger.get('/health').expect(200)).headers).toMatchObject({
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'SAMEORIGIN',
    'referrer-policy': 'no-referrer',
    'content-security-policy': expect.stringContaining("default-src 'self'"),
  });
});

test('a sent form, or a page of another site, does nothing with somebody’s cookie', async () => {
  const { owner, stranger, baseUrl, desk } = await startApp();
  await owner.post('/people', { name: 'Sorrel', roles: ['desk'], signInName: 'sorrel', password: PASSWORD }).expect(201);
  const { headers } = await stranger.post('/sessions', { signInName: 'sorrel', password: PASSWORD }).expect(201);
  const cookie = headers['set-cookie']![0]!.split(';')[0]!;
  const send = rawClient(baseUrl);
  const host = new URL(baseUrl).host;
  const client = JSON.stringify({ name: 'Tollgate', email: 't@example.org' });
  const post = async (more: Record<string, string>, body = client) =>
    (
      await send({
        method: 'POST',
        path: '/api/v1/clients',
        headers: { cookie, 'content-type': 'application/json', ...more },
        body,
      })
    ).status;
  // What a form can send without asking first (Fetch standard: CORS-safelisted content types).
  for (const type of [
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'text/plain; application/json',
    '',
  ])
    expect([type, await post({ 'content-type': type })]).toEqual([type, 415]);
  for (const foreign of [
    { origin: 'http://elsewhere.example' },
    { origin: 'null' },
    { origin: `http://${host}.elsewhere.example` },
    { origin: `http://elsewhere.example@${host}x` },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
    { 'sec-fetch-site': 'same-origin', origin: 'http://elsewhere.example' },
  ])
    expect([foreign, await post(foreign)]).toEqual([foreign, 403]);
  // A method that is sent as another is no other.
  expect(await post({ 'x-http-method-override': 'DELETE', origin: `http://${host}`, 'sec-fetch-site': 'same-origin' })).toBe(201);
  expect((await desk.get('/clients').expect(200)).body.items).toHaveLength(1);
});

test('each sign-in is a session of its own, never one that was brought along', async () => {
  const { owner, stranger } = await startApp();
  await owner.post('/people', { name: 'Sorrel', roles: ['desk'], signInName: 'sorrel', password: PASSWORD }).expect(201);
  const brought = 'hearthbook_session=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA';
  const signIn = () =>
    stranger.post('/sessions', { signInName: 'sorrel', password: PASSWORD }).set('cookie', brought).expect(201);
  const cookies = [
    (await signIn()).headers['set-cookie']![0]!.split(';')[0]!,
    (await signIn()).headers['set-cookie']![0]!.split(';')[0]!,
  ];
  expect(new Set([brought, ...cookies]).size).toBe(3);
  await stranger.get('/sessions/current').set('cookie', brought).expect(401);
});

/** A server on its own, asked behind those proxies. */
const ask = async (trustedProxies: string[]) => {
  const { db, close } = openDb(':memory:', new Date('2031-05-05T08:00:00Z'));
  const { http, firstOwnerCode } = await buildApp({ db, clock: testClock() }, { logLevel: 'silent', trustedProxies });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  const owner = { code: firstOwnerCode, name: 'Flint', signInName: 'flint', password: PASSWORD };
  await http.inject({ method: 'POST', url: '/api/v1/people/first-owner', payload: owner });
  const signIn = (address: string, password = PASSWORD, signInName = 'flint') =>
    http.inject({
      method: 'POST',
      url: '/api/v1/sessions',
      headers: { 'x-forwarded-for': address, 'x-forwarded-proto': 'https' },
      payload: { signInName, password },
    });
  const cookie = String((await signIn('192.0.2.1')).headers['set-cookie']);
  const statuses: number[] = [];
  // More than an address may try in a minute, from as many addresses; refused as overlong before a password is looked at.
  for (let i = 0; i < 12; i++) statuses.push((await signIn(`192.0.2.${i + 10}`, 'x'.repeat(201))).statusCode);
  return { cookie, statuses: new Set(statuses) };
};

test('behind a server that is trusted, cookies are for https alone and tries are counted by who makes them; else its word counts for nothing', async () => {
  const trusted = await ask(['127.0.0.1']);
  expect(trusted.cookie).toMatch(/; Secure; SameSite=Lax$|; HttpOnly; Secure/);
  expect(trusted.statuses).toEqual(new Set([422]));
  const other = await ask([]);
  expect(other.cookie).toMatch(/HttpOnly; SameSite=Lax/);
  expect(other.cookie).not.toContain('Secure');
  expect(other.statuses).toEqual(new Set([422, 429]));
});

test('TRUSTED_PROXY is addresses and networks', () => {
  expect(readConfig({}).trustedProxies).toEqual([]);
  expect(readConfig({ TRUSTED_PROXY: '172.18.0.2, 10.0.0.0/8,fd00::/64' }).trustedProxies).toEqual([
    '172.18.0.2',
    '10.0.0.0/8',
    'fd00::/64',
  ]);
  for (const wrong of ['true', 'proxy', '10.0.0.0/0', '10.0.0.0/33', '0.0.0.0/x', '10.0.0.1/8/8'])
    expect(() => readConfig({ TRUSTED_PROXY: wrong })).toThrow('TRUSTED_PROXY must be addresses');
});

test('the folder of the book is its owner’s alone', () => {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  openDb(join(folder, 'data', 'hearthbook.sqlite'), new Date('2031-05-05T08:00:00Z')).close();
  expect(statSync(join(folder, 'data')).mode & 0o777).toBe(0o700);
});
