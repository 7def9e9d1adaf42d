import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, workHeat } from '../support/at-the-bench.ts';
import { startApp } from '../support/start-app.ts';

test('POST pieces numbers the pieces of a commission, and no more than were ordered', async () => {
  const app = await startApp();
  const { bench, desk, student } = app;
  const commission = await aCommission(desk, { kind: 'small_run', quantity: 2 });
  const body = { commissionId: commission.id, title: 'Cup', metal: 'sterling-925' };
  const first = await bench.post('/pieces', body).expect(201).expect('etag', '"1"');
  expect(first.body).toMatchObject({
    number: `${commission.number}.1`,
    serial: 1,
    state: 'drawn',
    whereabouts: 'bench',
    joints: [],
  });
  expect((await bench.post('/pieces', { ...body, serial: 1 }).expect(409)).body.type).toBe('/api/v1/problems/already-used');
  await bench.post('/pieces', body).expect(201);
  const third = await bench.post('/pieces', body).expect(422);
  expect(third.body.errors).toEqual([{ pointer: '/serial', detail: 'Piece 3 of 2: raise the quantity first.', given: 3 }]);
  expect((await bench.get(`/pieces?commissionId=${commission.id}`).expect(200)).body.items).toHaveLength(2);
  expect((await bench.get('/pieces?state=cut').expect(200)).body.items).toEqual([]);
  await student.post('/pieces', body).expect(403);
  const wrong = await bench.post('/pieces', { commissionId: 'x', title: ' ', metal: 925, serial: 501, weight: 3 }).expect(422);
  expect(wrong.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
    '/commissionId',
    '/title',
    '/metal',
    '/weight',
    '/serial',
  ]);
});

test('PATCH pieces renames, and a piece that nobody can find opens an incident', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}`;
  await bench.patch(path, { title: 'Marsh lantern' }).expect(428);
  const renamed = await bench.patch(path, { title: 'Marsh lantern' }, 1).expect(200).expect('etag', '"2"');
  expect(renamed.body).toMatchObject({ title: 'Marsh lantern', version: 2 });
  await bench.patch(path, { title: 'Other' }, 1).expect(412);
  await bench.patch(path, { state: 'ready', solderHistory: [] }, 2).expect(422);
  await bench.patch(path, { whereabouts: 'unknown' }, 2).expect(200);
  const { items } = (await bench.get(`/incidents?pieceId=${id}`).expect(200)).body;
  expect(items).toEqual([expect.objectContaining({ kind: 'lost', state: 'seen', pieceId: id })]);
});

test('a piece is cut when metal is issued, and no move skips its life cycle', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  const { id, number } = await aDrawnPiece(app);
  const path = `/pieces/${id}`;
  const bare = await bench.move(path, { from: 'drawn', to: 'cut' }).expect(409);
  expect(bare.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    detail: `Cannot move ${number} to cut: say how much metal was issued (metalIssuedG)`,
  });
  await desk.move(path, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(403);
  const extra = await bench.move(path, { from: 'drawn', to: 'cut', metalIssuedG: 7.5, photoTaken: true }).expect(422);
  expect(extra.body.errors).toEqual([expect.objectContaining({ pointer: '/photoTaken' })]);
  const cut = await bench.move(path, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(200);
  expect(cut.body).toMatchObject({ state: 'cut', metalIssuedG: 7.5 });
  const far = await bench.move(path, { from: 'cut', to: 'ready' }).expect(409);
  expect(far.body).toMatchObject({ type: '/api/v1/problems/move-not-allowed', state: 'cut' });
  await bench.move(path, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(409);
  const open = await bench.move(path, { from: 'cut', to: 'built' }).expect(409);
  expect(open.body.missing).toHaveLength(4);
  const early = await bench.move(path, { from: 'cut', to: 'soldering' }).expect(409);
  expect(early.body.missing).toEqual(['it goes there by itself when its first heat is primed']);
});

test('a piece is set aside with a reason and comes back to where it was', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}`;
  await issueMetal(bench, id);
  await bench.move(path, { from: 'cut', to: 'set_aside' }).expect(409);
  const aside = await bench.move(path, { from: 'cut', to: 'set_aside', reason: 'waiting for the stone' }).expect(200);
  expect(aside.body).toMatchObject({ stateBeforeAside: 'cut', stateReason: 'waiting for the stone', allowedMoves: ['cut'] });
  const wrong = await bench.move(path, { from: 'set_aside', to: 'drawn' }).expect(409);
  expect(wrong.body.missing).toEqual(['it was set aside as cut, and goes back only to that']);
  const back = await bench.move(path, { from: 'set_aside', to: 'cut' }).expect(200);
  expect(back.body).toMatchObject({ state: 'cut', stateBeforeAside: null, metalIssuedG: 7.5 });
});

test('soldering is over when every joint is sound and every heat is done; a hurt piece without damage to heat goes on', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}`;
  const { heats } = await planInUse(bench, id);
  await issueMetal(bench, id);
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  const left = await bench.move(path, { from: 'soldering', to: 'built' }).expect(409);
  expect(left.body.missing).toEqual(['joint bail-on is open', 'H4 is laid out']);
  const skip = await bench.move(`/heats/${heats[3]!.id}`, { from: 'laid_out', to: 'skipped' }).expect(409);
  expect(skip.body.missing[0]).toContain('plan again without it');
  await bench.move(path, { from: 'soldering', to: 'hurt' }).expect(409);
  await workHeat(bench, heats[3]!.id, lots);
  await bench.post('/incidents', { pieceId: id, kind: 'fire_stain' }).expect(201);
  expect((await bench.get(path)).body.state).toBe('hurt');
  await bench.move(path, { from: 'hurt', to: 'finishing' }).expect(403);
  await owner.move(path, { from: 'hurt', to: 'finishing' }).expect(409);
  await owner.move(path, { from: 'hurt', to: 'finishing', reason: 'the stain comes off with stone' }).expect(200);
});

test('a hurt piece is scrapped with its metal weighed, and the one made in its place carries the design', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const { id, number, commissionId } = await aDrawnPiece(app);
  const path = `/pieces/${id}`;
  const { heats } = await planInUse(bench, id);
  await issueMetal(bench, id);
  await workHeat(bench, heats[0]!.id, lots);
  await bench.post('/incidents', { pieceId: id, kind: 'overheated', heatId: heats[0]!.id }).expect(201);
  const bare = await owner.move(path, { from: 'hurt', to: 'scrapped' }).expect(409);
  expect(bare.body.missing).toHaveLength(2);
  const scrap = { from: 'hurt', to: 'scrapped', metalReturnedG: 6.9, remake: true };
  const scrapped = (await owner.move(path, scrap).expect(200)).body;
  expect(scrapped).toMatchObject({ state: 'scrapped', metalReturnedG: 6.9, remakePieceId: expect.any(String), allowedMoves: [] });
  const states = (await bench.get(`/heats?pieceId=${id}`)).body.items.map(({ state }: { state: string }) => state);
  expect(states).toEqual(['skipped', 'skipped', 'skipped', 'cleared']);
  const remake = (await bench.get(`/pieces/${scrapped.remakePieceId}`).expect(200)).body;
  expect(remake).toMatchObject({ state: 'drawn', remakeOfPieceId: id, designNumber: 1, number: number.replace(/\.1$/, '.2') });
  expect(remake.joints).toHaveLength(4);
  // The scrapped piece no longer counts: one is ordered, and one is being made.
  const more = { commissionId, title: 'Another', metal: 'sterling-925' };
  expect((await bench.post('/pieces', more).expect(422)).body.errors[0].detail).toBe('Piece 3 of 2: raise the quantity first.');
});
