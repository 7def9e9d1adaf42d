import { expect, test } from 'vitest';
import { takeThrough } from '../support/a-quote.ts';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { startApp } from '../support/start-app.ts';
import { receiveLot } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';

/** 5 g of hard at 1.85 and 5 g at 2.45; 10 g of sheet at 1.40 and 10 g at 1.60. A piece takes of the newer lot of each. */
async function aPieceOfTheNewerLots(method: 'oldest_first' | 'average') {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const { version } = (await owner.get('/settings')).body;
  await owner.patch('/settings', { stockCost: method }, version).expect(200);
  const { products } = await aDrawer(app);
  const dear = await receiveLot(owner, products['hard']!, { quantityG: 5, unitCost: { amount: '2.45', per: 'g' } });
  const sheet = (await owner.post('/metal-products', aMetalProduct({ form: { kind: 'sheet', thicknessMm: 0.8 } })).expect(201))
    .body;
  const metal = async (amount: string) =>
    (
      await desk
        .post('/metal-lots', { productId: sheet.id, receivedOn: '2031-05-05', quantityG: 10, unitCost: { amount, per: 'g' } })
        .expect(201)
    ).body.id;
  await metal('1.40');
  const newer = await metal('1.60');
  const piece = await aDrawnPiece(app, { kind: 'own_stock', clientId: undefined, dueOn: '2031-06-20' });
  const use = { kind: 'use', lotId: dear.id, quantityG: 2, reason: 'hinges', pieceId: piece.id };
  const booked = (await bench.post('/stock-movements', use).expect(201)).body;
  const wrong = (await bench.post('/stock-movements', { ...use, quantityG: 1 }).expect(201)).body;
  await bench.post(`/stock-movements/${wrong.id}/reversals`, { reason: 'another piece' }).expect(201);
  const book = (body: object) => bench.post('/metal-movements', { lotId: newer, pieceId: piece.id, ...body }).expect(201);
  await book({ kind: 'issue', quantityG: 8 });
  await book({ kind: 'put_back', quantityG: 2 });
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed']);
  const actual = async () => (await owner.get('/reports/quote-against-actual').expect(200)).body.rows[0].actual;
  return { ...app, piece, booked, actual };
}

// Oldest first: 2 g of 1.85, and 6 g of 1.40, whichever lot they lay in. At the average of 2.15 and 1.50: 4.30 and 9.00.
test.each([
  ['oldest_first' as const, { solder: 370, metal: 840 }],
  ['average' as const, { solder: 430, metal: 900 }],
])('what a piece took costs what the ledger says: %s', async (method, cost) => {
  const { actual, owner, bench, piece, booked } = await aPieceOfTheNewerLots(method);
  expect(await actual()).toMatchObject({
    solderG: 2,
    metalG: 6,
    solder: { amountMinor: cost.solder },
    metal: { amountMinor: cost.metal },
  });
  // The same in the spending that the owner is shown when work is called off, and in the work at hand at the year's end.
  const { rows } = (await owner.get('/reports/year-end').expect(200)).body;
  expect(rows.filter(({ section }: { section: string }) => section === 'unfinished')).toEqual([]);
  await bench.move(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut' }).expect(200);
  const unfinished = (await owner.get('/reports/year-end')).body.rows.find(
    ({ section }: { section: string }) => section === 'unfinished',
  );
  expect(unfinished).toMatchObject({ grams: 6, cost: { amountMinor: cost.solder + cost.metal } });
  await bench.post(`/stock-movements/${booked.id}/reversals`, { reason: 'never made' }).expect(201);
  expect((await actual()).solder.amountMinor).toBe(0);
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true });
});
