import { expect, test } from 'vitest';
import { jointStates } from '../support/at-the-bench.ts';
import { aCutPendant, mainButton, pressTo, sameClock, untilItMayFlow } from '../support/at-the-tablet.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';

test('a whole heat by tapping: readied, lit, seen, cooled, pickled, looked at, cleared', async () => {
  const { app, heats, piece } = await aCutPendant();
  const { page, complaints } = await visit(app, '/bench', { as: 'bench', width: 820 });
  await sameClock(app, page);
  await page.getByText(`${heats[0]!.number}: solder wall-seam with hard wire`).waitFor();
  await expectAccessible(page);
  await pressTo(page, 'It is ready');
  await pressTo(page, 'Light it');
  await pressTo(page, 'Flux clear');
  await untilItMayFlow(page);
  await pressTo(page, 'It flows');
  await pressTo(page, 'Flame off');
  await pressTo(page, 'Into the pickle');
  await pressTo(page, 'Rinsed and dried');
  await page.getByRole('button', { name: 'Overheated' }).waitFor();
  await expectAccessible(page);
  await pressTo(page, 'It flowed: cleared');
  await page.getByText(`${heats[1]!.number}: solder bail-seam with hard wire`).waitFor();
  const heat = (await app.bench.get(`/heats/${heats[0]!.id}`).expect(200)).body;
  expect(heat).toMatchObject({ state: 'cleared', outcome: 'flowed', lot: { markOnMetal: 'H' }, seen: 'flowed through' });
  expect(heat.observed.secondsToFlow).toBeGreaterThanOrEqual(heat.observed.secondsToFluxClear);
  expect(await jointStates(app.bench, piece.id)).toMatchObject({ 'wall-seam': 'sound', 'bail-seam': 'open' });
  expect(complaints).toEqual([]);
});

test('one key does it all, and the step is taken back by another button', async () => {
  const { app, heats } = await aCutPendant();
  const { page } = await visit(app, '/bench', { as: 'bench' });
  await sameClock(app, page);
  await mainButton(page).waitFor();
  const enter = () => page.keyboard.press('Enter');
  await pressTo(page, 'It is ready', enter);
  await pressTo(page, 'Light it', enter);
  const undo = page.getByRole('button', { name: `Undo: ${heats[0]!.number}: lit` });
  await undo.focus();
  await page.keyboard.press('Space');
  await page.locator('.bench-main', { hasText: 'Light it' }).waitFor();
  const state = async () => (await app.bench.get(`/heats/${heats[0]!.id}`)).body.state as string;
  await expect.poll(state).toBe('primed');
});

test('it went wrong, in four taps on a phone: the heat is spoilt and its incident open', async () => {
  const { app, heats, piece } = await aCutPendant();
  const { page } = await visit(app, '/bench', { as: 'bench', width: 360 });
  await sameClock(app, page);
  await pressTo(page, 'It is ready');
  await pressTo(page, 'Light it');
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'It went wrong' }).click();
  const form = page.getByRole('region', { name: 'It went wrong' });
  await form.getByRole('group', { name: 'What came of the heat?' }).getByRole('button', { name: 'Overheated' }).click();
  await form.getByRole('button', { name: 'wall-seam' }).click();
  await expectAccessible(page);
  await form.getByRole('button', { name: 'Note it' }).click();
  const state = async () => (await app.bench.get(`/heats/${heats[0]!.id}`)).body.state as string;
  await expect.poll(state).toBe('spoilt');
  const { items } = (await app.bench.get(`/incidents?pieceId=${piece.id}`).expect(200)).body;
  expect(items).toMatchObject([{ kind: 'overheated', jointId: 'wall-seam', heatId: heats[0]!.id }]);
  // The heat stays in sight until its plan is made again, also when the page is opened anew.
  await page.reload();
  await page.getByRole('button', { name: 'Plan again from here' }).click();
  await page.waitForURL(`**/pieces/${piece.id}/plan`);
});
