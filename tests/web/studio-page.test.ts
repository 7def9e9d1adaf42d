import { expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

test('a bench hand reads the book in German and in gauge from the next moment on, dim on this device, and sets a PIN', async () => {
  const app = await startApp();
  const { page, complaints } = await visit(app, '/studio', { as: 'bench', width: 360 });
  await page.getByRole('heading', { name: 'Studio: For me' }).waitFor();
  expect(await page.getByRole('link', { name: 'People' }).count()).toBe(0);
  await page.getByLabel('Lengths').selectOption('gauge');
  await page.getByLabel('Language').selectOption('de');
  await page.getByRole('heading', { name: 'Werkstatt: Für mich' }).waitFor();
  expect((await app.bench.get('/preferences')).body.own).toEqual({
    language: 'de',
    units: { length: 'gauge', temperature: 'C', mass: 'g' },
  });
  await page.getByLabel('Helligkeit').selectOption('dim');
  expect(await page.getAttribute('html', 'data-light')).toBe('dim');
  await page.getByLabel('Neue PIN').fill('1234');
  await page.getByRole('button', { name: 'PIN festlegen' }).click();
  await page.getByText('nicht der Reihe nach').first().waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByLabel('Neue PIN').fill('2846');
  await page.getByRole('button', { name: 'PIN festlegen' }).click();
  await page.getByText('Die PIN gilt.').waitFor();
  await page.reload();
  await page.getByRole('heading', { name: 'Werkstatt: Für mich' }).waitFor();
  expect(await page.getAttribute('html', 'data-light')).toBe('dim');
  expect(complaints).toEqual([]);
});

test('the owner sets what the studio reckons with; what is refused is marked at its place, and nothing typed is lost', async () => {
  const app = await startApp();
  const { page, complaints } = await visit(app, '/studio/settings', { as: 'owner', width: 360 });
  await page.getByLabel('Name of the studio').fill('Quillwharf Bench');
  await page.getByLabel('Tax, %').fill('19,5');
  await page.getByLabel('Deposit, % of the gross').fill('half');
  await page.getByLabel('Saturday').check();
  await page.getByLabel('We type').selectOption('markup');
  await page.getByLabel('Markup, % on the cost').fill('150');
  // 150 % on the cost is 60 % of the price.
  await page.getByText('The same as 60.0% margin.').waitFor();
  await page.getByLabel('Price, EUR').fill('31.1034768');
  await page.getByLabel('for', { exact: true }).selectOption('ozt');
  await page.getByText('= 1.00 EUR a gram').waitFor();
  await page.getByLabel('Where it is from').fill('the dealer’s list');
  await page.getByLabel('Add a metal').selectOption('sterling-925');
  await page.getByLabel(/^Sterling.*EUR$/).fill('29.5');
  await page.getByLabel(/^Sterling.*: for$/).selectOption('ozt');
  await page.reload();
  await page.getByText('7 settings changed.').waitFor();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  const deposit = page.getByLabel('Deposit, % of the gross');
  await page.locator('[aria-invalid=true]').first().waitFor();
  expect(await deposit.getAttribute('aria-invalid')).toBe('true');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);

  // Meanwhile somebody else saves.
  await deposit.fill('30');
  const before = (await app.owner.get('/settings')).body;
  await app.owner.patch('/settings', { quoteValidDays: 10 }, before.version as number).expect(200);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Somebody changed the settings').waitFor();
  await page.getByRole('button', { name: 'Show the newest' }).click();
  await expect.poll(() => page.getByLabel('An offer is good for, days').inputValue()).toBe('10');
  expect(await deposit.inputValue()).toBe('30');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Saved.').waitFor();
  const { settings } = (await app.owner.get('/settings')).body;
  expect(settings).toMatchObject({
    studioName: 'Quillwharf Bench',
    tax: { rateFraction: 0.195 },
    depositFraction: 0.3,
    openWeekdays: [1, 2, 3, 4, 5, 6],
    profit: { markupFraction: 1.5 },
    finePrice: { perG: '1', source: 'the dealer’s list' },
    metalPrices: { 'sterling-925': { amount: '29.5', per: 'ozt' } },
    quoteValidDays: 10,
  });
  await page.getByText('1.00 EUR a gram, 31.10 EUR a troy ounce').waitFor();
  expect(complaints).toEqual([]);
});

test('the owner takes somebody on, makes a token and a full copy, and reads in the journal who did what', async () => {
  const app = await startApp();
  const { page, complaints } = await visit(app, '/studio/people', { as: 'owner', width: 360 });
  await page.getByRole('button', { name: 'Add somebody' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Marl');
  await page.getByLabel('Rate, EUR an hour').fill('26,50');
  await page.getByLabel('student', { exact: true }).check();
  await page.getByLabel('Sign-in name').fill('marl');
  await page.getByLabel('Password').fill('short');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('12 letters or more').first().waitFor();
  await page.getByLabel('Password').fill('a longer sentence');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('signs in as marl').waitFor();
  await page.getByRole('button', { name: 'Change Marl' }).click();
  await page.getByRole('button', { name: 'Give Marl a code' }).click();
  await page.getByText('Shown this once').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Works here no more' }).click();
  await page.getByText('works here no more', { exact: true }).waitFor();
  const { items } = (await app.owner.get('/people')).body as { items: Record<string, unknown>[] };
  expect(items.find(({ name }) => name === 'Marl')).toMatchObject({
    roles: ['bench', 'student'],
    ratePerHour: '26.50',
    signInName: 'marl',
    active: false,
  });

  await page.getByRole('link', { name: 'Keys and tablets' }).click();
  await page.getByLabel('What it is for').fill('the scale');
  await page.getByRole('button', { name: 'Make a token' }).click();
  const token = await page.locator('.once').textContent();
  const mine = { headers: { authorization: `Bearer ${token}` } };
  expect((await fetch(`${app.baseUrl}/api/v1/sessions/current`, mine)).status).toBe(200);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'End it: the scale' }).click();
  await page.getByText(/^ended/).waitFor();
  expect((await fetch(`${app.baseUrl}/api/v1/sessions/current`, mine)).status).toBe(401);

  await page.getByRole('link', { name: 'Full copy and journal' }).click();
  const [zip] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Take a full copy' }).click(),
  ]);
  expect(zip.suggestedFilename()).toMatch(/^hearthbook-.*\.zip$/);
  const lines = page.locator('summary', { hasText: 'Flint, key the scale' });
  await lines.filter({ hasText: /new$/ }).click();
  const made = page.getByRole('group', { name: 'key' }).filter({ hasText: 'the scale' });
  await made.getByText('Name').first().waitFor();
  // Of what was changed only that is told, from what to what.
  await lines.first().click();
  await page.getByText(/^– → /).first().waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  expect(complaints).toEqual([]);
});
