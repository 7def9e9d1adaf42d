import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { putPiece } from '../support/a-piece.ts';
import { eur, takeThrough } from '../support/a-quote.ts';
import { putCommission, putQuote, putTime } from '../support/a-record.ts';
import { startApp } from '../support/start-app.ts';

// The worked pendant: making cost 197.80 priced at 329.67, passed through at a cost of 32.50, 255 minutes, 20 % tax.
const { cases } = JSON.parse(readFileSync(new URL('../reference/estimate-cases.json', import.meta.url), 'utf8')) as {
  cases: { request: EstimateRequest }[];
};
const pendant = cases[0]!.request;

test('the cancellation statement sets what was spent beside what was paid; what goes back is a payment', async () => {
  const app = await startApp();
  const { owner, desk, bench } = app;
  const settings = await owner.get('/settings').expect(200);
  await owner
    .patch('/settings', { metalPrices: { 'sterling-925': { amount: '1.42', per: 'g' } } }, settings.body.version)
    .expect(200);
  const { id, number } = await putCommission(app, { state: 'on_bench' });
  putQuote(app, id, pendant);
  const piece = putPiece(app, { id, number }, { state: 'finishing', metalIssuedTenthMg: 50_000 });
  putTime(app, { pieceId: piece.id, minutes: 60 });
  const pay = (amountMinor: number, kind: string, extra: object = {}) =>
    owner.post('/payments', { commissionId: id, kind, amount: eur(amountMinor), how: 'transfer', ...extra }).expect(201);
  await pay(22_218, 'deposit');
  const path = `/commissions/${id}/cancellation-statement`;
  for (const person of [desk, bench]) await person.get(path).expect(403);
  await owner.get('/commissions/01890a5d-ac96-774b-bcce-b302099a8057/cancellation-statement').expect(404);
  const { body } = await owner.get(path).expect(200);
  // An hour at 24.00 + 16.00 + 2.50, 5 g at 1.42: 49.60; with 32.50 bought in 82.10, of the 222.18 received.
  expect(body).toMatchObject({
    number,
    state: 'on_bench',
    spent: { minutes: 60, labour: eur(2400), metal: eur(710), hallmark: eur(0), total: eur(4960) },
    boughtIn: eur(3250),
    quoted: { net: eur(37_030), gross: eur(44_436), minutes: 255 },
    // 60/255
    doneFraction: 0.2353,
    received: eur(22_218),
    sentBack: eur(0),
    atCost: { spent: eur(8210), left: eur(14_008) },
  });
  // At the accepted profit 49.60 · 329.67/197.80 = 82.67, with 22.50 and 18.13 as quoted 123.30, and tax 24.66.
  expect(body.atQuotedPrice).toEqual({ net: eur(12_330), tax: eur(2466), left: eur(22_218 - 12_330 - 2466) });
  await takeThrough(owner, id, ['called_off'], { reason: 'changed their mind' });
  await pay(14_008, 'send_back', { reason: 'what is left of the deposit' });
  const after = (await owner.get(path).expect(200)).body;
  expect(after).toMatchObject({ state: 'called_off', received: eur(22_218), sentBack: eur(14_008), atCost: { left: eur(0) } });
  expect((await desk.get(`/commissions/${id}`)).body.account).toMatchObject({ received: eur(8210), balance: eur(-8210) });
  // What stays is being settled: no paper says that it is owed, and there is no bill.
  const [back] = (await desk.get(`/payments?commissionId=${id}`).expect(200)).body.items;
  const receipt = (await desk.get(`/documents/payment-receipts/${back.id}`).expect(200)).text;
  expect(receipt).toContain('Received in all, less what went back');
  expect(receipt).not.toMatch(/We owe you|Left to pay|444\.36/);
  expect((await desk.get(`/documents/bills/${id}`).expect(409)).body.detail).toContain('its cancellation statement');
});

test('the cancellation statement of a commission without a price says what was spent', async () => {
  const app = await startApp();
  const { id } = await putCommission(app, { state: 'shaping' });
  const { body } = await app.owner.get(`/commissions/${id}/cancellation-statement`).expect(200);
  expect(body).toMatchObject({ quoted: null, doneFraction: null, atQuotedPrice: null, atCost: { spent: eur(0), left: eur(0) } });
  expect(body.says).toContain('No version was accepted: there is no price to go by');
});

test('what a packet cost is in what its pieces cost, in place of the hallmark that was quoted', async () => {
  const app = await startApp();
  const hallmark = { id: 'hallmark', kind: 'hallmark', cost: '9.00', handlingFraction: 0.1 };
  const { id, number } = await putCommission(app, { state: 'handed_over' });
  putQuote(app, id, { ...pendant, passThrough: [...pendant.passThrough!, hallmark] });
  const piece = putPiece(app, { id, number }, { state: 'finishing', metalIssuedTenthMg: 50_000 });
  const statement = async () => (await app.owner.get(`/commissions/${id}/cancellation-statement`).expect(200)).body;
  expect(await statement()).toMatchObject({ boughtIn: eur(4150), spent: { hallmark: eur(0) } });
  const packet = {
    place: 'DE',
    office: 'Harbour office',
    fee: eur(2500),
    post: eur(1100),
    articles: 7,
    pieces: [{ pieceId: piece.id, weighedG: 5, parts: 'pendant', partMarks: eur(120) }],
  };
  const made = (await app.desk.post('/hallmark-packets', packet).expect(201)).body;
  expect((await statement()).spent.hallmark).toEqual(eur(0));
  await app.desk.move(`/hallmark-packets/${made.id}`, { from: 'packing', to: 'sent' }).expect(200);
  // 36.00/7 + 1.20 = 6.342857
  expect(await statement()).toMatchObject({ boughtIn: eur(3250), spent: { hallmark: eur(634) } });
  const [row] = (await app.owner.get('/reports/quote-against-actual').expect(200)).body.rows;
  expect(row.actual).toMatchObject({ hallmark: eur(634), boughtIn: eur(3250) });
  expect(row.entries.packetIds).toEqual([made.id]);
  expect(row.pieces[0].cost.amountMinor).toBe(634);
});
