import { expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { openBrowser } from '../support/browser.ts';
import { expectAccessible, expectNoSidewaysScroll, PASSWORD, visit } from '../support/page.ts';
import { serveLan } from '../support/serve-lan.ts';
import { startApp } from '../support/start-app.ts';

/** CSS pixels of 15 mm. */
const MM15 = (15 * 96) / 25.4;

const unlock = (page: Page) => page.getByRole('button', { name: 'Unlock' });

async function typePin(page: Page, pin: string): Promise<void> {
  for (const digit of pin) await page.getByRole('button', { name: digit, exact: true }).click();
  await unlock(page).click();
}

async function makeShared(page: Page, name: string): Promise<void> {
  await page.getByLabel('Name of this tablet').fill(name);
  await page.getByRole('button', { name: 'Make this device a shared tablet' }).click();
  await page.getByRole('heading', { name: `Tablet ${name}` }).waitFor();
}

test('a device made a shared tablet is unlocked by a PIN, locked by a button and by itself, and slows wrong PINs', async () => {
  const app = await startApp();
  const { bench, owner, clock, actors } = app;
  await bench.post('/pins', { pin: '2580' }).expect(201);
  const { page, complaints } = await visit(app, '/studio/keys', { as: 'owner', width: 820 });
  await makeShared(page, 'Anvil');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Basalt' }).click();
  await expectAccessible(page);
  for (const name of ['1', '0', 'Unlock']) {
    const box = (await page.getByRole('button', { name, exact: true }).boundingBox())!;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(MM15);
  }
  await typePin(page, '2580');
  await page.getByText('No heat waits for you').waitFor();
  await page.getByRole('button', { name: 'Lock', exact: true }).click();
  await page.getByText('Who is there?').waitFor();
  expect(await page.getByRole('navigation').count()).toBe(0);

  // By keyboard; the server locks what nobody touches, and the page follows.
  await page.getByRole('button', { name: 'Basalt' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate('document.activeElement.id')).toBe('pin');
  await page.keyboard.type('2580');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Lock', exact: true }).waitFor();
  clock.advance({ hours: 1 });
  await page.getByText('Who is there?').waitFor();

  await page.getByRole('button', { name: 'Basalt' }).click();
  for (const [wrong, says] of [
    ['1379', 'That is not the PIN of Basalt'],
    ['1380', 'That is not the PIN of Basalt'],
    ['1381', 'That is not the PIN of Basalt'],
    ['2580', 'Too many wrong PINs. The next may be tried in 30 seconds'],
  ] as const) {
    await page.getByLabel('Basalt, your PIN').fill(wrong);
    await unlock(page).click();
    await page.getByRole('alert').getByText(says).waitFor();
    await page.getByLabel('Basalt, your PIN').fill('');
  }
  expect(await unlock(page).isDisabled()).toBe(true);
  await expectAccessible(page);

  // The owner gives a code, and whoever has it chooses another PIN.
  const { code } = (await owner.post(`/pins/${actors.bench.personId}/codes`).expect(201)).body;
  await page.getByRole('button', { name: 'Somebody else' }).click();
  await page.getByRole('button', { name: 'I have a code from the owner' }).click();
  await page.getByLabel('Code from the owner').fill(code);
  await page.getByLabel('New PIN').fill('9751');
  await page.getByRole('button', { name: 'Set the PIN' }).click();
  await page.getByRole('button', { name: 'Basalt' }).click();
  await typePin(page, '9751');
  await page.getByRole('button', { name: 'Lock', exact: true }).click();
  // What a PIN does not open, a password does.
  await page.getByRole('button', { name: 'Sign in with a password' }).click();
  await page.getByLabel('Sign-in name').fill('owner');
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('searchbox', { name: 'Search' }).waitFor();
  expect(await page.getByRole('button', { name: 'Lock', exact: true }).count()).toBe(0);
  expect(complaints).toEqual([]);
});

test('over https, by the name of the studio, in German on a phone: the tablet starts locked and a PIN opens it', async () => {
  const { port, code } = await serveLan('studio.test');
  const browser = await openBrowser(['--host-resolver-rules=MAP studio.test 127.0.0.1']);
  const context = await browser.newContext({
    ignoreHTTPSErrors: true,
    locale: 'de',
    viewport: { width: 360, height: 740 },
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const at = `https://studio.test:${port}`;
  await page.goto(at);
  // The name is known to the browser alone.
  const ask = (method: string, path: string, body?: object, headers: object = {}) =>
    page.evaluate(async ([to, init]) => (await fetch(to as string, init as RequestInit)).status, [
      `/api/v1${path}`,
      { method, headers: { 'content-type': 'application/json', ...headers }, body: JSON.stringify(body) },
    ] as const);
  const owner = { name: 'Flint', signInName: 'flint', password: PASSWORD };
  expect(await ask('POST', '/people/first-owner', { code, ...owner })).toBe(201);
  expect(await ask('POST', '/sessions', { signInName: 'flint', password: PASSWORD })).toBe(201);
  expect(await ask('PUT', '/preferences', { language: 'de', units: null }, { 'if-match': '"1"' })).toBe(200);
  expect(await ask('POST', '/pins', { pin: '2580' })).toBe(201);
  await page.goto(`${at}/studio/keys`);
  await page.getByLabel('Name dieses Tablets').fill('Amboss');
  await page.getByRole('button', { name: 'Dieses Gerät zum gemeinsamen Tablet machen' }).click();
  await page.getByText('Wer ist da?').waitFor();
  await page.getByRole('button', { name: 'Flint' }).click();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  for (const digit of '2580') await page.getByRole('button', { name: digit, exact: true }).click();
  await page.getByRole('button', { name: 'Öffnen' }).click();
  await page.getByRole('button', { name: 'Sperren' }).waitFor();
  const cookies = await context.cookies();
  expect(cookies.filter(({ name }) => name.startsWith('hearthbook')).every(({ secure, httpOnly }) => secure && httpOnly)).toBe(
    true,
  );
  // By a PIN the owner is a bench hand.
  expect(await ask('GET', '/settings')).toBe(403);
});
