import { expect, test } from 'vitest';
import { anAcceptedQuote, aPricedPendant, eur } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';

async function accepted() {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { gross } = await anAcceptedQuote(app, commissionId);
  const note = async (given: Record<string, unknown>) =>
    (
      await app.desk
        .post('/payments', { commissionId, kind: 'deposit', how: 'transfer', amount: eur(5000), ...given })
        .expect(201)
    ).body;
  const balance = async () => (await app.desk.get(`/commissions/${commissionId}`)).body.account.balance.amountMinor as number;
  return { ...app, commissionId, grossMinor: gross.amountMinor, note, balance };
}

test('money that is due counts for nothing until it is received', async () => {
  const { desk, note, balance, grossMinor, commissionId } = await accepted();
  const due = await note({ dueOn: '2031-05-12' });
  expect(due).toMatchObject({ state: 'due', dueOn: '2031-05-12', receivedOn: null, allowedMoves: ['received'] });
  expect(await balance()).toBe(grossMinor);
  expect((await desk.get(`/documents/payment-receipts/${due.id}`).expect(409)).body.detail).toContain('not received yet');
  expect((await desk.get(`/payments?state=due&commissionId=${commissionId}`)).body.items).toMatchObject([{ id: due.id }]);
  const path = `/payments/${due.id}`;
  const ahead = { from: 'due', to: 'received', receivedOn: '2031-05-06' };
  expect((await desk.move(path, ahead).expect(422)).body.errors).toMatchObject([{ pointer: '/receivedOn' }]);
  const received = (await desk.move(path, { from: 'due', to: 'received', how: 'cash' }).expect(200).expect('etag', '"2"')).body;
  expect(received).toMatchObject({ state: 'received', receivedOn: '2031-05-05', how: 'cash', account: { received: eur(5000) } });
  expect(await balance()).toBe(grossMinor - 5000);
  await desk.get(`/documents/payment-receipts/${due.id}`).expect(200);
  // It was asked for twice, and paid: the second is asked about.
  const again = await note({ amount: eur(grossMinor - 5000), dueOn: '2031-05-12' });
  await note({ amount: eur(grossMinor - 5000), kind: 'balance' });
  const twice = (await desk.move(`/payments/${again.id}`, { from: 'due', to: 'received' }).expect(422)).body;
  expect(twice.errors).toMatchObject([{ pointer: '/to', confirmable: true, detail: expect.stringContaining('Over-payment?') }]);
});

test('what was received goes back in part and then whole, by the owner, with a reason, as entries of their own', async () => {
  const { owner, desk, note, balance, grossMinor, commissionId } = await accepted();
  const paid = await note({});
  const path = `/payments/${paid.id}`;
  const part = { from: 'received', to: 'part_sent_back', amount: eur(2000), reason: 'a stone was left out' };
  await desk.move(path, part).expect(403);
  const { reason: _reason, ...unsaid } = part;
  expect((await owner.move(path, unsaid).expect(409)).body.missing).toEqual(['say why (reason)']);
  const { amount: _amount, ...howMuch } = part;
  expect((await owner.move(path, howMuch).expect(422)).body.errors).toMatchObject([{ pointer: '/amount' }]);
  for (const amount of [eur(5000), eur(6000)])
    expect((await owner.move(path, { ...part, amount }).expect(422)).body.errors[0]).toMatchObject({
      pointer: '/amount/amountMinor',
      detail: expect.stringContaining('send it back whole'),
    });
  const back = (await owner.move(path, part).expect(200)).body;
  expect(back).toMatchObject({
    state: 'part_sent_back',
    amount: eur(5000),
    sentBack: eur(2000),
    account: { received: eur(3000) },
  });
  const whole = { from: 'part_sent_back', to: 'sent_back', reason: 'the rest of it' };
  const odd = (await owner.move(path, { ...whole, amount: eur(2999) }).expect(422)).body;
  expect(odd.errors).toMatchObject([{ detail: 'All that is left of it goes back: 30.00 EUR.' }]);
  expect((await owner.move(path, whole).expect(200)).body).toMatchObject({
    state: 'sent_back',
    sentBack: eur(5000),
    allowedMoves: [],
  });
  expect(await balance()).toBe(grossMinor);
  const { items } = (await desk.get(`/payments?commissionId=${commissionId}`).expect(200)).body;
  expect(items).toMatchObject([
    { kind: 'send_back', amount: eur(3000), returnsId: paid.id, reason: 'the rest of it', state: 'sent_back' },
    { kind: 'send_back', amount: eur(2000), returnsId: paid.id, reason: 'a stone was left out' },
    { kind: 'deposit', amount: eur(5000), state: 'sent_back' },
  ]);
  await desk.get(`/documents/payment-receipts/${items[0].id}`).expect(200);
});

test('money that went back another way is not sent back twice, and a move sent twice is made once', async () => {
  const { owner, note, commissionId } = await accepted();
  const paid = await note({});
  const all = { commissionId, kind: 'send_back', how: 'cash', amount: eur(4000), reason: 'called off' };
  await owner.post('/payments', all).expect(201);
  const whole = { from: 'received', to: 'sent_back', reason: 'called off' };
  const refused = (await owner.move(`/payments/${paid.id}`, whole).expect(422)).body;
  expect(refused.errors[0].detail).toBe('Only 10.00 EUR was received, and not sent back yet.');
  const moved = {
    from: 'received',
    to: 'part_sent_back',
    amount: eur(1000),
    reason: 'the rest',
    occurredAt: '2031-05-05T08:00:00Z',
    deviceId: 'till',
    deviceSeq: 1,
  };
  const send = () => owner.post(`/payments/${paid.id}/moves`, moved).set('idempotency-key', 'till-back-1');
  const once = (await send().expect(200)).body;
  expect((await send().expect(200)).body).toEqual(once);
  expect((await owner.get('/payments')).body.items).toHaveLength(3);
});

test('what is asked for is not received too, nor on a day that is over', async () => {
  const { desk, owner, commissionId } = await accepted();
  const body = { commissionId, kind: 'deposit', how: 'card', amount: eur(100) };
  const pointers = async (given: object) =>
    (await owner.post('/payments', { ...body, ...given }).expect(422)).body.errors.map(
      ({ pointer }: { pointer: string }) => pointer,
    );
  expect(await pointers({ dueOn: '2031-05-09', receivedOn: '2031-05-05' })).toEqual(['/dueOn']);
  expect(await pointers({ dueOn: '2031-05-04' })).toEqual(['/dueOn']);
  await desk.post('/payments', { ...body, kind: 'send_back', dueOn: '2031-05-09' }).expect(403);
});
