import { expect, test } from 'vitest';
import type { OpenDb } from '../../src/platform/db/client.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct, aSolderProduct } from '../support/stock.ts';

test('POST /solder-products keeps the product’s own two temperatures, and the price for a gram', async () => {
  const { owner } = await startApp();
  const made = await owner.post('/solder-products', aSolderProduct({ price: { amount: '46.00', per: 'ozt' } })).expect(201);
  expect(made.headers['etag']).toBe('"1"');
  // 46.00 a troy ounce is 1.478934 a gram: 46 / 31.1034768, exact by definition of the ounce.
  expect(made.body).toMatchObject({
    code: 'hard_wire',
    solidusC: 740,
    liquidusC: 775,
    metalFraction: 1,
    price: { amount: '1.478934', per: 'g' },
    active: true,
    cadmiumDocument: null,
  });
  const again = await owner.get(`/solder-products/${made.body.id}`).expect(200);
  expect(again.body).toEqual(made.body);
});

test('POST /solder-products tells every bad field at once, with what a number may have been meant as', async () => {
  const { owner } = await startApp();
  const refused = await owner
    .post('/solder-products', aSolderProduct({ solidusC: 1365, silverFraction: 75, form: 'foil', colour: 'red' }))
    .expect(422)
    .expect('content-type', /^application\/problem\+json/);
  const byPointer = Object.fromEntries(refused.body.errors.map((error: { pointer: string }) => [error.pointer, error]));
  expect(Object.keys(byPointer).toSorted()).toEqual(['/colour', '/form', '/silverFraction', '/solidusC']);
  // 1365 °F is 740.6 °C.
  expect(byPointer['/solidusC']).toMatchObject({ perhaps: 740.556, unit: '°C' });
  expect(byPointer['/silverFraction']).toMatchObject({ perhaps: 0.75 });
});

test('POST /solder-products asks about swapped temperatures, wide windows and how much of a paste is metal', async () => {
  const { owner } = await startApp();
  const swapped = await owner.post('/solder-products', aSolderProduct({ solidusC: 723, liquidusC: 705 })).expect(422);
  expect(swapped.body.errors).toEqual([
    { pointer: '/liquidusC', detail: 'Flow point 705 is below melting start 723: swapped?', given: 705, unit: '°C' },
  ]);
  const wide = aSolderProduct({ solidusC: 640, liquidusC: 790 });
  const asked = await owner.post('/solder-products', wide).expect(422);
  expect(asked.body.errors).toMatchObject([{ pointer: '/liquidusC', confirmable: true }]);
  await owner.post('/solder-products', wide).set('confirm', '/liquidusC').set('confirm-reason', 'so says the packet').expect(201);
  const noShare = await owner.post('/solder-products', aSolderProduct({ code: 'paste', form: 'paste' })).expect(422);
  expect(noShare.body.errors).toMatchObject([{ pointer: '/metalFraction' }]);
  const percent = await owner
    .post('/solder-products', aSolderProduct({ code: 'paste', form: 'paste', metalFraction: 75 }))
    .expect(422);
  expect(percent.body.errors).toMatchObject([{ pointer: '/metalFraction', perhaps: 0.75 }]);
  await owner.post('/solder-products', aSolderProduct({ code: 'paste', form: 'paste', metalFraction: 0.75 })).expect(201);
});

test('POST /solder-products refuses a code that is taken, and a price typed for another weight', async () => {
  const { owner } = await startApp();
  await addProduct(owner);
  const taken = await owner.post('/solder-products', aSolderProduct({ name: 'Other' })).expect(409);
  expect(taken.body.type).toBe('/api/v1/problems/already-used');
  const dear = await owner
    .post('/solder-products', aSolderProduct({ code: 'x', price: { amount: '4600', per: 'g' } }))
    .expect(422);
  expect(dear.body.errors).toMatchObject([{ pointer: '/price/amount' }]);
});

test('PATCH /solder-products says that there is no cadmium only by a document', async () => {
  const { owner } = await startApp();
  const { id } = await addProduct(owner, { cadmiumStanding: 'unknown' });
  const change = (body: object, version: number) => owner.patch(`/solder-products/${id}`, body, version);
  const refused = await change({ cadmiumStanding: 'no' }, 1).expect(409);
  expect(refused.body.type).toBe('/api/v1/problems/condition-not-met');
  const bench = { kind: 'bench_test', reference: 'sheet 88 in the red folder', datedOn: '2031-05-01' };
  await change({ cadmiumStanding: 'no', document: bench }, 1).expect(422);
  const document = { kind: 'supplier_sheet', reference: 'sheet 88 in the red folder', datedOn: '2031-05-01' };
  await change({ cadmiumStanding: 'no', document: { ...document, datedOn: '2031-06-01' } }, 1).expect(422);
  const cleared = await change({ cadmiumStanding: 'no', document }, 1).expect(200);
  expect(cleared.body).toMatchObject({ cadmiumStanding: 'no', cadmiumDocument: document, version: 2 });
  const doubted = await change({ cadmiumStanding: 'unknown' }, 2).expect(200);
  expect(doubted.body).toMatchObject({ cadmiumStanding: 'unknown', cadmiumDocument: null });
});

test('PATCH /solder-products needs the version read, and asks only about what changes', async () => {
  const { owner } = await startApp();
  const wide = await owner
    .post('/solder-products', aSolderProduct({ solidusC: 590 }))
    .set('confirm', '/solidusC, /liquidusC')
    .set('confirm-reason', 'so says the packet')
    .expect(201);
  const path = `/solder-products/${wide.body.id}`;
  await owner.patch(path, { supplier: 'Tollgate Tools' }).expect(428);
  const changed = await owner.patch(path, { supplier: 'Tollgate Tools', solidusC: 590, active: false }, 1).expect(200);
  expect(changed.body).toMatchObject({ supplier: 'Tollgate Tools', active: false });
  await owner.patch(path, { supplier: 'Harbour' }, 1).expect(412);
  const listed = await owner.get('/solder-products?active=true').expect(200);
  expect(listed.body).toEqual({ items: [], nextCursor: null });
  expect((await owner.get('/solder-products?active=false&form=wire').expect(200)).body.items).toHaveLength(1);
});

test('GET /solder-products shows prices to owner and desk alone; only the owner writes', async () => {
  const { owner, bench, desk, student, stranger } = await startApp();
  const { id } = await addProduct(owner);
  expect((await desk.get(`/solder-products/${id}`).expect(200)).body.price).toEqual({ amount: '1.85', per: 'g' });
  for (const person of [bench, student])
    expect((await person.get(`/solder-products/${id}`).expect(200)).body).not.toHaveProperty('price');
  for (const person of [bench, desk, student])
    await person.post('/solder-products', aSolderProduct({ code: 'other' })).expect(403);
  await stranger.get('/solder-products').expect(401);
  await owner.get('/solder-products/01890000-0000-7000-8000-000000000000').expect(404);
});

test('a pack below a milligram is refused, and one that an old book holds is still shown and can be put right', async () => {
  const { owner, db } = await startApp();
  const small = await owner.post('/solder-products', aSolderProduct({ packG: 0.0005 })).expect(422);
  expect(small.body.errors).toMatchObject([{ pointer: '/packG', given: 0.0005 }]);
  const { id } = (await owner.post('/solder-products', aSolderProduct()).expect(201)).body;
  (db as OpenDb['db']).$client.prepare('UPDATE solder_products SET pack_g = 0.0005 WHERE id = ?').run(id);
  const { items } = (await owner.get('/solder-products').expect(200)).body;
  expect(items).toMatchObject([{ id, packG: 0.0005 }]);
  await owner.get('/reorder-list').expect(200);
  await owner.patch(`/solder-products/${id}`, { packG: 5 }, 1).expect(200);
});
