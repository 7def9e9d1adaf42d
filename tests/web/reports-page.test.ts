import { expect, test } from 'vitest';
import { aSentQuote, aPricedPendant, anAcceptedQuote } from '../support/a-quote.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A studio with one quote that was taken and one that waits for its answer. */
async function withQuotes(): Promise<TestApp> {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await anAcceptedQuote(app, commissionId);
  await aSentQuote(app, commissionId);
  return app;
}

test('a report tells the numbers of the API, draws them, and comes as a table of its days', async () => {
  const app = await withQuotes();
  const { page, complaints } = await visit(app, '/reports', { as: 'desk', width: 360 });
  await page.getByRole('heading', { name: 'For the desk' }).waitFor();
  // What an hour earns is for the owner alone.
  expect(await page.getByRole('link', { name: 'What pays per bench hour?' }).count()).toBe(0);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('link', { name: 'Are quotes being taken?' }).click();
  await page.getByLabel('Over').selectOption('all');
  const { rows } = (await app.desk.get('/reports/quote-outcomes').expect(200)).body;
  expect(rows).toHaveLength(1);
  const table = page.getByRole('region', { name: 'Are quotes being taken?' });
  await table.locator('th[scope=row]').waitFor();
  expect(await table.locator('tbody tr').count()).toBe(1);
  expect(await table.locator('th[scope=row]').textContent()).toBe('May 2031');
  for (const [label, value] of [
    ['Sent', rows[0].sent],
    ['Accepted', rows[0].accepted],
    ['Not answered yet', rows[0].open],
  ])
    expect(await table.locator(`td[data-label="${label}"]`).textContent()).toBe(String(value));
  const picture = page.getByRole('img', { name: 'What became of the quotes of each month' });
  expect(await picture.locator('.chart-fill').count()).toBeGreaterThan(0);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await table.locator('summary').click();
  await table.getByText('Version 1, accepted').waitFor();
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the picture (SVG)' }).click(),
  ]);
  expect(saved.suggestedFilename()).toBe('quote-outcomes.svg');
  // Days before any quote: nothing, on the page as in the file.
  await page.getByLabel('Over').selectOption('own');
  await page.getByLabel('Last day').fill('2031-04-30');
  await page.getByText('Nothing in this period.').waitFor();
  const href = await page.getByRole('link', { name: 'As a table (CSV)' }).getAttribute('href');
  const csv = await page.request.get(app.baseUrl + href!);
  expect(await csv.text()).toBe((await app.desk.get('/reports/quote-outcomes?to=2031-04-30&format=csv').expect(200)).text);
  expect(complaints).toEqual([]);
});

test('every report opens for the owner, in German, with its question for a heading', async () => {
  const app = await withQuotes();
  await app.owner.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page, complaints } = await visit(app, '/reports', { as: 'owner', width: 360, language: 'de' });
  await page.getByRole('heading', { name: 'Auswertungen' }).waitFor();
  await expectAccessible(page);
  const questions = await page.locator('main a').allTextContents();
  expect(questions).toHaveLength(19);
  for (const question of questions) {
    await page.getByRole('link', { name: question, exact: true }).click();
    await page.getByRole('heading', { name: question, exact: true, level: 1 }).waitFor();
    await page.getByText('Wie diese Zahlen zustande kommen').waitFor();
    await expectNoSidewaysScroll(page);
    await page.getByRole('link', { name: 'Alle Auswertungen' }).click();
  }
  expect(complaints).toEqual([]);
});
