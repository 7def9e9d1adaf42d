import { expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { buildApp } from '../../src/app.ts';

test('the door lets in who knows the password, and says so when it is wrong', async () => {
  const app = await startApp();
  const { page, complaints } = await visit(app, '/', { as: 'desk', width: 360 });
  await page.getByRole('button', { name: 'Today All rooms of the book' }).click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByLabel('Sign-in name').fill('desk');
  await page.getByLabel('Password').fill('not this one');
  await page.keyboard.press('Enter');
  await page.getByRole('alert').getByText('The name or the password is wrong').waitFor();
  await page.getByLabel('Password').fill('a sentence only for tests');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  await expectAccessible(page);
  expect(complaints).toEqual([]);
});

test('the first start makes the owner and the studio, and speaks German', async () => {
  const clock = { now: () => new Date('2031-05-05T08:00:00Z') };
  const { db, close } = openDb(':memory:', clock.now());
  const made = await buildApp({ db, clock }, { logLevel: 'silent' });
  const baseUrl = await made.http.listen({ host: '127.0.0.1', port: 0 });
  try {
    const { page, complaints } = await visit({ baseUrl } as never, '/', { language: 'de-DE' });
    await page.getByRole('heading', { name: 'Ein neues Buch' }).waitFor();
    await expectAccessible(page);
    await page.getByLabel('Einmalcode').fill('wrong');
    await page.getByLabel('Dein Name').fill('Flint');
    await page.getByLabel('Anmeldename').fill('flint');
    await page.getByLabel('Passwort').fill('ein Satz, den nur ich weiß');
    await page.getByLabel('Name der Werkstatt').fill('Quillwharf Bench');
    await page.getByRole('button', { name: 'Das Buch beginnen' }).click();
    await page.getByRole('alert').getByText('So beginnt das Buch nicht').waitFor();
    await page.getByLabel('Einmalcode').fill(made.firstOwnerCode);
    await page.getByRole('button', { name: 'Das Buch beginnen' }).click();
    await page.getByRole('heading', { name: 'Heute' }).waitFor();
    await page.getByText('Quillwharf Bench').waitFor();
    await expect.poll(() => page.title()).toBe('Heute – Hearthbook');
    expect(await page.getAttribute('html', 'lang')).toBe('de');
    expect(complaints).toEqual([]);
  } finally {
    await made.http.close();
    close();
  }
});
