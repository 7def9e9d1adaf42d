import { expect, test } from 'vitest';
import { aFollowedCommission, pdfOf } from '../support/a-private-link.ts';
import { aCommission } from '../support/a-commission.ts';
import { aSentQuote, typePrices } from '../support/a-quote.ts';
import { wordsOf } from '../support/read-pdf.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { holdInside, secretsOf } from '../support/what-stays-inside.ts';

const money = (minor: number, language = 'en') =>
  new Intl.NumberFormat(language, { style: 'currency', currency: 'EUR' }).format(minor / 100).replaceAll(/\s/g, ' ');

const accept = { version: '1', answer: 'accepted', read: 'yes' };

async function stateOf({ desk }: TestApp, quoteId: string): Promise<string> {
  return (await desk.get(`/quotes/${quoteId}`).expect(200)).body.state;
}

test('a client reads where it stands and says yes, without script or account, and the desk sees it', async () => {
  const app = await startApp();
  const { browser, quote, commissionId } = await aFollowedCommission(app, { language: 'de' });
  const page = await browser.get().expect(200);
  const text = wordsOf(page.text);
  for (const part of [
    'Marsh Lantern pendant',
    'wird entworfen (jetzt)',
    '20. Juni 2031',
    'Fassung 1',
    money(quote.gross.amountMinor, 'de'),
  ])
    expect(text).toContain(part);
  expect(page.text).not.toMatch(/<script|<img|<link|<[^>]* (style|on\w+)=|https?:\/\//);
  expect(page.text).toContain('<html lang="de">');
  expect(text).not.toContain('Beispielwerkstatt');
  await browser.send('/answers', { version: '1', answer: 'accepted' }).expect(422);
  expect(await stateOf(app, quote.id)).toBe('sent');
  await browser.send('/answers', accept).expect(303).expect('location', `${browser.base}?said=accepted`);
  expect(await stateOf(app, quote.id)).toBe('accepted');
  // Twice is once.
  await browser.send('/answers', accept).expect(303);
  const { body: journal } = await app.owner.get(`/journal?thingId=${quote.id}`).expect(200);
  expect(journal.items[0]).toMatchObject({
    person: null,
    deviceId: expect.stringMatching(/^private link /),
    before: { state: 'sent' },
    after: { state: 'accepted' },
  });
  expect(journal.items.filter(({ after }: { after: { state: string } }) => after.state === 'accepted')).toHaveLength(1);
  const after = wordsOf((await browser.get('?said=accepted').expect(200)).text);
  for (const part of ['Wir haben Ihre Zusage', 'angenommen', 'Bezahlt und offen']) expect(after).toContain(part);
  expect(after).not.toContain('Annehmen');
  expect((await app.desk.get(`/commissions/${commissionId}`)).body.account.gross).toEqual(quote.gross);
});

test('a no, and a message, reach the desk', async () => {
  const app = await startApp();
  const { browser, quote, commissionId, linkId } = await aFollowedCommission(app);
  await browser.send('/answers', { version: '1', answer: 'declined' }).expect(303);
  expect(await stateOf(app, quote.id)).toBe('declined');
  await browser
    .send('/messages', { words: '  Could it be\r\nsmaller? <b>  ' })
    .expect(303)
    .expect('location', /said=message$/);
  const { body } = await app.desk.get(`/client-messages?commissionId=${commissionId}`).expect(200);
  expect(body.items).toEqual([
    { id: expect.any(String), commissionId, linkId, words: 'Could it be\nsmaller? <b>', createdAt: '2031-05-05T08:00:00.000Z' },
  ]);
  const refused = [{ words: '' }, { words: 'x'.repeat(2001) }, { words: 'a\u0007b' }, { words: 'hello', more: 'x' }, {}];
  for (const fields of refused as Record<string, string>[]) await browser.send('/messages', fields).expect(422);
  expect((await browser.send('/messages', { words: 'card 4111 1111 1111 1111' }).expect(422)).text).not.toContain('4111');
  for (let sent = 1; sent < 5; sent++) await browser.send('/messages', { words: `Again ${sent}` }).expect(303);
});

test('a version that lapsed, was replaced or no longer stands is refused in plain words, and nothing of prices is told', async () => {
  const app = await startApp();
  const { browser, quote, commissionId } = await aFollowedCommission(app);
  await typePrices(app, {
    finePrice: { perG: '9.99', typedAt: app.clock.now().toISOString(), source: 'list' },
    metalShareFraction: 0,
  });
  const moved = await browser.send('/answers', accept).expect(409);
  expect(moved.text).toContain('The price of silver has moved');
  expect(wordsOf(moved.text)).not.toMatch(/\d|%/);
  await typePrices(app, { metalShareFraction: 0.05 });
  app.clock.advance({ days: 15 });
  expect(wordsOf((await browser.get()).text)).toContain('lapsed');
  expect((await browser.send('/answers', accept).expect(409)).text).toContain('This version has lapsed');
  await typePrices(app, { finePrice: { perG: '1.05', typedAt: app.clock.now().toISOString(), source: 'list' } });
  await aSentQuote(app, commissionId);
  expect(await stateOf(app, quote.id)).toBe('replaced');
  expect((await browser.send('/answers', accept).expect(409)).text).toContain('can no longer be answered');
  for (const version of ['2', '3']) {
    const answer = await browser.send('/answers', { ...accept, version });
    expect([version, answer.status]).toEqual([version, version === '2' ? 303 : 409]);
  }
});

test('one version is accepted, whichever way it is asked', async () => {
  const app = await startApp();
  const { browser, quote, commissionId } = await aFollowedCommission(app);
  await app.desk.move(`/quotes/${quote.id}`, { from: 'sent', to: 'accepted' }, app.clock.now()).expect(200);
  const later = await aSentQuote(app, commissionId);
  await browser.send('/answers', { ...accept, version: '2' }).expect(409);
  expect(await stateOf(app, later.id)).toBe('sent');
});

test('all that a link leads to has no cost, no rate, no margin, nobody’s name, no address and no other client', async () => {
  const app = await startApp();
  const { owner, desk } = app;
  const other = await aCommission(desk, { title: 'Tollgate signet', wish: 'Other wish' });
  await desk.patch(`/clients/${(await desk.get(`/commissions/${other.id}`)).body.clientId}`, { name: 'Tollgate' }, 1).expect(200);
  const { browser, quote, commissionId, pieceId } = await aFollowedCommission(app);
  await browser.send('/answers', accept).expect(303);
  const payment = { commissionId, kind: 'deposit', how: 'card', amount: quote.deposit };
  await desk.post('/payments', payment).expect(201);
  app.db.run(`UPDATE pieces SET state = 'ready', weighed_tenth_mg = 54300 WHERE id = '${pieceId}'`);
  const { net, tax, gross, deposit } = (await desk.get(`/quotes/${quote.id}`)).body;
  const told = [net, tax, gross, deposit].map(({ amountMinor }) => amountMinor as number);
  const secrets = await secretsOf(owner, quote.id, [...told, gross.amountMinor - deposit.amountMinor]);
  const words = [...secrets.words, 'Tollgate', 'Other wish', 'Secret Street', 'pays late', 'example.org', '+49151'];
  const pages = await Promise.all(
    ['', '/letters/1', '/care-cards/1'].map(async (path) => {
      const answer = await browser.get(path).expect(200);
      expect(answer.headers).toMatchObject({
        'cache-control': 'no-store',
        'referrer-policy': 'no-referrer',
        'x-robots-tag': 'noindex, nofollow',
        'content-security-policy': expect.stringMatching(/^default-src 'none'; style-src 'sha256-[^']*'/),
      });
      return wordsOf(answer.text);
    }),
  );
  const papers = await Promise.all(
    ['/letters/1', '/care-cards/1'].map(async (path) => (await pdfOf(browser, `${path}?format=pdf`)).text),
  );
  for (const text of [...pages, ...papers]) holdInside(text, { ...secrets, words });
  expect(pages[0]).toContain(money(deposit.amountMinor));
  // Every address on the page is its own, and is walked above.
  const links = [...(await browser.get()).text.matchAll(/(?:href|action)="([^"]*)"/g)].map(([, link]) => link!);
  expect(links.length).toBeGreaterThan(4);
  for (const link of links) {
    expect(link.replace(browser.base, '')).toMatch(/^(\/letters\/1|\/care-cards\/1)(\?format=pdf)?$|^\/messages$|^\/answers$/);
  }
});

test('a yes by the link, twice, and one at the desk, all at once, are one acceptance', async () => {
  const app = await startApp();
  const { browser, quote } = await aFollowedCommission(app);
  const desk = () => app.desk.move(`/quotes/${quote.id}`, { from: 'sent', to: 'accepted' }, app.clock.now());
  const [first, atDesk, second] = await Promise.all([browser.send('/answers', accept), desk(), browser.send('/answers', accept)]);
  // Whoever comes second by the link said the same, and is thanked; the desk is told that it is made.
  expect([first.status, second.status]).toEqual([303, 303]);
  expect([200, 409]).toContain(atDesk.status);
  if (atDesk.status === 409) expect(atDesk.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'accepted' });
  const { items } = (await app.owner.get(`/journal?thingId=${quote.id}`).expect(200)).body;
  expect(items.filter(({ after }: { after: { state: string } }) => after.state === 'accepted')).toHaveLength(1);
});

test('a sketch, another commission’s letter and an unfinished piece are not there for the client', async () => {
  const app = await startApp();
  const { browser, commissionId } = await aFollowedCommission(app);
  const { id: sketch } = (await app.owner.post('/quotes', { commissionId }).expect(201)).body;
  expect(await stateOf(app, sketch)).toBe('sketch');
  for (const path of ['/letters/2', '/letters/99', '/care-cards/1', '/care-cards/2']) {
    expect((await browser.get(path).expect(404)).text).toContain('That page is not there yet');
  }
  expect(wordsOf((await browser.get()).text)).not.toContain('Version 2');
  await browser.send('/answers', { ...accept, version: '2' }).expect(409);
  expect(await stateOf(app, sketch)).toBe('sketch');
});

test('a quiet commission goes by its number, and hostile names stay text', async () => {
  const app = await startApp();
  const quiet = await aFollowedCommission(app, { quiet: true, title: 'Ring for a proposal', wish: 'Secret' });
  const page = (await quiet.browser.get().expect(200)).text;
  expect(page).toContain('C31-001');
  expect(page).not.toMatch(/proposal|Secret/);
  const app2 = await startApp();
  const hostile = await aFollowedCommission(app2, { title: '"><script>alert(1)</script>' });
  const text = (await hostile.browser.get().expect(200)).text;
  expect(text).not.toContain('<script');
  expect(wordsOf(text)).toContain('"><script>alert(1)</script>');
});

test('a letter that cannot be set as PDF says so in words, and the page of it is there', async () => {
  const app = await startApp();
  const { browser } = await aFollowedCommission(app, { title: 'Ring 山' });
  const refused = await browser
    .get('/letters/1?format=pdf')
    .expect(422)
    .expect('content-type', /^text\/html/);
  expect(wordsOf(refused.text)).toContain('This cannot be set as PDF');
  expect(refused.text).toContain(`href="${browser.base}"`);
  expect((await browser.get('/letters/1').expect(200)).text).toContain('Ring 山');
});

test('odd requests are answered with a page of words, never 5xx, and change nothing', async () => {
  const app = await startApp();
  const { browser, quote } = await aFollowedCommission(app);
  const odd: [string, number][] = [
    ['?said=<script>', 422],
    ['?x=1', 422],
    ['/letters/0', 422],
    ['/letters/one', 422],
    ['/letters/1?format=docx', 422],
    ['/care-cards/-1', 422],
  ];
  for (const [path, status] of odd) {
    const { text } = await browser
      .get(path)
      .expect(status)
      .expect('content-type', /^text\/html/);
    expect(text).not.toContain('<script>');
  }
  const refused = await browser.get('/letters/7').expect(404);
  expect(refused.headers).toMatchObject({ 'cache-control': 'no-store', 'content-type': 'text/html; charset=utf-8' });
  expect(refused.headers['content-security-policy']).toMatch(/^default-src 'none'/);
  const answers = [
    { version: '1' },
    { answer: 'accepted', version: 'x', read: 'yes' },
    { ...accept, answer: 'sent' },
    { ...accept, by: 'me' },
  ];
  for (const fields of answers as Record<string, string>[]) await browser.send('/answers', fields).expect(422);
  await browser.send('/answers', { version: '1', answer: 'declined', __proto__x: 'y' }).expect(422);
  await browser.send('/messages', { words: 'x'.repeat(20_000) }).expect(413);
  expect(await stateOf(app, quote.id)).toBe('sent');
});
