import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { anAcceptedQuote, aPricedPendant, aSentQuote, eur, takeThrough } from '../support/a-quote.ts';
import { planInUse } from '../support/at-the-bench.ts';
import { pieces } from '../../src/platform/db/tables.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

const move = (person: Person, id: string, from: string, to: string, extra: object = {}) =>
  person.move(`/commissions/${id}`, { from, to, ...extra });

const missing = async (person: Person, id: string, from: string, to: string, extra: object = {}): Promise<string[]> =>
  (await move(person, id, from, to, extra).expect(409)).body.missing;

const regular = { override: true, reason: 'a regular' };

/** A pendant whose price is agreed and that nothing is paid of. */
const agreedPendant = async (app: TestApp) => {
  const pendant = await aPricedPendant(app);
  const quote = await anAcceptedQuote(app, pendant.commissionId);
  await takeThrough(app.owner, pendant.commissionId, ['shaping', 'offered']);
  await move(app.owner, pendant.commissionId, 'offered', 'agreed', regular).expect(200);
  return { ...pendant, id: pendant.commissionId, quote };
};

const stockOnBench = async (app: TestApp) => {
  const stock = await aCommission(app.desk, { kind: 'own_stock', clientId: null });
  await takeThrough(app.owner, stock.id, ['shaping', 'agreed']);
  await move(app.owner, stock.id, 'agreed', 'on_bench', { override: true, reason: 'no heat in it' }).expect(200);
  return stock;
};

test('agreed to on bench: every piece has a checked plan, or the owner says start', async () => {
  const app = await startApp();
  const { id, pieceId, number } = await agreedPendant(app);
  expect(await missing(app.bench, id, 'agreed', 'on_bench')).toEqual([`${number} has no checked plan`]);
  await move(app.bench, id, 'agreed', 'on_bench', regular).expect(403);
  await planInUse(app.bench, pieceId);
  await move(app.bench, id, 'agreed', 'on_bench').expect(200);
  const stock = await aCommission(app.desk, { kind: 'own_stock', clientId: null });
  await takeThrough(app.owner, stock.id, ['shaping', 'agreed']);
  expect(await missing(app.bench, stock.id, 'agreed', 'on_bench')).toEqual(['it has no piece yet']);
  const started = await move(app.owner, stock.id, 'agreed', 'on_bench', regular).expect(200);
  expect(started.body.stateReason).toBe('a regular');
});

test('on bench to resting: it waits for something named, until the wait is over', async () => {
  const app = await startApp();
  const { id } = await stockOnBench(app);
  expect(await missing(app.bench, id, 'on_bench', 'resting')).toEqual(['say what it waits for, in "waitingFor"']);
  await move(app.bench, id, 'on_bench', 'resting', { waitingFor: 'rain' }).expect(422);
  const resting = await move(app.bench, id, 'on_bench', 'resting', { waitingFor: 'stone' }).expect(200);
  expect(resting.body).toMatchObject({ state: 'resting', waitingFor: 'stone', daysToDue: 46 });
  const stray = await move(app.bench, id, 'resting', 'on_bench', { waitingFor: 'stone' }).expect(422);
  expect(stray.body.errors).toMatchObject([{ pointer: '/waitingFor' }]);
  const back = await move(app.bench, id, 'resting', 'on_bench').expect(200);
  expect(back.body).toMatchObject({ state: 'on_bench', waitingFor: null });
});

test('on bench to made: every piece that was not scrapped is ready; and back when a fault is seen', async () => {
  const app = await startApp();
  const stock = await stockOnBench(app);
  expect(await missing(app.owner, stock.id, 'on_bench', 'made')).toEqual(['it has no piece']);
  putPiece(app, stock, { serial: 1, state: 'scrapped' });
  putPiece(app, stock, { serial: 2, state: 'ready', weighedTenthMg: 43_000 });
  const third = putPiece(app, stock, { serial: 3, state: 'set_aside' });
  expect(await missing(app.owner, stock.id, 'on_bench', 'made')).toEqual([`${third.number} is set aside, not ready`]);
  await move(app.bench, stock.id, 'on_bench', 'made').expect(403);
  app.db.update(pieces).set({ state: 'ready' }).run();
  await move(app.owner, stock.id, 'on_bench', 'made').expect(200);
  await move(app.owner, stock.id, 'made', 'on_bench').expect(200);
});

test('made to handed over: weighed and paid, or the owner says so; then settled once nothing is owed', async () => {
  const app = await startApp();
  const { id, pieceId, number, quote } = await agreedPendant(app);
  const ready = (fields: object) =>
    app.db
      .update(pieces)
      .set({ state: 'ready', ...fields })
      .run();
  await move(app.owner, id, 'agreed', 'on_bench', regular).expect(200);
  ready({});
  await move(app.owner, id, 'on_bench', 'made').expect(200);
  const grossMinor = quote.gross.amountMinor;
  expect(await missing(app.desk, id, 'made', 'handed_over')).toEqual([
    `${number} has no final weight`,
    `the client owes ${(grossMinor / 100).toFixed(2)} EUR`,
  ]);
  ready({ weighedTenthMg: 55_000 });
  await move(app.desk, id, 'made', 'handed_over', regular).expect(403);
  const handed = await move(app.owner, id, 'made', 'handed_over', regular).expect(200);
  expect(handed.body).toMatchObject({ state: 'handed_over', stateReason: 'a regular' });
  expect(await missing(app.owner, id, 'handed_over', 'settled')).toEqual([
    `the client owes ${(grossMinor / 100).toFixed(2)} EUR`,
  ]);
  const pay = (amountMinor: number) =>
    app.desk.post('/payments', { commissionId: id, kind: 'balance', amount: eur(amountMinor), how: 'transfer' });
  await pay(grossMinor + 5)
    .set({ confirm: '/amount/amountMinor', 'confirm-reason': 'rounded up' })
    .expect(201);
  expect(await missing(app.owner, id, 'handed_over', 'settled')).toEqual(['we owe the client 0.05 EUR']);
  await app.owner
    .post('/payments', { commissionId: id, kind: 'send_back', amount: eur(5), how: 'transfer', reason: 'over-paid' })
    .expect(201);
  const settled = await move(app.owner, id, 'handed_over', 'settled').expect(200);
  expect(settled.body).toMatchObject({ state: 'settled', allowedMoves: [], account: { balance: eur(0) } });
  expect((await app.bench.get(`/pieces/${pieceId}`)).body.state).toBe('ready');
});

test('called off: by the owner with a reason; holds are freed, the spend to date is shown, the deposit is the question', async () => {
  const app = await startApp();
  const { id, pieceId, quote } = await agreedPendant(app);
  const { deposit } = quote;
  await app.desk.post('/payments', { commissionId: id, kind: 'deposit', amount: deposit, how: 'cash' }).expect(201);
  const span = (startedAt: string, stoppedAt: string) => ({ pieceId, operation: 'sawing', startedAt, stoppedAt });
  await app.bench.post('/bench-times', span('2031-05-05T06:00:00Z', '2031-05-05T07:30:00Z')).expect(201);
  await app.bench.post('/bench-times', { pieceId, operation: 'drawing', minutesByHand: 30 }).expect(201);
  await app.bench.move(`/pieces/${pieceId}`, { from: 'drawn', to: 'cut', metalIssuedG: 7 }).expect(200);
  await move(app.desk, id, 'agreed', 'called_off', { reason: 'changed their mind' }).expect(403);
  expect(await missing(app.owner, id, 'agreed', 'called_off')).toEqual(['say why, in "reason"']);
  const heldBefore = (await app.owner.get('/stock')).body.items.map(({ heldG }: { heldG: number }) => heldG);
  expect(Math.min(...heldBefore)).toBeGreaterThan(0);
  const calledOff = { reason: 'changed their mind', occurredAt: '2031-05-05T07:45:00.000Z' };
  const off = await move(app.owner, id, 'agreed', 'called_off', calledOff).expect(200);
  const [freed] = (await app.owner.get('/stock-movements').expect(200)).body.items;
  expect(freed).toMatchObject({ kind: 'free', occurredAt: calledOff.occurredAt });
  // Two hours at 24.00, 16.00 and 2.50; 7 g of sterling at 1.42.
  expect(off.body).toMatchObject({
    state: 'called_off',
    spend: {
      minutes: 120,
      labour: eur(4800),
      overhead: eur(3200),
      consumables: eur(500),
      solder: eur(0),
      metal: eur(994),
      total: eur(9494),
      unpricedMetals: [],
    },
    account: { received: deposit, balance: eur(-deposit.amountMinor) },
  });
  const heldAfter = (await app.owner.get('/stock')).body.items.map(({ heldG }: { heldG: number }) => heldG);
  expect(heldAfter).toEqual([0, 0, 0]);
  expect((await app.desk.get(`/commissions/${id}`)).body.spend).toBeNull();
});

test('an offer can be called off before it is agreed, and nothing is freed', async () => {
  const app = await startApp();
  const { commissionId: id } = await aPricedPendant(app);
  await aSentQuote(app, id);
  await takeThrough(app.owner, id, ['shaping', 'offered', 'called_off'], { reason: 'moved away' });
  const { items } = (await app.owner.get('/stock-movements').expect(200)).body;
  expect(items.map(({ kind }: { kind: string }) => kind)).toEqual(['receive', 'receive', 'receive']);
});
