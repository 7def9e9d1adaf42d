import fc from 'fast-check';
import { expect, test } from 'vitest';
import { holdsNoCardNumber } from '../../src/features/clients/clients.schema.ts';
import { startApp } from '../support/start-app.ts';

test('a client is a name and one way to reach them', async () => {
  const { desk } = await startApp();
  const made = await desk.post('/clients', { name: 'Millrace', phone: '+4915112345678' }).expect(201).expect('etag', '"1"');
  expect(made.body).toMatchObject({ name: 'Millrace', language: 'en', photoAllowed: false, email: null });
  expect((await desk.get(`/clients/${made.body.id}`).expect(200)).body).toEqual(made.body);
  const refused = await desk.post('/clients', { name: 'Harbour', ringSizeMm: 17, photoAllowed: 'yes' }).expect(422);
  expect((refused.body.errors as { pointer: string }[]).map(({ pointer }) => pointer).sort()).toEqual([
    '/email',
    '/photoAllowed',
    '/ringSizeMm',
  ]);
  expect((await desk.get('/clients')).body.items).toHaveLength(1);
});

test('a client keeps a way to be reached', async () => {
  const { desk } = await startApp();
  const { id } = (await desk.post('/clients', { name: 'Millrace', email: 'millrace@example.org' })).body;
  expect((await desk.patch(`/clients/${id}`, { email: null }, 1).expect(422)).body.errors[0].pointer).toBe('/email');
  const changed = await desk.patch(`/clients/${id}`, { email: null, phone: '+4915112345678' }, 1).expect(200);
  expect(changed.body).toMatchObject({ email: null, phone: '+4915112345678', version: 2 });
});

test('clients are listed newest first, page by page, and found by name', async () => {
  const { desk } = await startApp();
  for (const name of ['Millrace', 'Harbour', 'Tollgate'])
    await desk.post('/clients', { name, email: `${name.toLowerCase()}@example.org` }).expect(201);
  const first = await desk.get('/clients?limit=2').expect(200);
  expect(first.body.items.map(({ name }: { name: string }) => name)).toEqual(['Tollgate', 'Harbour']);
  const second = await desk.get(`/clients?limit=2&cursor=${first.body.nextCursor}`).expect(200);
  expect(second.body).toMatchObject({ items: [{ name: 'Millrace' }], nextCursor: null });
  expect((await desk.get('/clients?name=arb')).body.items).toHaveLength(1);
  const refused = await desk.get('/clients?limit=0&page=2').expect(422);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['?limit', '?page']);
});

test('a payment-card number is refused on sight', async () => {
  const { desk } = await startApp();
  // The test number of ISO/IEC 7812-1's check digit as printed in payment documentation: 4111 1111 1111 1111.
  const refused = await desk
    .post('/clients', { name: 'Tollgate', email: 't@example.org', notes: 'card 4111 1111 1111 1111' })
    .expect(422);
  expect(refused.body.errors[0].detail).toBe('This looks like a payment-card number. It was not stored.');
});

test('holdsNoCardNumber() lets any number through that fails the check digit', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9 }), (wrongBy) => {
      const last = (1 + wrongBy) % 10;
      return holdsNoCardNumber(`411111111111111${last}`) === (last !== 1);
    }),
  );
});

test('the digits of an id in an address are no card number', () => {
  // One UUID in about five hundred holds a run of digits that satisfies the Luhn check.
  expect(holdsNoCardNumber('see http://localhost:3000/pieces/4f654396-3981-488c-bd45-438956efdb40')).toBe(true);
  expect(holdsNoCardNumber('654396-3981-488')).toBe(false);
});

test('only the desk sees clients', async () => {
  const { bench, student } = await startApp();
  await bench.get('/clients').expect(403);
  await student.post('/clients', { name: 'x', email: 'x@example.org' }).expect(403);
});
