import { expect, test } from 'vitest';
import { aPricedPendant, aSentQuote, takeThrough, typePrices } from '../support/a-quote.ts';
import { wordsOf } from '../support/read-pdf.ts';
import { startApp } from '../support/start-app.ts';

const NUMBER = String.raw`\d[\d.,]*`;

// A dinar has a thousand fils, a yen has nothing below it (ISO 4217).
test.each([
  ['KWD', 3],
  ['JPY', 0],
])('a studio that counts in %s quotes, bills and reports to %d decimals, and its papers add up', async (currency, digits) => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const times = digits === 0 ? 160 : 1;
  const dear = (amount: number) => String(amount * times);
  await typePrices(app, {
    currency,
    finePrice: { perG: dear(1.05), typedAt: app.clock.now().toISOString(), source: 'list' },
    metalPrices: { 'sterling-925': { amount: dear(1.42), per: 'g' }, 'fine-silver-999': { amount: dear(46), per: 'ozt' } },
    ratesPerHour: { bench: dear(24), desk: dear(24), student: '0' },
    discountFraction: 0.07,
    depositFraction: 0.333,
    tax: { rateFraction: 0.077, method: 'per_line' },
  });
  await takeThrough(app.owner, commissionId, ['shaping']);
  const sent = await aSentQuote(app, commissionId);
  const { net, tax, gross, deposit, inside } = (await app.owner.get(`/quotes/${sent.id}`).expect(200)).body;
  expect(gross).toEqual({ amountMinor: net.amountMinor + tax.amountMinor, currency });
  // A third of it, rounded half-up once.
  expect(deposit.amountMinor).toBe(Math.floor((gross.amountMinor * 333) / 1000 + 0.5));
  const { totals, sold } = inside.answer;
  expect(totals.discountMinor).toBe(Math.floor((totals.netBeforeDiscountMinor * 7) / 100 + 0.5));
  for (const { netMinor, taxMinor } of sold)
    expect(taxMinor).toBe(Math.sign(netMinor) * Math.floor((Math.abs(netMinor) * 77) / 1000 + 0.5));
  await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }).expect(200);
  await app.desk.post('/payments', { commissionId, kind: 'deposit', how: 'cash', amount: deposit }).expect(201);
  const euro = { commissionId, kind: 'stage', how: 'cash', amount: { amountMinor: 100, currency: 'EUR' } };
  expect((await app.desk.post('/payments', euro).expect(422)).body.errors).toMatchObject([{ pointer: '/amount/currency' }]);
  const bill = wordsOf((await app.desk.get(`/documents/bills/${commissionId}`).expect(200)).text);
  const minor = (label: string) => {
    const [, sign, amount] = new RegExp(`${label} (-?)\\D*(${NUMBER})`).exec(bill)!;
    expect(amount!.split('.')[1]?.length ?? 0).toBe(digits);
    return (sign ? -1 : 1) * Number(amount!.replaceAll(/[.,]/g, ''));
  };
  expect(minor('one piece') + minor('Discount')).toBe(minor('Without tax'));
  expect(minor('Without tax') + minor('Tax, 7.7%')).toBe(minor('To pay in all'));
  expect(minor('To pay in all') - deposit.amountMinor).toBe(minor('Left to pay'));
  const csv = (await app.owner.get('/reports/money-owed?format=csv').buffer(true).expect(200)).text;
  const [head, row] = csv
    .trim()
    .split('\r\n')
    .map((line) => line.split(',')) as [string[], string[]];
  const cell = (name: string) => row[head.indexOf(name)]!;
  expect(cell('currency')).toBe(currency);
  expect(cell('balance_in_currency')).toBe(((gross.amountMinor - deposit.amountMinor) / 10 ** digits).toFixed(digits));
});
