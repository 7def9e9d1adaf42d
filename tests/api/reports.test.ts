import { readFileSync } from 'node:fs';
import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { ReportName } from '../../src/features/reports/reports.schema.ts';
import { bookSolderUse } from '../../src/features/stock/index.ts';
import { pieces } from '../../src/platform/db/tables.ts';
import { writtenBy } from '../../src/platform/http/actor.ts';
import { putPiece } from '../support/a-piece.ts';
import { eur } from '../support/a-quote.ts';
import { putCommission, putHeat, putQuote, putSoldering, putTime } from '../support/a-record.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

// The worked pendant of the reference cases: net 370.30, profit 140.00, so cost 230.30 and margin 0.378072; 255 minutes; issued
// 0.889793 + 4.137752 + 0.793394 g of metal; placed 0.0026 + 0.016333 + 0.006337 + 0.01 g of solder.
const { cases } = JSON.parse(readFileSync(new URL('../reference/estimate-cases.json', import.meta.url), 'utf8')) as {
  cases: { request: EstimateRequest }[];
};
const pendant = cases[0]!.request;

/** A pendant on the bench: 300 min at 24.00, 6 g of sterling out and 1 g back at 1.42, 0.05 g of solder at 1.85. */
async function aPendant(app: TestApp, state = 'handed_over') {
  const { owner, bench } = app;
  const settings = await owner.get('/settings').expect(200);
  await owner
    .patch('/settings', { metalPrices: { 'sterling-925': { amount: '1.42', per: 'g' } } }, settings.body.version)
    .expect(200);
  const commission = await putCommission(app, { state });
  const quoteId = putQuote(app, commission.id, pendant);
  const piece = putPiece(app, commission, { state: 'given', metalIssuedTenthMg: 60_000, metalReturnedTenthMg: 10_000 });
  const timeId = putTime(app, { pieceId: piece.id, minutes: 300 });
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id);
  const use = { kind: 'use', lotId: lot.id, quantityG: 0.05, reason: 'bezel', pieceId: piece.id };
  const movement = (await bench.post('/stock-movements', use).expect(201)).body;
  return { commission, quoteId, piece, timeId, movementId: movement.id as string };
}

test('GET /reports/quote-against-actual sets what was quoted beside what it took', async () => {
  const app = await startApp();
  const { commission, quoteId, piece, timeId, movementId } = await aPendant(app);
  const report = (await app.owner.get('/reports/quote-against-actual').expect(200)).body;
  expect(report).toMatchObject({ report: 'quote-against-actual', currency: 'EUR', from: null, to: null });
  expect(report.rows).toHaveLength(1);
  expect(report.rows[0]).toMatchObject({
    number: commission.number,
    state: 'handed_over',
    day: '2031-05-05',
    quoted: {
      quoteNumber: 1,
      basis: 'quote',
      minutes: 255,
      metalG: 5.8209,
      solderG: 0.0353,
      cost: eur(23030),
      price: eur(37030),
      marginFraction: 0.3781,
    },
    actual: {
      minutes: 300,
      metalG: 5,
      solderG: 0.05,
      labour: eur(12000),
      overhead: eur(8000),
      consumables: eur(1250),
      metal: eur(710),
      // 0.0925
      solder: eur(9),
      // Stone 18.00 and chain 14.50.
      boughtIn: eur(3250),
      cost: eur(25219),
      price: eur(37030),
      // (370.30 − 252.19) / 370.30
      marginFraction: 0.319,
    },
    pieces: [{ pieceId: piece.id, number: piece.number, minutes: 300, metalG: 5, solderG: 0.05, cost: eur(21969) }],
    notes: [],
    entries: { quoteId, benchTimeIds: [timeId], movementIds: [movementId] },
  });
  const none = await app.owner.get('/reports/quote-against-actual?from=2031-05-06').expect(200);
  expect(none.body).toMatchObject({ from: '2031-05-06', rows: [] });
  expect((await app.owner.get('/reports/quote-against-actual?from=2031-05-05&to=2031-05-05').expect(200)).body.rows).toHaveLength(
    1,
  );
});

test('GET /reports/quote-against-actual gives no margin of work that goes on or of costs that are not known', async () => {
  const app = await startApp();
  const { piece } = await aPendant(app, 'on_bench');
  const bare = await putCommission(app, { state: 'made', kind: 'own_stock', clientId: null });
  app.db.update(pieces).set({ metalIssuedTenthMg: null }).where(eq(pieces.id, piece.id)).run();
  const { rows } = (await app.owner.get('/reports/quote-against-actual').expect(200)).body;
  const [running, unquoted] = rows;
  expect(running.actual.marginFraction).toBeNull();
  expect(running.notes).toEqual([
    `the metal issued for ${piece.number} is not noted`,
    'the work is not over: this is what it took so far',
  ]);
  expect(unquoted).toMatchObject({
    commissionId: bare.id,
    quoted: { quoteNumber: null, basis: 'none', minutes: null, cost: null, price: null },
    actual: { cost: { amountMinor: 0 }, price: null, marginFraction: null },
    notes: ['no quote, and no design with a plan: the minutes are not known'],
  });
});

test('GET /reports/quote-against-actual is for the owner alone, as JSON or CSV', async () => {
  const app = await startApp();
  const { commission } = await aPendant(app);
  for (const person of [app.bench, app.desk, app.student]) await person.get('/reports/quote-against-actual').expect(403);
  const csv = await app.owner
    .get('/reports/quote-against-actual?format=csv')
    .expect(200)
    .expect('content-type', 'text/csv; charset=utf-8');
  expect(csv.headers['content-disposition']).toBe('attachment; filename="quote-against-actual.csv"');
  expect(csv.text.split('\r\n')).toEqual([
    'commission,title,state,day,quoted_min,actual_min,quoted_metal_g,actual_metal_g,quoted_solder_g,actual_solder_g,quoted_cost_EUR,actual_cost_EUR,price_net_EUR,quoted_margin_fraction,actual_margin_fraction,notes',
    `${commission.number},Marsh Lantern pendant,handed_over,2031-05-05,255,300,5.8209,5,0.0353,0.05,230.30,252.19,370.30,0.3781,0.319,`,
    '',
  ]);
});

test('GET /reports/solder-use counts grams by month, joints made, and those soldered again', async () => {
  const app = await startApp();
  const { owner, bench, db, clock, actors } = app;
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id);
  const piece = putPiece(app, await putCommission(app, { state: 'on_bench' }));
  const solder = (number: number, tenthMg: number, joints: [string, 'sound' | 'spoilt'][]) => {
    const heatId = putHeat(app, { pieceId: piece.id, productId: product.id, number });
    bookSolderUse(db, writtenBy(actors.bench, clock.now()), {
      lotId: lot.id,
      pieceId: piece.id,
      heatId,
      tenthMg,
      at: clock.now(),
    });
    for (const [jointId, outcome] of joints)
      putSoldering(app, { pieceId: piece.id, heatId, jointId, productId: product.id, lotId: lot.id, outcome });
  };
  solder(1, 200, [
    ['seam', 'sound'],
    ['bezel', 'spoilt'],
  ]);
  clock.set('2031-06-01T08:00:00Z');
  solder(2, 100, [['bezel', 'sound']]);
  const book = (kind: string, quantityG: number) =>
    bench.post('/stock-movements', { kind, lotId: lot.id, quantityG, reason: 'trial on scrap' }).expect(201);
  await book('scrap', 0.5);
  await book('put_back', 0.1);
  await book('count_down', 1);
  const mistake = (await book('use', 3)).body;
  await bench.post(`/stock-movements/${mistake.id}/reversals`, { reason: 'other lot' }).expect(201);

  const report = (await bench.get('/reports/solder-use').expect(200)).body;
  expect(report.rows).toMatchObject([
    {
      month: '2031-05',
      code: 'hard_wire',
      grams: 0.02,
      inHeatsG: 0.02,
      jointsMade: 1,
      gPerJoint: 0.02,
      solderings: 2,
      redone: 0,
      redoneFraction: 0,
    },
    {
      month: '2031-06',
      grams: 0.41,
      inHeatsG: 0.01,
      jointsMade: 1,
      gPerJoint: 0.01,
      solderings: 1,
      redone: 1,
      redoneFraction: 1,
    },
  ]);
  expect(report.rows[1].entries.movementIds).toHaveLength(3);
  expect((await bench.get('/reports/solder-use?to=2031-05-31').expect(200)).body.rows).toHaveLength(1);
  const csv = await bench.get('/reports/solder-use?from=2031-06-01&format=csv').expect(200);
  expect(csv.text).toBe(
    'month,product,name,used_g,used_in_heats_g,joints_made,g_per_joint,solderings,redone,redone_fraction\r\n2031-06,hard_wire,Hard wire,0.41,0.01,1,0.01,1,1,1\r\n',
  );
});

test('GET /reports/{name} takes only the reports there are, and days in order', async () => {
  const { owner, stranger, student } = await startApp();
  const unknown = await owner
    .get('/reports/profit')
    .expect(422)
    .expect('content-type', /^application\/problem\+json/);
  expect(unknown.body.errors).toMatchObject([{ pointer: ':name' }]);
  expect((await owner.get('/reports/solder-use?from=2031-05-06&to=2031-05-05').expect(422)).body.errors).toMatchObject([
    { pointer: '?to' },
  ]);
  await owner.get('/reports/solder-use?from=yesterday').expect(422);
  await owner.get('/reports/solder-use?since=2031-05-01').expect(422);
  await student.get('/reports/solder-use').expect(403);
  await stranger.get('/reports/solder-use').expect(401);
});

test('GET /reports names every report with its question, and who may read it', async () => {
  const { owner, bench, desk, student } = await startApp();
  const { items } = (await owner.get('/reports').expect(200)).body;
  expect(items.map(({ name }: { name: string }) => name)).toEqual([...ReportName.options]);
  const questions = new Set(items.map(({ question }: { question: string }) => question));
  expect(questions.size).toBe(items.length);
  expect(items[0]).toEqual({
    name: 'quote-against-actual',
    question: 'Did we make money on it?',
    shows: expect.stringMatching(/margin/),
    whose: 'owner',
    mayRead: true,
    path: '/api/v1/reports/quote-against-actual',
  });
  for (const person of [owner, bench, desk]) {
    for (const { path, mayRead } of (await person.get('/reports').expect(200)).body.items) {
      for (const format of ['json', 'csv'])
        await person.get(`${path.replace('/api/v1', '')}?format=${format}`).expect(mayRead ? 200 : 403);
    }
  }
  await student.get('/reports').expect(403);
});

test('of an empty book every report is empty, and a table is its header alone', async () => {
  const { owner } = await startApp();
  for (const name of ReportName.options) {
    const { body } = await owner.get(`/reports/${name}`).expect(200);
    expect([name, body.rows ?? body.suppliers]).toEqual([name, []]);
    const { text } = await owner.get(`/reports/${name}?format=csv`).expect(200);
    expect([name, text]).toEqual([name, expect.stringMatching(/^[a-z][A-Za-z_,]+\r\n$/)]);
    expect(JSON.stringify(body) + text).not.toMatch(/NaN|Infinity|undefined/);
  }
});
