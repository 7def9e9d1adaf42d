import { expect, test } from 'vitest';
import { eur } from '../support/a-quote.ts';
import { startApp, type Person } from '../support/start-app.ts';
import { addProduct, receiveLot, type Stored } from '../support/stock.ts';

async function aSupplier(desk: Person, given: Record<string, unknown> = {}): Promise<Stored> {
  const supplier = { name: 'Harbour Metals', minimum: eur(15_000), post: eur(650), leadWorkingDays: 8, ...given };
  return (await desk.post('/suppliers', supplier).expect(201)).body as Stored;
}

test('a supplier is noted once, and its products follow a new name', async () => {
  const { owner, desk, bench } = await startApp();
  const product = await addProduct(owner);
  const supplier = await aSupplier(desk);
  expect(supplier).toMatchObject({ minimum: eur(15_000), leadWorkingDays: 8, active: true, version: 1 });
  await desk.post('/suppliers', { name: 'HARBOUR metals', leadWorkingDays: 3 }).expect(409);
  const wrong = (
    await desk
      .post('/suppliers', { name: 'Other', leadWorkingDays: 40, minimum: { amountMinor: 1, currency: 'USD' } })
      .expect(422)
  ).body;
  expect(wrong.errors).toEqual([expect.objectContaining({ pointer: '/leadWorkingDays', confirmable: true })]);
  const dollars = { name: 'Other', leadWorkingDays: 4, minimum: { amountMinor: 1, currency: 'USD' } };
  expect((await desk.post('/suppliers', dollars).expect(422)).body.errors[0]).toMatchObject({ pointer: '/minimum/currency' });
  await bench.get('/suppliers').expect(403);
  await desk.patch(`/suppliers/${supplier.id}`, { name: 'Harbour Silver' }, 1).expect(200);
  expect((await desk.get(`/solder-products/${product.id}`)).body.supplier).toBe('Harbour Silver');
  await desk.patch(`/suppliers/${supplier.id}`, { note: 'Closed on Mondays' }, 1).expect(412);
  expect((await desk.get('/suppliers?active=true')).body.items).toHaveLength(1);
});

/** Sixteen weeks of use that put hard wire under its point, and paste and medium over theirs. */
async function anEmptyingDrawer() {
  const app = await startApp();
  const { owner, bench, clock } = app;
  const hard = await addProduct(owner, { price: { amount: '1.9932', per: 'g' } });
  const paste = { code: 'paste', form: 'paste', metalFraction: 0.8, packG: 10, price: { amount: '6.10', per: 'g' } };
  const products = [
    hard,
    await addProduct(owner, paste),
    await addProduct(owner, { code: 'medium', price: { amount: '1.9612', per: 'g' } }),
  ];
  const lots = [
    await receiveLot(owner, products[0]!.id, { quantityG: 18, unitCost: { amount: '1.90', per: 'g' } }),
    await receiveLot(owner, products[1]!.id, { quantityG: 20, markOnMetal: null, unitCost: { amount: '6.10', per: 'g' } }),
    await receiveLot(owner, products[2]!.id, { quantityG: 26 }),
  ];
  const use = (lot: Stored, quantityG: number) =>
    bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG, reason: 'rings' }).expect(201);
  for (let week = 0; week < 16; week += 1) {
    if (week % 2 === 0) for (const lot of lots) await use(lot, 2);
    clock.advance({ days: 7 });
  }
  return { ...app, products, lots, supplier: await aSupplier(app.desk, { minimum: eur(40_000) }) };
}

test('the reorder list fills a minimum with what is next to need, ready to post, and counts what is on its way', async () => {
  const { desk, bench, owner, products, supplier, clock } = await anEmptyingDrawer();
  const before = (await desk.get('/reorder-list').expect(200)).body;
  const [list] = before.suppliers;
  // Windows of three weeks used 4 g; 2 g of hard wire are left, 4 g of paste and 10 g of medium: paste is at its point too.
  const shown = list.lines.map((line: { code: string; because: string; positionToPoint: number }) => [
    line.code,
    line.because,
    line.positionToPoint,
  ]);
  expect(shown).toEqual([
    ['hard_wire', 'at_its_point', 0.5],
    ['paste', 'at_its_point', 1],
    ['medium', 'companion', 2.5],
  ]);
  expect(list.says).toBe(
    'It comes to 420.26 EUR with Hard wire (2.5 of its point) brought along, over the minimum of 400.00 EUR.',
  );
  expect(list).toMatchObject({ supplierId: supplier.id, minimum: eur(40_000), minimumMet: true });
  expect(list.total.amountMinor).toBe(
    list.lines.reduce((total: number, line: { cost: { amountMinor: number } }) => total + line.cost.amountMinor, 0),
  );
  expect(list.lines[0].working.join(' ')).toMatch(/95 % point.*cheapest order/);
  const order = (await desk.post('/supplier-orders', list.order).expect(201)).body;
  expect(order).toMatchObject({ number: 'O1', state: 'to_order', total: list.total, minimumMet: true, allowedMoves: ['sent'] });
  const at = clock.now();
  await desk.move(`/supplier-orders/${order.id}`, { from: 'to_order', to: 'sent' }, at).expect(200);
  const waiting = (await desk.get('/reorder-list?all=true')).body.suppliers[0];
  const hard = waiting.lines.find((line: { code: string }) => line.code === 'hard_wire');
  // Sent on Monday 25 August; eight working days later is Thursday 4 September.
  expect(hard).toMatchObject({ onOrderG: list.lines[0].orderG, because: null, expectedOn: '2031-09-04' });
  expect(hard.positionG).toBe(2 + list.lines[0].orderG);
  await desk.move(`/supplier-orders/${order.id}`, { from: 'sent', to: 'promised', promisedOn: '2031-09-09' }, at).expect(200);
  expect((await bench.get(`/supplier-orders/${order.id}`)).body).toMatchObject({ expectedOn: '2031-09-09' });
  expect((await bench.get(`/supplier-orders/${order.id}`)).body.total).toBeUndefined();
  expect((await desk.get('/reorder-list?format=csv').expect('content-type', /csv/)).text.split('\r\n')[0]).toContain(
    'order_total_EUR',
  );
  expect(products).toHaveLength(3);
  await owner.move(`/supplier-orders/${order.id}`, { from: 'promised', to: 'called_off' }, at).expect(200);
  expect((await desk.get('/reorder-list')).body.suppliers[0].lines[0].onOrderG).toBe(0);
});

test('an order comes in parts, is closed short and held against its invoice', async () => {
  const { owner, desk, bench, clock } = await startApp();
  const hard = await addProduct(owner);
  const easy = await addProduct(owner, { code: 'easy' });
  const supplier = await aSupplier(desk, { minimum: eur(10_000) });
  const lines = [
    { productId: hard.id, quantityG: 10 },
    { productId: easy.id, quantityG: 15, price: { amount: '2.00', per: 'g' } },
  ];
  const order = (await desk.post('/supplier-orders', { supplierId: supplier.id, lines }).expect(201)).body;
  const path = `/supplier-orders/${order.id}`;
  expect(order).toMatchObject({ total: eur(4850), minimumMet: false });
  const short = (await desk.move(path, { from: 'to_order', to: 'sent' }).expect(409)).body;
  expect(short.missing).toEqual([expect.stringContaining('under the minimum of Harbour Metals, 100.00 EUR')]);
  await desk.move(path, { from: 'to_order', to: 'sent', reason: 'please' }).expect(409);
  const deliver = (body: object) => bench.post(`${path}/deliveries`, { receivedOn: '2031-05-05', ...body });
  await deliver({ lines: [{ lineId: order.lines[0].id, quantityG: 10 }] }).expect(409);
  await owner.move(path, { from: 'to_order', to: 'sent', reason: 'the ring cannot wait' }).expect(200);
  await desk.move(path, { from: 'sent', to: 'promised' }).expect(409);
  expect(
    (await desk.move(path, { from: 'sent', to: 'promised', promisedOn: '2031-05-01' }).expect(422)).body.errors[0].pointer,
  ).toBe('/promisedOn');
  await desk.move(path, { from: 'sent', to: 'in' }).expect(409);
  await desk.patch(path, { lines }, 2).expect(409);
  const wrong = (
    await deliver({
      lines: [
        { lineId: order.lines[0].id, quantityG: 0.001 },
        { lineId: hard.id, quantityG: 5 },
      ],
    }).expect(422)
  ).body;
  expect(wrong.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/lines/0/quantityG']);
  expect((await deliver({ lines: [{ lineId: hard.id, quantityG: 5 }] }).expect(422)).body.errors[0].pointer).toBe(
    '/lines/0/lineId',
  );
  const first = (await deliver({ lines: [{ lineId: order.lines[0].id, quantityG: 10, markOnMetal: 'H' }] }).expect(201)).body;
  expect(first.lots).toEqual([expect.objectContaining({ productCode: 'hard_wire', state: 'sealed', receivedG: 10 })]);
  expect(first.order).toMatchObject({ state: 'part_in', lines: [{ openG: 0 }, { openG: 15, receivedG: 0 }] });
  const second = (await deliver({ lines: [{ lineId: order.lines[1].id, quantityG: 12 }] }).expect(201)).body;
  expect(second.lots[0]).toMatchObject({ state: 'held_back', stateReason: 'no mark on the metal' });
  expect((await desk.move(path, { from: 'part_in', to: 'in' }).expect(409)).body.missing[0]).toContain(
    '3 g of Hard wire are still to come',
  );
  await desk.move(path, { from: 'part_in', to: 'in', closeShort: true }).expect(200);
  // 10 g at 1.85 and 12 g at 2.00.
  expect((await desk.get(path)).body).toMatchObject({
    received: eur(4250),
    lines: [{ closedShort: false }, { closedShort: true, openG: 0 }],
  });
  const off = (await owner.move(path, { from: 'in', to: 'squared', invoice: eur(4290) }).expect(409)).body;
  expect(off.missing[0]).toContain('explain the difference of 0.40 EUR');
  await owner.move(path, { from: 'in', to: 'squared', invoice: eur(4255) }, clock.now()).expect(200);
  expect((await desk.get('/supplier-orders?state=squared')).body.items[0]).toMatchObject({
    invoice: eur(4255),
    allowedMoves: [],
  });
});

test('an order is in whole packs, of something known, and of no more than years use', async () => {
  const { desk, products, supplier } = await anEmptyingDrawer();
  const order = (line: object) => desk.post('/supplier-orders', { supplierId: supplier.id, lines: [line] });
  const productId = products[0]!.id;
  expect((await order({ productId, quantityG: 7 }).expect(422)).body.errors[0].detail).toBe('Hard wire comes in packs of 5 g.');
  expect((await order({ quantityG: 5 }).expect(422)).body.errors[0].pointer).toBe('/lines/0');
  expect((await order({ productId: supplier.id, quantityG: 5 }).expect(422)).body.errors[0].pointer).toBe('/lines/0/productId');
  // 16 g in 17 weeks: 500 g are ten years.
  const much = (await order({ productId, quantityG: 500 }).expect(422)).body.errors[0];
  expect(much.detail).toBe('500 g is 10 years of use. Did you mean 5.00?');
  expect(much.confirmable).toBeUndefined();
  expect((await order({ productId, quantityG: 150 }).expect(422)).body.errors[0]).toMatchObject({ confirmable: true });
  expect(
    (await desk.post('/supplier-orders', { supplierId: productId, lines: [{ productId, quantityG: 5 }] }).expect(422)).body
      .errors[0].pointer,
  ).toBe('/supplierId');
});
