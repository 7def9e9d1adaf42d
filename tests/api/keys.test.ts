import { expect, test } from 'vitest';
import { createSignInTries } from '../../src/features/people/sign-in-tries.ts';
import type { Problem } from '../../src/platform/http/problem.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

const PASSWORD = 'a long enough sentence';
const NAME = 'sorrel';

/** A bench hand and an owner who sign in, with the cookies of two devices of the first. */
async function aStudio() {
  const app = await startApp();
  const { body: person } = await app.owner
    .post('/people', { name: 'Sorrel', roles: ['bench', 'desk'], signInName: NAME, password: PASSWORD })
    .expect(201);
  const signIn = () => cookieOf(app, PASSWORD);
  return { ...app, person: person as { id: string; version: number }, signIn };
}

async function cookieOf({ stranger }: TestApp, password: string): Promise<string> {
  const { headers } = await stranger.post('/sessions', { signInName: NAME, password }).expect(201);
  return headers['set-cookie']![0]!.split(';')[0]!;
}

const withToken = ({ stranger }: TestApp, token: string) => ({
  get: (path: string) => stranger.get(path).set('authorization', `Bearer ${token}`),
  post: (path: string, body: object) => stranger.post(path, body).set('authorization', `Bearer ${token}`),
});

test('a new password ends every session and every token of its person, but for the key it was set with', async () => {
  const app = await aStudio();
  const { owner, stranger, person, actors } = app;
  const stolen = await app.signIn();
  const { body: minted } = await stranger.post('/tokens', { name: 'to come back by' }).set('cookie', stolen).expect(201);
  await withToken(app, minted.token).get('/pieces').expect(200);
  await owner.patch(`/people/${person.id}`, { password: 'another long sentence' }, person.version).expect(200);
  await stranger.get('/sessions/current').set('cookie', stolen).expect(401);
  await withToken(app, minted.token).get('/pieces').expect(401);
  // The owner's own: the token that asks goes on, another does not.
  const other = (await owner.post('/tokens', { name: 'other' }).expect(201)).body.token as string;
  await owner.patch(`/people/${actors.owner.personId}`, { signInName: 'flint', password: PASSWORD }, 1).expect(200);
  await owner.get('/settings').expect(200);
  await withToken(app, other).get('/settings').expect(401);
});

test('sessions are listed and ended, one’s own, by the owner anybody’s; another’s is as if it were not there', async () => {
  const app = await aStudio();
  const { owner, desk, stranger, person } = app;
  const [phone, laptop] = [await app.signIn(), await app.signIn()];
  const of = (cookie: string) => ({
    list: async () => (await stranger.get('/sessions').set('cookie', cookie).expect(200)).body.items,
    end: (id: string) => stranger.delete(`/sessions/${id}`).set('cookie', cookie),
  });
  const listed = await of(phone).list();
  expect(listed).toMatchObject([
    { personId: person.id, personName: 'Sorrel', tablet: null, isThisOne: false },
    { personId: person.id, isThisOne: true },
  ]);
  expect(JSON.stringify(listed)).not.toContain('Hash');
  expect((await desk.get('/sessions').expect(200)).body.items).toEqual([]);
  const unknown = '01964e00-0000-7000-8000-000000000000';
  const notThere = (await desk.delete(`/sessions/${unknown}`).expect(404)).body;
  const others = (await desk.delete(`/sessions/${listed[0].id}`).expect(404)).body;
  expect({ ...others, detail: others.detail.replace(listed[0].id, unknown) }).toEqual(notThere);
  await of(phone).end(listed[0].id).expect(204);
  await stranger.get('/sessions/current').set('cookie', laptop).expect(401);
  await of(phone).end(listed[0].id).expect(404);
  expect((await owner.get('/sessions').expect(200)).body.items).toHaveLength(1);
  await owner.delete(`/sessions/${listed[1].id}`).expect(204);
  await stranger.get('/sessions/current').set('cookie', phone).expect(401);
});

test('a token may be worth less than its person: some of their roles, or looking alone; then it makes no keys', async () => {
  const app = await aStudio();
  const { owner, person } = app;
  const make = (body: object) => owner.post('/tokens', { name: 'scale', personId: person.id, ...body });
  const desk = withToken(app, (await make({ roles: ['desk'] }).expect(201)).body.token);
  expect((await desk.get('/sessions/current').expect(200)).body.roles).toEqual(['desk']);
  await desk.get('/clients').expect(200);
  await desk.post('/torches', { name: 'Pencil', torch: 'small' }).expect(403);
  const looking = withToken(app, (await make({ onlyReads: true }).expect(201)).body.token);
  await looking.get('/clients').expect(200);
  expect((await looking.post('/clients', { name: 'Millrace', email: 'm@example.org' }).expect(403)).body.detail).toBe(
    'Cannot do this: the token is for looking alone',
  );
  for (const key of [desk, looking]) {
    await key.post('/tokens', { name: 'more' }).expect(403);
    await key.get('/tokens').expect(403);
    await key.post('/pins', { pin: '2718' }).expect(403);
    await key.get('/sessions').expect(403);
  }
  const beyond = await make({ roles: ['bench', 'owner'] }).expect(422);
  expect(beyond.body.errors).toEqual([
    {
      pointer: '/roles/1',
      detail: 'A token is worth no more than its person: Sorrel has not the role owner.',
      given: 'owner',
    },
  ]);
  // What the person loses, the token loses.
  await owner.patch(`/people/${person.id}`, { roles: ['bench'] }, person.version).expect(200);
  await desk.get('/clients').expect(403);
});

test('wrong passwords are slowed for a name, whether or not somebody has it, up to five minutes; the right one ends the count', () => {
  const clock = testClock();
  const tries = createSignInTries(clock);
  const wait = (name: string) => {
    try {
      tries.charge(name);
      return 0;
    } catch (error) {
      return (error as Problem).extensions['retryAfterS'];
    }
  };
  expect(Array.from({ length: 6 }, () => wait(NAME))).toEqual([0, 0, 0, 0, 0, 5]);
  expect(wait('nobody')).toBe(0);
  const waits: unknown[] = [];
  for (let i = 0; i < 9; i++) {
    waits.push(wait(NAME));
    clock.advance({ seconds: Number(waits.at(-1)) });
    expect(wait(NAME)).toBe(0);
  }
  expect(waits).toEqual([5, 10, 20, 40, 80, 160, 300, 300, 300]);
  // A clock that is put back keeps nobody out until it has caught up, and frees nobody of the next wait.
  clock.advance({ days: -30 });
  expect([wait(NAME), wait(NAME)]).toEqual([0, 300]);
  tries.forget(NAME);
  expect(wait(NAME)).toBe(0);
});

test('a sign-in is slowed for its name, and for its address over all names; the right password waits too', async () => {
  const { stranger } = await aStudio();
  const signIn = (password: string, signInName = NAME) => stranger.post('/sessions', { signInName, password });
  for (let i = 0; i < 5; i++) await signIn('guess').expect(401);
  const slowed = await signIn(PASSWORD, ` ${NAME.toUpperCase()} `).expect(429).expect('retry-after', '5');
  expect(slowed.body.detail).toBe('Too many wrong passwords for this name: the next may be tried in 5 seconds');
  for (let i = 0; i < 4; i++) await signIn('guess').expect(429);
  expect((await signIn('guess', 'nobody').expect(429)).body.detail).not.toContain('for this name');
});
