import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { aPricedPendant, anAcceptedQuote, eur, takeThrough } from '../support/a-quote.ts';
import { aPicture, sendPhoto } from '../support/pictures.ts';
import { getPdf, wordsOf } from '../support/read-pdf.ts';
import { issueMetal, planInUse, workHeat } from '../support/at-the-bench.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { holdInside, secretsOf } from '../support/what-stays-inside.ts';

async function anAgreedPendant(app: TestApp, language = 'en') {
  const { desk } = app;
  const { body: client } = await desk.post('/clients', { name: 'Millrace', phone: '+4915112345678', language }).expect(201);
  const priced = await aPricedPendant(app, { clientId: client.id });
  await takeThrough(app.owner, priced.commissionId, ['shaping']);
  const quote = await anAcceptedQuote(app, priced.commissionId);
  const deposit = { commissionId: priced.commissionId, kind: 'deposit', how: 'transfer', amount: quote.deposit };
  const { body: payment } = await desk.post('/payments', deposit).expect(201);
  await takeThrough(app.owner, priced.commissionId, ['offered', 'agreed']);
  return { ...priced, quote, payment };
}

const money = (minor: number, language = 'en') =>
  new Intl.NumberFormat(language, { style: 'currency', currency: 'EUR' }).format(minor / 100).replaceAll(/\s/g, ' ');

/** Words break at other places on paper; ticks are drawn by the style of the page. */
const letters = (words: string) =>
  words.replace(/^[\s\S]*?(?=Our studio)/, '').replaceAll(/[\s•☐]|Page \d of \d|Seite \d von \d/g, '');

/** What a paper says, when its page and its PDF say the same. */
async function read({ desk }: TestApp, path: string): Promise<string> {
  const page = wordsOf(
    (
      await desk
        .get(`/documents/${path}`)
        .expect(200)
        .expect('content-type', /^text\/html/)
    ).text,
  );
  const { text } = await getPdf(desk, `/documents/${path}`);
  expect(letters(text)).toBe(letters(page.slice(page.indexOf('Our studio'))));
  return page;
}

test('the receipt, the bill and the reminder have the figures of the book, and they add up', async () => {
  const app = await startApp();
  const { commissionId, quote, payment } = await anAgreedPendant(app);
  const { gross, deposit } = quote;
  const left = gross.amountMinor - deposit.amountMinor;
  const receipt = await read(app, `payment-receipts/${payment.id}`);
  for (const part of [
    'Receipt for a deposit',
    'by bank transfer',
    'ask your accountant',
    money(deposit.amountMinor),
    money(left),
  ])
    expect(receipt).toContain(part);
  const bill = await read(app, `bills/${commissionId}`);
  const { net, tax } = (await app.desk.get(`/quotes/${quote.id}`)).body;
  for (const minor of [net.amountMinor, tax.amountMinor, gross.amountMinor, -deposit.amountMinor, left])
    expect(bill).toContain(money(minor));
  expect(net.amountMinor + tax.amountMinor).toBe(gross.amountMinor);
  expect(bill).toContain('Not yet handed over');
  const reminder = await read(app, `balance-reminders/${commissionId}`);
  expect(reminder).toContain(`for Marsh Lantern pendant, ${money(left)} is left to pay`);
  const secrets = await secretsOf(
    app.owner,
    quote.id,
    [net, tax, gross, deposit].map(({ amountMinor }) => amountMinor),
  );
  for (const text of [receipt, bill, reminder]) holdInside(text, { ...secrets, figures: secrets.figures });
});

test('a bill asks for an accepted version, a reminder for a debt, a collection notice for work that is made', async () => {
  const app = await startApp();
  const { id } = await aCommission(app.desk);
  for (const kind of ['bills', 'balance-reminders', 'collection-notices']) {
    const refused = await app.desk.get(`/documents/${kind}/${id}`).expect(409);
    expect(refused.body).toMatchObject({
      type: '/api/v1/problems/condition-not-met',
      detail: expect.stringContaining('C31-001'),
    });
  }
  const piece = putPiece(app, await aCommission(app.desk), { state: 'finishing' });
  const early = await app.desk.get(`/documents/care-cards/${piece.id}`).expect(409);
  expect(early.body.detail).toContain('it is finishing, not ready');
});

test('a collection notice counts pieces and days in the words of the language', async () => {
  const app = await startApp();
  const { body: client } = await app.desk
    .post('/clients', { name: 'Harbour', phone: '+4915112345678', language: 'de' })
    .expect(201);
  const commission = await aCommission(app.desk, { clientId: client.id, quantity: 2, kind: 'small_run' });
  putPiece(app, commission, { state: 'ready', serial: 1 });
  app.db.run(`UPDATE commissions SET state = 'made', state_since = '2031-05-01T08:00:00Z' WHERE id = '${commission.id}'`);
  expect(await read(app, `collection-notices/${commission.id}`)).toContain('Ihr Stück ist fertig. Bitte holen Sie es ab');
  putPiece(app, commission, { state: 'ready', serial: 2 });
  const two = await read(app, `collection-notices/${commission.id}`);
  expect(two).toContain('Ihre 2 Stücke sind fertig. Bitte holen Sie sie ab');
  expect(two).toContain('Sie liegen seit 4 Tagen bereit. Fertig seit 1. Mai 2031');
});

test('a take-in receipt lists what was weighed, with room for what is seen and what happens if it is otherwise', async () => {
  const app = await startApp();
  const clientProperty = [
    { what: 'Old chain, mark illegible', weightG: 12.5, declaredValue: eur(9000) },
    { what: 'Opal', weightG: 0.4, declaredValue: null },
  ];
  const { id } = await aCommission(app.desk, { clientProperty, kind: 'repair' });
  const text = await read(app, `take-in-receipts/${id}`);
  for (const part of [
    'Old chain, mark illegible',
    '12.50 g',
    money(9000),
    'Opal',
    '0.40 g',
    'Marks seen',
    'cadmium or lead',
    'Signature',
  ])
    expect(text).toContain(part);
  expect(text).not.toMatch(/Photos taken\s*\d/);
  const picture = await aPicture().jpeg().toBuffer();
  await sendPhoto(app.desk, picture, { commissionId: id }).expect(201);
  await sendPhoto(app.desk, picture, { commissionId: id }).expect(201);
  await sendPhoto(app.desk, picture, { pieceId: putPiece(app, { id, number: 'C31-001' }).id }).expect(201);
  expect(await read(app, `take-in-receipts/${id}`)).toMatch(/Photos taken\s*2/);
  const { id: empty } = await aCommission(app.desk, { kind: 'repair' });
  expect(await read(app, `take-in-receipts/${empty}`)).toContain('Nothing weighed is noted yet');
});

test('a letter that the fonts lack is never a box: the PDF is refused with the letter, and the page has it', async () => {
  const app = await startApp();
  const { body: client } = await app.desk.post('/clients', { name: '山田 Hana 🌸', phone: '+4915112345678', language: 'de' });
  const { id } = await aCommission(app.desk, { clientId: client.id, kind: 'repair' });
  const path = `/documents/take-in-receipts/${id}`;
  const refused = await app.desk
    .get(`${path}?format=pdf`)
    .expect(422)
    .expect('content-type', /problem\+json/);
  expect(refused.headers['content-disposition']).toBeUndefined();
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/letters-not-in-font',
    letters: ['山', '田', '🌸'],
    detail: expect.stringContaining('山 (U+5C71), 田 (U+7530), 🌸 (U+1F338). The page (?format=html)'),
  });
  expect(wordsOf((await app.desk.get(path).expect(200)).text)).toContain('山田 Hana 🌸');
  // Set from left to right, Hebrew words would stand in the wrong order.
  await app.desk.patch(`/clients/${client.id}`, { name: 'דוד כהן' }, 1).expect(200);
  expect((await app.desk.get(`${path}?format=pdf`).expect(422)).body.letters).toHaveLength(5);
  await app.desk.patch(`/clients/${client.id}`, { name: 'Łucja Ångström ❤' }, 2).expect(200);
  expect((await getPdf(app.desk, path)).text).toContain('Łucja Ångström ❤');
});

test('a packet list counts and weighs what lies in the parcel, with the marks asked, and names neither client nor cost', async () => {
  const app = await startApp();
  const first = await aPricedPendant(app, { title: 'Ring for a proposal' });
  const spare = putPiece(app, await aCommission(app.desk), { state: 'finishing' });
  const pieces = [
    { pieceId: first.pieceId, weighedG: 6.1234, parts: 'plate, bezel, bail' },
    { pieceId: spare.id, weighedG: 1.05, parts: 'one ring', marks: 'maker and fineness 999' },
  ];
  const packet = { place: 'DE', office: 'Harbour office', fee: eur(2517), post: eur(1123), articles: 5, pieces };
  const { id } = (await app.desk.post('/hallmark-packets', packet).expect(201)).body;
  const list = await read(app, `packet-lists/${id}`);
  for (const part of [
    'Harbour office Packet list P1',
    'How many 2 pieces Articles in the parcel, ours and others 5',
    'Still being packed',
    `${first.number}: plate, bezel, bail Sterling silver, 925 parts in 1000 Fine silver, 999 parts in 1000 fineness 925 6.12 g`,
    `${spare.number}: one ring`,
    'maker and fineness 999 1.05 g',
    // 6.1234 + 1.05
    'Together, 2 pieces 7.17 g',
  ])
    expect(list).toContain(part);
  expect(list).not.toMatch(/proposal|Millrace|25\.17|11\.23|€/);
  const { version } = (await app.desk.get(`/hallmark-packets/${id}`).expect(200)).body;
  await app.desk.patch(`/hallmark-packets/${id}`, { pieces: [{ ...pieces[0], weighedG: null }, pieces[1]] }, version).expect(200);
  const open = await read(app, `packet-lists/${id}`);
  expect(open).toContain('to be weighed');
  expect(open).not.toContain('Together');
  await app.owner.patch('/settings', { language: 'de', papers: { size: 'letter' } }, 1).expect(200);
  expect(await read(app, `packet-lists/${id}`)).toContain('Packliste P1');
  await app.bench.get(`/documents/packet-lists/${id}`).expect(403);
  await app.desk.get(`/documents/packet-lists/${first.pieceId}`).expect(404);
});

test('a care card tells any jeweller the solders in it and where they flow', async () => {
  const app = await startApp();
  const { bench, db } = app;
  const { pieceId, number, products } = await anAgreedPendant(app, 'de');
  const { heats } = await planInUse(bench, pieceId);
  await issueMetal(bench, pieceId);
  const codes = new Map(Object.entries(products).map(([code, id]) => [id, code]));
  const { items } = (await app.owner.get('/solder-lots').expect(200)).body as { items: { id: string; productId: string }[] };
  const lots = Object.fromEntries(items.map(({ id, productId }) => [codes.get(productId)!, id]));
  for (const { id } of heats) await workHeat(bench, id, lots);
  db.run(`UPDATE pieces SET state = 'ready', weighed_tenth_mg = 54300 WHERE id = '${pieceId}'`);
  const card = await read(app, `care-cards/${pieceId}`);
  expect(card).toContain('5,43 g');
  expect(card).toContain(
    `Gelötet mit hard (fließt bei 788 °C), medium (fließt bei 738 °C) und easy (fließt bei 718 °C); Nummer ${number}.`,
  );
});
