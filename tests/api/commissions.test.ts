import { expect, test } from 'vitest';
import { aClient, aCommission } from '../support/a-commission.ts';
import { startApp } from '../support/start-app.ts';

test('POST /commissions notes an enquiry under a number that counts up', async () => {
  const { desk } = await startApp();
  const clientId = await aClient(desk);
  const made = await desk
    .post('/commissions', {
      title: 'Marsh Lantern pendant',
      kind: 'one_off',
      clientId,
      wish: 'Something for the evening',
      dueOn: '2031-06-20',
      budget: { amountMinor: 50_000, currency: 'EUR' },
      placeOfSale: 'DE',
      clientProperty: [{ what: 'old ring, mark illegible', weightG: 4.2, declaredValue: { amountMinor: 9000, currency: 'EUR' } }],
      quiet: true,
    })
    .expect(201)
    .expect('etag', '"1"');
  expect(made.body).toEqual({
    id: expect.any(String),
    number: 'C31-001',
    title: 'Marsh Lantern pendant',
    kind: 'one_off',
    clientId,
    clientName: 'Millrace',
    wish: 'Something for the evening',
    quantity: 1,
    dueOn: '2031-06-20',
    daysToDue: 46,
    budget: { amountMinor: 50_000, currency: 'EUR' },
    placeOfSale: 'DE',
    clientProperty: [{ what: 'old ring, mark illegible', weightG: 4.2, declaredValue: { amountMinor: 9000, currency: 'EUR' } }],
    pointsToPieceId: null,
    quiet: true,
    state: 'asked',
    stateReason: null,
    stateSince: '2031-05-05T08:00:00.000Z',
    waitingFor: null,
    allowedMoves: ['shaping'],
    version: 1,
    createdAt: '2031-05-05T08:00:00.000Z',
    pieces: [],
    quotes: [],
    account: { gross: null, deposit: null, received: eur(0), balance: eur(0) },
    spend: null,
  });
  expect((await aCommission(desk, { clientId })).number).toBe('C31-002');
  const again = await desk.get(`/commissions/${made.body.id}`).expect(200).expect('etag', '"1"');
  expect(again.body).toEqual(made.body);
});

test('POST /commissions with an Idempotency-Key sent twice makes one', async () => {
  const { desk } = await startApp();
  const send = () => desk.post('/commissions', { title: 'Stock rings', kind: 'own_stock' }).set('idempotency-key', 'enquiry-1');
  const [first, second] = [await send().expect(201), await send().expect(201)];
  expect(second.body).toEqual(first.body);
  expect((await desk.get('/commissions')).body.items).toHaveLength(1);
});

test('POST /commissions tells every bad field at once', async () => {
  const { desk } = await startApp();
  const answer = await desk
    .post('/commissions', {
      title: ' ',
      kind: 'bespoke',
      quantity: 501,
      dueOn: '2025-13-02',
      budget: { amountMinor: -1, currency: 'EUR' },
      placeOfSale: 'XX',
      clientProperty: [{ what: 'brooch', weightG: 0.001 }],
      colour: 'red',
    })
    .expect(422)
    .expect('content-type', /^application\/problem\+json/);
  expect(answer.body.type).toBe('/api/v1/problems/invalid-fields');
  const pointers = answer.body.errors.map(({ pointer }: { pointer: string }) => pointer);
  expect(new Set(pointers)).toEqual(
    new Set([
      '/title',
      '/kind',
      '/quantity',
      '/dueOn',
      '/budget/amountMinor',
      '/placeOfSale',
      '/clientProperty/0/weightG',
      '/colour',
    ]),
  );
});

test('POST /commissions asks for a client, save for own stock and teaching pieces', async () => {
  const { desk } = await startApp();
  for (const kind of ['one_off', 'small_run', 'repair']) {
    const answer = await desk.post('/commissions', { title: 'A ring', kind }).expect(422);
    expect(answer.body.errors).toMatchObject([{ pointer: '/clientId', detail: 'Pick a client, or mark it as own stock.' }]);
  }
  for (const kind of ['own_stock', 'teaching_piece']) await desk.post('/commissions', { title: 'A ring', kind }).expect(201);
});

test('POST /commissions refuses a client, a piece and a currency that are not there', async () => {
  const { desk } = await startApp();
  const nowhere = '01890a5d-ac96-774b-bcce-b302099a8057';
  const answer = await desk
    .post('/commissions', {
      title: 'A mend',
      kind: 'repair',
      clientId: nowhere,
      pointsToPieceId: nowhere,
      budget: { amountMinor: 100, currency: 'JPY' },
    })
    .expect(422);
  expect(answer.body.errors.map(({ pointer }: { pointer: string }) => pointer).toSorted()).toEqual([
    '/budget/currency',
    '/clientId',
    '/pointsToPieceId',
  ]);
});

test('POST /commissions refuses a card number on sight', async () => {
  const { desk } = await startApp();
  const answer = await desk.post('/commissions', { title: 'A ring', kind: 'own_stock', wish: '4111 1111 1111 1111' }).expect(422);
  expect(answer.body.errors).toMatchObject([{ pointer: '/wish' }]);
});

const today = '2031-05-05';
test.each([
  ['2031-05-04', 422, false],
  [today, 422, true],
  ['2031-05-07', 422, true],
  ['2031-05-08', 201, false],
  ['2032-05-04', 201, false],
  ['2032-05-05', 422, true],
  ['2034-05-04', 422, true],
  ['2034-05-05', 422, false],
])('POST /commissions with the due date %s answers %i', async (dueOn, status, confirmable) => {
  const { desk } = await startApp();
  const body = { title: 'A ring', kind: 'own_stock', dueOn };
  const answer = await desk.post('/commissions', body).expect(status);
  if (status === 201) return;
  expect(answer.body.errors).toMatchObject([{ pointer: '/dueOn', given: dueOn }]);
  expect(answer.body.errors[0].confirmable === true).toBe(confirmable);
  await desk
    .post('/commissions', body)
    .set({ confirm: '/dueOn', 'confirm-reason': 'the client knows' })
    .expect(confirmable ? 201 : 422);
});

test('POST /commissions takes today from the studio, not from UTC', async () => {
  const { owner, clock } = await startApp();
  await owner.patch('/settings', { timeZone: 'Pacific/Auckland' }, 0).expect(200);
  clock.set('2031-05-05T12:30:00Z');
  const answer = await owner.post('/commissions', { title: 'A ring', kind: 'own_stock', dueOn: '2031-05-05' }).expect(422);
  expect(answer.body.errors[0].detail).toMatch(/2031-05-06/);
});

test('GET /commissions finds by state, client and kind, page by page', async () => {
  const { desk } = await startApp();
  const clientId = await aClient(desk);
  const ring = await aCommission(desk, { clientId, title: 'Ring' });
  const stock = await aCommission(desk, { kind: 'own_stock', clientId: null, title: 'Stock' });
  const numbers = async (query: string) =>
    (await desk.get(`/commissions${query}`).expect(200)).body.items.map(({ number }: { number: string }) => number);
  expect(await numbers('')).toEqual([stock.number, ring.number]);
  expect(await numbers(`?clientId=${clientId}`)).toEqual([ring.number]);
  expect(await numbers('?kind=own_stock')).toEqual([stock.number]);
  expect(await numbers('?state=shaping')).toEqual([]);
  const first = await desk.get('/commissions?limit=1').expect(200);
  expect(await numbers(`?limit=1&cursor=${first.body.nextCursor}`)).toEqual([ring.number]);
  await desk.get('/commissions?state=nowhere').expect(422);
});

test('GET /commissions shows the bench a name and no money, and a student teaching pieces only', async () => {
  const { desk, bench, student, stranger } = await startApp();
  const ring = await aCommission(desk, {
    clientId: await aClient(desk),
    budget: eur(40_000),
    clientProperty: [{ what: 'garnet', weightG: 0.4, declaredValue: eur(2000) }],
  });
  const practice = await aCommission(desk, { kind: 'teaching_piece', clientId: null });
  const seen = await bench.get(`/commissions/${ring.id}`).expect(200);
  expect(seen.body).toMatchObject({
    clientId: null,
    clientName: 'Millrace',
    budget: null,
    account: null,
    quotes: [],
    spend: null,
    clientProperty: [{ what: 'garnet', declaredValue: null }],
  });
  expect((await bench.get('/commissions')).body.items).toHaveLength(2);
  await student.get(`/commissions/${ring.id}`).expect(404);
  await student.get(`/commissions/${practice.id}`).expect(200);
  expect((await student.get('/commissions')).body.items.map(({ id }: { id: string }) => id)).toEqual([practice.id]);
  expect((await student.get('/commissions?kind=one_off')).body.items).toEqual([]);
  await bench.post('/commissions', { title: 'A ring', kind: 'own_stock' }).expect(403);
  await stranger.get('/commissions').expect(401);
});

function eur(amountMinor: number) {
  return { amountMinor, currency: 'EUR' };
}
