import { expect, test } from 'vitest';
import { journal } from '../../src/platform/db/tables.ts';
import { aCommission } from '../support/a-commission.ts';
import { startApp, testClock } from '../support/start-app.ts';

test('POST /client-letters notes what a client was told, with its day; GET lists it, newest first', async () => {
  const { desk, owner, db, actors } = await startApp();
  const commission = await aCommission(desk);
  const other = await aCommission(desk);
  const path = '/client-letters';
  const notice = {
    commissionId: commission.id,
    kind: 'collection_notice',
    how: 'post',
    sentOn: '2031-05-02',
    note: 'It is ready.',
  };
  const first = (await desk.post(path, notice).expect(201)).body;
  expect(first).toEqual({
    ...notice,
    id: expect.any(String),
    personId: actors.desk.personId,
    createdAt: '2031-05-05T08:00:00.000Z',
  });
  const call = (await owner.post(path, { commissionId: other.id, kind: 'new_date', how: 'phone' }).expect(201)).body;
  expect(call).toMatchObject({ sentOn: '2031-05-05', note: null });
  expect((await desk.get(path).expect(200)).body).toEqual({ items: [call, first], nextCursor: null });
  expect((await desk.get(`${path}?commissionId=${commission.id}`).expect(200)).body.items).toEqual([first]);
  const page = (await desk.get(`${path}?limit=1`).expect(200)).body;
  expect(page.items).toEqual([call]);
  expect((await desk.get(`${path}?limit=1&cursor=${page.nextCursor}`).expect(200)).body.items).toEqual([first]);
  const lines = db.select().from(journal).all();
  expect(lines.filter(({ what }) => what === 'client_letter').map(({ thingId }) => thingId)).toEqual([first.id, call.id]);
});

test('POST /client-letters takes the day of the studio, and none that has not come', async () => {
  // 23:30 in UTC is half past one of the next day in Berlin.
  const { desk, owner } = await startApp({ clock: testClock('2031-05-05T23:30:00Z') });
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  const commission = await aCommission(desk);
  const letter = { commissionId: commission.id, kind: 'other', how: 'email' };
  expect((await desk.post('/client-letters', letter).expect(201)).body.sentOn).toBe('2031-05-06');
  const refused = await desk.post('/client-letters', { ...letter, sentOn: '2031-05-07' }).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/sentOn', given: '2031-05-07' }]);
});

test('POST /client-letters refuses what it cannot use, all of it at once, and keeps nothing', async () => {
  const { desk, bench, student, stranger } = await startApp();
  const shelf = await aCommission(desk, { kind: 'own_stock', clientId: null });
  const letter = { commissionId: shelf.id, kind: 'collection_notice', how: 'post' };
  const refused = await desk
    .post('/client-letters', { ...letter, sentOn: '2031-05-09' })
    .expect(422)
    .expect('content-type', /^application\/problem\+json/);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/commissionId', '/sentOn']);
  const unknown = { ...letter, commissionId: '01890000-0000-7000-8000-000000000000' };
  expect((await desk.post('/client-letters', unknown).expect(422)).body.errors).toMatchObject([{ pointer: '/commissionId' }]);
  const card = await desk.post('/client-letters', { ...letter, note: 'card 4111 1111 1111 1111' }).expect(422);
  expect(JSON.stringify(card.body)).not.toContain('4111');
  await desk.post('/client-letters', { ...letter, how: 'pigeon' }).expect(422);
  for (const person of [bench, student]) await person.post('/client-letters', letter).expect(403);
  await stranger.get('/client-letters').expect(401);
  expect((await desk.get('/client-letters').expect(200)).body.items).toEqual([]);
});
