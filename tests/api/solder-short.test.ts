import { expect, test } from 'vitest';
import { takeThrough } from '../support/a-quote.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp } from '../support/start-app.ts';
import { receiveLot } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';

interface WayOn {
  says: string;
  path: string;
  body: Record<string, unknown>;
}

test('a heat whose lot is short is told how much, and every way on ready to be sent', async () => {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const { lots, products } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, piece.id);
  // Metal issued from a lot is enough to have the piece cut.
  const metal = (await owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const wire = (await owner.post('/metal-lots', { productId: metal.id, receivedOn: '2031-05-05', quantityG: 40 }).expect(201))
    .body;
  expect((await bench.move(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut' }).expect(409)).body.detail).toContain(
    'metalIssuedG',
  );
  await bench.post('/metal-movements', { kind: 'issue', lotId: wire.id, quantityG: 7.5, pieceId: piece.id }).expect(201);
  expect((await bench.move(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut' }).expect(200)).body.metalIssuedG).toBe(7.5);
  await bench.post('/stock-movements', { kind: 'scrap', lotId: lots['hard'], quantityG: 5.02, reason: 'swept up' }).expect(201);
  const other = await receiveLot(owner, products['hard']!, { quantityG: 3 });
  await desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201);
  const path = `/heats/${heats[0]!.id}`;
  const ready = await readiness(bench, heats[0]!.id, lots);
  const { body } = await bench.move(path, ready).expect(409);
  expect(body).toMatchObject({ type: '/api/v1/problems/solder-lot-short', lotId: lots['hard'] });
  expect(body.shortTenthMg).toBeGreaterThan(0);
  expect(body.detail).toMatch(/^Cannot take [\d.]+ g from lot L1: it holds -0\.02 g\. Weigh the lot or take another$/);
  const ways = body.waysOn as WayOn[];
  expect(ways.map(({ says }) => says)).toEqual([
    'Take lot L4: it holds 3 g.',
    'Order 5 g of hard wire from Harbour Metals.',
    'Plan again without hard wire: medium wire, easy wire are there.',
  ]);
  // Each is a request as it stands.
  const send = ({ path: at, body: sent }: WayOn) =>
    owner.post(at.replace('/api/v1', ''), sent).set('idempotency-key', `way-on${at.replaceAll('/', '-')}`);
  const again = (await send(ways[2]!).expect(201)).body;
  expect(JSON.stringify(again.plan)).not.toContain('"hard"');
  await send(ways[1]!).expect(201);
  expect((await send(ways[0]!).expect(200)).body).toMatchObject({ state: 'primed', lot: { id: other.id } });
});

test('work that is on the bench may wait for what is on order, and is asked so by a request as it stands', async () => {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const { lots, products } = await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'own_stock', clientId: undefined, dueOn: '2031-06-20' });
  const { heats } = await planInUse(bench, piece.id);
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed']);
  await owner
    .move(`/commissions/${piece.commissionId}`, { from: 'agreed', to: 'on_bench', override: true, reason: 'begin with it' })
    .expect(200);
  await issueMetal(bench, piece.id);
  await bench.post('/stock-movements', { kind: 'scrap', lotId: lots['hard'], quantityG: 5.02, reason: 'swept up' }).expect(201);
  const supplier = (await desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201)).body;
  const order = { supplierId: supplier.id, lines: [{ productId: products['hard'], quantityG: 5 }] };
  const { id } = (await desk.post('/supplier-orders', order).expect(201)).body;
  await desk.move(`/supplier-orders/${id}`, { from: 'to_order', to: 'sent' }).expect(200);
  const { body } = await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(409);
  const ways = body.waysOn as WayOn[];
  // No other lot holds enough, and what is on order is not ordered again.
  expect(ways.map(({ says }) => says)).toEqual([
    'Wait for it: order O1 is expected on 2031-05-15.',
    'Plan again without hard wire: medium wire, easy wire are there.',
  ]);
  const wait = await bench
    .post(ways[0]!.path.replace('/api/v1', ''), ways[0]!.body)
    .set('idempotency-key', 'wait-for-the-solder');
  expect(wait.body.errors).toBeUndefined();
  expect(wait.body).toMatchObject({ state: 'resting', waitingFor: 'solder' });
});
