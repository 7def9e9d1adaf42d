import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'drizzle-orm';
import { expect, onTestFinished, test } from 'vitest';
import { aClient, aCommission } from '../support/a-commission.ts';
import { aLink } from '../support/a-private-link.ts';
import { anAcceptedQuote, aPricedPendant, eur, takeThrough, typePrices } from '../support/a-quote.ts';
import { aPhoneJpeg, sendPhoto } from '../support/pictures.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** In every word of the client, and nowhere else: in names, addresses, wishes, and what was typed about them. */
const MARK = 'zqxv';
const CLIENT = {
  name: 'Zqxvida Harbour',
  email: 'zqxv@example.org',
  phone: '+4915199988877',
  language: 'en',
  postAddress: 'Zqxvlane 3\n12345 Zqxvtown',
  ringSizeMm: 54.25,
  metalSensitivity: 'zqxv nickel',
  notes: 'Zqxv: rings after six',
};
const TYPED = 'for Zqxvida, as she said';

/** A book in a file, with a client of whom everything is known that can be. */
async function aKnownClient() {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const app = await startApp({ file: join(folder, 'hearthbook.sqlite') });
  const { owner, desk, bench } = app;
  const { body: client } = await desk.post('/clients', { ...CLIENT, name: 'Zqxvolda Harbour' }).expect(201);
  await desk.patch(`/clients/${client.id}`, { name: CLIENT.name, phone: '+4915199988876' }, 1).expect(200);
  const { commissionId, pieceId } = await aPricedPendant(app, {
    clientId: client.id,
    title: 'Pendant for Zqxvida',
    wish: 'A zqxv to wear at dusk',
    clientProperty: [{ what: 'grandmother’s zqxv brooch', weightG: 12.5 }],
  });
  await typePrices(app, { privateLinks: { on: true } });
  await desk
    .post('/commissions', { title: 'Ring', kind: 'one_off', clientId: client.id, wish: 'a zqxv ring, a proposal', quiet: true })
    .set('idempotency-key', 'the-quiet-one')
    .expect(201);
  await anAcceptedQuote(app, commissionId);
  const { browser } = await aLink(app, commissionId);
  await browser.get().expect(200);
  await browser.send('/messages', { words: 'Zqxvida here: may I come on Friday?' }).expect(303);
  await desk
    .post('/payments', { commissionId, kind: 'deposit', how: 'cash', amount: eur(5000), reason: TYPED })
    .set('idempotency-key', 'the-deposit')
    .expect(201);
  await desk.post('/client-letters', { commissionId, kind: 'other', how: 'phone', note: TYPED }).expect(201);
  await owner.post('/incidents', { pieceId, kind: 'pit', note: TYPED }).expect(201);
  await bench.post('/bench-times', { pieceId, operation: 'sawing', minutesByHand: 30, note: TYPED }).expect(201);
  const jpeg = await aPhoneJpeg();
  const ofPiece = (await sendPhoto(owner, jpeg, { pieceId, caption: TYPED }).expect(201)).body.id as string;
  const withPerson = (await sendPhoto(owner, jpeg, { commissionId, caption: 'Zqxvida', showsPerson: 'true' }).expect(201)).body
    .id as string;
  await desk.post('/suppliers', { name: 'Tollgate Metals', leadWorkingDays: 8, note: 'ask for Zqxvida Harbour' }).expect(201);
  for (const format of ['html', 'pdf'])
    await desk.get(`/documents/take-in-receipts/${commissionId}?format=${format}`).expect(200);
  return { ...app, folder, clientId: client.id as string, commissionId, pieceId, browser, ofPiece, withPerson };
}

/** Where the mark stands in the files of a book, letters small and large alike. */
function marksIn(folder: string): string[] {
  return readdirSync(folder).flatMap((file) => {
    const text = readFileSync(join(folder, file)).toString('latin1').toLowerCase();
    return [...text.matchAll(new RegExp(MARK, 'g'))].map(({ index }) => `${file}: ${text.slice(index - 40, index + 60)}`);
  });
}

async function endAll({ owner }: Pick<TestApp, 'owner'>, clientId: string): Promise<void> {
  const { items } = (await owner.get(`/commissions?clientId=${clientId}`).expect(200)).body;
  for (const { id } of items) {
    const { state } = (await owner.get(`/commissions/${id}`).expect(200)).body;
    const to = state === 'asked' ? 'turned_down' : 'called_off';
    await takeThrough(owner, id, [to], { reason: TYPED });
  }
}

test('a forgotten client is nowhere in the book’s file, and the books are whole', async () => {
  const app = await aKnownClient();
  const { owner, desk, db, clientId, commissionId, pieceId, browser, ofPiece, withPerson, folder } = app;
  await endAll(app, clientId);
  db.get(sql`PRAGMA wal_checkpoint(PASSIVE)`);
  expect(marksIn(folder).length).toBeGreaterThan(20);
  const account = (await owner.get(`/commissions/${commissionId}`).expect(200)).body.account;
  const lines = (await owner.get('/journal?limit=200').expect(200)).body.items.length;

  const { body: forgotten } = await owner.post(`/clients/${clientId}/forgetting`, { name: CLIENT.name }).expect(200);
  expect(forgotten).toMatchObject({
    id: clientId,
    name: 'Former client 0001',
    email: null,
    phone: null,
    postAddress: null,
    ringSizeMm: null,
    metalSensitivity: null,
    notes: null,
    photoAllowed: false,
    forgottenAt: '2031-05-05T08:00:00.000Z',
  });
  expect(marksIn(folder)).toEqual([]);
  expect(readFileSync(join(folder, 'hearthbook.sqlite')).includes('15199988')).toBe(false);

  const { body: after } = await owner.get(`/commissions/${commissionId}`).expect(200);
  expect(after).toMatchObject({ title: 'Pendant for Former client 0001', wish: null, clientName: 'Former client 0001', account });
  expect(after.clientProperty).toMatchObject([{ what: '…', weightG: 12.5 }]);
  const { items } = (await desk.get(`/commissions?clientId=${clientId}`).expect(200)).body;
  expect(items.find(({ quiet }: { quiet: boolean }) => quiet)).toMatchObject({
    title: expect.stringMatching(/^C31-/),
    wish: null,
  });
  expect((await owner.get(`/pieces/${pieceId}`).expect(200)).body.title).toBe('Pendant');
  expect((await desk.get(`/documents/quote-letters/${after.quotes[0].id}`).expect(200)).text).toContain('Former client 0001');
  expect((await owner.get('/journal?limit=200').expect(200)).body.items).toHaveLength(lines + 1);
  await owner.get(`/photos/${ofPiece}`).expect(200);
  await owner.get(`/photos/${withPerson}`).expect(404);
  expect((await desk.get('/client-messages').expect(200)).body.items).toEqual([]);
  await browser.get().expect(410);
  for (const text of ['zqxv', 'harbour', '15199988']) {
    const found = (await owner.get(`/search?text=${text}`).expect(200)).body.items;
    expect([text, found]).toEqual([text, []]);
  }
  // An answer that is asked for again is the cleaned one, and nothing is done twice.
  const again = await desk
    .post('/commissions', { title: 'Ring', kind: 'one_off', clientId, wish: 'a zqxv ring, a proposal', quiet: true })
    .set('idempotency-key', 'the-quiet-one')
    .expect(201);
  expect(again.body).toMatchObject({ wish: null, clientName: 'Former client 0001' });
  expect((await owner.post('/stock/audit').expect(200)).body.differences ?? []).toEqual([]);
  expect(db.get(sql`SELECT count(*) AS n FROM forgetting`)).toEqual({ n: 0 });
});

test('nobody is forgotten by a slip, by another than the owner, twice, or while work is open', async () => {
  const { owner, desk } = await startApp();
  const clientId = await aClient(desk);
  const { number, id } = await aCommission(desk, { clientId });
  const forget = (person = owner, name = 'Millrace') => person.post(`/clients/${clientId}/forgetting`, { name });
  await forget(desk).expect(403);
  expect((await forget(owner, 'millrace').expect(422)).body.errors).toMatchObject([{ pointer: '/name' }]);
  expect((await forget().expect(409)).body).toMatchObject({ type: '/api/v1/problems/condition-not-met', open: [number] });
  expect((await desk.get(`/clients/${clientId}`).expect(200)).body.name).toBe('Millrace');
  await takeThrough(owner, id, ['turned_down'], { reason: 'no time' });
  const { body } = await forget().expect(200);
  await forget(owner, body.name).expect(409);
  const change = await desk.patch(`/clients/${clientId}`, { email: 'm@example.org' }, body.version).expect(409);
  expect(change.body.detail).toBe('Cannot change Former client 0001: this client was forgotten');
  const anew = await desk.post('/commissions', { title: 'Cup', kind: 'one_off', clientId }).expect(422);
  expect(anew.body.errors).toMatchObject([{ pointer: '/clientId' }]);
  expect(
    (await owner.post('/clients/01964e00-0000-7000-8000-000000000000/forgetting', { name: 'x' }).expect(404)).body.type,
  ).toBe('/api/v1/problems/not-found');
});

test('another client’s words stay as they are, also where they are alike', async () => {
  const { owner, desk } = await startApp();
  const rose = await aClient(desk, 'Rose');
  const other = await aClient(desk, 'Rose Tollgate');
  await desk.patch(`/clients/${other}`, { phone: '+4915100000001', notes: 'likes Rose gold' }, 1).expect(200);
  const { id } = await aCommission(desk, { clientId: other, title: 'Rose cup', wish: 'a rose on it' });
  await owner.post(`/clients/${rose}/forgetting`, { name: 'Rose' }).expect(200);
  expect((await desk.get(`/clients/${other}`).expect(200)).body).toMatchObject({
    name: 'Rose Tollgate',
    notes: 'likes Rose gold',
  });
  expect((await desk.get(`/commissions/${id}`).expect(200)).body).toMatchObject({ title: 'Rose cup', wish: 'a rose on it' });
});

test('the journal and what was sent change in no other way, nor for anything but their words', async () => {
  const { db, desk } = await startApp();
  const clientId = await aClient(desk);
  const refused = (query: string) =>
    expect(() => db.run(sql.raw(query))).toThrow(
      expect.objectContaining({ cause: expect.objectContaining({ message: 'the journal is append-only' }) }),
    );
  refused(`UPDATE journal SET after = NULL WHERE thing_id = '${clientId}'`);
  refused('DELETE FROM journal');
  db.run(sql`INSERT INTO forgetting VALUES (${clientId})`);
  refused("UPDATE journal SET at = '2030-01-01T00:00:00Z'");
  refused('UPDATE journal SET person_id = NULL');
  refused('DELETE FROM journal');
});

test('what we hold of a client is given as one file', async () => {
  const { desk, clientId, bench } = await aKnownClient();
  await bench.get(`/clients/${clientId}/held`).expect(403);
  const { body, headers } = await desk.get(`/clients/${clientId}/held`).expect(200);
  expect(headers['content-disposition']).toBe('attachment; filename="what-we-hold.json"');
  expect(body.client).toMatchObject({ ...CLIENT, phone: '+4915199988876' });
  expect(body.commissions).toMatchObject([
    { title: 'Ring', wish: 'a zqxv ring, a proposal' },
    {
      wish: 'A zqxv to wear at dusk',
      clientProperty: [{ what: 'grandmother’s zqxv brooch', weightG: 12.5 }],
      payments: [{ kind: 'deposit', amountMinor: 5000, currency: 'EUR', reason: TYPED }],
      letters: [{ how: 'phone', note: TYPED }],
      messages: [{ words: 'Zqxvida here: may I come on Friday?' }],
      links: [{ state: 'open', visits: 1 }],
      photos: [{ showsPerson: false }, { showsPerson: true }],
    },
  ]);
  // Nothing of what it costs us, nor what opens a link.
  expect(JSON.stringify(body)).not.toMatch(/tokenHash|costMinor|margin|overhead/i);
});
