import { expect, test } from 'vitest';
import { aDrawer } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

test('a drawer is counted blind, laid beside the book, explained and posted', async () => {
  const app = await startApp();
  const { lots } = await aDrawer(app);
  const { page } = await visit(app, '/drawer/stocktake', { as: 'owner', width: 360 });
  await page.clock.setFixedTime(app.clock.now());
  await page.getByRole('button', { name: 'Begin a stocktake' }).click();
  await page.getByText('3 lots left to count.').waitFor();
  // Blind: five grams of each are in the book, and nowhere on the page.
  expect(await page.getByText(/\b5(\.0+)? g/).count()).toBe(0);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  const [{ id }] = (await app.owner.get('/stocktakes').expect(200)).body.items;
  const { counts } = (await app.owner.get(`/stocktakes/${id}`).expect(200)).body;
  for (const [nth, { number, lotId }] of (counts as { number: string; lotId: string }[]).entries()) {
    await page.getByRole('heading', { name: `Lot ${number}:` }).waitFor();
    await page.getByLabel('What the scale says').fill(lotId === lots['medium'] ? '16.4' : '17');
    await page.getByLabel('What that weighs empty').fill('12');
    await page.getByRole('button', { name: 'Note it' }).click();
    await page.getByText(nth === 2 ? 'Every lot has a count' : /left to count/).waitFor();
  }
  await page.getByText('Every lot has a count').waitFor();
  expect(await page.getByText('4.400 g').count()).toBe(1);
  await page.getByRole('button', { name: 'Compare with the book' }).click();
  await page.getByText('over what may be').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Count again' }).click();
  await page.getByText('Every lot has a count').waitFor();
  await page.getByRole('button', { name: 'Compare with the book' }).click();
  await page.getByLabel('How it came about').fill('Offcuts went into the wrong box');
  await page.getByRole('button', { name: /Note how it came about/ }).click();
  await page.getByText('Why: Offcuts').waitFor();
  await page.getByRole('button', { name: 'Post it' }).click();
  await page.getByText('Nothing is booked before').waitFor();
  expect((await app.owner.get(`/solder-lots/${lots['medium']}`).expect(200)).body.onHandG).toBe(4.4);
  expect((await app.owner.get(`/stocktakes/${id}`).expect(200)).body.state).toBe('posted');
});
