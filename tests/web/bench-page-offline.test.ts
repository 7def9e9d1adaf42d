import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { joints } from '../../src/platform/db/tables.ts';
import { heatsOf, planInUse, readiness } from '../support/at-the-bench.ts';
import { aLine } from '../support/a-line.ts';
import { aCutPendant, mainButton, pressTo, sameClock, untilItMayFlow } from '../support/at-the-tablet.ts';
import { expectAccessible, PASSWORD, visit } from '../support/page.ts';
import { pendantPlan } from '../support/pendant.ts';

/** Until the page and its files are kept on the device. */
const KEPT = `navigator.serviceWorker.ready.then(() => caches.open('files')).then((cache) => cache.keys()).then((keys) => keys.length > 3)`;

test('a heat goes on while the network is gone, also through a reload, and is in the book with its own times after', async () => {
  const { app, heats, lots } = await aCutPendant();
  const { bench } = app;
  const line = await aLine(app);
  const { page, context } = await visit(line.app, '/bench', { as: 'bench', width: 820 });
  await sameClock(app, page);
  const inBook = async (index = 0) => (await bench.get(`/heats/${heats[index]!.id}`).expect(200)).body;
  const stateOf = async (index = 0) => (await inBook(index)).state as string;
  await pressTo(page, 'It is ready');
  await expect.poll(() => stateOf()).toBe('primed');
  await expect.poll(() => page.evaluate(KEPT)).toBe(true);
  const later = page.waitForResponse((answer) => answer.url().includes(`heatId=${heats[1]!.id}`));
  await page.reload();
  await later;

  await line.cut();
  await context.setOffline(true);
  await pressTo(page, 'Light it');
  await pressTo(page, 'Flux clear');
  await untilItMayFlow(page);
  await pressTo(page, 'It flows');
  await pressTo(page, 'Flame off');
  await page.getByText('4 steps are kept on this device').waitFor();
  await page.reload();
  await page.getByText('4 steps are kept on this device').waitFor();
  await expectAccessible(page);
  await pressTo(page, 'Into the pickle');
  await pressTo(page, 'Rinsed and dried');
  await pressTo(page, 'It flowed: cleared');
  await page.getByText('This heat is cleared').waitFor();
  expect(await inBook()).toMatchObject({ state: 'primed', alightAt: null });
  // The next heat of the plan is known here too, and is made ready.
  await pressTo(page, 'Next heat');
  await page.getByText(`${heats[1]!.number}: solder bail-seam with hard wire`).waitFor();
  await pressTo(page, 'It is ready');
  await page.getByText('8 steps are kept on this device').waitFor();
  const backAt = app.clock.now().toISOString();

  await line.mend();
  await context.setOffline(false);
  await expect.poll(() => stateOf(1)).toBe('primed');
  await page.getByText('kept on this device').waitFor({ state: 'hidden' });
  const { state, alightAt, endedAt, observed, seen } = await inBook();
  expect({ state, seen }).toEqual({ state: 'cleared', seen: 'flowed through' });
  expect(alightAt < endedAt && endedAt < backAt).toBe(true);
  expect(observed.secondsToFlow).toBeGreaterThan(0);
  expect((await inBook(1)).lot.id).toBe(lots['hard']);
});

test('what no longer fits is told in words, with what holds now, and stays until it is read', async () => {
  const { app, heats, lots } = await aCutPendant();
  const { bench } = app;
  const heat = `/heats/${heats[0]!.id}`;
  await bench.move(heat, await readiness(bench, heats[0]!.id, lots)).expect(200);
  const { page, context } = await visit(app, '/bench', { as: 'bench' });
  await sameClock(app, page);
  await page.locator('.bench-main', { hasText: 'Light it' }).waitFor();
  await context.setOffline(true);
  await pressTo(page, 'Light it');
  await page.getByText('1 step is kept on this device').waitFor();
  await bench.move(heat, { from: 'primed', to: 'laid_out' }).expect(200);
  await context.setOffline(false);
  const alert = page.getByRole('alert');
  await alert.getByText('By the book it was laid out by then.').waitFor();
  expect(await alert.textContent()).toContain(`Not taken by the book: ${heats[0]!.number}: lit`);
  await page.locator('.bench-main', { hasText: 'Yes, next' }).waitFor();
  await page.reload();
  await alert.getByText('By the book it was laid out by then.').waitFor();
  await expectAccessible(page);
  await alert.getByRole('button', { name: 'Read: put away' }).click();
  await alert.waitFor({ state: 'hidden' });
  expect((await bench.get(heat)).body).toMatchObject({ state: 'laid_out', alightAt: null });
});

test('what a newer plan took away is noted in the heat that took its place, at the time it was done', async () => {
  const { app, piece } = await aCutPendant();
  const { page, context } = await visit(app, '/bench', { as: 'bench' });
  await sameClock(app, page);
  await mainButton(page).waitFor();
  await context.setOffline(true);
  await pressTo(page, 'It is ready');
  await page.getByText('1 step is kept on this device').waitFor();
  const doneBy = app.clock.now().toISOString();
  const [wall, bail, ...rest] = pendantPlan.heats;
  const { plan } = await planInUse(app.owner, piece.id, { plan: { heats: [bail, wall, ...rest] } });
  const second = (await heatsOf(app.owner, plan.id))[1]!;
  await context.setOffline(false);
  await page.getByText(`A newer plan makes wall-seam in ${second.number}.`).waitFor();
  await page.getByRole('button', { name: 'Note it there' }).click();
  const read = async () => (await app.bench.get(`/heats/${second.id}`)).body as { state: string; readiness: { at: string } };
  await expect.poll(async () => (await read()).state).toBe('primed');
  expect((await read()).readiness.at <= doneBy).toBe(true);
  await page.getByRole('alert').waitFor({ state: 'hidden' });
});

test('who was signed out at the fire signs in again, and what was done meanwhile is told', async () => {
  const { app, heats, lots } = await aCutPendant();
  const { bench } = app;
  await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(200);
  const { page, context } = await visit(app, '/bench', { as: 'bench' });
  await sameClock(app, page);
  await page.locator('.bench-main', { hasText: 'Light it' }).waitFor();
  await context.clearCookies();
  await pressTo(page, 'Light it');
  await page.getByRole('alert').getByText('Sign in again').waitFor();
  await page.locator('.bench-main', { hasText: 'Flux clear' }).waitFor();
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByLabel('Sign-in name').fill('bench');
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  const state = async () => (await bench.get(`/heats/${heats[0]!.id}`)).body.state as string;
  await expect.poll(state).toBe('alight');
  await page.locator('.bench-main', { hasText: 'Flux clear' }).waitFor();
});

test('what must not be heated is not readied on the device either, with the network gone', async () => {
  const { app, heats } = await aCutPendant();
  app.db
    .update(joints)
    .set({ state: 'doubtful', solder: null, cadmiumStanding: 'unknown' })
    .where(eq(joints.jointId, 'wall-seam'))
    .run();
  const { page, context } = await visit(app, `/bench?heat=${heats[2]!.id}`, { as: 'bench' });
  await sameClock(app, page);
  const says = page.getByText('Do not heat: there may be cadmium in wall-seam.');
  await says.waitFor();
  await expect.poll(() => page.evaluate(KEPT)).toBe(true);
  await context.setOffline(true);
  await page.reload();
  await says.waitFor();
  expect(await mainButton(page).count()).toBe(0);
});
