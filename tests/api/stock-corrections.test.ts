import { expect, test } from 'vitest';
import { holdSolder } from '../../src/features/stock/holds.ts';
import { writtenBy } from '../../src/platform/http/actor.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { pendantPlan } from '../support/pendant.ts';
import { addProduct, receiveLot, type Stored } from '../support/stock.ts';
import { aDrawer, aDrawnPiece, CLEARED, issueMetal, planInUse, readiness, workToLooking } from '../support/at-the-bench.ts';

async function aLot(given: Record<string, unknown> = {}) {
  const app = await startApp();
  const product = await addProduct(app.owner);
  const lot = await receiveLot(app.owner, product.id, { quantityG: 10, ...given });
  return { ...app, product, lot };
}

const onHand = async ({ bench }: TestApp, lot: Stored) => (await bench.get(`/solder-lots/${lot.id}`).expect(200)).body.onHandG;
const sound = async ({ owner }: TestApp) =>
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true, findings: [] });

test('what was booked before a lot was weighed is not taken back: the scale has seen it', async () => {
  const app = await aLot();
  const { bench, lot, clock } = app;
  const use = (await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 1, reason: 'rings' }).expect(201))
    .body;
  clock.advance({ hours: 1 });
  // Nothing was taken after all, so the scale finds it.
  const weighing = (await bench.post(`/solder-lots/${lot.id}/weighings`, { weighedG: 10, reason: 'weighed' }).expect(201)).body;
  clock.advance({ hours: 1 });
  const refused = (await bench.post(`/stock-movements/${use.id}/reversals`, { reason: 'not taken' }).expect(409)).body;
  expect(refused.detail).toContain('was counted after it');
  expect(await onHand(app, lot)).toBe(10);
  // The weighing first, and then the use.
  await bench.post(`/stock-movements/${weighing.movement.id}/reversals`, { reason: 'wrong pan' }).expect(201);
  expect(await onHand(app, lot)).toBe(9);
  await bench.post(`/stock-movements/${use.id}/reversals`, { reason: 'not taken' }).expect(201);
  expect(await onHand(app, lot)).toBe(10);
  await bench.post(`/stock-movements/${use.id}/reversals`, { reason: 'once more' }).expect(409);
  await sound(app);
});

test('what is booked late, of a time before the lot was counted, is told of its piece and not taken twice', async () => {
  const app = await aLot();
  const { bench, lot, clock } = app;
  clock.advance({ hours: 2 });
  // 0.4 g were used this morning and not yet noted; the scale says 9.6.
  await bench.post(`/solder-lots/${lot.id}/weighings`, { weighedG: 9.6, reason: 'weighed' }).expect(201);
  clock.advance({ hours: 1 });
  const late = { kind: 'use', lotId: lot.id, quantityG: 0.4, reason: 'rings', occurredAt: '2031-05-05T09:00:00Z' };
  await bench.post('/stock-movements', late).expect(201);
  expect(await onHand(app, lot)).toBe(9.6);
  const { items } = (await bench.get(`/stock-movements?lotId=${lot.id}`)).body;
  expect(items[0]).toMatchObject({ kind: 'count_up', onHandG: 0.4, reason: expect.stringContaining('booked late') });
  // Taken after it was weighed, it is taken.
  await bench.post('/stock-movements', { ...late, occurredAt: '2031-05-05T10:30:00Z' }).expect(201);
  expect(await onHand(app, lot)).toBe(9.2);
  await sound(app);
});

test('a stocktake books no difference twice: what was weighed, used late, finished or emptied since it was counted', async () => {
  const app = await aLot();
  const { owner, bench, lot, product, clock } = app;
  const late = await receiveLot(owner, product.id, { quantityG: 10 });
  const crumb = await receiveLot(owner, product.id, { quantityG: 0.6 });
  await bench.post('/stock-movements', { kind: 'use', lotId: crumb.id, quantityG: 0.57, reason: 'rings' }).expect(201);
  const small = await receiveLot(owner, product.id, { quantityG: 2 });
  clock.advance({ hours: 2 });
  const take = (await bench.post('/stocktakes', {}).expect(201)).body;
  const path = `/stocktakes/${take.id}`;
  const counts = [
    { lotId: lot.id, weighedG: 9.97 },
    { lotId: late.id, weighedG: 9.7 },
    { lotId: crumb.id, weighedG: 0.02 },
    { lotId: small.id, weighedG: 1.97 },
  ];
  await bench.post(`${path}/counts`, { counts }).expect(201);
  clock.advance({ hours: 1 });
  // One is weighed at the bench, with the same finding.
  await bench.post(`/solder-lots/${lot.id}/weighings`, { weighedG: 9.97, reason: 'weighed' }).expect(201);
  // Of one, 0.3 g had been used before the count, and are noted now.
  const before = { kind: 'use', lotId: late.id, quantityG: 0.3, reason: 'a ring', occurredAt: '2031-05-05T09:00:00Z' };
  await bench.post('/stock-movements', before).expect(201);
  // One is finished, and of one all that the book has is taken: more than there was.
  await bench.post('/stock-movements', { kind: 'scrap', lotId: crumb.id, quantityG: 0.001, reason: 'swept' }).expect(201);
  await bench.post('/stock-movements', { kind: 'use', lotId: crumb.id, quantityG: 0.001, reason: 'a ring' }).expect(201);
  await bench.move(`/solder-lots/${crumb.id}`, { from: 'open', to: 'finished' }, clock.now()).expect(200);
  await bench.post('/stock-movements', { kind: 'use', lotId: small.id, quantityG: 2, reason: 'a torc' }).expect(201);
  await bench.move(path, { from: 'counting', to: 'compared' }, clock.now()).expect(200);
  const compared = (await owner.get(path)).body.counts;
  expect(compared[1].compared).toMatchObject({ bookG: 9.7, differenceG: 0 });
  const refused = (await owner.move(path, { from: 'compared', to: 'posted' }, clock.now()).expect(409)).body;
  expect(refused.missing).toEqual(['count lot L4 again: more was taken since than was counted, and -0.03 g would be left']);
  await bench.move(path, { from: 'compared', to: 'counting' }, clock.now()).expect(200);
  await bench.post(`${path}/counts`, { counts: [{ lotId: small.id, weighedG: 0 }] }).expect(201);
  await bench.move(path, { from: 'counting', to: 'compared' }, clock.now()).expect(200);
  await owner.move(path, { from: 'compared', to: 'posted' }, clock.now()).expect(200);
  expect(await onHand(app, lot)).toBe(9.97);
  expect(await onHand(app, late)).toBe(9.7);
  expect(await onHand(app, crumb)).toBe(0);
  expect(await onHand(app, small)).toBe(0);
  await sound(app);
});

test('a use that is taken back does not hold solder for a piece that needs it no more', async () => {
  const app = await startApp();
  const { owner, bench, desk, clock } = app;
  const { lots, products } = await aDrawer(app);
  const piece = await aDrawnPiece(app, { dueOn: '2031-06-20' });
  await planInUse(bench, piece.id);
  const path = `/commissions/${piece.commissionId}`;
  const state = (await desk.get(path)).body.state as string;
  expect(state).toBe('asked');
  await desk.move(path, { from: 'asked', to: 'shaping' }).expect(200);
  const held = async () =>
    (await bench.get('/stock')).body.items.find((item: { productId: string }) => item.productId === products['hard']).heldG;
  // Held as it is at acceptance.
  const by = writtenBy(app.actors.owner, clock.now());
  holdSolder(app.db, by, { pieceId: piece.id, productId: products['hard']!, tenthMg: 5000, at: clock.now() });
  const use = (
    await bench
      .post('/stock-movements', { kind: 'use', lotId: lots['hard'], quantityG: 0.2, reason: 'pins', pieceId: piece.id })
      .expect(201)
  ).body;
  expect(await held()).toBe(0.3);
  await owner.move(path, { from: 'shaping', to: 'called_off', reason: 'they changed their mind' }).expect(200);
  expect(await held()).toBe(0);
  await bench.post(`/stock-movements/${use.id}/reversals`, { reason: 'another piece' }).expect(201);
  expect(await held()).toBe(0);
  await sound(app);
});

test('what one heat has placed, another is not primed with', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const [first, second] = [await aDrawnPiece(app), await aDrawnPiece(app)];
  const heats = [(await planInUse(bench, first.id)).heats[0]!, (await planInUse(bench, second.id)).heats[0]!];
  for (const { id } of [first, second]) await issueMetal(bench, id);
  const plannedG = heats[0]!['plannedG'] as number;
  // What the lot holds, and a scale's error, is enough for one of the two.
  const scrap = { kind: 'scrap', lotId: lots['hard'], quantityG: Number((5.0195 - plannedG).toFixed(4)), reason: 'swept up' };
  await bench.post('/stock-movements', scrap).expect(201);
  await workToLooking(bench, heats[0]!.id, lots);
  const ready = await readiness(bench, heats[1]!.id, lots);
  const short = (await bench.move(`/heats/${heats[1]!.id}`, ready).expect(409)).body;
  expect(short).toMatchObject({ type: '/api/v1/problems/solder-lot-short' });
  expect(short.detail).toContain(`of which ${plannedG} g are placed for other heats`);
  await bench.move(`/heats/${heats[0]!.id}`, CLEARED).expect(200);
});

test('a lot that is held back is tried on scrap, and goes to no piece', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id, { markOnMetal: null });
  const piece = await aDrawnPiece(app);
  const use = { kind: 'use', lotId: lot.id, quantityG: 0.1, reason: 'tried' };
  expect((await bench.post('/stock-movements', { ...use, pieceId: piece.id }).expect(409)).body.detail).toContain('held back');
  await bench.post('/stock-movements', use).expect(201);
});

test('paste past its day is not offered to a plan', async () => {
  const app = await startApp();
  const { owner, bench, clock } = app;
  await aDrawer(app);
  const paste = await addProduct(owner, { code: 'paste', name: 'Easy paste', form: 'paste', metalFraction: 0.7 });
  await receiveLot(owner, paste.id, { markOnMetal: null, quantityG: 8, useBy: '2031-05-20' });
  const piece = await aDrawnPiece(app);
  const available = async () => {
    const plan = (await bench.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan })).body;
    return plan.solders.find(({ id }: { id: string }) => id === 'paste').availableG as number;
  };
  expect(await available()).toBe(8);
  clock.advance({ days: 16 });
  expect(await available()).toBe(0);
});
