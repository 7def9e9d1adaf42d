import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { startApp } from '../support/start-app.ts';

test('what is wrong with a field is said in plain words, with the field named in the detail', async () => {
  const { owner } = await startApp();
  const refused = await owner
    .post('/commissions', { title: '', kind: 'bespoke', clientId: 'C31-001', quantity: '2', dueOn: '2031-13-01', quiet: null })
    .expect(422);
  expect(refused.body.errors).toEqual([
    { pointer: '/title', detail: 'Give the commission a short title.', given: '' },
    {
      pointer: '/kind',
      detail: 'It must be one of one_off, small_run, own_stock, repair, teaching_piece.',
      given: 'bespoke',
    },
    { pointer: '/clientId', detail: expect.stringMatching(/^This is not an id: .* are for people\.$/), given: 'C31-001' },
    { pointer: '/quantity', detail: 'It must be a number; this is text.', given: '2' },
    { pointer: '/dueOn', detail: 'Write a date of the calendar, such as 2031-06-14.', given: '2031-13-01' },
    { pointer: '/quiet', detail: 'It must be true or false; this is null.', given: null },
  ]);
  expect(refused.body.detail).toContain('6 fields cannot be used: /title: Give the commission a short title. /kind: ');

  const missing = await owner.post('/payments', { how: 'cash', reason: '' }).expect(422);
  expect(missing.body.errors).toEqual([
    { pointer: '/commissionId', detail: 'This field is needed.' },
    { pointer: '/kind', detail: 'This field is needed: one of deposit, stage, balance, send_back.' },
    { pointer: '/amount', detail: 'This field is needed.' },
    { pointer: '/reason', detail: 'It cannot be empty.', given: '' },
  ]);
  const page = await owner.get('/journal?limit=500&cursor=abc').expect(422);
  expect(page.body.errors).toMatchObject([
    { pointer: '?limit', detail: 'It must be 200 or less.' },
    { pointer: '?cursor', detail: 'It must be a number; this is no number.' },
  ]);
});

test('what is secret is not shown again', async () => {
  const { owner, desk } = await startApp();
  const password = await owner
    .post('/people', { name: 'Sorrel', roles: ['bench'], signInName: 'sorrel', password: 'short' })
    .expect(422);
  expect(password.body.errors).toEqual([{ pointer: '/password', detail: expect.stringContaining('12 letters') }]);
  const card = await desk
    .post('/clients', { name: 'Harbour', phone: '+4915112345678', notes: 'card 4111 1111 1111 1111' })
    .expect(422);
  expect(JSON.stringify(card.body)).not.toContain('4111');
  expect(card.body.errors).toMatchObject([{ pointer: '/notes', detail: expect.stringContaining('It was not stored') }]);
});

test('names and notes are kept without control characters, composed (NFC)', async () => {
  const { desk } = await startApp();
  const refused = await desk.post('/clients', { name: 'Har\u0007bour', phone: '+4915112345678' }).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/name' }]);
  const made = await desk.post('/clients', { name: ' Zoe\u0308 ', phone: '+4915112345678' }).expect(201);
  expect(made.body.name).toBe('Zo\u00eb');
});

test('a refusal names every role that may, and a tag without its quotes is told apart from an old one', async () => {
  const { desk, bench } = await startApp();
  expect((await bench.get('/payments').expect(403)).body.detail).toBe('Cannot do this: it is for owner or desk');
  expect((await bench.get('/journal').expect(403)).body.detail).toBe('Cannot do this: it is for owner');
  const { id } = await aCommission(desk);
  const bare = await desk.patch(`/commissions/${id}`, { title: 'Ring' }).set('if-match', '1').expect(412);
  expect(bare.body.detail).toContain('in its quotes');
});
