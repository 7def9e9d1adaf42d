import { expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { workHeat } from '../support/at-the-bench.ts';
import { aLine } from '../support/a-line.ts';
import { aCutPendant, pressTo, sameClock } from '../support/at-the-tablet.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';

const KEPT = `navigator.serviceWorker.ready.then(() => caches.open('files')).then((cache) => cache.keys()).then((keys) => keys.length > 3)`;

async function heatToCooling(page: Page): Promise<void> {
  await pressTo(page, 'It is ready');
  await pressTo(page, 'Light it');
  await page.getByRole('button', { name: 'flowed through' }).click();
}

test('with two baths the one for this heat is chosen by a tap, kept for the next, and counts the dip', async () => {
  const { app } = await aCutPendant();
  const { bench } = app;
  const baths: { id: string; number: string }[] = [];
  for (const acid of ['bisulphate', 'citric']) baths.push((await bench.post('/pickle-baths', { acid }).expect(201)).body);
  const { page } = await visit(app, '/bench', { as: 'bench', width: 360 });
  await sameClock(app, page);
  await heatToCooling(page);
  const choice = page.getByRole('group', { name: 'Into which bath?' });
  await choice.getByRole('button', { name: `Bath ${baths[1]!.number}: citric acid` }).focus();
  await page.keyboard.press('Space');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await pressTo(page, 'Into the pickle');
  const dips = async (index: number) => (await bench.get(`/pickle-baths/${baths[index]!.id}`)).body.dips as number;
  await expect.poll(() => dips(1)).toBe(1);
  expect(await dips(0)).toBe(0);
  // What a bath has counted is not taken back by a tap.
  await page.locator('.bench-main', { hasText: 'Rinsed and dried' }).waitFor();
  expect(await page.getByRole('button', { name: /^Undo/ }).count()).toBe(0);
  await pressTo(page, 'Rinsed and dried');
  await pressTo(page, 'It flowed: cleared');
  await heatToCooling(page);
  await choice.getByRole('button', { name: `✓ Bath ${baths[1]!.number}`, exact: false, pressed: true }).waitFor();
});

test('a lot is weighed while the network is gone, by a knuckle and a number, and the book follows it after', async () => {
  const { app, lots } = await aCutPendant();
  const { bench } = app;
  const { page, context } = await visit(app, '/bench', { as: 'bench', width: 820 });
  await sameClock(app, page);
  await page.getByText('Weigh a lot').click();
  // Also one that this heat does not use.
  const medium = (await bench.get(`/solder-lots/${lots['medium']}`).expect(200)).body;
  await page.getByLabel('From which lot?').selectOption({ value: medium.id });
  await context.setOffline(true);
  await page.getByLabel('What the scale says').fill('4.75');
  await page.getByRole('button', { name: 'The scale is right' }).click();
  await page.getByText('Kept on this device: 4.75 g').waitFor();
  await page.getByText('1 step is kept on this device').waitFor();
  const weighedBy = app.clock.now().toISOString();
  await page.reload({ waitUntil: 'commit' }).catch(() => undefined);
  await context.setOffline(false);
  const held = async () => (await bench.get(`/solder-lots/${lots['medium']}`)).body.onHandG as number;
  await expect.poll(held).toBe(4.75);
  const { items } = (await app.owner.get(`/stock-movements?lotId=${lots['medium']}`).expect(200)).body;
  expect(items[0]).toMatchObject({ kind: 'count_down', reason: 'weighed at the bench' });
  expect(items[0].occurredAt < weighedBy).toBe(true);

  // More than ever came in is asked about, and noted when it is said again.
  await page.goto(`${app.baseUrl}/bench`);
  await page.getByText('Weigh a lot').click();
  await page.getByLabel('What the scale says').fill('48');
  await page.getByRole('button', { name: 'The scale is right' }).click();
  const refused = page.getByRole('alert').filter({ hasText: 'Not taken by the book' });
  await refused.getByText('Is the unit right?').waitFor();
  await expectAccessible(page);
  await refused.getByRole('button', { name: 'It is so: note it' }).click();
  await expect.poll(async () => (await bench.get(`/solder-lots/${lots['hard']}`)).body.onHandG).toBe(48);
});

test('a student guesses with the network gone; the answer comes when it is back', async () => {
  const { app, heats, lots, plan } = await aCutPendant({ kind: 'teaching_piece' });
  for (const heat of heats.slice(0, 3)) await workHeat(app.bench, heat.id, lots);
  const line = await aLine(app);
  const { page, context } = await visit(line.app, `/bench?heat=${heats[3]!.id}`, { as: 'student', width: 820 });
  await sameClock(app, page);
  await page.getByRole('heading', { name: 'Guess first' }).waitFor();
  await expect.poll(() => page.evaluate(KEPT)).toBe(true);
  await line.cut();
  await context.setOffline(true);
  for (const joint of ['wall-seam', 'bail-seam', 'bezel'])
    await page.getByRole('group').filter({ hasText: joint }).getByRole('button', { name: 'softens' }).click();
  await page.getByRole('button', { name: 'That is my guess' }).click();
  await page.getByText('Your guess is kept on this device').waitFor();
  await page.reload();
  await page.getByText('Your guess is kept on this device').waitFor();
  expect(await page.getByText(/predicted/).count()).toBe(0);
  await line.mend();
  await context.setOffline(false);
  await page.getByText(/wall-seam: (guessed right|you said)/).waitFor();
  expect((await app.student.get(`/plans/${plan.id}/guesses`).expect(200)).body.guesses).toHaveLength(3);
});

test('timers: several at once, each by its name, through a reload; one that is up rings on any page until it is put off', async () => {
  const { app } = await aCutPendant();
  const { page } = await visit(app, '/bench', { as: 'bench', width: 360 });
  await sameClock(app, page);
  await page.getByText('Timers', { exact: true }).click();
  await page.getByLabel('What it is for').fill('Pickle');
  await page.getByRole('button', { name: '3 minutes' }).click();
  await page.getByLabel('What it is for').fill('Boric acid');
  await page.getByLabel('Other minutes').fill('0.5');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Stop: Boric acid' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Stop: Pickle' }).waitFor();
  await page.getByRole('button', { name: 'Stop: Boric acid' }).waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.clock.fastForward(31_000);
  const ringing = page.getByRole('alert').filter({ hasText: 'Time is up: Boric acid' });
  await ringing.waitFor();
  await expectAccessible(page);
  await page.goto(`${app.baseUrl}/pieces`);
  await ringing.waitFor();
  await ringing.getByRole('button', { name: 'Put it off: Boric acid' }).focus();
  await page.keyboard.press('Enter');
  await ringing.waitFor({ state: 'hidden' });
  await page.goto(`${app.baseUrl}/bench`);
  await page.getByRole('button', { name: 'Stop: Pickle' }).click();
  expect(await page.getByRole('button', { name: /^Stop: / }).count()).toBe(0);
});
