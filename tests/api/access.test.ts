import { expect, test } from 'vitest';
import type { Role } from '../../src/platform/db/json-columns.ts';
import { ACCESS, type Access } from '../../src/platform/http/access-table.ts';
import { rawClient } from '../support/raw-request.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { WHO_MAY } from '../support/who-may.ts';

const ROUTES = Object.entries<Access>(ACCESS).map(([route, access]) => {
  const [method, path] = route.split(' ') as [string, string];
  return { route, method, path, access };
});
const ROLES = ['owner', 'bench', 'desk', 'student'] as const;
/** What each role may do besides its own. */
const INCLUDED: Readonly<Record<Role, readonly Role[]>> = {
  owner: ['owner', 'bench', 'desk', 'student'],
  bench: ['bench', 'student'],
  desk: ['desk'],
  student: ['student'],
};

const mayCall = (role: Role, access: (typeof ROUTES)[number]['access']): boolean =>
  typeof access === 'string' || INCLUDED[role].some((one) => access.includes(one));

/** Calls a route about a record that is not there, with a key in the header or none. */
function caller({ baseUrl }: TestApp) {
  const send = rawClient(baseUrl);
  return async ({ method, path }: { method: string; path: string }, headers: Record<string, string>, body: string) => {
    const url = path.replace(':id', '01964e00-0000-7000-8000-000000000000').replace(':jointId', 'seam').replace(':slug', 'stale');
    const withBody = method === 'GET' || method === 'HEAD' ? {} : { body };
    const answer = await send({
      method,
      path: `/api/v1${url.replace(':name', 'solder-use')}`,
      headers: { ...headers, ...(method === 'GET' || method === 'HEAD' ? {} : { 'content-type': 'application/json' }) },
      ...withBody,
    });
    return {
      status: answer.status,
      type: answer.status < 400 || method === 'HEAD' ? '' : (JSON.parse(answer.text) as { type: string }).type,
    };
  };
}

const bearer = ({ services, actors }: TestApp, role: Role) => ({
  authorization: `Bearer ${services.keys.addToken(actors[role], { name: role }).token}`,
});

test('the table has every route, and the roles stand as it says', () => {
  expect(ROUTES.length).toBeGreaterThan(60);
  expect(ROUTES.filter(({ access }) => access === 'open').map(({ route }) => route)).toEqual(WHO_MAY['everybody']);
  for (const { access } of ROUTES) expect(mayCall('owner', access)).toBe(true);
});

test('a stranger is asked to sign in, before the body is read, at all but the open routes', async () => {
  const app = await startApp();
  const call = caller(app);
  const keys: Record<string, string>[] = [
    {},
    { authorization: 'Bearer nobodys' },
    { authorization: 'Basic eDp4' },
    { cookie: 'hearthbook_session=x' },
  ];
  for (const headers of keys) {
    for (const route of ROUTES.filter(({ access }) => access !== 'open')) {
      const { status, type } = await call(route, headers, '{');
      expect([route.route, status, type]).toEqual([route.route, 401, '/api/v1/problems/not-signed-in']);
    }
  }
  for (const route of ROUTES.filter(({ access }) => access === 'open')) {
    const { status } = await call(route, {}, '{');
    expect([route.route, status]).toEqual([route.route, route.method === 'GET' ? 200 : 400]);
  }
});

test.each(ROLES)('the headers alone are for a %s as the whole is', async (role) => {
  const app = await startApp();
  const call = caller(app);
  const key = bearer(app, role);
  for (const route of ROUTES.filter(({ method }) => method === 'GET')) {
    const whole = await call(route, key, '');
    const { status } = await call({ ...route, method: 'HEAD' }, key, '');
    expect([route.route, status]).toEqual([route.route, whole.status]);
    expect([route.route, status === 403]).toEqual([route.route, !mayCall(role, route.access)]);
  }
});

test('someone of two roles may call what either may', async () => {
  const app = await startApp();
  const { body: person } = await app.owner.post('/people', { name: 'Shale', roles: ['desk', 'student'] }).expect(201);
  const { body: made } = await app.owner.post('/tokens', { name: 'two', personId: person.id }).expect(201);
  const call = caller(app);
  for (const route of ROUTES) {
    const { status } = await call(route, { authorization: `Bearer ${made.token}` }, '{');
    const may = mayCall('desk', route.access) || mayCall('student', route.access);
    expect([route.route, status === 403]).toEqual([route.route, !may]);
  }
});
