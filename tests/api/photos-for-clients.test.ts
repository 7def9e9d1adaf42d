import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { aFollowedCommission, aLink } from '../support/a-private-link.ts';
import { aPhoneJpeg, sendPhoto } from '../support/pictures.ts';
import { wordsOf } from '../support/read-pdf.ts';
import { startApp } from '../support/start-app.ts';

test('a client sees the pictures that were ticked for them, and no other', async () => {
  const app = await startApp();
  const { owner, desk } = app;
  const { browser, pieceId, commissionId } = await aFollowedCommission(app, { language: 'de' });
  const file = await aPhoneJpeg();
  const add = async (fields: Record<string, string>) => (await sendPhoto(owner, file, fields).expect(201)).body.id as string;
  const shown = await add({ pieceId, caption: 'Zarge <gelötet>' });
  const takenIn = await add({ commissionId, takenAt: '2031-05-04T10:00:00Z' });
  const kept = await add({ pieceId, caption: 'not for you' });
  expect((await browser.get().expect(200)).text).not.toContain('/photos/');
  for (const id of [shown, takenIn]) await desk.patch(`/photos/${id}`, { clientMaySee: true }, 1).expect(200);
  const page = await browser.get().expect(200);
  expect(page.headers['content-security-policy']).toContain("img-src 'self'");
  expect(wordsOf(page.text)).toMatch(/Bilder.*Bild vom 4\. Mai 2031.*Zarge <gelötet>/);
  expect(page.text).not.toContain(kept);
  expect(page.text).not.toContain('not for you');
  expect([...page.text.matchAll(/<img src="([^"?]+)/g)].map(([, path]) => path)).toEqual(
    [takenIn, shown].map((id) => `${browser.base}/photos/${id}`),
  );
  const picture = await browser.get(`/photos/${shown}?size=thumbnail`).expect(200);
  expect(picture.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    'x-robots-tag': 'noindex, nofollow',
    'content-security-policy': "default-src 'none'; sandbox",
  });
  for (const path of [
    `/photos/${kept}`,
    '/photos/01964e00-0000-7000-8000-000000000000',
    '/photos/x',
    `/photos/${shown}?size=all`,
  ])
    expect([path, (await browser.get(path)).status]).toEqual([
      path,
      expect.toSatisfy((status) => status === 404 || status === 422),
    ]);
  // By the link of another commission it is not there either.
  const other = await aLink(app, (await aCommission(desk)).id);
  await other.browser.get(`/photos/${shown}`).expect(404);
  await desk.patch(`/photos/${shown}`, { clientMaySee: false }, 2).expect(200);
  await browser.get(`/photos/${shown}`).expect(404);
  await browser.get(`/photos/${takenIn}`).expect(200);
});
