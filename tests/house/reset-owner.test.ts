import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, onTestFinished, test } from 'vitest';
import { startApp, testClock } from '../support/start-app.ts';

const run = promisify(execFile);

function aFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** The command, as somebody at the machine starts it. */
const resetOwner = (folder: string, ...args: string[]) =>
  run(process.execPath, ['src/reset-owner.ts', ...args], { env: { ...process.env, HEARTHBOOK_DATA: folder } }).then(
    ({ stdout }) => ({ code: 0, printed: stdout }),
    (error: { code: number; stderr: string }) => ({ code: error.code, printed: error.stderr }),
  );

test('the command on the machine lets an owner in again, once, while the server runs', async () => {
  const folder = aFolder();
  expect(await resetOwner(folder)).toMatchObject({ code: 1, printed: expect.stringContaining('There is no book at') });
  // The command goes by the clock of the machine, and so must the server.
  const app = await startApp({ file: join(folder, 'hearthbook.sqlite'), clock: testClock(new Date().toISOString()) });
  const { owner, stranger, actors } = app;
  expect(await resetOwner(folder)).toMatchObject({ code: 1, printed: 'No owner signs in here yet.\n' });
  const old = { signInName: 'flint', password: 'what was it again' };
  await owner.patch(`/people/${actors.owner.personId}`, old, 1).expect(200);
  const signedIn = await stranger.post('/sessions', old).expect(201);
  const cookie = String(signedIn.headers['set-cookie']).split(';')[0]!;
  const { code, printed } = await resetOwner(folder);
  expect([code, printed]).toEqual([0, expect.stringMatching(/^One-time code for flint, good until .*Z: [\w-]{12}\n/)]);
  const oneTime = /Z: ([\w-]{12})$/m.exec(printed)![1]!;
  const password = 'a sentence is good';
  await stranger.post('/people/owner-resets', { code: 'guessed', password }).expect(403);
  await stranger.post('/people/owner-resets', { code: oneTime, password: 'short' }).expect(422);
  const reset = await stranger.post('/people/owner-resets', { code: oneTime, password }).expect(200);
  expect(reset.body).toEqual({ personId: actors.owner.personId, name: 'Flint', signInName: 'flint' });
  await stranger.post('/people/owner-resets', { code: oneTime, password }).expect(403);
  await stranger.get('/sessions/current').set('cookie', cookie).expect(401);
  await stranger.post('/sessions', old).expect(401);
  // Whoever else had a token of the owner is out, too.
  await owner.get('/sessions/current').expect(401);
  const again = await stranger.post('/sessions', { ...old, password }).expect(201);
  const { body } = await stranger
    .get(`/journal?thingId=${actors.owner.personId}`)
    .set('cookie', String(again.headers['set-cookie']).split(';')[0]!)
    .expect(200);
  expect(body.items.map(({ after }: { after: object }) => Object.keys(after)[0])).toContain('ownerCodeGiven');
});

test('where there are several owners, the command asks which', async () => {
  const folder = aFolder();
  const app = await startApp({ file: join(folder, 'hearthbook.sqlite'), clock: testClock(new Date().toISOString()) });
  const password = 'a sentence is good';
  for (const signInName of ['flint', 'shale'])
    await app.owner.post('/people', { name: signInName, roles: ['owner'], signInName, password }).expect(201);
  expect(await resetOwner(folder)).toEqual({ code: 1, printed: 'Say which owner: npm run reset-owner -- flint, shale\n' });
  expect((await resetOwner(folder, 'nobody')).code).toBe(1);
  expect((await resetOwner(folder, 'shale')).printed).toContain('One-time code for shale');
});
