import { expect, test } from 'vitest';
import { freeHold, holdSolder } from '../../src/features/stock/holds.ts';
import { writtenBy } from '../../src/platform/http/actor.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

async function aLot(app: TestApp, given: Record<string, unknown> = {}) {
  const product = await addProduct(app.owner);
  return { product, lot: await receiveLot(app.owner, product.id, { quantityG: 1, ...given }) };
}

test('POST /stock-movements books by hand, opens a sealed lot at its first use, and needs a reason', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lot } = await aLot(app);
  const book = (kind: string, quantityG: number) =>
    bench.post('/stock-movements', { kind, lotId: lot.id, quantityG, reason: 'trial on scrap' });
  expect((await book('use', 0.3).expect(201)).body).toMatchObject({
    kind: 'use',
    onHandG: -0.3,
    heldG: 0,
    reason: 'trial on scrap',
  });
  expect((await bench.get(`/solder-lots/${lot.id}`)).body).toMatchObject({ state: 'open', onHandG: 0.7 });
  await book('put_back', 0.1).expect(201);
  await book('scrap', 0.2).expect(201);
  await book('count_down', 0.05).expect(201);
  await book('count_up', 0.01).expect(201);
  expect((await bench.get(`/solder-lots/${lot.id}`)).body.onHandG).toBe(0.56);
  await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 0.1 }).expect(422);
  await book('write_off', 0.01).expect(403);
  await owner.post('/stock-movements', { kind: 'write_off', lotId: lot.id, quantityG: 0.01, reason: 'melted away' }).expect(201);
  const ledger = await bench.get(`/stock-movements?lotId=${lot.id}&limit=3`).expect(200);
  expect(ledger.body.items).toHaveLength(3);
  const rest = await bench.get(`/stock-movements?lotId=${lot.id}&cursor=${ledger.body.nextCursor}`).expect(200);
  expect(rest.body.items).toHaveLength(4);
  expect(rest.body.nextCursor).toBeNull();
});

test('POST /stock-movements lets a lot seem short by what a scale errs, and no more', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { product, lot } = await aLot(app);
  await bench.post(`/solder-lots/${lot.id}/weighings`, { weighedG: 0.11, reason: 'drawer count' }).expect(201);
  const other = await receiveLot(owner, product.id, { quantityG: 5 });
  const use = (quantityG: number) =>
    bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG, reason: 'a repair' });
  const refused = await use(0.1301)
    .expect(409)
    .expect('content-type', /^application\/problem\+json/);
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/solder-lot-short',
    detail: 'Cannot take 0.1301 g from lot L1: it holds 0.11 g. Weigh the lot or take another',
    shortTenthMg: 201,
    offers: [{ lotId: other.id, number: 'L2', onHandG: 5 }],
  });
  expect((await bench.get(`/solder-lots/${lot.id}`)).body).toMatchObject({ onHandG: 0.11, state: 'sealed' });
  await use(0.13).expect(201);
  expect((await bench.get(`/solder-lots/${lot.id}`)).body.onHandG).toBe(-0.02);
  await use(0.0001).expect(409);
});

test('POST /stock-movements may be late, but not before the lot came in', async () => {
  const app = await startApp();
  const { lot } = await aLot(app, { receivedOn: '2031-05-01' });
  const use = (occurredAt: string) =>
    app.bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 0.1, reason: 'trial', occurredAt });
  expect((await use('2031-04-30T23:59:00Z').expect(422)).body.errors).toMatchObject([{ pointer: '/occurredAt' }]);
  expect((await use('2031-05-02T10:00:00Z').expect(201)).body).toMatchObject({
    occurredAt: '2031-05-02T10:00:00.000Z',
    recordedAt: '2031-05-05T08:00:00.000Z',
  });
});

test('POST /stock-movements takes nothing from a lot that may hold cadmium', async () => {
  const app = await startApp();
  const { lot } = await aLot(app, { cadmiumStanding: 'unknown' });
  const refused = await app.bench
    .post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 0.1, reason: 'trial' })
    .expect(409);
  expect(refused.body).toMatchObject({ type: '/api/v1/problems/cadmium-blocks', cadmiumStanding: 'unknown' });
});

test('POST /stock-movements refuses what is not there or has not been, all at once', async () => {
  const { bench, student, desk } = await startApp();
  const nothing = '01890000-0000-7000-8000-000000000000';
  const body = {
    kind: 'use',
    lotId: nothing,
    quantityG: 0.1,
    reason: 'trial',
    pieceId: nothing,
    occurredAt: '2031-05-06T08:00:00Z',
  };
  const refused = await bench.post('/stock-movements', body).expect(422);
  expect(refused.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual(['/lotId', '/pieceId', '/occurredAt']);
  for (const hostile of [
    { ...body, kind: 'receive' },
    { ...body, quantityG: 1e308 },
    { ...body, quantityG: -1 },
    [],
    { lotId: {} },
  ]) {
    await bench.post('/stock-movements', hostile).expect(422);
  }
  await student.post('/stock-movements', body).expect(403);
  await desk.post('/stock-movements', body).expect(403);
});

test('POST reversals takes a movement back once, by its opposite', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lot } = await aLot(app);
  const used = (await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 0.3, reason: 'trial' }).expect(201))
    .body;
  const reverse = (id: string) => bench.post(`/stock-movements/${id}/reversals`, { reason: 'wrong lot' });
  const reversal = (await reverse(used.id).expect(201)).body;
  expect(reversal).toMatchObject({ kind: 'reverse', onHandG: 0.3, reversesId: used.id, lotId: lot.id });
  expect((await bench.get(`/solder-lots/${lot.id}`)).body.onHandG).toBe(1);
  const items = (await bench.get(`/stock-movements?lotId=${lot.id}`)).body.items as { id: string; reversedById: string | null }[];
  expect(items.find(({ id }) => id === used.id)?.reversedById).toBe(reversal.id);
  expect((await reverse(used.id).expect(409)).body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    reversedById: reversal.id,
  });
  await reverse(reversal.id).expect(409);
  await reverse('01890000-0000-7000-8000-000000000000').expect(404);
  await bench.post(`/stock-movements/${used.id}/reversals`, {}).expect(422);
});

test('POST reversals never brings a lot below nothing; a delivery is taken back by the owner', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lot } = await aLot(app);
  const [received] = (await owner.get(`/stock-movements?lotId=${lot.id}`)).body.items;
  await bench.post(`/stock-movements/${received.id}/reversals`, { reason: 'not ours' }).expect(403);
  const used = (await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 0.3, reason: 'trial' }).expect(201))
    .body;
  const short = await owner.post(`/stock-movements/${received.id}/reversals`, { reason: 'not ours' }).expect(409);
  expect(short.body.type).toBe('/api/v1/problems/solder-lot-short');
  await bench.post(`/stock-movements/${used.id}/reversals`, { reason: 'never used' }).expect(201);
  await owner.post(`/stock-movements/${received.id}/reversals`, { reason: 'not ours' }).expect(201);
  const [item] = (await owner.get('/stock').expect(200)).body.items;
  expect(item).toMatchObject({ onHandG: 0, value: { amountMinor: 0, currency: 'EUR' } });
});

test('a use for a piece comes out of what is held for it; a hold that is half used cannot be reversed', async () => {
  const app = await startApp();
  const { bench, owner, db, clock, actors } = app;
  const { product, lot } = await aLot(app);
  const piece = putPiece(app, await aCommission(owner));
  const by = writtenBy(actors.owner, clock.now());
  const hold = holdSolder(db, by, { pieceId: piece.id, productId: product.id, tenthMg: 1000, at: clock.now() });
  const stockNow = async () => (await owner.get('/stock').expect(200)).body.items[0];
  expect(await stockNow()).toMatchObject({ onHandG: 1, heldG: 0.1, freeG: 0.9 });
  const use = (quantityG: number) =>
    bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG, reason: 'bezel', pieceId: piece.id }).expect(201);
  expect((await use(0.06)).body.heldG).toBe(-0.06);
  expect((await use(0.06)).body.heldG).toBe(-0.04);
  expect((await use(0.06)).body.heldG).toBe(0);
  expect(await stockNow()).toMatchObject({ onHandG: 0.82, heldG: 0, freeG: 0.82 });
  await owner.post(`/stock-movements/${hold.id}/reversals`, { reason: 'wrong piece' }).expect(409);
  expect(freeHold(db, by, { pieceId: piece.id, at: clock.now() })).toEqual([]);
  expect((await bench.get(`/stock-movements?pieceId=${piece.id}`).expect(200)).body.items).toHaveLength(4);
  expect((await owner.post('/stock/audit').expect(200)).body.ok).toBe(true);
});
