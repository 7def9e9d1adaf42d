import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, jointStates, planInUse, readiness, workHeat } from '../support/at-the-bench.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { aPicture, sendPhoto } from '../support/pictures.ts';
import { startApp } from '../support/start-app.ts';

test('a piece goes from drawn to built, heat by heat, and its history and the drawer know it', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const path = `/pieces/${piece.id}`;
  expect((await bench.get(path).expect(200)).body).toMatchObject({
    number: piece.number,
    state: 'drawn',
    designNumber: 1,
    planInUse: null,
    allowedMoves: expect.arrayContaining(['cut', 'set_aside']),
    solderHistory: [],
  });
  const { plan, heats } = await planInUse(bench, piece.id);
  expect(heats.map(({ number, joints, state }) => [number, joints, state])).toEqual([
    [`${piece.number} H1`, ['wall-seam'], 'laid_out'],
    [`${piece.number} H2`, ['bail-seam'], 'laid_out'],
    [`${piece.number} H3`, ['bezel'], 'laid_out'],
    [`${piece.number} H4`, ['bail-on'], 'laid_out'],
  ]);
  await issueMetal(bench, piece.id);
  for (const heat of heats) expect(await workHeat(bench, heat.id, lots)).toMatchObject({ state: 'cleared', outcome: 'flowed' });
  expect(await jointStates(bench, piece.id)).toEqual({
    'wall-seam': 'sound',
    bezel: 'sound',
    'bail-seam': 'sound',
    'bail-on': 'sound',
  });
  const built = await bench.move(path, { from: 'soldering', to: 'built' }).expect(200);
  expect(built.body).toMatchObject({ state: 'built', planInUse: { id: plan.id, number: 1 } });
  expect(built.body.solderHistory).toHaveLength(4);
  expect(built.body.solderHistory[3]).toMatchObject({
    joint: 'bail-on',
    heat: 'H4',
    solder: 'easy',
    outcome: 'sound',
    lot: 'L3',
  });
  const uses = (await owner.get('/stock-movements').expect(200)).body.items.filter(
    ({ kind }: { kind: string }) => kind === 'use',
  );
  expect(uses).toHaveLength(4);
  const lines = (await owner.get(`/journal?thingId=${piece.id}`).expect(200)).body.items;
  expect(lines.length).toBeGreaterThan(4);
});

test('a built piece is finished, looked over by another hand, weighed and made ready', async () => {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const path = `/pieces/${piece.id}`;
  const { heats } = await planInUse(bench, piece.id);
  await issueMetal(bench, piece.id);
  for (const heat of heats) await workHeat(bench, heat.id, lots);
  await bench.move(path, { from: 'soldering', to: 'built' }).expect(200);
  await bench.move(path, { from: 'built', to: 'finishing' }).expect(200);
  await desk.move(path, { from: 'finishing', to: 'away' }).expect(409);
  const away = await desk.move(path, { from: 'finishing', to: 'away', sentTo: 'the engraver' }).expect(200);
  expect(away.body).toMatchObject({ whereabouts: 'away', stateReason: 'the engraver' });
  const lookedOver = ['joints', 'surface', 'edges', 'sizes', 'fittings'];
  const back = { from: 'away', to: 'finishing', lookedOver };
  const other = await desk.move(path, { ...back, weighedG: 62 }).expect(422);
  expect(other.body.errors).toEqual([expect.objectContaining({ pointer: '/weighedG', confirmable: true })]);
  await desk.move(path, { ...back, weighedG: 6.2 }).expect(200);

  const own = await bench.move(path, { from: 'finishing', to: 'checked', lookedOver }).expect(409);
  expect(own.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    missing: [expect.stringContaining('another hand')],
  });
  const part = await owner.move(path, { from: 'finishing', to: 'checked', lookedOver: ['joints'] }).expect(409);
  expect(part.body.missing).toEqual(['look over surface, edges, sizes, fittings (lookedOver)']);
  await owner.move(path, { from: 'finishing', to: 'checked', lookedOver }).expect(200);

  const bare = await owner.move(path, { from: 'checked', to: 'ready' }).expect(409);
  expect(bare.body.missing).toHaveLength(3);
  const { computedG } = (await owner.get(path)).body;
  const ready = { from: 'checked', to: 'ready', photoTaken: true, labelled: true };
  const unseen = await owner.move(path, { ...ready, photoTaken: undefined, weighedG: computedG }).expect(409);
  expect(unseen.body.missing).toEqual([expect.stringContaining('POST /photos')]);
  const asked = await owner.move(path, { ...ready, weighedG: 70.8 }).expect(422);
  expect(asked.body.errors).toEqual([
    expect.objectContaining({ pointer: '/weighedG', confirmable: true, given: 70.8, unit: 'g' }),
  ]);
  const confirmed = await owner
    .move(path, { ...ready, weighedG: 7.4 })
    .set('confirm', '/weighedG')
    .set('confirm-reason', 'the bail is thicker than drawn')
    .expect(200);
  expect(confirmed.body).toMatchObject({ state: 'ready', weighedG: 7.4 });
  // 480 mm³ of plate and 18.5 mm³ of bail at 10.36, 34.1 mm³ of fine-silver wall at 10.49 g/cm³.
  expect(computedG).toBeCloseTo(5.52, 2);
  await owner.move(path, { from: 'ready', to: 'given' }).expect(409);
});

test('solder held for a piece shrinks with every heat, and the rest is free when the piece is built', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'own_stock' });
  const { heats } = await planInUse(bench, piece.id);
  const commission = `/commissions/${piece.commissionId}`;
  await owner.move(commission, { from: 'asked', to: 'shaping' }).expect(200);
  await owner.move(commission, { from: 'shaping', to: 'agreed' }).expect(200);
  const heldG = async () => {
    const { items } = (await owner.get('/stock').expect(200)).body as { items: { code: string; heldG: number }[] };
    return Object.fromEntries(items.map((product) => [product.code, product.heldG]));
  };
  const needed = heats.map((heat) => heat['plannedG'] as number);
  // A tenth more is held than the plan takes.
  const before = await heldG();
  expect(before['hard']).toBeCloseTo(1.1 * (needed[0]! + needed[1]!), 4);
  expect(before['easy']).toBeCloseTo(1.1 * needed[3]!, 4);
  await issueMetal(bench, piece.id);
  await workHeat(bench, heats[0]!.id, lots);
  expect((await heldG())['hard']).toBeCloseTo(before['hard']! - needed[0]!, 4);
  for (const heat of heats.slice(1)) await workHeat(bench, heat.id, lots);
  expect((await heldG())['easy']).toBeGreaterThan(0);
  await bench.move(`/pieces/${piece.id}`, { from: 'soldering', to: 'built' }).expect(200);
  expect(await heldG()).toEqual({ hard: 0, medium: 0, easy: 0 });
});

test('metal issued far from what the design weighs is asked about', async () => {
  const app = await startApp();
  const piece = await aDrawnPiece(app);
  const cut = (metalIssuedG: number) => app.bench.move(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut', metalIssuedG });
  for (const metalIssuedG of [5, 75]) {
    const asked = await cut(metalIssuedG).expect(422);
    expect(asked.body.errors).toMatchObject([{ pointer: '/metalIssuedG', given: metalIssuedG, unit: 'g', confirmable: true }]);
  }
  expect((await app.bench.get(`/pieces/${piece.id}`)).body).toMatchObject({ state: 'drawn', metalIssuedG: null });
  await cut(7.5).expect(200);
});

test('a photo of the finished piece in the book is its photo; one of before is not', async () => {
  const app = await startApp();
  const { owner, clock } = app;
  const piece = putPiece(app, await aCommission(owner, { kind: 'own_stock', clientId: null }), { state: 'built' });
  const path = `/pieces/${piece.id}`;
  const photo = await aPicture().jpeg().toBuffer();
  await sendPhoto(owner, photo, { pieceId: piece.id }).expect(201);
  clock.advance({ minutes: 1 });
  await owner.move(path, { from: 'built', to: 'finishing' }).expect(200);
  const lookedOver = ['joints', 'surface', 'edges', 'sizes', 'fittings'];
  await owner.move(path, { from: 'finishing', to: 'checked', lookedOver }).expect(200);
  const ready = { from: 'checked', to: 'ready', weighedG: 4.3, labelled: true };
  const missing = [expect.stringContaining('add a photo of it as it is finished')];
  expect((await owner.move(path, ready).expect(409)).body.missing).toEqual(missing);
  await sendPhoto(owner, photo, { pieceId: piece.id, takenAt: '2031-05-05T07:00:00Z' }).expect(201);
  expect((await owner.move(path, ready).expect(409)).body.missing).toEqual(missing);
  await sendPhoto(owner, photo, { pieceId: piece.id }).expect(201);
  await owner.move(path, ready).expect(200);
});

test('nobody cuts, readies or lights what was called off', async () => {
  const app = await startApp();
  const { bench, db } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, piece.id);
  const heat = `/heats/${heats[0]!.id}`;
  const commission = (state: string) => db.run(`UPDATE commissions SET state = '${state}'`);
  const says = [expect.stringMatching(/^C\d+-\d+ was called off$/)];
  const refused = async (path: string, move: Parameters<typeof bench.move>[1]) =>
    (await bench.move(path, move).expect(409)).body.missing as string[];
  commission('called_off');
  expect(await refused(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut', metalIssuedG: 9 })).toEqual(says);
  commission('on_bench');
  await issueMetal(bench, piece.id);
  const ready = await readiness(bench, heats[0]!.id, lots);
  commission('called_off');
  expect(await refused(heat, ready)).toEqual(says);
  commission('on_bench');
  await bench.move(heat, ready).expect(200);
  commission('called_off');
  expect(await refused(heat, { from: 'primed', to: 'alight' })).toEqual(says);
  // What was lit before, where the network was gone, is told after.
  app.clock.advance({ minutes: 20 });
  db.run(`UPDATE commissions SET state_since = '${app.clock.now().toISOString()}'`);
  app.clock.advance({ minutes: 20 });
  await bench.move(heat, { from: 'primed', to: 'alight', occurredAt: '2031-05-05T08:10:00Z' }).expect(200);
});
