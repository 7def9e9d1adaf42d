import { expect, test } from 'vitest';
import { anAcceptedQuote, aPricedPendant, aSentQuote, aSketch, eur, takeThrough, typePrices } from '../support/a-quote.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const statesOf = async ({ desk }: TestApp, commissionId: string) =>
  (await desk.get(`/quotes?commissionId=${commissionId}`).expect(200)).body.items
    .toReversed()
    .map(({ state }: { state: string }) => state);

const fineAt = (perG: string, { clock }: TestApp) => ({
  finePrice: { perG, typedAt: clock.now().toISOString(), source: 'the refiner’s page' },
});

test('a sketch is sent by the owner alone; it freezes, and replaces the version sent before', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const first = await aSketch(app, commissionId);
  await app.desk.move(`/quotes/${first.id}`, { from: 'sketch', to: 'sent' }).expect(403);
  await app.bench.move(`/quotes/${first.id}`, { from: 'sketch', to: 'sent' }).expect(403);
  const sent = await app.owner.move(`/quotes/${first.id}`, { from: 'sketch', to: 'sent' }).expect(200);
  expect(sent.body).toMatchObject({
    state: 'sent',
    placeOfSale: 'DE',
    sentAt: '2031-05-05T08:00:00.000Z',
    allowedMoves: ['accepted', 'declined', 'replaced', 'withdrawn'],
  });
  const second = await aSentQuote(app, commissionId);
  expect(await statesOf(app, commissionId)).toEqual(['replaced', 'sent']);
  const old = await app.owner.get(`/quotes/${first.id}`).expect(200);
  expect(old.body).toMatchObject({ stateReason: 'version 2 was sent', inside: sent.body.inside, gross: first.gross });
  const late = await app.desk.move(`/quotes/${first.id}`, { from: 'sent', to: 'accepted' }).expect(409);
  expect(late.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'replaced', allowed: [] });
  const back = await app.owner.move(`/quotes/${second.id}`, { from: 'sent', to: 'sketch' }).expect(409);
  expect(back.body.type).toBe('/api/v1/problems/move-not-allowed');
});

test('a sketch is not sent without a place of sale, with an old fine price, past its day or for nothing', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app, { placeOfSale: null });
  const sketch = await aSketch(app, commissionId, { validUntil: '2031-05-08' });
  const send = async (id: string) =>
    (await app.owner.move(`/quotes/${id}`, { from: 'sketch', to: 'sent' }, app.clock.now()).expect(409)).body;
  expect((await send(sketch.id)).missing).toEqual(['note the place of sale, to choose tax and marking rules']);
  await app.desk.patch(`/commissions/${commissionId}`, { placeOfSale: 'DE' }, 1).expect(200);
  app.clock.advance({ days: 3, seconds: 1 });
  const stale = await send(sketch.id);
  expect(stale).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    missing: [expect.stringMatching(/^the fine price is of 2031-05-05, more than 3 days old/)],
  });
  app.clock.advance({ days: 1 });
  expect((await send(sketch.id)).missing).toHaveLength(2);
  await typePrices(app);
  const free = await aSketch(app, commissionId, {
    overrides: { labour: [], metals: freeMetals, solders: freeSolders, ...freeWorkshop },
  });
  expect((await send(free.id)).missing).toEqual(['it asks for nothing']);
  const fresh = await aSketch(app, commissionId);
  await app.owner.move(`/quotes/${fresh.id}`, { from: 'sketch', to: 'sent' }, app.clock.now()).expect(200);
});

const nothing = { amount: '0', per: 'g' };
const freeMetals = [
  { id: 'sterling-925', densityGPerCm3: 10.36, fineness: 0.925, price: nothing },
  { id: 'fine-silver-999', densityGPerCm3: 10.49, fineness: 0.999, price: nothing },
];
const freeSolders = ['hard', 'medium', 'easy'].map((id) => ({ id, densityGPerCm3: 9.97, smallestPieceG: 0.001, price: nothing }));
const freeWorkshop = {
  flux: { pricePerG: '0' },
  pickle: { pricePerG: '0', disposalPerBath: '0' },
  gas: { pricePerG: '0' },
};

test('a version is accepted on its last day in the studio, and not the day after', async () => {
  for (const [at, status] of [
    ['2031-05-19T21:59:00Z', 200],
    ['2031-05-19T22:01:00Z', 409],
  ] as const) {
    const app = await startApp();
    const { commissionId } = await aPricedPendant(app);
    await typePrices(app, { timeZone: 'Europe/Berlin' });
    const sent = await aSentQuote(app, commissionId);
    app.clock.set(at);
    const answer = await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }, at).expect(status);
    if (status === 200) expect(answer.body).toMatchObject({ state: 'accepted', answeredAt: '2031-05-19T21:59:00.000Z' });
    else expect(answer.body.missing).toEqual(['it was valid until 2031-05-19; today is 2031-05-20']);
  }
});

test('a version is not accepted once the fine price has moved by the set limit, unless metal is little of it', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await typePrices(app, { metalShareFraction: 0.01 });
  const sent = await aSentQuote(app, commissionId);
  const accept = () => app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' });
  // 1.05 up by 5 % is 1.1025.
  for (const perG of ['1.1025', '0.9975']) {
    await typePrices(app, fineAt(perG, app));
    const refused = await accept().expect(409);
    expect(refused.body.missing).toEqual([expect.stringMatching(/^the fine price has moved by -?5 % since, from 1.05 to/)]);
  }
  await typePrices(app, { ...fineAt('1.1024', app), metalShareFraction: 0.01 });
  await accept().expect(200);
  const other = await startApp();
  const pendant = await aPricedPendant(other);
  const dear = await aSentQuote(other, pendant.commissionId);
  await typePrices(other, fineAt('2.00', other));
  const answered = await other.desk.move(`/quotes/${dear.id}`, { from: 'sent', to: 'accepted' }).expect(200);
  expect(answered.body.state).toBe('accepted');
  const { inside } = (await other.owner.get(`/quotes/${dear.id}`)).body;
  expect(inside.metalShareFraction).toBeLessThan(0.05);
});

test('one version is accepted; a change agreed later takes its place in one step, and the difference is shown', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const first = await anAcceptedQuote(app, commissionId);
  const replace = () => app.owner.move(`/quotes/${first.id}`, { from: 'accepted', to: 'replaced' });
  expect((await replace().expect(409)).body.missing).toEqual(['send a newer version first']);
  const second = await aSentQuote(app, commissionId, { overrides: { policy: { discountFraction: 0.1 } } });
  expect(await statesOf(app, commissionId)).toEqual(['accepted', 'sent']);
  const differenceMinor = second.gross.amountMinor - first.gross.amountMinor;
  expect((await app.desk.get(`/quotes/${second.id}`)).body.differenceFromAccepted).toEqual(eur(differenceMinor));
  const refused = await app.desk.move(`/quotes/${second.id}`, { from: 'sent', to: 'accepted' }).expect(409);
  expect(refused.body.missing).toEqual(['version 1 is accepted: replace that one, which accepts the newest version sent']);
  await app.desk.move(`/quotes/${first.id}`, { from: 'accepted', to: 'replaced' }).expect(403);
  const replaced = await replace().expect(200);
  expect(replaced.body).toMatchObject({ state: 'replaced', differenceFromAccepted: eur(-differenceMinor) });
  expect(await statesOf(app, commissionId)).toEqual(['replaced', 'accepted']);
  expect((await app.desk.get(`/commissions/${commissionId}`)).body.account.gross).toEqual(second.gross);
});

test('a version is declined by the desk, withdrawn by the owner with a reason, and a sketch binned', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const first = await aSentQuote(app, commissionId);
  const declined = await app.desk.move(`/quotes/${first.id}`, { from: 'sent', to: 'declined', reason: 'too dear' }).expect(200);
  expect(declined.body).toMatchObject({
    state: 'declined',
    stateReason: 'too dear',
    answeredAt: '2031-05-05T08:00:00.000Z',
    allowedMoves: [],
  });
  const second = await aSentQuote(app, commissionId);
  const withdraw = (reason?: string) =>
    app.owner.move(`/quotes/${second.id}`, { from: 'sent', to: 'withdrawn', ...(reason ? { reason } : {}) });
  expect((await withdraw().expect(409)).body.detail).toBe('Cannot move version 2 to withdrawn: say why, in "reason"');
  await withdraw('a wrong size').expect(200);
  const third = await aSketch(app, commissionId);
  await app.owner.move(`/quotes/${third.id}`, { from: 'sketch', to: 'binned' }).expect(200);
  expect(await statesOf(app, commissionId)).toEqual(['declined', 'withdrawn', 'binned']);
  // A number is never used again.
  expect((await aSketch(app, commissionId)).number).toBe(4);
});

test('no version is accepted for a commission that is over', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId);
  await takeThrough(app.owner, commissionId, ['called_off'], { reason: 'changed their mind' });
  const refused = await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }).expect(409);
  expect(refused.body.missing).toEqual(['C31-001 is called off']);
});

test('a move sent twice is made once, and leaves one line in the journal', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId);
  const body = { from: 'sketch', to: 'sent', occurredAt: '2031-05-05T08:00:00Z', deviceId: 'desk-1', deviceSeq: 4 };
  const send = () => app.owner.post(`/quotes/${sketch.id}/moves`, body).set('idempotency-key', 'send-0001');
  const [first, second] = [await send().expect(200), await send().expect(200)];
  expect(second.body).toEqual(first.body);
  const { items } = (await app.owner.get(`/journal?thingId=${sketch.id}`).expect(200)).body;
  expect(items).toMatchObject([
    { what: 'quote', person: 'Flint', deviceId: 'desk-1', before: { state: 'sketch' }, after: { state: 'sent' } },
    { what: 'quote', before: null, after: { state: 'sketch' } },
  ]);
});
