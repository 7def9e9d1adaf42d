import type { Locator, Page } from 'playwright-core';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import { systemClock } from '../../src/platform/clock.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { pressTo } from '../support/at-the-tablet.ts';
import { PASSWORD, visit } from '../support/page.ts';
import { aPicture } from '../support/pictures.ts';

/** As on their packets: short name, begins to melt, flows, silver in percent. */
const SOLDERS = [
  ['hard', '740', '788', '75'],
  ['medium', '691', '738', '70'],
  ['easy', '671', '718', '65'],
] as const;

const today = () => new Date().toISOString().slice(0, 10);
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

async function firstStart(page: Page, code: string): Promise<void> {
  await page.getByLabel('One-time code').fill(code);
  await page.getByLabel('Your name').fill('Flint');
  await page.getByLabel('Sign-in name').fill('flint');
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByLabel('Name of the studio').fill('Quillwharf Bench');
  await page.getByLabel('Time zone').fill('UTC');
  await page.getByRole('button', { name: 'Begin the book' }).click();
  await page.getByRole('region', { name: 'First steps' }).getByText('0 of 6 done').waitFor();
}

async function fillIn(form: Locator, typed: Record<string, string>): Promise<void> {
  for (const [label, value] of Object.entries(typed)) await form.getByLabel(label).fill(value);
}

async function addSolder(page: Page, [grade, solidus, liquidus, silver]: (typeof SOLDERS)[number]): Promise<void> {
  const form = page.locator('details', { hasText: 'Add a solder' });
  if (!(await form.getByLabel('Name on the packet').isVisible())) await form.locator('summary').first().click();
  const typed = {
    'Name on the packet': `${grade} wire`,
    'Short name': grade,
    'Grade word': grade,
    'Begins to melt': solidus,
    'Flows at': liquidus,
    'Silver in it': silver,
    Density: '9.6',
    'Smallest piece': '1.3 mg',
    Supplier: 'Harbour Metals',
    'safety data sheet': 'sheet 12 in the red folder',
    'Sold in packs': '5',
    'Price, ': '1.85',
    'Weeks from order': '2',
  };
  await fillIn(form, typed);
  await form.getByLabel('Cadmium in it').selectOption('no');
  await form.getByLabel('Lead or tin').selectOption('no');
  await form.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('heading', { name: `${grade} wire` }).waitFor();
}

async function typePrices(page: Page): Promise<void> {
  await page.getByLabel('Price, EUR').fill('1.05');
  await page.getByLabel('Where it is from').fill('the morning list');
  for (const metal of ['sterling-925', 'fine-silver-999']) await page.getByLabel('Add a metal').selectOption(metal);
  await page.getByLabel(/^Sterling.*EUR$/).fill('1.42');
  await page.getByLabel(/^Fine silver.*EUR$/).fill('1.78');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Saved.').waitFor();
}

/** A move that a button makes at a tap. */
async function tap(page: Page, move: string, state: string): Promise<void> {
  await page.getByRole('button', { name: move, exact: true }).click();
  await page.locator('.word', { hasText: state }).first().waitFor();
}

async function toCommission(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Commissions', exact: true }).click();
  await page.getByRole('link', { name: /^C\d\d-001$/ }).click();
  await page.getByRole('heading', { name: /C\d\d-001 Marsh Lantern pendant/ }).waitFor();
}

async function toPiece(page: Page): Promise<void> {
  await toCommission(page);
  await page.getByRole('link', { name: /^C\d\d-001\.1 Marsh Lantern/ }).click();
  await page.getByRole('heading', { name: /C\d\d-001\.1/ }).waitFor();
}

async function findPlan(page: Page, number: number): Promise<void> {
  await page.getByRole('button', { name: 'Find me a plan' }).click();
  await page.getByRole('button', { name: 'Work with this plan' }).first().click({ timeout: 120_000 });
  await page.getByRole('button', { name: 'Save as the next version' }).click();
  await page.getByText(`Plan version ${number}, by hand, draft`).waitFor();
  await page.getByRole('button', { name: 'It is checked' }).click();
  await page.getByText(`Plan version ${number}, by hand, checked`).waitFor();
}

async function takeIntoUse(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Take it into use' }).click();
  await page.getByText('by hand, in use').waitFor();
}

async function receiveSolder(page: Page, grade: string): Promise<void> {
  const form = page.locator('details', { hasText: 'Receive a lot' });
  if (!(await page.getByLabel('Came on').isVisible())) await form.locator('summary').click();
  await form.getByLabel('What came').selectOption({ label: `${grade} wire` });
  const mark = grade.charAt(0).toUpperCase();
  await fillIn(form, { 'Came on': today(), 'How much': '5', 'Mark on the metal': mark, 'Paid, ': '1.85' });
  await form.getByRole('button', { name: 'Into the drawer' }).click();
  await page
    .getByRole('region', { name: `${grade} wire` })
    .getByRole('link', { name: /Lot L\d/ })
    .waitFor();
}

async function receiveMetal(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Metal and scrap' }).click();
  const add = page.locator('details', { hasText: 'Add a metal' });
  await add.locator('summary').click();
  await add.getByLabel('Metal', { exact: true }).selectOption('sterling-925');
  await add.getByLabel('Form').selectOption('sheet');
  await fillIn(add, { 'Name in the supplier’s list': 'Sterling sheet 0.8', Thickness: '0.8', 'Price, ': '1.42' });
  await add.getByLabel('Supplier', { exact: true }).fill('Harbour Metals');
  await add.getByRole('button', { name: 'Add it' }).click();
  await page.getByText('Sterling sheet 0.8 is in the book.').waitFor();
  const receive = page.locator('details', { hasText: 'Receive metal' });
  await receive.locator('summary').click();
  await receive.getByLabel('What came').selectOption({ label: 'Sterling sheet 0.8' });
  await fillIn(receive, { 'How much': '60', 'Came on': today() });
  await receive.getByRole('button', { name: 'Into the drawer' }).click();
  await page.getByRole('link', { name: /Lot M1: Sterling sheet 0.8/ }).waitFor();
}

/** Through one heat to where it is looked at. */
async function heatToLooking(page: Page): Promise<void> {
  await pressTo(page, 'It is ready');
  await pressTo(page, 'Light it');
  await pressTo(page, 'Flux clear');
  await pressTo(page, 'It flows');
  await pressTo(page, 'Flame off');
  await pressTo(page, 'Into the pickle');
  await pressTo(page, 'Rinsed and dried');
}

test('one commission from an empty book to the report, by clicking and typing alone', async () => {
  const { db, close } = openDb(':memory:', systemClock.now());
  const { http, firstOwnerCode } = await buildApp({ db, clock: systemClock }, { logLevel: 'silent' });
  const baseUrl = await http.listen({ host: '127.0.0.1', port: 0 });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  const { page, browser, complaints } = await visit({ baseUrl } as never, '/');
  await firstStart(page, firstOwnerCode);

  // What solders there are, and what things cost, is in the book; the drawer itself is empty.
  await page.getByRole('link', { name: 'Put the first solder in the drawer' }).click();
  for (const solder of SOLDERS) await addSolder(page, solder);
  await page.getByRole('link', { name: 'Today' }).click();
  await page.getByRole('link', { name: 'Say what silver and an hour cost' }).click();
  await typePrices(page);

  // Enquiry and client.
  await page.getByRole('link', { name: 'Today' }).click();
  await page.getByRole('link', { name: 'Note the first enquiry' }).click();
  await page.getByLabel('What do they want').fill('Marsh Lantern pendant');
  await page.getByLabel('In their own words').fill('a pendant for a green cabochon');
  await page.getByLabel('By when').fill(inDays(40));
  await page.getByLabel('Where it is sold').fill('DE');
  await page.getByLabel('Name of the client').fill('Millrace');
  await page.getByLabel('E-mail or phone').fill('millrace@example.org');
  await page.getByRole('button', { name: 'Note it' }).click();
  await page.getByRole('heading', { name: /C\d\d-001 Marsh Lantern pendant/ }).waitFor();
  await tap(page, 'Shape it', 'being shaped');
  await page.getByRole('button', { name: 'Lay out a piece' }).click();

  // The piece, drawn from a design that is there.
  await page.getByRole('link', { name: /^Design C/ }).click();
  await page.getByRole('button', { name: 'Pendant with bezel and bail' }).click();
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 1', { exact: true }).waitFor();
  await toCommission(page);
  await page.getByRole('link', { name: /^Heats C/ }).click();
  await findPlan(page, 1);
  // It says what is to be bought for it.
  await page.getByText(/^The plan takes 0\.\d+ g of hard, and the drawer has 0 g free/).waitFor();

  // Price and quote, accepted by the client in a browser of their own.
  await toCommission(page);
  await page.getByRole('link', { name: 'Price it' }).click();
  await page.getByRole('button', { name: 'Keep as a sketch' }).click();
  await page.getByRole('button', { name: 'Send it' }).click();
  await page.getByRole('button', { name: 'The client says yes' }).waitFor();
  await toCommission(page);
  await tap(page, 'It is offered', 'offered');
  await page.getByRole('link', { name: 'Price it' }).click();
  await page.getByRole('button', { name: 'Turn private addresses on' }).click();
  await page.getByRole('button', { name: 'Make a private address' }).click();
  const link = await page.getByRole('region', { name: 'A page for the client' }).getByRole('textbox').inputValue();
  const client = await (await browser.newContext()).newPage();
  await client.goto(link);
  await client.getByRole('checkbox').check();
  await client.getByRole('button', { name: 'Accept' }).click();
  await client.getByText('accepted').first().waitFor();
  await page.reload();
  await page.locator('.word', { hasText: 'accepted' }).waitFor();
  await page.getByRole('button', { name: 'Note the payment' }).click();
  await page
    .getByRole('link', { name: /^Receipt for/ })
    .first()
    .waitFor();
  await toCommission(page);
  await tap(page, 'It is agreed', 'agreed');

  // What it takes comes into the drawer, solder and metal.
  await page.getByRole('link', { name: 'Drawer' }).click();
  for (const [grade] of SOLDERS) await receiveSolder(page, grade);
  await receiveMetal(page);

  // At the bench: the first heat goes well, in the next nothing flows.
  await toCommission(page);
  await page.getByRole('link', { name: /^Heats C/ }).click();
  await takeIntoUse(page);
  await toCommission(page);
  await tap(page, 'Onto the bench', 'on the bench');
  await toPiece(page);
  await page.getByRole('button', { name: 'Metal is cut' }).click();
  await page.getByLabel('Metal issued').fill('7.5');
  await page.getByRole('button', { name: 'Metal is cut' }).last().click();
  await page.locator('.word', { hasText: 'cut' }).first().waitFor();
  await page.getByRole('link', { name: 'At the bench' }).click();
  await heatToLooking(page);
  await pressTo(page, 'It flowed: cleared');
  await pressTo(page, 'It is ready');
  await pressTo(page, 'Light it');
  await page.getByRole('button', { name: 'It went wrong' }).click();
  const wrong = page.getByRole('region', { name: 'It went wrong' });
  await wrong.getByRole('group', { name: 'What came of the heat?' }).getByRole('button', { name: 'Did not flow' }).click();
  await wrong.getByRole('group', { name: 'At which joint?' }).getByRole('button').first().click();
  await wrong.getByRole('button', { name: 'Note it' }).click();
  await page.getByRole('button', { name: 'Plan again from here' }).click();
  await findPlan(page, 2);
  await takeIntoUse(page);
  // What was left of it is worked to the end.
  await page.getByRole('link', { name: 'At the bench' }).click();
  for (const heat of ['H3', 'H4']) {
    await page.locator('.bench-heat', { hasText: heat }).waitFor();
    await heatToLooking(page);
    await pressTo(page, 'It flowed: cleared');
  }
  await page.getByText('No heat waits for you').waitFor();

  // Finished, looked over, pictured, weighed.
  await toPiece(page);
  await tap(page, 'It is built', 'built');
  await tap(page, 'To the finishing', 'finishing');
  await page.getByRole('button', { name: 'It is looked over' }).click();
  for (const what of ['joints', 'surface', 'edges', 'sizes', 'pins, catches, hinges'])
    await page.getByLabel(what, { exact: true }).check();
  await page.getByRole('button', { name: 'It is looked over' }).last().click();
  await page.locator('.word', { hasText: 'checked' }).first().waitFor();
  const buffer = await aPicture({ widthPx: 900, heightPx: 700 }).jpeg({ quality: 95 }).toBuffer();
  await page.getByLabel('Take a picture').setInputFiles({ name: 'bench.jpg', mimeType: 'image/jpeg', buffer });
  await page.getByRole('region', { name: 'Pictures' }).getByRole('img').waitFor();
  await page.getByRole('button', { name: 'It is ready' }).click();
  await page.getByLabel('Final weight').fill('5.4');
  await page.getByLabel('Photo taken').check();
  await page.getByLabel('Label is on it').check();
  await page.getByRole('button', { name: 'It is ready' }).last().click();
  await page.locator('.word', { hasText: 'ready' }).first().waitFor();

  // Hand-over, bill and the rest of the money.
  await toCommission(page);
  await tap(page, 'It is made', 'made');
  await page.getByRole('link', { name: 'Price it' }).click();
  await page.getByLabel('What it is').selectOption('balance');
  await page.getByRole('button', { name: 'Note the payment' }).click();
  await expect.poll(() => page.getByRole('link', { name: /^Receipt for [^a]+$/ }).count()).toBeGreaterThanOrEqual(2);
  await toCommission(page);
  const [bill] = await Promise.all([
    page.context().waitForEvent('page'),
    page.getByRole('link', { name: 'Bill', exact: true }).click(),
  ]);
  await bill.getByText('Marsh Lantern pendant').first().waitFor();
  expect(await bill.getByRole('main').textContent()).toContain('Millrace');
  await bill.close();
  await tap(page, 'Hand it over', 'handed over');
  await toPiece(page);
  await tap(page, 'It is given', 'given');
  await toCommission(page);
  await tap(page, 'It is settled', 'settled');

  // The report has it.
  await page.getByRole('link', { name: 'Reports' }).click();
  await page.getByRole('link', { name: 'Are quotes being taken?' }).click();
  await page.getByLabel('Over').selectOption('all');
  const table = page.getByRole('region', { name: 'Are quotes being taken?' });
  await table.locator('th[scope=row]').waitFor();
  expect(await table.locator('td[data-label="Accepted"]').textContent()).toBe('1');
  expect(complaints).toEqual([]);
}, 600_000);
