import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';

test('nothing answers without a sign-in but what is open', async () => {
  const { stranger } = await startApp();
  const refused = await stranger
    .get('/settings')
    .expect(401)
    .expect('content-type', /^application\/problem\+json/);
  expect(refused.body).toMatchObject({ type: '/api/v1/problems/not-signed-in', status: 401 });
  await stranger.get('/no-such-thing').expect(401);
  expect((await stranger.get('/health').expect(200)).body).toEqual({ status: 'ok', ownerMissing: false });
  expect((await stranger.get('/problems/stale').expect(200)).body).toMatchObject({ status: 412, type: '/api/v1/problems/stale' });
});

test('a role may do what the table says and no more', async () => {
  const { owner, desk } = await startApp();
  await owner.get('/settings').expect(200);
  expect((await desk.get('/settings').expect(403)).body.type).toBe('/api/v1/problems/forbidden');
});

test('POST /people tells every bad field at once, unknown ones by name', async () => {
  const { owner } = await startApp();
  const refused = await owner.post('/people', { name: '', roles: ['boss'], benchMinutesPerDay: 480, rate: '24' }).expect(422);
  expect(refused.body.errors).toEqual([
    expect.objectContaining({ pointer: '/name', given: '' }),
    expect.objectContaining({ pointer: '/roles/0', given: 'boss', detail: 'It must be one of owner, bench, desk, student.' }),
    expect.objectContaining({ pointer: '/rate', detail: 'There is no field "rate" here.' }),
    expect.objectContaining({ pointer: '/benchMinutesPerDay', given: 480, confirmable: true }),
  ]);
  expect((await owner.get('/people').expect(200)).body.items).toHaveLength(4);
});

test('a value outside the ask fence passes when confirmed with a reason, which the journal keeps', async () => {
  const { owner } = await startApp();
  const person = { name: 'Sorrel', roles: ['bench'], benchMinutesPerDay: 480 };
  expect((await owner.post('/people', person).set('confirm', '/benchMinutesPerDay').expect(422)).body.errors[0].detail).toContain(
    'Confirm-Reason',
  );
  const made = await owner
    .post('/people', person)
    .set('confirm', '/benchMinutesPerDay')
    .set('confirm-reason', 'works nights alone')
    .expect(201);
  expect(made.body).toMatchObject({ name: 'Sorrel', benchMinutesPerDay: 480, version: 1 });
  const lines = await owner.get(`/journal?thingId=${made.body.id}`).expect(200);
  expect(lines.body.items[0]).toMatchObject({
    person: 'Flint',
    what: 'person',
    confirmed: { pointers: ['/benchMinutesPerDay'], reason: 'works nights alone' },
  });
});

test('PATCH /people asks only about what changes, and needs the version that was read', async () => {
  const { owner } = await startApp();
  const made = await owner
    .post('/people', { name: 'Sorrel', roles: ['bench'], benchMinutesPerDay: 480 })
    .set('confirm', '/benchMinutesPerDay')
    .set('confirm-reason', 'works nights');
  const path = `/people/${made.body.id}`;
  expect((await owner.patch(path, { name: 'Sorrel II' }).expect(428)).body.type).toBe('/api/v1/problems/if-match-missing');
  const changed = await owner.patch(path, { name: 'Sorrel II', benchMinutesPerDay: 480 }, 1).expect(200).expect('etag', '"2"');
  expect(changed.body.name).toBe('Sorrel II');
  expect((await owner.patch(path, { name: 'Sorrel III' }, 1).expect(412)).body).toMatchObject({
    type: '/api/v1/problems/stale',
    version: 2,
  });
  expect((await owner.get(path).expect(200)).body.name).toBe('Sorrel II');
});

test('the last owner stays', async () => {
  const { owner, actors } = await startApp();
  const refused = await owner.patch(`/people/${actors.owner.personId}`, { roles: ['bench'] }, 1).expect(409);
  expect(refused.body.type).toBe('/api/v1/problems/condition-not-met');
  expect((await owner.get(`/people/${actors.owner.personId}`)).body.roles).toEqual(['owner']);
});

test('a person signs in with a cookie session, is known by it, and signs out', async () => {
  const { owner, stranger } = await startApp();
  await owner
    .post('/people', { name: 'Sorrel', roles: ['bench'], signInName: 'Sorrel', password: 'a long enough sentence' })
    .expect(201);
  expect(
    (await stranger.post('/sessions', { signInName: 'sorrel', password: 'a wrong long sentence' }).expect(401)).body.type,
  ).toBe('/api/v1/problems/sign-in-refused');
  const signedIn = await stranger.post('/sessions', { signInName: 'sorrel', password: 'a long enough sentence' }).expect(201);
  const cookie = signedIn.headers['set-cookie']![0]!;
  expect(cookie).toMatch(/^hearthbook_session=[\w-]{43}; .*HttpOnly; SameSite=Lax/);
  const own = cookie.split(';')[0]!;
  expect((await stranger.get('/sessions/current').set('cookie', own).expect(200)).body).toMatchObject({
    name: 'Sorrel',
    roles: ['bench', 'student'],
  });
  const foreign = await stranger.delete('/sessions/current').set('cookie', own).set('sec-fetch-site', 'cross-site').expect(403);
  expect(foreign.body.type).toBe('/api/v1/problems/other-site');
  await stranger.delete('/sessions/current').set('cookie', own).expect(204);
  await stranger.get('/sessions/current').set('cookie', own).expect(401);
  const { items } = (await owner.get('/journal?what=session').expect(200)).body;
  expect(items).toMatchObject([
    { person: 'Sorrel', after: { signedIn: false } },
    { person: 'Sorrel', after: { signedIn: true } },
  ]);
});

test('a session ends after its days, and with a new password', async () => {
  const { owner, stranger, clock } = await startApp();
  const made = await owner.post('/people', {
    name: 'Sorrel',
    roles: ['bench'],
    signInName: 'sorrel',
    password: 'a long enough sentence',
  });
  const signIn = async (password: string) =>
    (await stranger.post('/sessions', { signInName: 'sorrel', password }).expect(201)).headers['set-cookie']![0]!.split(';')[0]!;
  const first = await signIn('a long enough sentence');
  await owner.patch(`/people/${made.body.id}`, { password: 'another long sentence' }, 1).expect(200);
  await stranger.get('/sessions/current').set('cookie', first).expect(401);
  const second = await signIn('another long sentence');
  clock.advance({ days: 29 });
  await stranger.get('/sessions/current').set('cookie', second).expect(200);
  clock.advance({ days: 1 });
  await stranger.get('/sessions/current').set('cookie', second).expect(401);
});

test('a token works until it is ended, and is listed without its secret', async () => {
  const { bench, stranger, actors } = await startApp();
  const made = await bench.post('/tokens', { name: 'scale on the shelf' }).expect(201);
  const asToken = () => stranger.get('/sessions/current').set('authorization', `Bearer ${made.body.token}`);
  expect((await asToken().expect(200)).body.name).toBe('Basalt');
  const listed = await bench.get('/tokens').expect(200);
  expect(JSON.stringify(listed.body)).not.toContain(made.body.token);
  await bench.delete(`/tokens/${made.body.id}`).expect(200);
  await asToken().expect(401);
  await bench.post('/tokens', { name: 'x', personId: actors.owner.personId }).expect(403);
});

test('the tokens of who has left stay ended when they come back', async () => {
  const { owner, bench, actors } = await startApp();
  const path = `/people/${actors.bench.personId}`;
  await owner.patch(path, { active: false }, 1).expect(200);
  await bench.get('/sessions/current').expect(401);
  await owner.patch(path, { active: true }, 2).expect(200);
  await bench.get('/sessions/current').expect(401);
});

test('the first owner is made once, with the code the server printed', async () => {
  const { db, stranger, firstOwnerCode } = await startApp();
  const body = { code: firstOwnerCode, name: 'Flint', signInName: 'flint', password: 'a long enough sentence' };
  // There is an owner in the test studio already.
  expect((await stranger.post('/people/first-owner', body).expect(403)).body.type).toBe('/api/v1/problems/forbidden');
  db.run("UPDATE people SET active = 0 WHERE roles LIKE '%owner%'");
  expect((await stranger.get('/health')).body.ownerMissing).toBe(true);
  await stranger.post('/people/first-owner', { ...body, code: 'guess' }).expect(403);
  expect((await stranger.post('/people/first-owner', body).expect(201)).body).toMatchObject({ name: 'Flint', roles: ['owner'] });
  await stranger.post('/people/first-owner', { ...body, signInName: 'other' }).expect(403);
});
