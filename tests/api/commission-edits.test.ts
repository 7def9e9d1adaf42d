import { expect, test } from 'vitest';
import { aClient, aCommission } from '../support/a-commission.ts';
import { anAcceptedQuote, aPricedPendant, eur, takeThrough } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';

const confirmDate = { confirm: '/dueOn', 'confirm-reason': 'the client agreed by phone' };

test('PATCH /commissions/:id changes what is given, clears at null, and needs the version that was read', async () => {
  const { desk, bench, owner } = await startApp();
  const { id } = await aCommission(desk);
  await desk.patch(`/commissions/${id}`, { title: 'A brooch' }).expect(428);
  await desk.patch(`/commissions/${id}`, { title: 'A brooch' }, 4).expect(412);
  await bench.patch(`/commissions/${id}`, { title: 'A brooch' }, 1).expect(403);
  const changed = await desk
    .patch(`/commissions/${id}`, { title: 'A brooch', budget: eur(9000), placeOfSale: null, quantity: 2 }, 1)
    .expect(200)
    .expect('etag', '"2"');
  expect(changed.body).toMatchObject({
    title: 'A brooch',
    budget: eur(9000),
    placeOfSale: null,
    quantity: 2,
    dueOn: '2031-06-20',
  });
  const journal = (await owner.get(`/journal?thingId=${id}`).expect(200)).body.items;
  expect(journal[0]).toMatchObject({
    what: 'commission',
    before: { title: 'Marsh Lantern pendant' },
    after: { title: 'A brooch' },
  });
  await desk.patch(`/commissions/01890a5d-ac96-774b-bcce-b302099a8057`, { title: 'x' }, 1).expect(404);
});

test('PATCH /commissions/:id holds new values to the fences, and asks about old ones no more', async () => {
  const { desk, clock } = await startApp();
  const { id } = await aCommission(desk, { dueOn: '2031-05-20' });
  clock.set('2031-06-01T08:00:00Z');
  // The due date has passed since: it is not asked about while it stays.
  await desk.patch(`/commissions/${id}`, { title: 'A brooch', dueOn: '2031-05-20' }, 1).expect(200);
  const late = await desk.patch(`/commissions/${id}`, { dueOn: '2031-05-21' }, 2).expect(422);
  expect(late.body.errors).toMatchObject([{ pointer: '/dueOn', detail: 'The due date is in the past: today is 2031-06-01.' }]);
  const many = await desk.patch(`/commissions/${id}`, { quantity: 51 }, 2).expect(422);
  expect(many.body.errors).toMatchObject([{ pointer: '/quantity', confirmable: true }]);
  await desk
    .patch(`/commissions/${id}`, { quantity: 51 }, 2)
    .set({ confirm: '/quantity', 'confirm-reason': 'a wedding' })
    .expect(200);
  await desk.patch(`/commissions/${id}`, { quantity: 51, title: 'Rings' }, 3).expect(200);
  const nobody = await desk.patch(`/commissions/${id}`, { clientId: null }, 4).expect(422);
  expect(nobody.body.errors).toMatchObject([{ pointer: '/clientId' }]);
  await desk.patch(`/commissions/${id}`, { clientId: null, kind: 'own_stock' }, 4).expect(200);
});

test('PATCH /commissions/:id keeps the quantity at the pieces there are', async () => {
  const { desk, bench } = await startApp();
  const { id } = await aCommission(desk, { quantity: 2, kind: 'small_run' });
  for (const title of ['Link 1', 'Link 2'])
    await bench.post('/pieces', { commissionId: id, title, metal: 'sterling-925' }).expect(201);
  const refused = await desk.patch(`/commissions/${id}`, { quantity: 1 }, 1).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/quantity', detail: 'There are 2 pieces in it already.' }]);
});

test('a repair points to the piece that came back, and nothing else does', async () => {
  const app = await startApp();
  const { pieceId } = await aPricedPendant(app);
  const clientId = await aClient(app.desk, 'Harbour');
  const repair = await aCommission(app.desk, { kind: 'repair', clientId, pointsToPieceId: pieceId });
  expect((await app.desk.get(`/commissions/${repair.id}`)).body.pointsToPieceId).toBe(pieceId);
  const other = await app.desk
    .post('/commissions', { title: 'A ring', kind: 'one_off', clientId, pointsToPieceId: pieceId })
    .expect(422);
  expect(other.body.errors).toMatchObject([{ pointer: '/pointsToPieceId' }]);
});

test('once agreed, the due date changes only with a reason, and kind, client and quantity stay', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { deposit } = await anAcceptedQuote(app, commissionId);
  await app.desk.post('/payments', { commissionId, kind: 'deposit', amount: deposit, how: 'cash' }).expect(201);
  await takeThrough(app.owner, commissionId, ['shaping', 'offered', 'agreed']);
  const path = `/commissions/${commissionId}`;
  const { version } = (await app.desk.get(path)).body;
  const moved = await app.desk.patch(path, { dueOn: '2031-07-01' }, version).expect(422);
  expect(moved.body.errors).toEqual([
    {
      pointer: '/dueOn',
      detail: '2031-06-20 was agreed with the client. Have they agreed to another date?',
      given: '2031-07-01',
      confirmable: true,
    },
  ]);
  await app.desk.patch(path, { dueOn: null }, version).set(confirmDate).expect(422);
  const fixed = await app.desk.patch(path, { kind: 'own_stock', quantity: 3 }, version).expect(422);
  expect(fixed.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/kind', '/quantity']);
  const changed = await app.desk.patch(path, { dueOn: '2031-07-01' }, version).set(confirmDate).expect(200);
  expect(changed.body).toMatchObject({ dueOn: '2031-07-01', daysToDue: 57 });
  const [line] = (await app.owner.get(`/journal?thingId=${commissionId}`)).body.items;
  expect(line.confirmed).toEqual({ pointers: ['/dueOn'], reason: 'the client agreed by phone' });
});

test('a commission that is over is changed no more', async () => {
  const { desk, owner } = await startApp();
  const { id } = await aCommission(desk);
  await takeThrough(owner, id, ['turned_down'], { reason: 'not our kind of work' });
  const refused = await desk.patch(`/commissions/${id}`, { title: 'A brooch' }, 2).expect(409);
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    detail: 'Cannot change C31-001: it is turned down',
  });
});

test('PATCH /settings takes a currency that has a minor unit to count in, and no other', async () => {
  const { owner } = await startApp();
  for (const currency of ['XTS', 'XAU', 'eur', 'ABC']) {
    const refused = await owner.patch('/settings', { currency }, 0).expect(422);
    expect(refused.body.errors).toMatchObject([{ pointer: '/currency', given: currency }]);
  }
  await owner.patch('/settings', { currency: 'JPY' }, 0).expect(200);
  const stock = await owner.post('/commissions', { title: 'Stock rings', kind: 'own_stock' }).expect(201);
  expect(stock.body.account.balance).toEqual({ amountMinor: 0, currency: 'JPY' });
});
