import { expect, test } from 'vitest';
import { dueWork } from '../../src/due-work.ts';
import { pieces } from '../../src/platform/db/tables.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { anAcceptedQuote, aPricedPendant, aSentQuote, takeThrough, typePrices } from '../support/a-quote.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** What the clock does each minute, and once when the server starts. */
const runDueWork = (app: TestApp) => {
  for (const { run } of dueWork(app, app.services)) run();
};

const stateOf = async ({ owner }: TestApp, path: string): Promise<string> => (await owner.get(path).expect(200)).body.state;

test('a version lapses once its last day is over in the studio', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await typePrices(app, { timeZone: 'America/Lima' });
  const sent = await aSentQuote(app, commissionId);
  // 19 May ends in Lima at 05:00 UTC.
  app.clock.set('2031-05-20T04:59:00Z');
  runDueWork(app);
  expect(await stateOf(app, `/quotes/${sent.id}`)).toBe('sent');
  app.clock.advance({ minutes: 1 });
  runDueWork(app);
  expect(await stateOf(app, `/quotes/${sent.id}`)).toBe('lapsed');
  const [line] = (await app.owner.get(`/journal?thingId=${sent.id}`)).body.items;
  expect(line).toMatchObject({ person: null, at: '2031-05-20T05:00:00.000Z', after: { state: 'lapsed' } });
});

test('an offer without an answer goes quiet after the days of the setting, and its version lapses', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await typePrices(app, { silentDays: 10 });
  await aSentQuote(app, commissionId);
  await takeThrough(app.owner, commissionId, ['shaping', 'offered']);
  // Another version is another word: the silence begins anew.
  app.clock.advance({ days: 3 });
  const second = await aSentQuote(app, commissionId);
  app.clock.advance({ days: 9, hours: 23 });
  runDueWork(app);
  expect(await stateOf(app, `/commissions/${commissionId}`)).toBe('offered');
  app.clock.advance({ hours: 1 });
  runDueWork(app);
  runDueWork(app);
  expect(await stateOf(app, `/commissions/${commissionId}`)).toBe('gone_quiet');
  expect(await stateOf(app, `/quotes/${second.id}`)).toBe('lapsed');
  const lines = (await app.owner.get(`/journal?thingId=${commissionId}`)).body.items;
  expect(lines[0]).toMatchObject({ person: null, before: { state: 'offered' }, after: { state: 'gone_quiet' } });
  const toQuiet = await app.owner.post('/quotes', { commissionId }).expect(201);
  await typePrices(app);
  await app.owner.patch(`/quotes/${toQuiet.body.id}`, { overrides: {} }, 1).expect(200);
  const send = await app.owner.move(`/quotes/${toQuiet.body.id}`, { from: 'sketch', to: 'sent' }, app.clock.now()).expect(409);
  expect(send.body.missing).toEqual(['C31-001 has gone quiet: move it to shaping when the client is back']);
  await takeThrough(app.desk, commissionId, ['shaping']);
});

test('an offer that was accepted does not go quiet', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await anAcceptedQuote(app, commissionId);
  await takeThrough(app.owner, commissionId, ['shaping', 'offered']);
  app.clock.advance({ days: 60 });
  runDueWork(app);
  expect(await stateOf(app, `/commissions/${commissionId}`)).toBe('offered');
});

test('what is handed over with nothing owed is settled', async () => {
  const app = await startApp();
  const stock = await aCommission(app.desk, { kind: 'own_stock', clientId: null });
  putPiece(app, stock);
  await takeThrough(app.owner, stock.id, ['shaping', 'agreed']);
  const onBench = { from: 'agreed', to: 'on_bench', override: true, reason: 'no heat in it' };
  await app.owner.move(`/commissions/${stock.id}`, onBench).expect(200);
  app.db.update(pieces).set({ state: 'ready', weighedTenthMg: 1000 }).run();
  await takeThrough(app.owner, stock.id, ['made']);
  runDueWork(app);
  expect(await stateOf(app, `/commissions/${stock.id}`)).toBe('made');
  await takeThrough(app.owner, stock.id, ['handed_over']);
  runDueWork(app);
  expect(await stateOf(app, `/commissions/${stock.id}`)).toBe('settled');
});

test('after a long rest all that fell due is caught up with at once, and only once', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId);
  await takeThrough(app.owner, commissionId, ['shaping', 'offered']);
  const timer = (await app.bench.post('/bench-times', { general: true, operation: 'sweeping' }).expect(201)).body;
  app.clock.advance({ days: 90 });
  runDueWork(app);
  expect(await stateOf(app, `/commissions/${commissionId}`)).toBe('gone_quiet');
  expect(await stateOf(app, `/quotes/${sent.id}`)).toBe('lapsed');
  expect(await stateOf(app, `/bench-times/${timer.id}`)).toBe('in_doubt');
  const count = async () => (await app.owner.get('/journal?limit=200')).body.items.length;
  const before = await count();
  runDueWork(app);
  expect(await count()).toBe(before);
});
