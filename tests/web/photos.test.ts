import { expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { readiness } from '../support/at-the-bench.ts';
import { aCutPendant, pressTo, sameClock } from '../support/at-the-tablet.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { aPicture } from '../support/pictures.ts';

const aFile = async (name = 'bench.jpg') => ({
  name,
  mimeType: 'image/jpeg',
  buffer: await aPicture({ widthPx: 900, heightPx: 700 }).jpeg({ quality: 95 }).toBuffer(),
});

const pictures = (page: Page) => page.getByRole('region', { name: 'Pictures' });

test('a picture of a piece is chosen, seen, said something of, ticked for the client, and taken out again', async () => {
  const { app, piece } = await aCutPendant();
  const { desk, owner } = app;
  const { page, complaints } = await visit(app, `/pieces/${piece.id}`, { as: 'owner', width: 360 });
  await pictures(page).getByText('No pictures yet.').waitFor();
  const camera = page.getByLabel('Take a picture');
  expect(await camera.getAttribute('capture')).toBe('environment');
  await camera.setInputFiles(await aFile());
  const picture = pictures(page).getByRole('img', { name: `Picture of ${piece.number} Pendant` });
  await picture.waitFor();
  await expect.poll(() => picture.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth)).toBe(400);
  const inBook = async () => (await desk.get(`/photos?pieceId=${piece.id}`).expect(200)).body.items;
  expect(await inBook()).toMatchObject([{ clientMaySee: false, showsPerson: false, incidentId: null }]);
  await pictures(page).getByText('stays in the studio', { exact: true }).waitFor();
  await pictures(page).getByText('What is said of it').click();
  await page.getByLabel('What is to be seen').fill('The wall is closed');
  await pictures(page).getByRole('button', { name: 'Save' }).click();
  await pictures(page).getByRole('img', { name: 'The wall is closed' }).waitFor();
  await page.getByLabel('The client may see it').check();
  await expect.poll(inBook).toMatchObject([{ clientMaySee: true, caption: 'The wall is closed' }]);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  // The same picture is on the page of its commission.
  await page.getByRole('link', { name: 'Commission', exact: true }).click();
  await pictures(page).getByRole('img', { name: 'The wall is closed' }).waitFor();
  await pictures(page).getByText('What is said of it').click();
  await page.getByRole('button', { name: 'Take it out of the book' }).click();
  await page.getByRole('button', { name: 'Out of the book for good' }).click();
  await pictures(page).getByText('No pictures yet.').waitFor();
  expect((await owner.get(`/photos?pieceId=${piece.id}`).expect(200)).body.items).toEqual([]);
  expect(complaints).toEqual([]);
});

test('a picture with somebody on it stays in the studio; a small one is asked about; one on its way is stopped', async () => {
  const { app, piece } = await aCutPendant();
  const { page, context } = await visit(app, `/pieces/${piece.id}`, { as: 'desk' });
  await page.getByLabel('Somebody can be made out on it').check();
  const small = await aPicture({ widthPx: 200, heightPx: 150 }).jpeg({ quality: 95 }).toBuffer();
  await page.getByLabel('Choose pictures').setInputFiles({ name: 'small.jpg', mimeType: 'image/jpeg', buffer: small });
  const waiting = page.getByRole('list', { name: 'Pictures that are not in the book yet' });
  await waiting.getByRole('button', { name: 'It is the right picture: send it' }).click();
  await pictures(page).getByRole('img', { name: 'Picture of' }).waitFor();
  await pictures(page).getByText('What is said of it').click();
  expect(await page.getByLabel('The client may see it').isDisabled()).toBe(true);
  // What the server is slow to take can be called back.
  await context.route('**/api/v1/photos', (route) => (route.request().method() === 'POST' ? undefined : route.fallback()));
  await page.getByLabel('Choose pictures').setInputFiles(await aFile());
  await waiting.getByRole('progressbar').waitFor();
  await expectAccessible(page);
  await waiting.getByRole('button', { name: 'Do not send it' }).click();
  await waiting.waitFor({ state: 'hidden' });
  await page.reload();
  await pictures(page).getByRole('img').first().waitFor();
  expect(await waiting.count()).toBe(0);
  expect((await app.desk.get(`/photos?pieceId=${piece.id}`).expect(200)).body.items).toMatchObject([{ showsPerson: true }]);
});

test('what goes wrong while the network is gone is noted with its picture, which is with the incident when it is back', async () => {
  const { app, heats, lots, piece } = await aCutPendant();
  const { bench } = app;
  await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(200);
  const { page, context } = await visit(app, '/bench', { as: 'bench', width: 820 });
  await sameClock(app, page);
  await pressTo(page, 'Light it');
  await page.locator('.bench-main', { hasText: 'Flux clear' }).waitFor();
  await expect.poll(async () => (await bench.get(`/heats/${heats[0]!.id}`)).body.state).toBe('alight');
  await context.setOffline(true);
  await page.getByRole('button', { name: 'It went wrong' }).click();
  const form = page.getByRole('region', { name: 'It went wrong' });
  await form.getByRole('group', { name: 'What came of the heat?' }).getByRole('button', { name: 'Overheated' }).click();
  expect(await form.getByLabel('Take a picture').getAttribute('capture')).toBe('environment');
  await form.getByLabel('Take a picture').setInputFiles(await aFile());
  await form.getByRole('img', { name: 'Picture 1 of what went wrong' }).waitFor();
  await expectAccessible(page);
  await form.getByRole('button', { name: 'Note it' }).click();
  const waiting = page.getByRole('list', { name: 'Pictures that are not in the book yet' });
  await waiting.getByText('Kept on this device until the book has heard what went wrong.').waitFor();
  await expectNoSidewaysScroll(page);
  await context.setOffline(false);
  await waiting.waitFor({ state: 'hidden' });
  const [incident] = (await bench.get(`/incidents?pieceId=${piece.id}`).expect(200)).body.items;
  expect(incident).toMatchObject({ kind: 'overheated', heatId: heats[0]!.id, photos: [{ caption: null }] });
  const [photo] = (await bench.get(`/photos?incidentId=${incident.id}`).expect(200)).body.items;
  expect(photo).toMatchObject({ clientMaySee: false, heatId: heats[0]!.id, pieceId: piece.id });
  expect(photo.takenAt >= incident.seenAt).toBe(true);
});
