import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, planInUse, workHeat } from '../support/at-the-bench.ts';
import { anAcceptedQuote, eur, typePrices } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';
import { receiveLot } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';

/** A drawer, a wire of ours and one of a client, and a piece that is built from ours with a bath at hand. */
async function aYear() {
  const app = await startApp();
  const { owner, bench, desk } = app;
  await typePrices(app);
  const { version } = (await owner.get('/settings')).body;
  const finePrice = { perG: '1.05', typedAt: '2031-05-05T07:00:00Z', source: 'the paper' };
  const metalPrices = { 'sterling-925': { amount: '46.00', per: 'ozt' } };
  await owner
    .patch('/settings', { finePrice, metalPrices, refiner: { payFraction: 0.94, feeFixed: '25.00', feePerG: '0.04' } }, version)
    .expect(200);
  const { lots, products } = await aDrawer(app);
  // The first delivery of hard cost 1.85 a gram, as the product does now; this one cost more.
  await receiveLot(owner, products['hard']!, { quantityG: 10, unitCost: { amount: '2.00', per: 'g' } });
  const piece = await aDrawnPiece(app);
  const metal = (await owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const wire = (await owner.post('/metal-lots', { productId: metal.id, receivedOn: '2031-05-05', quantityG: 40 }).expect(201))
    .body;
  await desk
    .post('/metal-lots', { productId: metal.id, receivedOn: '2031-05-05', quantityG: 20, commissionId: piece.commissionId })
    .expect(201);
  const { heats } = await planInUse(bench, piece.id);
  await bench.post('/metal-movements', { kind: 'issue', lotId: wire.id, quantityG: 7.5, pieceId: piece.id }).expect(201);
  await bench.post('/metal-movements', { kind: 'put_back', lotId: wire.id, quantityG: 1, pieceId: piece.id }).expect(201);
  await bench.move(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut' }).expect(200);
  return { ...app, lots, heats, piece };
}

test('stock-worth tells what the drawer is worth, lot by lot, and client metal apart', async () => {
  const { desk, bench } = await aYear();
  const { body } = await desk.get('/reports/stock-worth').expect(200);
  expect(body.rows.map(({ product, onHandG, value }: Record<string, unknown>) => [product, onHandG, value])).toEqual([
    // 5 g at 1.85 and 10 g at 2.00; 5 g at 1.85; 33.5 g at 1.478934.
    ['hard wire', 15, eur(2925)],
    ['medium wire', 5, eur(925)],
    ['easy wire', 5, eur(925)],
    ['Round wire 1.2', 33.5, eur(4954)],
  ]);
  expect(body.total).toEqual(eur(9729));
  expect(body.clientMetal).toEqual([expect.objectContaining({ number: 'M2', onHandG: 20 })]);
  const csv = await desk.get('/reports/stock-worth?format=csv').expect(200).expect('content-type', 'text/csv; charset=utf-8');
  expect(csv.text.split('\r\n').slice(0, 2)).toEqual([
    'of,product,lot,on_hand_g,held_g,cost_EUR_per_g,value_EUR,on_hand_pieces',
    'solder,hard wire,,15,0,,29.25,',
  ]);
  expect(csv.text).toContain('client metal,Round wire 1.2,M2,20,,,,\r\n');
  await bench.get('/reports/stock-worth').expect(403);
});

test('metal-balance tells where issued metal is, and what nobody can explain', async () => {
  const { bench, piece, heats, lots } = await aYear();
  const before = (await bench.get('/reports/metal-balance').expect(200)).body.rows;
  expect(before).toEqual([
    expect.objectContaining({ metal: 'sterling-925', issuedG: 7.5, putBackG: 1, inWorkG: 6.5, unexplainedG: 0 }),
  ]);
  for (const { id } of heats) await workHeat(bench, id, lots);
  await bench.move(`/pieces/${piece.id}`, { from: 'soldering', to: 'built' }).expect(200);
  const [row] = (await bench.get('/reports/metal-balance').expect(200)).body.rows;
  expect(row).toMatchObject({ issuedG: 7.5, putBackG: 1, inWorkG: 0, entries: { pieceIds: [piece.id] } });
  expect(row.jarG).toBeCloseTo(0.08 * row.inPiecesG, 3);
  expect(row.unexplainedG).toBeCloseTo(7.5 - 1 - row.inPiecesG - row.jarG, 4);
  expect((await bench.get('/reports/metal-balance?from=2031-06-01')).body.rows).toEqual([]);
  expect((await bench.get('/reports/metal-balance?format=csv')).text).toMatch(/^metal,issued_g,in_work_g,/);
});

test('year-end counts stock at the lower of cost and value, work in hand, filings, client metal and deposits', async () => {
  const app = await aYear();
  const { owner, desk, bench, piece, heats, lots, clock } = app;
  await anAcceptedQuote(app, piece.commissionId);
  for (const { id } of heats) await workHeat(bench, id, lots);
  await bench.move(`/pieces/${piece.id}`, { from: 'soldering', to: 'built' }).expect(200);
  await desk.post('/payments', { commissionId: piece.commissionId, kind: 'deposit', how: 'cash', amount: eur(5000) }).expect(201);
  clock.advance({ days: 400 });
  const { body } = await owner.get('/reports/year-end?from=2031-01-01&to=2031-12-31').expect(200);
  expect(body).toMatchObject({ report: 'year-end', on: '2031-12-31', currency: 'EUR' });
  const of = (section: string) => body.rows.filter((row: { section: string }) => row.section === section);
  const dear = of('stock').find(({ number }: { number: string }) => number === 'L4');
  // 10 g that cost 2.00 would cost 1.85 today.
  expect(dear).toMatchObject({ grams: 10, cost: eur(2000), value: eur(1850), counted: eur(1850) });
  expect(body.totals.stock.amountMinor).toBe(
    of('stock').reduce((total: number, row: { counted: { amountMinor: number } }) => total + row.counted.amountMinor, 0),
  );
  expect(of('unfinished')).toEqual([expect.objectContaining({ number: piece.number, grams: 6.5 })]);
  // 6.5 g at 1.478934 at the least.
  expect(body.totals.unfinished.amountMinor).toBeGreaterThan(961);
  expect(of('client_metal')).toEqual([expect.objectContaining({ grams: 20, value: eur(0) })]);
  expect(of('deposits')).toEqual([expect.objectContaining({ value: eur(5000) })]);
  const [filings] = of('filings');
  expect(filings.value.amountMinor).toBe(Math.round(filings.grams * 0.94 * 1.05 * 100));
  expect(
    (await owner.get('/reports/year-end?to=2031-05-01')).body.rows.filter(
      ({ section }: { section: string }) => section === 'stock',
    ),
  ).toEqual([]);
  expect((await owner.get('/reports/year-end?format=csv')).text.split('\r\n')[0]).toBe(
    'section,what,number,month,rate_fraction,grams,cost_or_net_EUR,value_or_tax_EUR,counted_EUR',
  );
  await desk.get('/reports/year-end').expect(403);
});

test('to-order and pickle-baths answer in their own words, as JSON and as a table', async () => {
  const { desk, bench } = await aYear();
  await bench.post('/pickle-baths', {}).expect(201);
  const order = (await desk.get('/reports/to-order').expect(200)).body;
  expect(order).toMatchObject({ report: 'to-order', currency: 'EUR' });
  expect(order.suppliers).toEqual((await desk.get('/reorder-list')).body.suppliers);
  expect((await desk.get('/reports/to-order?format=csv')).text).toMatch(/^supplier,of,product,/);
  const [bath] = (await bench.get('/reports/pickle-baths').expect(200)).body.rows;
  expect(bath).toMatchObject({ number: 'B1', dips: 0, copperGPerL: 0, acidLeftFraction: 1, blushes: 0 });
  expect((await bench.get('/reports/pickle-baths?format=csv')).text.split('\r\n')[1]).toBe(
    'B1,bisulphate,2031-05-05,fresh,0,0,0,1,0,,,',
  );
});
