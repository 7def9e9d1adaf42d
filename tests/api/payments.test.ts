import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { anAcceptedQuote, aPricedPendant, aSentQuote, eur } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';

const payment = (commissionId: string, amountMinor: number, given: Record<string, unknown> = {}) => ({
  commissionId,
  kind: 'deposit',
  amount: eur(amountMinor),
  how: 'transfer',
  ...given,
});

test('POST /payments notes money taken in, and says what is owed after it', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const quote = await anAcceptedQuote(app, commissionId);
  const { gross, deposit } = quote;
  const taken = await app.desk.post('/payments', payment(commissionId, deposit.amountMinor)).expect(201);
  const { account, ...noted } = taken.body;
  expect(noted).toEqual({
    id: expect.any(String),
    commissionId,
    kind: 'deposit',
    amount: deposit,
    how: 'transfer',
    receivedOn: '2031-05-05',
    dueOn: null,
    state: 'received',
    sentBack: eur(0),
    returnsId: null,
    allowedMoves: [],
    version: 1,
    reason: null,
    createdAt: '2031-05-05T08:00:00.000Z',
  });
  const left = gross.amountMinor - deposit.amountMinor;
  expect(account).toEqual({ gross, deposit, received: deposit, balance: eur(left) });
  const paid = await app.desk
    .post('/payments', payment(commissionId, left, { kind: 'balance', how: 'cash', receivedOn: '2031-05-04' }))
    .expect(201);
  expect(paid.body.account.balance).toEqual(eur(0));
  const list = await app.desk.get(`/payments?commissionId=${commissionId}`).expect(200);
  expect(list.body.items.map(({ kind }: { kind: string }) => kind)).toEqual(['balance', 'deposit']);
  expect(list.body.items[1]).toEqual(noted);
  const shown = (await app.desk.get(`/commissions/${commissionId}`)).body.account;
  expect(shown).toEqual(paid.body.account);
});

test('POST /payments asks about an over-payment, and refuses more than twice the price', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const grossMinor = (await anAcceptedQuote(app, commissionId)).gross.amountMinor;
  const asked = await app.desk.post('/payments', payment(commissionId, grossMinor + 1)).expect(422);
  expect(asked.body.errors).toEqual([
    {
      pointer: '/amount/amountMinor',
      detail: `${(grossMinor / 100).toFixed(2)} EUR is owed; ${((grossMinor + 1) / 100).toFixed(2)} EUR typed. Over-payment?`,
      given: grossMinor + 1,
      confirmable: true,
    },
  ]);
  const confirm = { confirm: '/amount/amountMinor', 'confirm-reason': 'a gift' };
  await app.desk
    .post('/payments', payment(commissionId, 2 * grossMinor + 1))
    .set(confirm)
    .expect(422);
  const over = await app.desk
    .post('/payments', payment(commissionId, grossMinor + 1))
    .set(confirm)
    .expect(201);
  expect(over.body.account.balance).toEqual(eur(-1));
});

test('POST /payments takes a deposit that comes with the yes, and none before a price is sent', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const early = await app.desk.post('/payments', payment(commissionId, 100)).expect(409);
  expect(early.body.detail).toBe('Cannot take money: no version of the quote is sent or accepted');
  await aSentQuote(app, commissionId);
  const taken = await app.desk.post('/payments', payment(commissionId, 100)).expect(201);
  expect(taken.body.account).toMatchObject({ gross: null, received: eur(100), balance: eur(-100) });
});

test('POST /payments sends back no more than was received, by the owner, with a reason', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await anAcceptedQuote(app, commissionId);
  await app.desk.post('/payments', payment(commissionId, 5000)).expect(201);
  const back = (amountMinor: number, reason: string | null = 'the ring was scratched') =>
    payment(commissionId, amountMinor, { kind: 'send_back', reason });
  await app.desk.post('/payments', back(1000)).expect(403);
  const refused = await app.owner.post('/payments', back(5001, null)).expect(422);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/reason', '/amount/amountMinor']);
  const sent = await app.owner.post('/payments', back(2000)).expect(201);
  expect(sent.body).toMatchObject({ kind: 'send_back', amount: eur(2000), account: { received: eur(3000) } });
});

test('POST /payments tells every field that cannot be used', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await anAcceptedQuote(app, commissionId);
  const pointers = async (body: object) =>
    (await app.desk.post('/payments', body).expect(422)).body.errors.map(({ pointer }: { pointer: string }) => pointer);
  expect(
    await pointers({
      commissionId,
      kind: 'tip',
      amount: eur(0),
      how: 'cheque',
      receivedOn: 'yesterday',
      card: '4111111111111111',
    }),
  ).toEqual(expect.arrayContaining(['/kind', '/amount/amountMinor', '/how', '/receivedOn', '/card']));
  expect(await pointers(payment(commissionId, 10, { receivedOn: '2031-05-06' }))).toEqual(['/receivedOn']);
  expect(await pointers(payment(commissionId, 10, { amount: { amountMinor: 10, currency: 'JPY' } }))).toEqual([
    '/amount/currency',
  ]);
  expect(await pointers(payment(commissionId, 10, { amount: eur(1.5) }))).toEqual(['/amount/amountMinor']);
  expect(await pointers(payment(commissionId, 10, { reason: 'card 4111 1111 1111 1111' }))).toEqual(['/reason']);
  expect(await pointers(payment('01890a5d-ac96-774b-bcce-b302099a8057', 10))).toEqual(['/commissionId']);
});

test('POST /payments with an Idempotency-Key sent twice takes the money once', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await anAcceptedQuote(app, commissionId);
  const send = (amountMinor: number) =>
    app.desk.post('/payments', payment(commissionId, amountMinor)).set('idempotency-key', 'till-0001');
  const [first, second] = [await send(1000).expect(201), await send(1000).expect(201)];
  expect(second.body).toEqual(first.body);
  expect((await app.desk.get('/payments')).body.items).toHaveLength(1);
  const other = await send(1001).expect(422);
  expect(other.body.type).toBe('/api/v1/problems/idempotency-key-reused');
});

test('payments are for desk and owner', async () => {
  const { desk, bench, student, stranger } = await startApp();
  const { id } = await aCommission(desk);
  await bench.post('/payments', payment(id, 100)).expect(403);
  await bench.get('/payments').expect(403);
  await student.get('/payments').expect(403);
  await stranger.get('/payments').expect(401);
});
