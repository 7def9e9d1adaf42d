import { expect, test } from 'vitest';
import { startApp, type Person } from '../support/start-app.ts';
import type { Stored } from '../support/stock.ts';

const wire = {
  name: 'Round wire 1.2',
  metal: 'sterling-925',
  form: { kind: 'round_wire', diameterMm: 1.2 },
  supplier: 'Harbour Metals',
  price: { amount: '46.00', per: 'ozt' },
};

async function aWire(owner: Person, given: Record<string, unknown> = {}): Promise<Stored> {
  return (await owner.post('/metal-products', { ...wire, ...given }).expect(201)).body as Stored;
}

async function aPiece(owner: Person, title = 'Bangle'): Promise<Stored> {
  const client = (await owner.post('/clients', { name: 'Millrace', email: 'm@example.org', language: 'en' }).expect(201)).body;
  const commission = { clientId: client.id, title, kind: 'one_off', quantity: 1 };
  const { id } = (await owner.post('/commissions', commission).expect(201)).body;
  return (await owner.post('/pieces', { commissionId: id, title, metal: 'sterling-925' }).expect(201)).body as Stored;
}

test('metal is bought by its size in mm or a named gauge, with the unit its price was typed for', async () => {
  const { owner, student } = await startApp();
  const made = await aWire(owner, {
    form: { kind: 'round_wire', diameterMm: 1.02362 },
    entered: { '/form/diameterMm': '18 ga (Brown & Sharpe)' },
  });
  expect(made).toMatchObject({
    entered: { '/form/diameterMm': '18 ga (Brown & Sharpe)' },
    price: { amount: '46.00', per: 'ozt' },
    finenessFraction: 0.925,
  });
  expect((await student.get(`/metal-products/${made.id}`).expect(200)).body.price).toBeUndefined();
  const gauge = (
    await owner.post('/metal-products', { ...wire, name: 'Gauge', form: { kind: 'round_wire', diameterMm: 18 } }).expect(422)
  ).body;
  expect(gauge.errors[0]).toMatchObject({ pointer: '/form/diameterMm', confirmable: true });
  expect(gauge.errors[0].detail).toMatch(/Gauge 18 \(Brown & Sharpe\) is 1\.02\d mm, gauge 18 \(British\) is 1\.219 mm/);
  const pricey = (await owner.post('/metal-products', { ...wire, name: 'Dear', price: { amount: '501', per: 'g' } }).expect(422))
    .body;
  expect(pricey.errors[0].pointer).toBe('/price/amount');
  await owner.post('/metal-products', { ...wire, name: 'Odd', metal: 'unobtainium' }).expect(422);
  await owner.post('/metal-products', wire).expect(409);
});

test('a length stands for a weight, and the other way about', async () => {
  const { owner, student } = await startApp();
  const product = await aWire(owner);
  // π/4 · 1.2² · 1000 · 10.36 / 1000 = 11.7169 g.
  expect((await student.post(`/metal-products/${product.id}/measure`, { lengthMm: 1000 }).expect(200)).body.massG).toBeCloseTo(
    11.717,
    2,
  );
  const way = (await student.post(`/metal-products/${product.id}/measure`, { massG: 11.7169 }).expect(200)).body;
  expect(way.lengthMm).toBeCloseTo(1000, 0);
  await student.post(`/metal-products/${product.id}/measure`, { massG: 1, lengthMm: 1 }).expect(422);
  const sheet = await aWire(owner, { name: 'Sheet 0.8', form: { kind: 'sheet', thicknessMm: 0.8 } });
  await student.post(`/metal-products/${sheet.id}/measure`, { lengthMm: 30 }).expect(422);
  const cut = (await student.post(`/metal-products/${sheet.id}/measure`, { lengthMm: 30, widthMm: 20 }).expect(200)).body;
  expect(cut.massG).toBeCloseTo(4.97, 2);
});

test('metal goes to a piece and its offcuts come back; nothing is made of it or lost', async () => {
  const { owner, bench } = await startApp();
  const product = await aWire(owner);
  const piece = await aPiece(owner);
  const lot = (await owner.post('/metal-lots', { productId: product.id, receivedOn: '2031-05-05', quantityG: 50 }).expect(201))
    .body;
  expect(lot).toMatchObject({ number: 'M1', owner: 'ours', onHandG: 50, unitCost: { amount: '1.478934', per: 'g' } });
  const book = (body: object) => bench.post('/metal-movements', { lotId: lot.id, pieceId: piece.id, ...body });
  const issue = (await book({ kind: 'issue', lengthMm: 1000 }).expect(201)).body;
  expect(issue.onHandG).toBeCloseTo(-11.717, 2);
  await book({ kind: 'put_back', quantityG: 12 }).expect(409);
  await book({ kind: 'put_back', quantityG: 2.5 }).expect(201);
  expect((await bench.post(`/metal-movements/${issue.id}/reversals`, { reason: 'other lot' }).expect(409)).body.detail).toContain(
    'put back',
  );
  await bench.post('/metal-movements', { lotId: lot.id, kind: 'issue', quantityG: 1 }).expect(422);
  await book({ kind: 'issue', quantityG: 60 }).expect(409);
  expect((await book({ kind: 'scrap', quantityG: 1, reason: 'end pieces' }).expect(422)).body.errors[0].pointer).toBe('/pieceId');
  await bench.post('/metal-movements', { lotId: lot.id, kind: 'scrap', quantityG: 1, reason: 'end pieces' }).expect(201);
  await bench.post('/metal-movements', { lotId: lot.id, kind: 'write_off', quantityG: 1, reason: 'lost' }).expect(403);
  const left = (await bench.get(`/metal-lots/${lot.id}`)).body;
  expect(left.onHandG).toBeCloseTo(50 + issue.onHandG + 2.5 - 1, 4);
  const all = (await bench.get(`/metal-movements?lotId=${lot.id}`)).body.items;
  expect(all.reduce((total: number, { onHandG }: { onHandG: number }) => total + onHandG, 0)).toBeCloseTo(left.onHandG, 9);
});

test('metal that a client left stays with its commission and is worth nothing to us', async () => {
  const { owner, bench, desk } = await startApp();
  const product = await aWire(owner);
  const theirs = await aPiece(owner);
  const other = await aPiece(owner, 'Ring');
  const left = { productId: product.id, receivedOn: '2031-05-05', quantityG: 20, commissionId: theirs['commissionId'] };
  expect(
    (await desk.post('/metal-lots', { ...left, unitCost: { amount: '1', per: 'g' } }).expect(422)).body.errors[0].pointer,
  ).toBe('/unitCost');
  const lot = (await desk.post('/metal-lots', left).expect(201)).body;
  expect(lot).toMatchObject({ owner: 'client', unitCost: { amount: '0', per: 'g' } });
  const issue = (pieceId: string) => bench.post('/metal-movements', { kind: 'issue', lotId: lot.id, quantityG: 5, pieceId });
  expect((await issue(other.id).expect(422)).body.errors[0].detail).toContain('was left for');
  await issue(theirs.id).expect(201);
  expect((await desk.get(`/metal-lots?commissionId=${String(theirs['commissionId'])}`)).body.items).toEqual([
    expect.objectContaining({ onHandG: 15 }),
  ]);
});

test('metal that was booked before its lot was counted is not taken back', async () => {
  const { owner, bench, clock } = await startApp();
  const product = await aWire(owner);
  const piece = await aPiece(owner);
  const lot = (await owner.post('/metal-lots', { productId: product.id, receivedOn: '2031-05-05', quantityG: 50 }).expect(201))
    .body;
  const book = (body: object) => bench.post('/metal-movements', { lotId: lot.id, ...body });
  const issue = (await book({ kind: 'issue', quantityG: 5, pieceId: piece.id }).expect(201)).body;
  clock.advance({ hours: 1 });
  const take = (await bench.post('/stocktakes', {}).expect(201)).body;
  // It was never cut: the scale finds all of it.
  await bench
    .post(`/stocktakes/${take.id}/counts`, { counts: [{ lotId: lot.id, weighedG: 50, reason: 'never cut' }] })
    .expect(201);
  const refused = (await bench.post(`/metal-movements/${issue.id}/reversals`, { reason: 'never cut' }).expect(409)).body;
  expect(refused.detail).toContain('was counted after it');
  await owner.move(`/stocktakes/${take.id}`, { from: 'counting', to: 'dropped' }, clock.now()).expect(200);
  await bench.post(`/metal-movements/${issue.id}/reversals`, { reason: 'never cut' }).expect(201);
  expect((await bench.get(`/metal-lots/${lot.id}`)).body.onHandG).toBe(50);
});

test('weighing a lot of metal trues it up, and tells how its use ran since it was last weighed', async () => {
  const { owner, bench, desk } = await startApp();
  const product = await aWire(owner);
  const receipt = { productId: product.id, receivedOn: '2031-05-01', quantityG: 40 };
  const lot = (await desk.post('/metal-lots', receipt).expect(201)).body as Stored;
  const piece = await aPiece(owner);
  const issue = (quantityG: number) =>
    bench.post('/metal-movements', { kind: 'issue', lotId: lot.id, pieceId: piece.id, quantityG }).expect(201);
  const weigh = async (weighedG: number) =>
    (await bench.post(`/metal-lots/${lot.id}/weighings`, { weighedG, reason: 'Friday' }).expect(201)).body;
  await issue(10);
  // 40 − 10 are 30 in the book; 29.6 on the scale.
  const first = await weigh(29.6);
  expect(first).toMatchObject({
    movement: { kind: 'count_down', onHandG: -0.4 },
    lot: { onHandG: 29.6 },
    sinceLastCount: { usedG: 10, differenceG: -0.4, toleranceG: 0.2, withinTolerance: false, trueUseG: 10.4, ratio: 1.04 },
  });
  await issue(5);
  // A weighing that is taken back is none: since the lot came, 15 g were used.
  await bench.post(`/metal-movements/${first.movement.id}/reversals`, { reason: 'wrong pan' }).expect(201);
  expect(await weigh(25)).toMatchObject({ movement: null, sinceLastCount: { usedG: 15, differenceG: 0 } });
  await weigh(24.98);
  expect((await weigh(24.98)).sinceLastCount).toMatchObject({ usedG: 0, ratio: null });
  const asked = await bench.post(`/metal-lots/${lot.id}/weighings`, { weighedG: 400, reason: 'Friday' }).expect(422);
  expect(asked.body.errors).toMatchObject([{ pointer: '/weighedG', confirmable: true }]);
  await desk.post(`/metal-lots/${lot.id}/weighings`, { weighedG: 24, reason: 'count' }).expect(403);
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true });
});
