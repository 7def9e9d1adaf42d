import { expect, test } from 'vitest';
import { aFollowedCommission } from '../support/a-private-link.ts';
import { aPricedPendant, aSentQuote, aSketch, typePrices } from '../support/a-quote.ts';
import { pendant } from '../support/pendant.ts';
import { wordsOf } from '../support/read-pdf.ts';
import { startApp } from '../support/start-app.ts';

const amountsIn = (text: string) =>
  [...text.matchAll(/(-?)€([\d,]+\.\d\d)/g)].map(([, sign, digits]) => Number(sign + digits!.replaceAll(',', '')));

test('a gross rounded up to the step of the settings shows its rounding as a line, so that the letter and the bill add up', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await typePrices(app, {
    tax: { rateFraction: 0.2, method: 'gross_rounded_up', roundUpToMinor: 500 },
    discountFraction: 0.1,
    gas: { oxygenPricePerG: '0.012' },
  });
  const sent = await aSentQuote(app, commissionId);
  expect(sent.gross.amountMinor % 500).toBe(0);
  const { inside } = (await app.owner.get(`/quotes/${sent.id}`).expect(200)).body;
  expect(inside.answer.lines.map(({ label }: { label: string }) => label)).toContain('oxygen');
  const rounding = inside.answer.sold.find(({ kind }: { kind: string }) => kind === 'rounding').netMinor / 100;
  await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }).expect(200);
  for (const path of [`quote-letters/${sent.id}`, `bills/${commissionId}`]) {
    const text = wordsOf((await app.desk.get(`/documents/${path}`).expect(200)).text);
    const from = text.indexOf(path.startsWith('bills') ? 'What Price' : 'Price Price');
    const [price, discount, round, net, tax, gross] = amountsIn(text.slice(from)) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    expect(text).toContain('Rounding');
    expect(round).toBe(rounding);
    expect(price + discount + round).toBeCloseTo(net, 6);
    expect(net + tax).toBeCloseTo(gross, 6);
    expect(gross * 100).toBeCloseTo(sent.gross.amountMinor, 6);
  }
});

test('the metal alone priced again takes nothing else from the settings as they are now, nor a price of another currency', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await typePrices(app, { tax: { rateFraction: 0.2, method: 'gross_rounded_up' } });
  const sent = await aSentQuote(app, commissionId);
  await typePrices(app, {
    tax: { rateFraction: 0.2, method: 'gross_rounded_up', roundUpToMinor: 5000 },
    gas: { oxygenPricePerG: '9.00' },
  });
  const again = await aSketch(app, commissionId, { from: sent.id, metalOnly: true });
  expect(again.gross).toEqual(sent.gross);
  await typePrices(app, { currency: 'USD' });
  const refused = await app.owner.post('/quotes', { commissionId, from: sent.id, metalOnly: true }).expect(409);
  expect(refused.body.detail).toBe('Cannot price the metal again: that version is in EUR, the fine price in USD');
  const late = await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }).expect(409);
  expect(late.body.missing).toEqual(['it is in EUR, and the studio counts in USD now: write the next version']);
});

test('a client whose version cannot be accepted for another reason is not told that silver moved', async () => {
  const app = await startApp();
  const { browser } = await aFollowedCommission(app);
  await typePrices(app, { currency: 'USD', finePrice: { perG: '9.99', typedAt: app.clock.now().toISOString(), source: 'list' } });
  const refused = await browser.send('/answers', { version: '1', answer: 'accepted', read: 'yes' }).expect(409);
  expect(refused.text).toContain('can no longer be answered');
  expect(refused.text).not.toContain('silver');
});

test('a sketch whose piece was drawn again, or whose tax is another now, is priced again before it is sent', async () => {
  const app = await startApp();
  const { commissionId, pieceId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId);
  const send = () => app.owner.move(`/quotes/${sketch.id}`, { from: 'sketch', to: 'sent' });
  const [first, ...rest] = pendant.parts;
  const wider = { ...pendant, parts: [{ ...first!, form: { ...first!.form, lengthMm: 31 } }, ...rest] };
  await app.bench.put(`/pieces/${pieceId}/design`, wider, 1).expect(200);
  await app.owner.put('/place-rules/DE', { source: 'the office', taxRateFraction: 0.19 }).expect(200);
  expect((await send().expect(409)).body.missing).toEqual([
    'its pieces were drawn or planned again since it was priced: send the sketch new overrides, {} will do',
    'tax is 0.19 of the price now, and it was priced with 0.2: send the sketch new overrides, {} will do',
  ]);
  const { body } = await app.owner.patch(`/quotes/${sketch.id}`, { overrides: {} }, 1).expect(200);
  expect(body.inside.request.policy.tax.rateFraction).toBe(0.19);
  await send().expect(200);
});

test('scrap that the studio keeps is shown to the owner with what it is worth, and is in no line', async () => {
  const app = await startApp();
  const { commissionId, pieceId } = await aPricedPendant(app);
  const estimateOf = async () => (await app.owner.post('/estimates', { pieceId }).expect(200)).body;
  const credited = await estimateOf();
  expect(credited.scrapKept).toBeNull();
  await typePrices(app, { scrapCredit: null });
  const { scrapKept, answer } = await estimateOf();
  const lines = credited.answer.lines.filter(({ group }: { group: string }) => group === 'scrap_credit');
  expect(scrapKept.metals.map(({ worth }: { worth: { amountMinor: number } }) => -worth.amountMinor)).toEqual(
    lines.map(({ amountMinor }: { amountMinor: number }) => amountMinor),
  );
  expect(answer.totals.baseMinor - credited.answer.totals.baseMinor).toBe(scrapKept.worth.amountMinor);
  const sketch = await aSketch(app, commissionId);
  expect((await app.owner.get(`/quotes/${sketch.id}`).expect(200)).body.inside.scrapKept).toEqual(scrapKept);
  expect((await app.desk.get(`/quotes/${sketch.id}`).expect(200)).body.inside).toBeNull();
});

test('the letter of a run says what each piece comes to beside the price of the run', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app, { kind: 'small_run', quantity: 12 });
  const sent = await aSentQuote(app, commissionId);
  const { run, gross } = (await app.desk.get(`/quotes/${sent.id}`).expect(200)).body;
  expect(run.pieces).toBe(12);
  const each = Math.floor(gross.amountMinor / 12 + 0.5);
  expect(run.grossEach.amountMinor).toBe(each);
  const text = wordsOf((await app.desk.get(`/documents/quote-letters/${sent.id}`).expect(200)).text);
  expect(text).toContain('12 pieces');
  expect(amountsIn(text.slice(text.indexOf('Each of 12, rounded')))[0]).toBe(each / 100);
});
