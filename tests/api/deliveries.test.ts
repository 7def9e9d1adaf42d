import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';
import { addProduct } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';

async function anOrderSent() {
  const app = await startApp();
  const { owner, desk, bench } = app;
  const hard = await addProduct(owner);
  const wire = (await owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const supplier = (await desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201)).body;
  const lines = [
    { productId: hard.id, quantityG: 10 },
    { metalProductId: wire.id, quantityG: 40 },
  ];
  const order = (await desk.post('/supplier-orders', { supplierId: supplier.id, lines }).expect(201)).body;
  const path = `/supplier-orders/${order.id}`;
  await desk.move(path, { from: 'to_order', to: 'sent' }).expect(200);
  const [solderLine, metalLine] = order.lines.map(({ id }: { id: string }) => id) as [string, string];
  const deliver = (line: object, receivedOn = '2031-05-05') => bench.post(`${path}/deliveries`, { receivedOn, lines: [line] });
  const show = async () => (await desk.get(path).expect(200)).body;
  return { ...app, path, solderLine, metalLine, deliver, show };
}

test('much more than was ordered is asked about, and the little that a supplier weighs generously is not', async () => {
  const { deliver, solderLine, show } = await anOrderSent();
  const much = (await deliver({ lineId: solderLine, quantityG: 25, markOnMetal: 'H' }).expect(422)).body;
  expect(much.errors).toEqual([
    expect.objectContaining({
      pointer: '/lines/0/quantityG',
      confirmable: true,
      detail: '10 g of Hard wire were ordered and 0 g came before: this is 15 g over. Is it right?',
    }),
  ]);
  await deliver({ lineId: solderLine, quantityG: 10.4, markOnMetal: 'H' }).expect(201);
  expect((await show()).lines[0]).toMatchObject({ receivedG: 10.4, openG: 0 });
  const again = deliver({ lineId: solderLine, quantityG: 5, markOnMetal: 'H' });
  await again.set('confirm', '/lines/0/quantityG').set('confirm-reason', 'they sent another pack').expect(201);
});

test('nothing comes before it was ordered, and metal takes nothing that is noted of solder', async () => {
  const { deliver, solderLine, metalLine } = await anOrderSent();
  expect((await deliver({ lineId: solderLine, quantityG: 5, markOnMetal: 'H' }, '2031-05-02').expect(422)).body.errors).toEqual([
    expect.objectContaining({ pointer: '/receivedOn' }),
  ]);
  const metal = { lineId: metalLine, quantityG: 40, markOnMetal: 'H', useBy: '2032-01-01', cadmiumStanding: 'no' };
  const { errors } = (await deliver(metal).expect(422)).body;
  expect(errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
    '/lines/0/markOnMetal',
    '/lines/0/useBy',
    '/lines/0/cadmiumStanding',
  ]);
});

test('a delivery that was booked wrongly and taken back is waited for and booked again, solder and metal', async () => {
  const { owner, desk, bench, deliver, solderLine, metalLine, show, path } = await anOrderSent();
  const { lots } = (await deliver({ lineId: solderLine, quantityG: 10, markOnMetal: 'H' }).expect(201)).body;
  const { metalLotIds } = (await deliver({ lineId: metalLine, quantityG: 40 }).expect(201)).body;
  expect((await show()).state).toBe('in');
  await deliver({ lineId: metalLine, quantityG: 40 }).expect(409);
  const takeBack = async (room: string, lotId: string) => {
    const { items } = (await bench.get(`/${room}?lotId=${lotId}`)).body;
    await owner.post(`/${room}/${items[0].id}/reversals`, { reason: 'the other parcel' }).expect(201);
  };
  await takeBack('stock-movements', lots[0].id);
  await takeBack('metal-movements', metalLotIds[0]);
  expect(await show()).toMatchObject({ state: 'in', lines: [{ openG: 10 }, { openG: 40 }], received: { amountMinor: 0 } });
  expect((await desk.get('/reorder-list?all=true')).body.suppliers[0].lines[0].onOrderG).toBe(10);
  await deliver({ lineId: solderLine, quantityG: 10, markOnMetal: 'H' }).expect(201);
  await deliver({ lineId: metalLine, quantityG: 40 }).expect(201);
  expect(await show()).toMatchObject({ state: 'in', lines: [{ openG: 0 }, { openG: 0 }] });
  await owner.move(path, { from: 'in', to: 'squared', invoice: { amountMinor: 1850 + 5916, currency: 'EUR' } }).expect(200);
});

test('what came by the year’s end and was booked after it is in the year’s end', async () => {
  const { owner, desk, clock } = await startApp();
  const hard = await addProduct(owner);
  const wire = (await owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  clock.set('2032-01-09T08:00:00Z');
  const lot = {
    productId: hard.id,
    receivedOn: '2031-12-30',
    quantityG: 10,
    unitCost: { amount: '1.85', per: 'g' },
    markOnMetal: 'H',
  };
  await desk.post('/solder-lots', lot).expect(201);
  await desk.post('/metal-lots', { productId: wire.id, receivedOn: '2031-12-30', quantityG: 40 }).expect(201);
  const stockOn = async (to: string) =>
    (await owner.get(`/reports/year-end?from=2031-01-01&to=${to}`)).body.totals.stock.amountMinor;
  expect(await stockOn('2031-12-29')).toBe(0);
  // 10 g at 1.85 and 40 g at 46.00 an ounce.
  expect(await stockOn('2031-12-31')).toBe(1850 + 5916);
});
