import { expect, test } from 'vitest';
import { aPricedPendant, aSentQuote, aSketch, eur, takeThrough, typePrices } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';

test('POST /quotes writes the next version as a sketch, with all that it was made from', async () => {
  const app = await startApp();
  const { commissionId, pieceId } = await aPricedPendant(app);
  const estimate = (await app.owner.post('/estimates', { pieceId }).expect(200)).body;
  const made = await app.owner.post('/quotes', { commissionId }).expect(201).expect('etag', '"1"');
  const { netMinor, taxMinor, grossMinor, depositMinor } = estimate.answer.totals;
  expect(made.body).toEqual({
    id: expect.any(String),
    commissionId,
    commissionNumber: 'C31-001',
    number: 1,
    state: 'sketch',
    stateReason: null,
    recipe: 1,
    net: eur(netMinor),
    tax: eur(taxMinor),
    gross: eur(grossMinor),
    deposit: eur(depositMinor),
    run: null,
    validUntil: '2031-05-19',
    placeOfSale: null,
    sentAt: null,
    answeredAt: null,
    differenceFromAccepted: null,
    inside: {
      request: estimate.request,
      answer: estimate.answer,
      overrides: {},
      profit: estimate.profit,
      scrapKept: null,
      finePricePerG: '1.05',
      finePriceAt: '2031-05-05T08:00:00.000Z',
      metalShareFraction: expect.any(Number),
    },
    allowedMoves: ['sent', 'binned'],
    version: 1,
    createdAt: '2031-05-05T08:00:00.000Z',
  });
  expect((await app.owner.get(`/quotes/${made.body.id}`).expect(200)).body).toEqual(made.body);
  expect((await aSketch(app, commissionId)).number).toBe(2);
  const commission = (await app.desk.get(`/commissions/${commissionId}`).expect(200)).body;
  expect(commission.quotes.map(({ number, state }: { number: number; state: string }) => [number, state])).toEqual([
    [1, 'sketch'],
    [2, 'sketch'],
  ]);
});

test('GET /quotes shows the desk the page for the client, without a cost, and the bench nothing', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId);
  const seen = await app.desk.get(`/quotes/${sketch.id}`).expect(200);
  expect(seen.body).toMatchObject({ gross: sketch.gross, deposit: sketch.deposit, inside: null, allowedMoves: [] });
  expect(seen.text).not.toMatch(/labour|margin|1\.05/);
  const list = await app.desk.get(`/quotes?commissionId=${commissionId}&state=sketch`).expect(200);
  expect(list.body).toMatchObject({ items: [{ id: sketch.id, inside: null }], nextCursor: null });
  expect((await app.desk.get('/quotes?state=accepted').expect(200)).body.items).toEqual([]);
  await app.bench.get(`/quotes/${sketch.id}`).expect(403);
  await app.student.get('/quotes').expect(403);
  await app.stranger.get('/quotes').expect(401);
  await app.desk.post('/quotes', { commissionId }).expect(403);
  await app.desk.patch(`/quotes/${sketch.id}`, { validUntil: '2031-05-20' }, 1).expect(403);
});

test('POST /quotes with an Idempotency-Key sent twice writes one version', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const send = () => app.owner.post('/quotes', { commissionId }).set('idempotency-key', 'quote-0001');
  const [first, second] = [await send().expect(201), await send().expect(201)];
  expect(second.body).toEqual(first.body);
  expect((await app.owner.get('/quotes')).body.items).toHaveLength(1);
});

test.each([
  ['2031-05-04', false],
  ['2031-05-07', true],
  ['2031-06-05', true],
  ['2031-11-02', false],
])('POST /quotes valid until %s is refused, and confirmable: %s', async (validUntil, confirmable) => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const send = () => app.owner.post('/quotes', { commissionId, validUntil });
  const refused = await send().expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/validUntil', given: validUntil }]);
  expect(refused.body.errors[0].confirmable === true).toBe(confirmable);
  await send()
    .set({ confirm: '/validUntil', 'confirm-reason': 'agreed by phone' })
    .expect(confirmable ? 201 : 422);
});

test('POST /quotes takes 3 to 30 days without a question', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  for (const validUntil of ['2031-05-08', '2031-06-04'])
    expect(await aSketch(app, commissionId, { validUntil })).toMatchObject({ validUntil });
});

test('PATCH /quotes/:id prices a sketch again, keeps what was typed, and lets go of it at null', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId, { overrides: { policy: { discountFraction: 0.1 } } });
  await app.owner.patch(`/quotes/${sketch.id}`, { overrides: {} }).expect(428);
  await app.owner.patch(`/quotes/${sketch.id}`, { overrides: {} }, 7).expect(412);
  const stone = { id: 'garnet', kind: 'stone', cost: '18.00', handlingFraction: 0.25 };
  const withStone = await app.owner.patch(`/quotes/${sketch.id}`, { overrides: { passThrough: [stone] } }, 1).expect(200);
  // 18.00 with a quarter on top, less a tenth, is 20.25; with a fifth of tax 24.30.
  expect(withStone.body.gross.amountMinor - sketch.gross.amountMinor).toBe(2430);
  expect(withStone.body.inside.overrides).toEqual({ policy: { discountFraction: 0.1 }, passThrough: [stone] });
  const full = await app.owner.patch(`/quotes/${sketch.id}`, { overrides: { policy: null, passThrough: null } }, 2).expect(200);
  expect(full.body.inside.overrides).toEqual({});
  expect(full.body.inside.request.policy.discountFraction).toBe(0);
  expect(full.body.gross.amountMinor).toBeGreaterThan(sketch.gross.amountMinor);
  const half = await app.owner.patch(`/quotes/${sketch.id}`, { overrides: { passThrough: [{ label: 'stone' }] } }, 3).expect(422);
  const pointers = half.body.errors.map(({ pointer }: { pointer: string }) => pointer.replace('/overrides/passThrough/0/', ''));
  expect(pointers.sort()).toEqual(['cost', 'handlingFraction', 'id', 'kind', 'label']);
  const refused = await app.owner.patch(`/quotes/${sketch.id}`, { overrides: { labour: 'none' } }, 3).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/overrides/labour' }]);
  const later = await app.owner.patch(`/quotes/${sketch.id}`, { validUntil: '2031-05-30' }, 3).expect(200);
  expect(later.body).toMatchObject({ validUntil: '2031-05-30', version: 4, gross: full.body.gross });
  // The fine price of the day counts once it is priced again.
  app.clock.advance({ days: 1 });
  await typePrices(app, { finePrice: { perG: '1.10', typedAt: app.clock.now().toISOString(), source: 'the refiner’s page' } });
  const today = await app.owner.patch(`/quotes/${sketch.id}`, { overrides: {} }, 4).expect(200);
  expect(today.body.inside).toMatchObject({ finePricePerG: '1.10', finePriceAt: '2031-05-06T08:00:00.000Z' });
});

test('a version sent is never changed: it is copied to the next', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId, { overrides: { policy: { discountFraction: 0.1 } } });
  const refused = await app.owner.patch(`/quotes/${sent.id}`, { validUntil: '2031-05-20' }, 2).expect(409);
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    detail: 'Cannot change version 1: it is sent. Copy it to the next version: POST /quotes with "from"',
  });
  const copy = await aSketch(app, commissionId, { from: sent.id, overrides: { policy: { depositFraction: 0.4 } } });
  expect(copy).toMatchObject({
    number: 2,
    gross: sent.gross,
    inside: { overrides: { policy: { discountFraction: 0.1, depositFraction: 0.4 } } },
  });
  const other = await aPricedPendant(await startApp());
  await app.owner.post('/quotes', { commissionId, from: other.pieceId }).expect(404);
  await app.owner.post('/quotes', { commissionId, metalOnly: true }).expect(422);
});

test('POST /quotes with metalOnly moves each metal by the fine price times its fineness, and nothing else', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId);
  // The hour has become dearer since, and stays what it was.
  await typePrices(app, {
    finePrice: { perG: '1.25', typedAt: app.clock.now().toISOString(), source: 'the refiner’s page' },
    ratesPerHour: { bench: '40.00', desk: '24.00', student: '0.00' },
  });
  const again = await app.owner.post('/quotes', { commissionId, from: sent.id, metalOnly: true }).expect(201);
  const { metals, policy } = again.body.inside.request;
  // 1.42 + 0.20 · 0.925; 46.00 an ozt is 1.478934 a gram, + 0.20 · 0.999.
  expect(metals.map(({ price }: { price: object }) => price)).toEqual([
    { amount: '1.605', per: 'g' },
    { amount: '1.678734', per: 'g' },
  ]);
  expect(policy).toMatchObject({ finePricePerG: '1.25', ratesPerHour: { bench: '24.00' } });
});

test('POST /quotes is refused for a commission that is over, or is not there', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await takeThrough(app.owner, commissionId, ['called_off'], { reason: 'changed their mind' });
  const refused = await app.owner.post('/quotes', { commissionId }).expect(409);
  expect(refused.body.detail).toBe('Cannot quote for C31-001: it is called off');
  await app.owner.post('/quotes', { commissionId: '01890a5d-ac96-774b-bcce-b302099a8057' }).expect(404);
  await app.owner.post('/quotes', {}).expect(422);
});
