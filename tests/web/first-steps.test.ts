import { expect, test } from 'vitest';
import { addProduct, receiveLot } from '../support/stock.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

test('a new studio is told what comes first, step by step, until the owner has seen enough of it', async () => {
  const app = await startApp();
  const { page, browser } = await visit(app, '/', { as: 'owner', width: 360 });
  const steps = page.getByRole('region', { name: 'First steps' });
  await steps.getByText('1 of 6 done').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  const done = () => steps.getByRole('listitem').filter({ hasText: 'done' }).allInnerTexts();
  expect(await done()).toEqual([expect.stringContaining('Add somebody else who works here')]);

  for (const [step, heading] of [
    ['Put the first solder in the drawer', 'Drawer'],
    ['Say what silver and an hour cost', 'Studio'],
    ['Set up a bench', 'Dates'],
    ['Note the first enquiry', 'A new enquiry'],
    ['Add somebody else', 'Studio'],
    ['Make a tablet', 'Studio'],
  ] as const) {
    await page.goto(app.baseUrl);
    await steps.getByRole('link', { name: step }).click();
    await page.getByRole('heading', { level: 1, name: heading }).waitFor();
  }
  await receiveLot(app.owner, (await addProduct(app.owner)).id);
  await page.goto(app.baseUrl);
  await steps.getByText('2 of 6 done').waitFor();
  expect(await done()).toHaveLength(2);

  await steps.getByRole('button', { name: 'Do not show this again' }).click();
  await steps.waitFor({ state: 'detached' });
  await page.reload();
  await page.getByRole('heading', { name: 'Due next' }).waitFor();
  expect(await steps.count()).toBe(0);
  await page.goto(`${app.baseUrl}/studio/settings`);
  await page.getByLabel('Tell on the first page what a new studio does first').check();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Saved.').waitFor();
  await page.goto(app.baseUrl);
  await steps.getByText('2 of 6 done').waitFor();

  const hand = await visit(app, '/', { as: 'bench', browser });
  await hand.page.getByRole('heading', { name: 'Due next' }).waitFor();
  expect(await hand.page.getByRole('region', { name: 'First steps' }).count()).toBe(0);
});
