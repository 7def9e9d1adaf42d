import { expect, test } from 'vitest';
import { weeklyUse } from '../../src/features/stock/weekly-use.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

test('weeklyUse() counts whole weeks back from today, weeks without use included', () => {
  const uses = [
    { day: '2031-05-05', tenthMg: 10 },
    { day: '2031-04-29', tenthMg: 5 },
    { day: '2031-04-28', tenthMg: 7 },
    { day: '2031-04-08', tenthMg: 3 },
    { day: '2031-04-14', tenthMg: -4 },
    { day: '2031-03-01', tenthMg: 99 },
  ];
  // Weeks ending on 5 May, 28 April, 21 April, 14 April: the last holds 3 − 4, which is none.
  expect(weeklyUse(uses, { since: '2031-04-10', today: '2031-05-05', atMost: 52 })).toEqual([0, 0, 7, 15]);
  expect(weeklyUse(uses, { since: '2031-01-01', today: '2031-05-05', atMost: 2 })).toEqual([7, 15]);
  expect(weeklyUse([], { since: '2031-05-05', today: '2031-05-05', atMost: 52 })).toEqual([0]);
});

test('GET /reorder-list says what to order by supplier, with the use of each week and the working', async () => {
  const { owner, desk, bench, clock } = await startApp();
  const product = await addProduct(owner, { packG: 5, leadWeeks: 2 });
  const lot = await receiveLot(owner, product.id, { quantityG: 20 });
  const other = await addProduct(owner, { code: 'easy', solidusC: 650, liquidusC: 705, supplier: 'Anvil & Sons' });
  await receiveLot(owner, other.id, { quantityG: 100 });
  const use = (quantityG: number) =>
    bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG, reason: 'rings' }).expect(201);
  // Fifteen weeks, 1 g in every third: every window of three weeks (two of lead, one of review) used 1 g but for the 3 g at the end.
  for (let week = 0; week < 15; week += 1) {
    if (week % 3 === 0) await use(1);
    clock.advance({ days: 7 });
  }
  const mistake = (await use(9)).body;
  await bench.post(`/stock-movements/${mistake.id}/reversals`, { reason: 'other lot' }).expect(201);
  const none = (await desk.get('/reorder-list').expect(200)).body;
  expect(none.suppliers).toEqual([]);
  await use(13.5);
  const list = (await desk.get('/reorder-list').expect(200)).body;
  expect(list.suppliers).toHaveLength(1);
  const [{ supplier, lines, total }] = list.suppliers;
  expect(supplier).toBe('Harbour Metals');
  expect(lines[0]).toMatchObject({
    code: 'hard_wire',
    onHandG: 1.5,
    heldG: 0,
    onOrderG: 0,
    weeklyUseG: [1, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 13.5],
    // 14 windows of 3 weeks; number 14 of them (0.95 × 14 = 13.3) is the biggest.
    orderPointG: 13.5,
    decidedBy: 'use',
    orderNow: true,
    packG: 5,
  });
  expect(lines[0].orderG % 5).toBe(0);
  expect(lines[0].packs).toBe(lines[0].orderG / 5);
  expect(lines[0].cost.amountMinor).toBe(Math.round(lines[0].orderG * 185));
  expect(total).toEqual(lines[0].cost);
  expect(lines[0].working.length).toBeGreaterThan(2);
  const all = (await desk.get('/reorder-list?all=true').expect(200)).body;
  expect(all.suppliers.map((one: { supplier: string }) => one.supplier)).toEqual(['Anvil & Sons', 'Harbour Metals']);
  expect(all.suppliers[0].total.amountMinor).toBe(0);
});

test('GET /reorder-list of a new studio goes by the biggest planned piece and a pack; solders that are never offered are left out', async () => {
  const { owner } = await startApp();
  const product = await addProduct(owner);
  await addProduct(owner, { code: 'old', cadmiumStanding: 'unknown' });
  await receiveLot(owner, product.id, { quantityG: 5 });
  const [only, ...others] = (await owner.get('/reorder-list').expect(200)).body.suppliers[0].lines;
  expect(others).toEqual([]);
  expect(only).toMatchObject({ orderPointG: 5, decidedBy: 'short_history', orderNow: true, weeklyUseG: [0], orderG: 5 });
});

test('GET /reorder-list?format=csv prints the same; it is for owner and desk', async () => {
  const { owner, bench } = await startApp();
  await addProduct(owner);
  const csv = await owner.get('/reorder-list?format=csv').expect(200).expect('content-type', 'text/csv; charset=utf-8');
  const [header, line, end] = csv.text.split('\r\n');
  expect(header).toBe(
    'supplier,of,product,name,form,on_hand_g,held_g,on_order_g,order_point_g,order_now,because,order_g,packs,price_EUR_per_g,cost_EUR,order_total_EUR,minimum_met,lead_weeks,why,on_hand_pieces,order_point_pieces,order_pieces',
  );
  expect(line).toMatch(/^Harbour Metals,solder,hard_wire,Hard wire,wire,0,0,0,5,yes,at_its_point,5,1,1\.85,9\.25,9\.25,yes,2,"/);
  expect(end).toBe('');
  await bench.get('/reorder-list').expect(403);
  await owner.get('/reorder-list?all=yes').expect(422);
});
