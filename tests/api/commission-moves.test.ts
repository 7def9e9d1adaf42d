import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { anAcceptedQuote, aPricedPendant, aSentQuote, eur, takeThrough } from '../support/a-quote.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

const move = (person: Person, id: string, from: string, to: string, extra: object = {}) =>
  person.move(`/commissions/${id}`, { from, to, ...extra });

const missing = async (person: Person, id: string, from: string, to: string, extra: object = {}): Promise<string[]> => {
  const refused = await move(person, id, from, to, extra)
    .expect(409)
    .expect('content-type', /^application\/problem\+json/);
  expect(refused.body.type).toBe('/api/v1/problems/condition-not-met');
  return refused.body.missing;
};

/** Held of each product, in grams. */
const held = async ({ owner }: TestApp): Promise<Record<string, number>> => {
  const { items } = (await owner.get('/stock').expect(200)).body;
  return Object.fromEntries(items.map(({ code, heldG }: { code: string; heldG: number }) => [code, heldG]));
};

test('asked to shaping: wish and client are noted', async () => {
  const { desk, bench } = await startApp();
  const { id } = await aCommission(desk, { wish: null });
  await move(bench, id, 'asked', 'shaping').expect(403);
  expect(await missing(desk, id, 'asked', 'shaping')).toEqual(['note what is wished for']);
  await desk.patch(`/commissions/${id}`, { wish: 'A pendant' }, 1).expect(200);
  const moved = await move(desk, id, 'asked', 'shaping').expect(200).expect('etag', '"3"');
  expect(moved.body).toMatchObject({ state: 'shaping', allowedMoves: [] });
  const again = await move(desk, id, 'asked', 'shaping').expect(409);
  expect(again.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'shaping' });
  const wrong = await move(desk, id, 'shaping', 'made').expect(409);
  expect(wrong.body).toMatchObject({ type: '/api/v1/problems/move-not-allowed', allowed: [] });
  await move(desk, id, 'shaping', 'nowhere').expect(422);
});

test('asked to turned down: by the owner, with a reason', async () => {
  const { owner, desk } = await startApp();
  const { id } = await aCommission(desk);
  await move(desk, id, 'asked', 'turned_down', { reason: 'too much on' }).expect(403);
  expect(await missing(owner, id, 'asked', 'turned_down')).toEqual(['say why, in "reason"']);
  const moved = await move(owner, id, 'asked', 'turned_down', { reason: 'too much on' }).expect(200);
  expect(moved.body).toMatchObject({ state: 'turned_down', stateReason: 'too much on', allowedMoves: [] });
});

test('shaping to offered: a version is sent; and back when the client wants a change', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app);
  await takeThrough(app.owner, id, ['shaping']);
  expect(await missing(app.owner, id, 'shaping', 'offered')).toEqual(['send a version of the quote']);
  await aSentQuote(app, id);
  await move(app.owner, id, 'shaping', 'offered').expect(200);
  const back = await move(app.desk, id, 'offered', 'shaping', { reason: 'a longer chain' }).expect(200);
  expect(back.body.quotes).toMatchObject([{ number: 1, state: 'sent' }]);
});

test('offered to agreed: accepted, a due date, a deposit; then the solder of its pieces is held', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app, { dueOn: null });
  const sent = await aSentQuote(app, id);
  await takeThrough(app.owner, id, ['shaping', 'offered']);
  expect(await missing(app.desk, id, 'offered', 'agreed')).toEqual([
    'a version of the quote has to be accepted',
    'set the due date',
  ]);
  await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }).expect(200);
  const { version } = (await app.desk.get(`/commissions/${id}`)).body;
  await app.desk.patch(`/commissions/${id}`, { dueOn: '2031-06-20' }, version).expect(200);
  const deposit = sent.deposit.amountMinor;
  await app.desk.post('/payments', { commissionId: id, kind: 'deposit', amount: eur(deposit - 1), how: 'cash' }).expect(201);
  expect(await missing(app.desk, id, 'offered', 'agreed')).toEqual(['0.01 EUR of the deposit is not received yet']);
  expect(await held(app)).toEqual({ hard: 0, medium: 0, easy: 0 });
  await app.desk.post('/payments', { commissionId: id, kind: 'deposit', amount: eur(1), how: 'cash' }).expect(201);
  const agreed = await move(app.desk, id, 'offered', 'agreed').expect(200);
  expect(agreed.body).toMatchObject({ state: 'agreed', account: { received: eur(deposit) } });
  // Hard: two joints of one 1.3 mg chip; medium: 10.87 mg by volume; easy: one chip; each times 1.10, to the 0.1 mg.
  expect(await held(app)).toEqual({ hard: 0.0029, medium: 0.012, easy: 0.0014 });
});

test('the owner alone waives the deposit, with a reason', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app);
  await anAcceptedQuote(app, id);
  await takeThrough(app.owner, id, ['shaping', 'offered']);
  const refused = await move(app.owner, id, 'offered', 'agreed').expect(409);
  expect(refused.body.ownerMayOverride).toBe(true);
  await move(app.desk, id, 'offered', 'agreed', { override: true, reason: 'a regular' }).expect(403);
  const unsaid = await move(app.owner, id, 'offered', 'agreed', { override: true }).expect(422);
  expect(unsaid.body.errors).toMatchObject([{ pointer: '/reason' }]);
  const agreed = await move(app.owner, id, 'offered', 'agreed', { override: true, reason: 'a regular' }).expect(200);
  expect(agreed.body).toMatchObject({ state: 'agreed', stateReason: 'a regular' });
});

test('offered to agreed is refused once the due date has passed', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app, { dueOn: '2031-05-10' });
  await anAcceptedQuote(app, id);
  await takeThrough(app.owner, id, ['shaping', 'offered']);
  app.clock.set('2031-05-11T08:00:00Z');
  expect(await missing(app.owner, id, 'offered', 'agreed', { override: true, reason: 'a regular' })).toEqual([
    'the due date, 2031-05-10, has passed: set another',
  ]);
});

test('offered to turned down: every version that was sent is declined', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app);
  const sent = await aSentQuote(app, id);
  await takeThrough(app.owner, id, ['shaping', 'offered']);
  expect(await missing(app.desk, id, 'offered', 'turned_down')).toEqual([
    'every version that was sent has to be declined',
    'no version was declined',
  ]);
  await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'declined' }).expect(200);
  await move(app.desk, id, 'offered', 'turned_down').expect(200);
});

test('own stock and teaching pieces go from shaping to agreed without a quote, other work does not', async () => {
  const app = await startApp();
  const stock = await aCommission(app.desk, { kind: 'own_stock', clientId: null, dueOn: null });
  await takeThrough(app.owner, stock.id, ['shaping']);
  await move(app.desk, stock.id, 'shaping', 'agreed').expect(403);
  expect(await missing(app.owner, stock.id, 'shaping', 'agreed')).toEqual(['set the due date']);
  await app.desk.patch(`/commissions/${stock.id}`, { dueOn: '2031-06-20' }, 2).expect(200);
  await move(app.owner, stock.id, 'shaping', 'agreed').expect(200);
  const practice = await aCommission(app.desk, { kind: 'teaching_piece', clientId: null });
  await takeThrough(app.owner, practice.id, ['shaping', 'agreed']);
  const ring = await aCommission(app.desk);
  await takeThrough(app.owner, ring.id, ['shaping']);
  expect(await missing(app.owner, ring.id, 'shaping', 'agreed')).toEqual([
    'send a quote and have it accepted: only own stock, teaching pieces and repairs go without',
  ]);
});

test('a repair is accepted at the counter: version, acceptance and waiver in one step', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app, { kind: 'repair' });
  await takeThrough(app.owner, id, ['shaping']);
  expect(await missing(app.owner, id, 'shaping', 'agreed')).toEqual(['say why, in "reason"']);
  const bad = await move(app.owner, id, 'shaping', 'agreed', { reason: 'pays at once', overrides: { colour: 'red' } }).expect(
    422,
  );
  expect(bad.body.errors).toMatchObject([{ pointer: '/overrides/colour' }]);
  // The client said yes an hour before it was sent.
  const occurredAt = '2031-05-05T07:00:00.000Z';
  const agreed = await move(app.owner, id, 'shaping', 'agreed', {
    occurredAt,
    reason: 'pays when it is done',
    overrides: { policy: { depositFraction: 0.3 } },
  }).expect(200);
  const [quote] = (await app.owner.get(`/quotes?commissionId=${id}`).expect(200)).body.items;
  expect(quote).toMatchObject({ sentAt: occurredAt, answeredAt: occurredAt });
  const [hold] = (await app.owner.get('/stock-movements').expect(200)).body.items;
  expect(hold).toMatchObject({ kind: 'hold', occurredAt, recordedAt: '2031-05-05T08:00:00.000Z' });
  expect(agreed.body).toMatchObject({
    state: 'agreed',
    stateReason: 'pays when it is done',
    quotes: [{ number: 1, state: 'accepted' }],
  });
  expect(agreed.body.account.balance).toEqual(agreed.body.account.gross);
  expect(await held(app)).toMatchObject({ hard: 0.0029 });
  const elsewhere = await move(app.owner, id, 'agreed', 'on_bench', { overrides: {} }).expect(422);
  expect(elsewhere.body.errors).toMatchObject([{ pointer: '/overrides' }]);
});

test('a move without an Idempotency-Key is refused, and sent twice is made once', async () => {
  const { desk } = await startApp();
  const { id } = await aCommission(desk);
  const body = { from: 'asked', to: 'shaping', occurredAt: '2031-05-05T07:30:00Z', deviceId: 'desk-1', deviceSeq: 1 };
  await desk.post(`/commissions/${id}/moves`, body).expect(422);
  const send = () => desk.post(`/commissions/${id}/moves`, body).set('idempotency-key', 'shape-001');
  const [first, second] = [await send().expect(200), await send().expect(200)];
  expect(second.body).toEqual(first.body);
  expect(first.body.stateSince).toBe('2031-05-05T07:30:00.000Z');
  const ahead = { ...body, from: 'shaping', to: 'offered', occurredAt: '2031-05-05T09:00:00Z' };
  await desk
    .post(`/commissions/${id}/moves`, { ...ahead, waitingFor: 'metal' })
    .set('idempotency-key', 'shape-002')
    .expect(403);
});

test('a student moves nothing, and knows of no commission but teaching pieces', async () => {
  const app = await startApp();
  const ring = await aCommission(app.desk);
  const practice = await aCommission(app.desk, { kind: 'teaching_piece', clientId: null });
  putPiece(app, practice);
  await move(app.student, ring.id, 'asked', 'shaping').expect(404);
  await move(app.student, practice.id, 'asked', 'shaping').expect(403);
});
