import { expect, test } from 'vitest';
import { stockMovements } from '../../src/platform/db/tables.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

// Oldest first, worked by hand: L1 20 g at 1.70, L2 30 g at 1.95, L3 25 g at 2.10; 12.5, 25 and 18.4 g used, whichever lot they
// came from. Left are 19.10 g of the newest: 19.10 × 2.10 = 40.11.
test('GET /stock values what is left at the newest deliveries, whichever lot was used', async () => {
  const { owner, bench } = await startApp();
  const product = await addProduct(owner);
  const lots = [
    await receiveLot(owner, product.id, { quantityG: 20, unitCost: { amount: '1.70', per: 'g' }, receivedOn: '2031-02-01' }),
    await receiveLot(owner, product.id, { quantityG: 30, unitCost: { amount: '1.95', per: 'g' }, receivedOn: '2031-03-01' }),
    await receiveLot(owner, product.id, { quantityG: 25, unitCost: { amount: '2.10', per: 'g' }, receivedOn: '2031-04-01' }),
  ];
  const use = (lot: number, quantityG: number) =>
    bench.post('/stock-movements', { kind: 'use', lotId: lots[lot]!.id, quantityG, reason: 'a run of rings' }).expect(201);
  const stock = async () => (await owner.get('/stock').expect(200)).body;
  await use(2, 12.5);
  // 7.5 × 1.70 + 30 × 1.95 + 25 × 2.10 = 123.75
  expect((await stock()).items[0]).toMatchObject({ onHandG: 62.5, value: { amountMinor: 12375 } });
  await use(1, 25);
  await use(0, 18.4);
  const left = await stock();
  expect(left.items[0]).toMatchObject({
    onHandG: 19.1,
    usableG: 19.1,
    heldG: 0,
    freeG: 19.1,
    value: { amountMinor: 4011, currency: 'EUR' },
    valuedAt: [{ lot: 'L3', grams: 19.1, unitCost: { amount: '2.1', per: 'g' } }],
  });
  // The lots themselves: 1.6 g of L1, 5 g of L2, 12.5 g of L3.
  const own = left.items[0].lots.map((lot: { onHandG: number; valueAtOwnCost: { amountMinor: number } }) => [
    lot.onHandG,
    lot.valueAtOwnCost.amountMinor,
  ]);
  expect(own).toEqual([
    [1.6, 272],
    [5, 975],
    [12.5, 2625],
  ]);
  expect(left.totalValue).toEqual({ amountMinor: 4011, currency: 'EUR' });
});

test('GET /stock tells apart what lies there and what may be used, and shows values to owner and desk', async () => {
  const { owner, bench, desk, student, stranger } = await startApp();
  const product = await addProduct(owner);
  await receiveLot(owner, product.id, { quantityG: 4, markOnMetal: null });
  await receiveLot(owner, product.id, { quantityG: 3 });
  const idle = await addProduct(owner, { code: 'easy', liquidusC: 705, solidusC: 650 });
  await owner.patch(`/solder-products/${idle.id}`, { active: false }, 1).expect(200);
  const seen = (await bench.get('/stock').expect(200)).body;
  expect(seen.items).toHaveLength(1);
  expect(seen.items[0]).toMatchObject({ onHandG: 7, usableG: 3, freeG: 3 });
  for (const person of [bench, student]) {
    const text = JSON.stringify((await person.get('/stock').expect(200)).body);
    expect(text).not.toMatch(/value|unitCost/i);
  }
  expect((await desk.get('/stock').expect(200)).body.totalValue).toEqual({ amountMinor: 1295, currency: 'EUR' });
  await stranger.get('/stock').expect(401);
});

test('GET /stock?format=csv is RFC 4180 with units in the header', async () => {
  const { owner } = await startApp();
  const product = await addProduct(owner, { name: 'Hard "wire", 1 mm' });
  await receiveLot(owner, product.id, { quantityG: 3 });
  const csv = await owner.get('/stock?format=csv').expect(200).expect('content-type', 'text/csv; charset=utf-8');
  expect(csv.text).toBe(
    [
      'product,name,form,lot,received_on,state,mark,use_by,cadmium,on_hand_g,usable_g,held_g,free_g,unit_cost_EUR_per_g,value_EUR,value_at_own_cost_EUR',
      'hard_wire,"Hard ""wire"", 1 mm",wire,,,,,,,3,3,0,3,,5.55,',
      'hard_wire,"Hard ""wire"", 1 mm",wire,L1,2031-05-05,sealed,H,,no,3,,,,1.85,,5.55',
      '',
    ].join('\r\n'),
  );
  await owner.get('/stock?format=xlsx').expect(422);
});

test('POST /stock/audit finds a line that cannot be', async () => {
  const { owner, db, actors, student } = await startApp();
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id, { quantityG: 1 });
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({
    ok: true,
    movements: 1,
    lots: 1,
    products: 1,
    findings: [],
  });
  const at = '2031-05-05T08:00:00.000Z';
  const line = { productId: product.id, lotId: lot.id, heldTenthMg: 0, at, recordedAt: at, personId: actors.owner.personId };
  db.insert(stockMovements)
    .values({ ...line, id: 'a', kind: 'use', onHandTenthMg: -20_000 })
    .run();
  db.insert(stockMovements)
    .values({ ...line, id: 'b', kind: 'reverse', onHandTenthMg: 20_001, reversesId: 'a' })
    .run();
  db.insert(stockMovements)
    .values({ ...line, id: 'c', kind: 'receive', onHandTenthMg: 1 })
    .run();
  const found = (await owner.post('/stock/audit').expect(200)).body;
  expect(found.ok).toBe(false);
  expect(found.findings).toEqual([
    { what: 'lot', id: lot.id, says: 'Lot L1 was at -1 g after movement a' },
    { what: 'movement', id: 'b', says: 'Movement b is not the opposite of the one it reverses' },
    { what: 'lot', id: lot.id, says: 'Lot L1 came in with 1 g; its receipts add up to 1.0001 g' },
  ]);
  await student.post('/stock/audit').expect(403);
});
