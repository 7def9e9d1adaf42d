import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { pieces } from '../../src/platform/db/tables.ts';
import { aPricedPendant, eur } from '../support/a-quote.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A pendant that is being finished. */
async function aFinished(app: TestApp): Promise<{ pieceId: string; number: string; commissionId: string }> {
  const made = await aPricedPendant(app);
  app.db.update(pieces).set({ state: 'finishing' }).where(eq(pieces.id, made.pieceId)).run();
  return made;
}

const packetOf = (pieceIds: string[], given: Record<string, unknown> = {}) => ({
  place: 'DE',
  office: 'Harbour office',
  fee: eur(2500),
  post: eur(1100),
  perArticle: eur(65),
  articles: 8,
  pieces: pieceIds.map((pieceId) => ({ pieceId, weighedG: 6.1234, parts: 'plate, bezel, bail', partMarks: eur(120) })),
  ...given,
});

test('a packet shares its cost by its articles, and its pieces go and come back with it', async () => {
  const app = await startApp();
  const { pieceId, number } = await aFinished(app);
  const made = await app.desk
    .post('/hallmark-packets', packetOf([pieceId]))
    .expect(201)
    .expect('etag', '"1"');
  // (25.00 + 11.00)/8 + 0.65 + 1.20
  expect(made.body).toMatchObject({
    number: 'P1',
    state: 'packing',
    articles: 8,
    total: eur(2500 + 1100 + 8 * 65 + 120),
    allowedMoves: ['sent', 'dropped'],
    pieces: [
      { number, weighedG: 6.1234, cost: eur(635), outcome: null, fineness: { finding: 'no_rule', standardFraction: 0.925 } },
    ],
    sentOn: null,
    daysOut: null,
  });
  const path = `/hallmark-packets/${made.body.id}`;
  const move = (from: string, to: string, extra: object = {}) => app.desk.move(path, { from, to, ...extra }, app.clock.now());
  await move('packing', 'sent').expect(200);
  expect((await app.bench.get(`/pieces/${pieceId}`)).body).toMatchObject({
    state: 'away',
    whereabouts: 'away',
    stateReason: 'Harbour office, packet P1',
  });
  app.clock.advance({ days: 4 });
  await move('sent', 'there').expect(200);
  await move('there', 'struck').expect(200);
  const short = await move('struck', 'back').expect(409);
  expect(short.body.missing).toEqual([`count and weigh ${number} ("back")`]);
  app.clock.advance({ days: 3 });
  const back = await move('struck', 'back', { back: [{ pieceId, weighedG: 6.12 }] }).expect(200);
  expect(back.body).toMatchObject({
    state: 'back',
    sentOn: '2031-05-05',
    backOn: '2031-05-12',
    daysOut: 7,
    pieces: [{ outcome: 'struck', backG: 6.12 }],
    allowedMoves: [],
  });
  expect((await app.bench.get(`/pieces/${pieceId}`)).body).toMatchObject({
    state: 'finishing',
    whereabouts: 'bench',
    weighedG: 6.12,
  });
  expect((await app.desk.get(`/hallmark-packets?pieceId=${pieceId}&state=back`).expect(200)).body.items).toHaveLength(1);
  expect((await app.desk.get('/hallmark-packets?state=sent').expect(200)).body.items).toEqual([]);
});

test('a packet is not sent before its pieces are weighed, being finished and within the rules of the place', async () => {
  const app = await startApp();
  const { pieceId, number, products } = { ...(await aPricedPendant(app)) };
  const bare = packetOf([pieceId], { pieces: [{ pieceId, parts: 'one' }] });
  const { body } = await app.desk.post('/hallmark-packets', bare).expect(201);
  const path = `/hallmark-packets/${body.id}`;
  const send = (extra: object = {}, person = app.desk) => person.move(path, { from: 'packing', to: 'sent', ...extra });
  expect((await send().expect(409)).body.missing).toEqual([`weigh ${number}`, `${number} is drawn, not being finished`]);
  app.db.update(pieces).set({ state: 'finishing' }).where(eq(pieces.id, pieceId)).run();
  await app.desk.patch(path, { pieces: packetOf([pieceId]).pieces, articles: null }, 1).expect(200);
  await app.owner.put('/place-rules/DE', { source: 'the office', leastSolderFinenessFraction: 0.65, markOverG: 1 }).expect(200);
  const easy = (await app.owner.get(`/solder-products/${products['easy']}`).expect(200)).body;
  await app.owner.patch(`/solder-products/${products['easy']}`, { silverFraction: 0.56 }, easy.version).expect(200);
  const shown = (await app.desk.get(path).expect(200)).body;
  expect(shown.articles).toBe(1);
  expect(shown.pieces[0].fineness).toMatchObject({ finding: 'outside', leastSolderFraction: 0.56 });
  expect(shown.pieces[0].fineness.says[1]).toMatch(/^It needs a mark: over 1 g, at \d\.\d\d g before it is finished$/);
  const refused = (await send().expect(409)).body;
  expect(refused.missing[0]).toBe(`${number}: Its least fine solder is 560 ‰, under this place's 650 ‰`);
  await send({ override: true, reason: 'they take it' }).expect(403);
  await send({ override: true }, app.owner).expect(422);
  await send({ override: true, reason: 'they take it' }, app.owner).expect(200);
  const late = await app.desk.patch(path, { post: eur(1) }, 3).expect(409);
  expect(late.body.detail).toBe('Cannot change packet P1: it is sent');
});

test('a refused piece is hurt, with an incident, and comes back so', async () => {
  const app = await startApp();
  const { pieceId, number } = await aFinished(app);
  const { body } = await app.desk.post('/hallmark-packets', packetOf([pieceId])).expect(201);
  const move = (from: string, to: string, extra: object = {}, person = app.desk) =>
    person.move(`/hallmark-packets/${body.id}`, { from, to, ...extra });
  await move('packing', 'sent').expect(200);
  await move('sent', 'there').expect(200);
  const lost = await move('there', 'lost', { insurerTold: true, reason: 'no trace' }).expect(403);
  expect(lost.body.detail).toContain('that is for owner');
  expect((await move('there', 'refused').expect(409)).body.missing).toEqual(['say what the office wrote, in "reason"']);
  const elsewhere = '01890a5d-ac96-774b-bcce-b302099a8057';
  await move('there', 'refused', { reason: 'solder too low', refusedPieceIds: [elsewhere] }).expect(409);
  const refused = await move('there', 'refused', { reason: 'solder too low' }).expect(200);
  expect(refused.body).toMatchObject({
    state: 'refused',
    stateReason: 'solder too low',
    pieces: [{ outcome: 'refused', state: 'hurt' }],
  });
  const { items } = (await app.bench.get(`/incidents?pieceId=${pieceId}`).expect(200)).body;
  expect(items).toMatchObject([{ kind: 'mark_refused', note: 'Harbour office: solder too low', state: 'seen' }]);
  await move('refused', 'back', { back: [{ pieceId, weighedG: 6.1 }] }).expect(200);
  expect((await app.bench.get(`/pieces/${pieceId}`)).body).toMatchObject({ number, state: 'hurt', whereabouts: 'bench' });
});

test('a lost packet needs the insurer told; a piece is in one packet at a time', async () => {
  const app = await startApp();
  const { pieceId, number } = await aFinished(app);
  const { body } = await app.desk.post('/hallmark-packets', packetOf([pieceId])).expect(201);
  const twice = await app.desk.post('/hallmark-packets', packetOf([pieceId, pieceId], { articles: 1 })).expect(422);
  expect(twice.body.errors.map(({ detail }: { detail: string }) => detail)).toEqual([
    'There are 2 pieces in it.',
    `${number} is in packet P1, which is packing.`,
    'This piece is in it already.',
  ]);
  const move = (from: string, to: string, extra: object = {}) =>
    app.owner.move(`/hallmark-packets/${body.id}`, { from, to, ...extra });
  await move('packing', 'sent').expect(200);
  expect((await move('sent', 'lost').expect(409)).body.missing).toHaveLength(2);
  const lost = await move('sent', 'lost', { insurerTold: true, reason: 'no trace of it' }).expect(200);
  expect(lost.body).toMatchObject({ state: 'lost', pieces: [{ outcome: 'lost', state: 'hurt' }] });
  const { body: other } = await app.desk.post('/hallmark-packets', packetOf([pieceId])).expect(201);
  expect(other.number).toBe('P2');
  await app.desk.move(`/hallmark-packets/${other.id}`, { from: 'packing', to: 'dropped' }).expect(200);
  await app.desk.move(`/hallmark-packets/${other.id}`, { from: 'dropped', to: 'sent' }).expect(409);
});

test('packets are for desk and owner, in the currency of the studio, and tell every bad field', async () => {
  const app = await startApp();
  const { pieceId } = await aFinished(app);
  await app.bench.post('/hallmark-packets', packetOf([pieceId])).expect(403);
  await app.stranger.get('/hallmark-packets').expect(401);
  await app.desk.get('/hallmark-packets/01890a5d-ac96-774b-bcce-b302099a8057').expect(404);
  const pointers = async (body: object) =>
    (await app.desk.post('/hallmark-packets', body).expect(422)).body.errors.map(({ pointer }: { pointer: string }) => pointer);
  expect(await pointers(packetOf([pieceId], { fee: { amountMinor: 100, currency: 'JPY' } }))).toEqual(['/fee/currency']);
  expect(await pointers(packetOf([pieceId], { fee: eur(-1), articles: 0, pieces: [], place: 'Germany', colour: 1 }))).toEqual(
    expect.arrayContaining(['/fee/amountMinor', '/articles', '/pieces', '/place', '/colour']),
  );
  expect(await pointers(packetOf(['01890a5d-ac96-774b-bcce-b302099a8057']))).toEqual(['/pieces/0/pieceId']);
});
