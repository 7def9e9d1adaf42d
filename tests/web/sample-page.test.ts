import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { sampleStudio } from '../../src/sample-studio.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { smallStudio } from '../support/small-sample.ts';
import { startApp, testClock } from '../support/start-app.ts';

const LEAVE = 'Leave and remove the sample';
const keptHere = 'Object.entries(localStorage).map(([place, kept]) => `${place} ${kept}`).join("\\n")';

test('one click on the first page opens the sample studio, and one click leaves it', async () => {
  const clock = testClock();
  const { db, close } = openDb(':memory:', clock.now());
  const { http } = await buildApp({ db, clock }, { logLevel: 'silent', sampleStudio });
  const baseUrl = await http.listen({ host: '127.0.0.1', port: 0 });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  const { page, complaints } = await visit({ baseUrl } as never, '/', { width: 360 });
  page.setDefaultTimeout(200_000);
  await page.getByRole('heading', { name: 'A new book' }).waitFor();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Look round a sample studio' }).click();
  await page.getByText(/^\d+ of \d+: /).waitFor();
  await expectAccessible(page);
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  const banner = page.getByRole('complementary', { name: 'Sample studio' });
  await banner.getByText('everything in it is invented, and nothing here is yours').waitFor();
  await page.getByText('Quillwharf Bench').first().waitFor({ state: 'attached' });
  await expectNoSidewaysScroll(page);
  for (const path of ['/commissions', '/bench', '/dates']) {
    await page.goto(baseUrl + path);
    await page.getByRole('main').getByRole('heading', { level: 1 }).waitFor();
    await banner.getByRole('button', { name: LEAVE }).waitFor();
  }
  await expectAccessible(page);
  await page.getByText('Anvil').first().waitFor();
  await banner.getByRole('button', { name: LEAVE }).click();
  await page.getByRole('heading', { name: 'A new book' }).waitFor();
  expect(await banner.count()).toBe(0);
  expect(await page.context().cookies()).toEqual([]);
  expect(complaints).toEqual([]);
}, 600_000);

test('the owner goes to a sample and comes back to what was typed, and another window follows', async () => {
  const app = await startApp({ sampleStudio: smallStudio });
  const { page, context, complaints } = await visit(app, '/commissions/new', { as: 'owner' });
  const title = page.getByLabel('What do they want, in a few words');
  await title.fill('Ring that is mine');
  const other = await context.newPage();
  await other.goto(`${app.baseUrl}/studio/settings`);
  await other.getByRole('button', { name: 'Look round a sample studio' }).click();
  await other.getByRole('complementary', { name: 'Sample studio' }).waitFor();
  // What is done in the window that was open before finds out where it is.
  await page.getByRole('link', { name: 'Pieces' }).click();
  await page.getByRole('complementary', { name: 'Sample studio' }).waitFor();
  await page.goto(`${app.baseUrl}/commissions/new`);
  await expect.poll(() => title.inputValue()).toBe('');
  await title.fill('Ring of the sample');
  expect(await page.evaluate(keptHere)).toContain('sample:');
  // To come in as somebody else, the door says how.
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByText('Here you sign in as owner, bench, desk, student.', { exact: false }).waitFor();
  await expectAccessible(page);
  await page.getByRole('button', { name: LEAVE }).click();
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  await page.goto(`${app.baseUrl}/commissions/new`);
  await expect.poll(() => title.inputValue()).toBe('Ring that is mine');
  expect(await page.evaluate(keptHere)).not.toContain('sample:');
  expect(complaints).toEqual([]);
});

test('its making is broken off by one click, and without the code it is not begun from elsewhere', async () => {
  const { http, close } = await (async () => {
    const clock = testClock();
    const { db, close } = openDb(':memory:', clock.now());
    const never = { make: () => new Promise<never>(() => undefined), open: sampleStudio.open };
    return { ...(await buildApp({ db, clock }, { logLevel: 'silent', sampleStudio: never })), close };
  })();
  const baseUrl = await http.listen({ host: '127.0.0.1', port: 0 });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  const { page, context } = await visit({ baseUrl } as never, '/');
  const open = page.getByRole('button', { name: 'Look round a sample studio' });
  await open.click();
  await page.getByRole('progressbar', { name: 'The sample studio is being made' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await open.waitFor();
  // As through a server in front: a visitor who is not at the machine.
  await context.setExtraHTTPHeaders({ 'x-forwarded-for': '203.0.113.9' });
  await page.reload();
  await page.getByText('Type the one-time code below first').waitFor();
  expect(await open.isDisabled()).toBe(true);
  await page.getByLabel('One-time code').fill('guessed');
  await open.click();
  await page.getByRole('alert').getByText('the code is not the one the server printed').waitFor();
});
