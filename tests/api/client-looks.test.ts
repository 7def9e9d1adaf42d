import { sql } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { apiDocument, operationsOf } from '../support/api-document.ts';
import { aFollowedCommission } from '../support/a-private-link.ts';
import { aClient, aCommission } from '../support/a-commission.ts';
import { eur } from '../support/a-quote.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const NAME = 'Millrace Tollgate';
const MARKS = [NAME, '3 Secret Street', 'm@example.org'];

/** A client whose name, address and e-mail stand in whatever tells of them. */
async function aKnownClient() {
  const app = await startApp();
  const { desk } = app;
  const { commissionId, pieceId, quote, linkId, browser } = await aFollowedCommission(app, { name: NAME });
  const { clientId } = (await desk.get(`/commissions/${commissionId}`).expect(200)).body;
  await browser.send('/messages', { words: `${NAME} here` }).expect(303);
  await desk.post('/client-letters', { commissionId, kind: 'other', how: 'phone', note: NAME }).expect(201);
  const deposit = { commissionId, kind: 'deposit', how: 'cash', amount: eur(5000) };
  const payment = (await desk.post('/payments', deposit).expect(201)).body.id as string;
  return { ...app, clientId: clientId as string, commissionId, pieceId, quote, linkId, payment };
}

type Known = Awaited<ReturnType<typeof aKnownClient>>;

/** The address of each route that reads, of what is this client's; where several things could be meant, those it is asked of. */
function addressesOf({ clientId, commissionId, pieceId, quote, linkId, payment }: Known, path: string): string[] {
  const first = path.split('/')[1]!;
  const ids: Readonly<Record<string, string[]>> = {
    clients: [clientId],
    commissions: [commissionId],
    quotes: [quote.id],
    payments: [payment],
    'private-links': [linkId],
    pieces: [pieceId],
    documents: [quote.id, payment, commissionId, pieceId],
    labels: [pieceId],
  };
  if (path === '/search') return ['/search?text=millrace'];
  if (!path.includes('{')) return [path];
  return (ids[first] ?? []).map((id) => path.replace('{id}', id));
}

const looksAt = async ({ owner }: Pick<TestApp, 'owner'>, clientId: string) =>
  (await owner.get(`/client-looks?clientId=${clientId}&limit=200`).expect(200)).body.items as {
    way: string;
    person: string;
    at: string;
    clientId: string | null;
  }[];

test('whatever route tells something of a client, the look is noted', async () => {
  const known = await aKnownClient();
  const { desk, owner, clientId, clock } = known;
  const reads = operationsOf(await apiDocument(owner)).filter(({ method }) => method === 'GET');
  const told: string[] = [];
  for (const { path, route } of reads) {
    if (['/client-looks', '/metrics', '/openapi.json'].includes(path) || path.startsWith('/backups')) continue;
    for (const address of addressesOf(known, path)) {
      // The next hour, so that each look is a line of its own.
      clock.advance({ hours: 1 });
      // A picture has no text.
      const { status, text } = (await owner.get(address)) as { status: number; text: string | undefined };
      if (status !== 200 || !MARKS.some((mark) => text?.includes(mark))) continue;
      told.push(route);
      const looks = (await looksAt(known, clientId)).filter(({ at }) => at === clock.now().toISOString());
      expect([route, looks.map(({ person }) => person)]).toEqual([route, ['Flint']]);
    }
  }
  expect(told).toEqual(
    expect.arrayContaining([
      'GET /clients',
      'GET /clients/:id',
      'GET /clients/:id/held',
      'GET /client-letters',
      'GET /client-messages',
      'GET /commissions',
      'GET /commissions/:id',
      'GET /documents/payment-receipts/:id',
      'GET /documents/quote-letters/:id',
      'GET /documents/take-in-receipts/:id',
      'GET /exports/clients',
      'GET /journal',
      'GET /private-links',
      'GET /private-links/:id',
      'GET /search',
    ]),
  );
  clock.advance({ hours: 1 });
  await owner.post('/exports').expect(200);
  await desk.get(`/documents/take-in-receipts/${known.commissionId}?format=pdf`).expect(200);
  const last = (await looksAt(known, clientId)).filter(({ at }) => at === clock.now().toISOString());
  expect(last).toMatchObject([
    { way: 'paper', person: 'Tamarisk', clientId },
    { way: 'export', person: 'Flint', clientId: null },
  ]);
});

test('a look is noted once an hour for each person and way; who is told no name has looked at nobody', async () => {
  const app = await startApp();
  const { owner, desk, bench, student, clock } = app;
  const clientId = await aClient(desk);
  const { id } = await aCommission(desk, { clientId });
  const other = await aClient(desk, 'Harbour');
  for (let i = 0; i < 3; i++) await desk.get(`/clients/${clientId}`).expect(200);
  await desk.get('/clients').expect(200);
  await bench.get(`/commissions/${id}`).expect(200);
  await student.get(`/commissions/${id}`).expect(404);
  await bench.get(`/clients/${clientId}`).expect(403);
  await desk.get('/clients/01964e00-0000-7000-8000-000000000000').expect(404);
  clock.advance({ minutes: 59 });
  await desk.get(`/clients/${clientId}`).expect(200);
  clock.advance({ minutes: 1 });
  await desk.get(`/clients/${clientId}`).expect(200);
  const ways = (await looksAt(app, clientId)).map(({ way, person }) => `${person}: ${way}`);
  expect(ways).toEqual(['Tamarisk: client', 'Basalt: commission', 'Tamarisk: list', 'Tamarisk: client']);
  expect((await looksAt(app, other)).map(({ way }) => way)).toEqual(['list']);
  // Who looked is the owner's to know.
  await desk.get('/client-looks').expect(403);
  const page = (await owner.get('/client-looks?limit=2').expect(200)).body;
  expect(page.items).toHaveLength(2);
  const next = (await owner.get(`/client-looks?limit=2&cursor=${page.nextCursor}`).expect(200)).body;
  expect(next.items[0].id).not.toBe(page.items[1].id);
});

test('a book that cannot be written is read all the same', async () => {
  const { db, desk } = await startApp();
  const clientId = await aClient(desk);
  db.run(sql`PRAGMA query_only = ON`);
  await desk.get(`/clients/${clientId}`).expect(200);
  db.run(sql`PRAGMA query_only = OFF`);
});
