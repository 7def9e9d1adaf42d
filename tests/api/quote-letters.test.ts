import { expect, test } from 'vitest';
import { pendant } from '../support/pendant.ts';
import { aPricedPendant, aSentQuote, aSketch, eur } from '../support/a-quote.ts';
import { getBytes, getPdf, wordsOf } from '../support/read-pdf.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { holdInside, secretsOf } from '../support/what-stays-inside.ts';

async function aClientIn(app: TestApp, language: string, name = 'Łucja Weiß'): Promise<string> {
  const postAddress = 'Čapkova 3\n80331 München';
  const made = await app.desk.post('/clients', { name, phone: '+4915112345678', language, postAddress }).expect(201);
  return made.body.id;
}

async function changeSettings({ owner }: TestApp, change: object): Promise<void> {
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', change, version).expect(200);
}

const STONE = { id: 'Onyx cabochon', kind: 'stone', handlingFraction: 0.15, cost: '24.00' };
const PLATING = { id: 'Outwork at Skerry', kind: 'other', handlingFraction: 0.15, cost: '9.00' };

async function aLetter(app: TestApp, { language, commission = {} }: { language: string; commission?: object }) {
  await changeSettings(app, { studioName: 'Quillwharf Bench', papers: { address: 'Quay 7\n+49 40 000000' } });
  const clientId = await aClientIn(app, language);
  const { commissionId, pieceId } = await aPricedPendant(app, { clientId, ...commission });
  const quote = await aSentQuote(app, commissionId, {
    overrides: { passThrough: [STONE, PLATING], policy: { discountFraction: 0.05 } },
  });
  const { body } = await app.desk.get(`/quotes/${quote.id}`).expect(200);
  return { commissionId, pieceId, clientId, quote: body, path: `/documents/quote-letters/${quote.id}` };
}

test.each([
  ['en', ['Quote: Marsh Lantern pendant', 'Sterling silver, 925 parts in 1000', 'May 5, 2031', 'June 20, 2031', 'One piece']],
  ['de-AT', ['Angebot: Marsh Lantern pendant', 'Sterlingsilber, 925/1000', '5. Mai 2031', '20. Juni 2031', 'Ein Stück']],
])('a quote letter in %s says what is made and what it costs, on screen and on paper', async (language, expected) => {
  const app = await startApp();
  const { desk } = app;
  const clientProperty = [{ what: 'Opal', weightG: 0.4, declaredValue: eur(12_000) }];
  const { quote, path } = await aLetter(app, { language, commission: { clientProperty } });
  const page = await desk.get(path).expect(200).expect('content-type', 'text/html; charset=utf-8');
  const paper = await getPdf(desk, path);
  const money = (minor: number) =>
    new Intl.NumberFormat(language, { style: 'currency', currency: 'EUR' }).format(minor / 100).replaceAll(/\s/g, ' ');
  const { gross, net, tax, deposit } = quote;
  for (const text of [wordsOf(page.text), paper.text]) {
    for (const part of [...expected, 'C31-001', 'Łucja Weiß', 'Čapkova 3', 'Onyx cabochon', 'Opal', '+49 40 000000']) {
      expect(text).toContain(part);
    }
    // Who does what for us is not the client's business.
    expect(text).not.toContain('Skerry');
    for (const sum of [gross, net, tax, deposit]) expect(text).toContain(money(sum.amountMinor));
    expect(text).toContain(money(12_000));
  }
  expect(page.text).toContain('<svg ');
  expect(page.text).toContain(`<html lang="${language}">`);
  expect(paper.info).toMatchObject({ Title: expect.stringMatching(/C31-001$/), Author: 'Quillwharf Bench', Language: language });
  // Tagged, so that it can be read aloud.
  expect(paper.bytes.toString('latin1')).toMatch(/\/MarkInfo[\s\S]*\/StructTreeRoot|\/StructTreeRoot[\s\S]*\/MarkInfo/);
});

test('a letter holds no line of what it costs us, no rate, no margin and nobody’s name', async () => {
  const app = await startApp();
  await aClientIn(app, 'en', 'Tollgate');
  const { quote, path } = await aLetter(app, { language: 'en' });
  const { gross, net, tax, deposit } = quote;
  const discounted = (await app.owner.get(`/quotes/${quote.id}`)).body.inside.answer.totals;
  const told = [gross, net, tax, deposit].map(({ amountMinor }) => amountMinor as number);
  const secrets = await secretsOf(app.owner, quote.id, [
    ...told,
    discounted.discountMinor,
    discounted.netMinor + discounted.discountMinor,
  ]);
  const page = await app.desk.get(path).expect(200);
  const paper = await getPdf(app.desk, path);
  for (const text of [wordsOf(page.text), paper.text]) {
    holdInside(text, { ...secrets, words: [...secrets.words, 'Tollgate', '24.00'] });
  }
});

test('a sent letter stays as it was, to the byte, whatever changes in the book', async () => {
  const app = await startApp();
  const { desk, bench } = app;
  const { path, clientId, pieceId, commissionId } = await aLetter(app, { language: 'de' });
  const before = [await getBytes(desk, path), await getBytes(desk, `${path}?format=pdf`)];
  await desk.patch(`/clients/${clientId}`, { name: 'Harbour', language: 'en' }, 1).expect(200);
  await desk.patch(`/commissions/${commissionId}`, { title: 'Another', dueOn: '2031-07-01' }, 1).expect(200);
  await changeSettings(app, { studioName: 'Elsewhere', papers: { size: 'letter', terms: 'None' } });
  const [plate, ...rest] = pendant.parts;
  const wider = { ...pendant, parts: [{ ...plate, form: { ...plate!.form, lengthMm: 40 } }, ...rest] };
  await bench.put(`/pieces/${pieceId}/design`, wider, 1).expect(200);
  app.clock.advance({ days: 2 });
  const after = [await getBytes(desk, path), await getBytes(desk, `${path}?format=pdf`)];
  expect(after[0]!.equals(before[0]!)).toBe(true);
  expect(after[1]!.equals(before[1]!)).toBe(true);
});

test('the letter of a sketch is a draft, follows the book, and takes the paper of the settings', async () => {
  const app = await startApp();
  const clientId = await aClientIn(app, 'fr');
  const { commissionId } = await aPricedPendant(app, { clientId });
  const { id } = await aSketch(app, commissionId);
  const path = `/documents/quote-letters/${id}`;
  // No French yet: the language of the studio.
  expect(wordsOf((await app.desk.get(path)).text)).toContain('A draft: it has not been sent');
  const box = async () => /\/MediaBox \[([^\]]*)\]/.exec((await getBytes(app.desk, `${path}?format=pdf`)).toString('latin1'))![1];
  expect(await box()).toBe('0 0 595.28 841.89');
  await changeSettings(app, { language: 'de', papers: { size: 'letter', terms: 'Bei Rücktritt: reden wir.' } });
  expect(await box()).toBe('0 0 612 792');
  expect(wordsOf((await app.desk.get(path)).text)).toContain('Ein Entwurf');
  expect(wordsOf((await app.desk.get(path)).text)).toContain('Bei Rücktritt: reden wir.');
});

test('names are never markup, and the page may do nothing but show itself', async () => {
  const app = await startApp();
  const clientId = await aClientIn(app, 'en', `<script>alert('x')</script> & "Co"`);
  const { commissionId } = await aPricedPendant(app, {
    clientId,
    title: '<img src=x onerror=alert(1)>',
    wish: '</p><h1>free</h1>',
  });
  const { id } = await aSentQuote(app, commissionId);
  const page = await app.desk.get(`/documents/quote-letters/${id}`).expect(200);
  expect(page.text).not.toMatch(/<script|<img|<h1>free/);
  expect(wordsOf(page.text)).toContain(`<script>alert('x')</script> & "Co"`);
  expect(page.headers['content-security-policy']).toMatch(/^default-src 'none'; style-src 'sha256-/);
  expect(page.headers['content-security-policy']).not.toContain('unsafe');
  expect(page.headers).toMatchObject({ 'cache-control': 'no-store', 'x-robots-tag': 'noindex, nofollow' });
  expect(page.text).not.toMatch(/<[^>]* (style|on\w+)=|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
});

test('what a quiet commission is for stays off its letter', async () => {
  const app = await startApp();
  const { quote, path } = await aLetter(app, {
    language: 'en',
    commission: { quiet: true, title: 'Ring for a proposal', wish: 'She must not know' },
  });
  expect(quote.commissionNumber).toBe('C31-001');
  const page = wordsOf((await app.desk.get(path).expect(200)).text);
  expect(page).toContain('Quote');
  expect(page).not.toMatch(/proposal|must not know|Pendant/);
});

test('a letter of nothing is not found; the bench does not write letters', async () => {
  const app = await startApp();
  const id = '01964e00-0000-7000-8000-000000000000';
  await app.desk.get(`/documents/quote-letters/${id}`).expect(404);
  await app.bench.get(`/documents/quote-letters/${id}`).expect(403);
  await app.desk.get(`/documents/quote-letters/${id}?format=docx`).expect(422);
});
