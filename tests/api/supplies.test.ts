import { expect, test } from 'vitest';
import { supplyMovements } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import { startApp, type Person } from '../support/start-app.ts';

const flux = { name: 'Flux powder', kind: 'flux', unit: 'g', price: '0.018', supplier: 'Harbour Metals', pack: 250 };

async function aSupply(owner: Person, given: object = {}): Promise<string> {
  return (await owner.post('/supplies', { ...flux, ...given }).expect(201)).body.id as string;
}

const book = (person: Person, supplyId: string, kind: string, quantity: number, more: object = {}) =>
  person.post('/supply-movements', { kind, supplyId, quantity, ...more });

test('what is there is worth the running average of what was paid', async () => {
  const { owner } = await startApp();
  const id = await aSupply(owner);
  const level = async () => (await owner.get(`/supplies/${id}`).expect(200)).body;
  expect(await level()).toMatchObject({ onHand: 0, averageCost: null, value: { amountMinor: 0, currency: 'EUR' } });
  // By hand: 500 g × 0.018 = 9.00 and 250 g × 0.024 = 6.00; 15.00 ÷ 750 g = 0.02 a gram.
  await book(owner, id, 'receive', 500).expect(201);
  await book(owner, id, 'receive', 250, { unitCost: '0.024' }).expect(201);
  expect(await level()).toMatchObject({ onHand: 750, packsOnHand: 3, averageCost: '0.02', value: { amountMinor: 1500 } });
  // What is used goes at 0.02 and leaves it so: 600 g × 0.02 = 12.00.
  await book(owner, id, 'use', 150).expect(201);
  expect(await level()).toMatchObject({ onHand: 600, averageCost: '0.02', value: { amountMinor: 1200 } });
  // 400 g × 0.03 = 12.00 more; 24.00 ÷ 1000 g = 0.024.
  const dear = (await book(owner, id, 'receive', 400, { unitCost: '0.03' }).expect(201)).body;
  expect(await level()).toMatchObject({ onHand: 1000, averageCost: '0.024', value: { amountMinor: 2400 } });
  // A delivery taken back never was.
  await owner.post(`/supply-movements/${dear.id}/reversals`, { reason: 'other jar' }).expect(201);
  expect(await level()).toMatchObject({ onHand: 600, averageCost: '0.02', value: { amountMinor: 1200 } });
  await book(owner, id, 'count_down', 100, { reason: 'counted' }).expect(201);
  await book(owner, id, 'put_back', 50).expect(201);
  expect(await level()).toMatchObject({ onHand: 550, averageCost: '0.02', value: { amountMinor: 1100 } });
});

test('never is there less than nothing, nor more put back than was used', async () => {
  const { owner, bench } = await startApp();
  const id = await aSupply(owner, { name: 'Garnet 3 mm', kind: 'stone', unit: 'piece', price: '4.50', pack: 10 });
  const came = (await book(owner, id, 'receive', 10).expect(201)).body;
  const refused = (await book(bench, id, 'use', 11).expect(409)).body;
  expect(refused).toMatchObject({ type: '/api/v1/problems/condition-not-met', onHand: 10 });
  expect(refused.detail).toContain('10 pieces on hand');
  expect((await book(bench, id, 'use', 0.5).expect(422)).body.errors).toMatchObject([{ pointer: '/quantity' }]);
  const used = (await book(bench, id, 'use', 3).expect(201)).body;
  await book(bench, id, 'put_back', 4).expect(409);
  const back = (await book(bench, id, 'put_back', 1).expect(201)).body;
  await bench.post(`/supply-movements/${used.id}/reversals`, { reason: 'other stone' }).expect(409);
  await owner.post(`/supply-movements/${came.id}/reversals`, { reason: 'other jar' }).expect(409);
  await bench.post(`/supply-movements/${back.id}/reversals`, { reason: 'other stone' }).expect(201);
  await bench.post(`/supply-movements/${used.id}/reversals`, { reason: 'other stone' }).expect(201);
  expect((await owner.get(`/supplies/${id}`)).body).toMatchObject({ onHand: 10, value: { amountMinor: 4500 } });
  const ledger = (await bench.get(`/supply-movements?supplyId=${id}`).expect(200)).body.items as { onHand: number }[];
  expect(ledger.map(({ onHand }) => onHand)).toEqual([3, -1, 1, -3, 10]);
});

test('a movement is taken back once, whoever is first', async () => {
  const { owner, bench, desk } = await startApp();
  const id = await aSupply(owner);
  await book(desk, id, 'receive', 100).expect(201);
  const used = (await book(bench, id, 'use', 40).expect(201)).body;
  const tries = await Promise.all(
    [owner, bench, owner, bench].map((person) =>
      person.post(`/supply-movements/${used.id}/reversals`, { reason: 'never used' }).then(({ status }) => status),
    ),
  );
  expect(tries.toSorted((a, b) => a - b)).toEqual([201, 409, 409, 409]);
  const [reversal, wrong] = (await owner.get('/supply-movements').expect(200)).body.items;
  expect(wrong).toMatchObject({ id: used.id, reversedById: reversal.id });
  await owner.post(`/supply-movements/${reversal.id}/reversals`, { reason: 'used after all' }).expect(409);
  expect((await owner.get(`/supplies/${id}`)).body.onHand).toBe(100);
});

test('the desk receives, the bench uses and counts, the owner writes off; a student sees what there is and no price', async () => {
  const { owner, bench, desk, student } = await startApp();
  const id = await aSupply(owner);
  await desk.post('/supplies', { ...flux, name: 'Borax' }).expect(403);
  await book(bench, id, 'receive', 10).expect(403);
  await book(student, id, 'use', 1).expect(403);
  const came = (await book(desk, id, 'receive', 10).expect(201)).body;
  expect(came.unitCost).toBe('0.018');
  await book(desk, id, 'use', 1).expect(403);
  await bench.post(`/supply-movements/${came.id}/reversals`, { reason: 'other jar' }).expect(403);
  await book(bench, id, 'write_off', 1, { reason: 'got wet' }).expect(403);
  expect((await book(owner, id, 'write_off', 1).expect(422)).body.errors).toMatchObject([{ pointer: '/reason' }]);
  await book(owner, id, 'write_off', 1, { reason: 'got wet' }).expect(201);
  const seen = (await student.get(`/supplies/${id}`).expect(200)).body;
  expect(seen.onHand).toBe(9);
  for (const hidden of ['price', 'averageCost', 'value']) expect(seen).not.toHaveProperty(hidden);
  expect((await bench.get('/supply-movements').expect(200)).body.items.at(-1)).not.toHaveProperty('unitCost');
});

test('at its order point a supply is to be ordered, in whole packs that bring it above', async () => {
  const { owner } = await startApp();
  // Of 250 g packs: at 300 g one pack makes 550, above 300; at 40 g two make 540.
  const id = await aSupply(owner, { orderPoint: 300 });
  await aSupply(owner, { name: 'Typed by nobody' });
  const due = async () => (await owner.get('/supplies?orderNow=true').expect(200)).body.items;
  await book(owner, id, 'receive', 301).expect(201);
  expect(await due()).toEqual([]);
  await book(owner, id, 'use', 1).expect(201);
  expect(await due()).toMatchObject([{ id, orderNow: true, order: 250 }]);
  await book(owner, id, 'use', 260).expect(201);
  expect(await due()).toMatchObject([{ id, onHand: 40, order: 500 }]);
  await owner.patch(`/supplies/${id}`, { active: false }, 1).expect(200);
  expect(await due()).toEqual([]);
  expect((await owner.get('/supplies?orderNow=false&limit=1').expect(200)).body.nextCursor).not.toBeNull();
});

test('gas and flux go by the gram, pieces are whole, a name is used once, and what comes in has a cost', async () => {
  const { owner } = await startApp();
  const pointers = async (body: object) =>
    (await owner.post('/supplies', { ...flux, ...body }).expect(422)).body.errors.map(
      ({ pointer }: { pointer: string }) => pointer,
    );
  expect(await pointers({ kind: 'gas', unit: 'piece' })).toEqual(['/unit']);
  expect(await pointers({ kind: 'finding', unit: 'piece', pack: 2.5, orderPoint: 0.5 })).toEqual(['/pack', '/orderPoint']);
  expect(await pointers({ pack: 0.00001 })).toEqual(['/pack']);
  const id = await aSupply(owner, { price: null });
  await owner.post('/supplies', { ...flux, name: 'FLUX powder' }).expect(409);
  expect((await book(owner, id, 'receive', 5).expect(422)).body.errors).toMatchObject([{ pointer: '/unitCost' }]);
  expect((await book(owner, id, 'use', 5, { unitCost: '1' }).expect(422)).body.errors).toMatchObject([{ pointer: '/unitCost' }]);
});

test('a supply follows its supplier to its new name', async () => {
  const { owner } = await startApp();
  const supplier = (await owner.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201)).body;
  const id = await aSupply(owner);
  await owner.patch(`/suppliers/${supplier.id}`, { name: 'Quay Metals' }, 1).expect(200);
  expect((await owner.get(`/supplies/${id}`)).body.supplier).toBe('Quay Metals');
});

test('the same key books once', async () => {
  const { owner } = await startApp();
  const id = await aSupply(owner);
  const sent = () => book(owner, id, 'receive', 100).set('idempotency-key', 'one-delivery-of-flux');
  const first = (await sent().expect(201)).body;
  expect((await sent().expect(201)).body).toEqual(first);
  expect((await owner.get(`/supplies/${id}`)).body.onHand).toBe(100);
});

test('the audit adds the supplies up again, and tells what cannot be', async () => {
  const { owner, db, clock } = await startApp();
  const id = await aSupply(owner);
  const came = (await book(owner, id, 'receive', 100).expect(201)).body;
  await book(owner, id, 'use', 40).expect(201);
  const audit = async () => (await owner.post('/stock/audit').expect(200)).body;
  expect(await audit()).toMatchObject({ ok: true, supplies: { supplies: 1, movements: 2 }, findings: [] });
  const wrong = { supplyId: id, kind: 'reverse' as const, onHandUnits: -700_000, reversesId: came.id, at: came.at };
  db.insert(supplyMovements)
    .values({ ...wrong, id: newId(clock.now()) })
    .run();
  const { ok, findings } = await audit();
  expect(ok).toBe(false);
  expect(findings.map(({ what }: { what: string }) => what)).toEqual(['supply', 'supply', 'supply', 'supply_movement']);
  expect(findings[0].says).toContain('Flux powder was at -10 g');
});

test('what is at its point is in the reorder list, in its table of text and on its paper, beside the solders', async () => {
  const { owner, desk } = await startApp();
  const id = await aSupply(owner, { orderPoint: 200 });
  const stones = await aSupply(owner, {
    name: 'Garnet 3 mm',
    kind: 'stone',
    unit: 'piece',
    price: null,
    pack: 10,
    orderPoint: 5,
  });
  await aSupply(owner, { name: 'Citric acid', kind: 'pickle_salt', orderPoint: null });
  await book(owner, id, 'receive', 150).expect(201);
  await book(owner, stones, 'receive', 4, { unitCost: '4.50' }).expect(201);
  // By hand: one pack of 250 g brings 150 over 200; 250 g x 0.018 = 4.50. One pack of ten brings four stones over five.
  const flux250 = {
    name: 'Flux powder',
    kind: 'flux',
    onHand: 150,
    orderPoint: 200,
    packs: 1,
    order: 250,
    cost: { amountMinor: 450 },
  };
  const garnet = { name: 'Garnet 3 mm', unit: 'piece', onHand: 4, packs: 1, order: 10, cost: null };
  const list = (await desk.get('/reorder-list').expect(200)).body;
  expect(list.suppliers).toEqual([]);
  expect(list.supplies).toMatchObject([flux250, garnet]);
  expect((await desk.get('/reports/to-order').expect(200)).body.supplies).toMatchObject([flux250, garnet]);
  const [, first, second] = (await desk.get('/reorder-list?format=csv').expect(200)).text.split('\r\n');
  expect(first).toBe('Harbour Metals,flux,,Flux powder,,150,,,200,yes,at_its_point,250,1,,4.50,,,,,,,');
  expect(second).toBe('Harbour Metals,stone,,Garnet 3 mm,,,,,,yes,at_its_point,,1,,,,,,,4,5,10');
  const { text } = await desk.get('/documents/reorder-list').expect(200);
  for (const part of ['Flux powder', '1 pack of 250', '150', 'Garnet 3 mm', '10 pieces', '4 pieces left, order at 5 pieces'])
    expect(text).toContain(part);
  // With a pack of each there is nothing to order.
  await book(owner, id, 'receive', 250).expect(201);
  await book(owner, stones, 'receive', 10, { unitCost: '4.50' }).expect(201);
  expect((await desk.get('/reorder-list').expect(200)).body.supplies).toEqual([]);
});

test('what lies there is worth something in the report of the drawer, apart from solder and metal', async () => {
  const { owner, desk } = await startApp();
  const id = await aSupply(owner);
  const stones = await aSupply(owner, { name: 'Garnet 3 mm', kind: 'stone', unit: 'piece', price: '4.50', pack: 10 });
  await aSupply(owner, { name: 'Citric acid', kind: 'pickle_salt' });
  await book(owner, id, 'receive', 500).expect(201);
  await book(owner, stones, 'receive', 3).expect(201);
  const report = (await desk.get('/reports/stock-worth').expect(200)).body;
  // By hand: 500 g x 0.018 = 9.00; three at 4.50 are 13.50.
  expect(report).toMatchObject({
    total: { amountMinor: 0 },
    supplies: [
      { name: 'Flux powder', unit: 'g', onHand: 500, value: { amountMinor: 900 } },
      { name: 'Garnet 3 mm', unit: 'piece', onHand: 3, value: { amountMinor: 1350 } },
    ],
    suppliesTotal: { amountMinor: 2250 },
  });
  const lines = (await desk.get('/reports/stock-worth?format=csv').expect(200)).text.split('\r\n');
  expect(lines.slice(1, 3)).toEqual(['supply,Flux powder,,500,,,9.00,', 'supply,Garnet 3 mm,,,,,13.50,3']);
});
