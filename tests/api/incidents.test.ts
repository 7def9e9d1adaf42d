import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp, type Person } from '../support/start-app.ts';

test('anyone notes an incident in one step, and a piece at work is hurt by it', async () => {
  const app = await startApp();
  const { bench, desk, student, owner } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const early = await desk.post('/incidents', { pieceId: id, kind: 'lost' }).expect(201);
  expect(early.body).toMatchObject({ state: 'seen', likelyCause: null, seenAt: '2031-05-05T08:00:00.000Z' });
  // A drawn piece has nothing that could be hurt.
  expect((await bench.get(`/pieces/${id}`)).body.state).toBe('drawn');
  const { heats } = await planInUse(bench, id);
  await issueMetal(bench, id);
  await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(200);
  const seen = { pieceId: id, kind: 'shifted', heatId: heats[0]!.id, jointId: 'wall-seam', note: 'knocked over' };
  const made = await student.post('/incidents', seen).set('idempotency-key', 'seen-at-nine').expect(201);
  expect((await student.post('/incidents', seen).set('idempotency-key', 'seen-at-nine').expect(201)).body).toEqual(made.body);
  expect((await bench.get(`/pieces/${id}`)).body).toMatchObject({ state: 'hurt', stateReason: 'incident: shifted' });
  expect((await owner.get('/incidents?state=seen').expect(200)).body.items).toHaveLength(2);
  expect((await desk.get(`/incidents/${early.body.id}`).expect(200)).body.allowedMoves).toEqual([]);
  // What is hurt is not lit.
  const refused = await bench.move(`/heats/${heats[0]!.id}`, { from: 'primed', to: 'alight' }).expect(409);
  expect(refused.body.missing).toEqual([expect.stringContaining('is hurt')]);
});

test('POST incidents refuses what is not there, all at once', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aDrawnPiece(app);
  const wrong = { pieceId: id, heatId: id, jointId: 'nose', kind: 'reflow' };
  const refused = await bench.post('/incidents', wrong).expect(422);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/heatId', '/jointId']);
  const early = await bench
    .post('/incidents', { pieceId: id, kind: 'pit', seenAt: '2031-05-05T08:06:00Z', jointId: 'nose' })
    .expect(422);
  expect(early.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/seenAt', '/jointId']);
  await bench.post('/incidents', { pieceId: id, kind: 'bad luck' }).expect(422);
  const asked = await bench.post('/incidents', { pieceId: id, kind: 'pit', minutesLost: 300, solderUsedG: 200 }).expect(422);
  expect(asked.body.errors).toEqual([
    expect.objectContaining({ pointer: '/minutesLost', confirmable: true }),
    expect.objectContaining({ pointer: '/solderUsedG', given: 200 }),
  ]);
  expect((await bench.get(`/incidents?pieceId=${id}`)).body.items).toEqual([]);
});

test('an incident is explained, then put right by the one who saw it, or left as it is by the owner', async () => {
  const app = await startApp();
  const { bench, owner, student } = app;
  const { id } = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const made = (await owner.post('/incidents', { pieceId: id, kind: 'pit' }).expect(201)).body;
  const path = `/incidents/${made.id}`;
  await student.move(path, { from: 'seen', to: 'explained', likelyCause: 'dirty' }).expect(403);
  const bare = await bench.move(path, { from: 'seen', to: 'explained' }).expect(409);
  expect(bare.body.missing).toEqual(['choose the likely cause (likelyCause)']);
  await bench.patch(path, { likelyCause: 'dirty', minutesLost: 12 }, 1).expect(200);
  await bench.patch(path, { likelyCause: 'gap' }, 1).expect(412);
  await bench.move(path, { from: 'seen', to: 'explained' }).expect(200);
  const right = { from: 'explained', to: 'put_right', how: 'scraped and filled' };
  await bench.move(path, { ...right, solderUsedG: 0.01 }).expect(403);
  expect((await owner.move(path, right).expect(409)).body.missing).toEqual(['say how much solder was lost (solderUsedG)']);
  const done = await owner.move(path, { ...right, solderUsedG: 0.01 }).expect(200);
  expect(done.body).toMatchObject({
    state: 'put_right',
    likelyCause: 'dirty',
    minutesLost: 12,
    solderUsedG: 0.01,
    howEnded: 'scraped and filled',
    allowedMoves: [],
  });
  const other = (await bench.post('/incidents', { pieceId: id, kind: 'fire_stain', likelyCause: 'unknown' }).expect(201)).body;
  await bench.move(`/incidents/${other.id}`, { from: 'seen', to: 'explained' }).expect(200);
  await bench.move(`/incidents/${other.id}`, { from: 'explained', to: 'left_as_is', clientTold: true }).expect(403);
  await owner.move(`/incidents/${other.id}`, { from: 'explained', to: 'left_as_is' }).expect(409);
  const left = await owner.move(`/incidents/${other.id}`, { from: 'explained', to: 'left_as_is', clientTold: true }).expect(200);
  expect(left.body).toMatchObject({ state: 'left_as_is', clientTold: true });
});

test('GET cautions gives every caution with its rhythm, and the words that defer to others', async () => {
  const { student, stranger } = await startApp();
  const { cautions, deferral } = (await student.get('/cautions').expect(200)).body;
  expect(cautions.map(({ id }: { id: string }) => id)).toEqual(Array.from({ length: 21 }, (_, index) => `C${index + 1}`));
  expect(cautions[4]).toMatchObject({ id: 'C5', tick: 'blocks', words: expect.stringContaining('Do not heat') });
  expect(deferral).toContain('try it on scrap');
  await stranger.get('/cautions').expect(401);
});

test('an incident that was closed is changed by who may close it, and by nobody else', async () => {
  const app = await startApp();
  const { bench, owner, actors } = app;
  const { id } = await aDrawnPiece(app);
  const closed = async (seer: Person): Promise<string> => {
    const path = `/incidents/${(await seer.post('/incidents', { pieceId: id, kind: 'pit' }).expect(201)).body.id}`;
    await seer.move(path, { from: 'seen', to: 'explained', likelyCause: 'dirty' }).expect(200);
    const right = { how: 'scraped and filled', minutesLost: 12, solderUsedG: 0 };
    await seer.move(path, { from: 'explained', to: 'put_right', ...right }).expect(200);
    return path;
  };
  const [own, other] = [await closed(bench), await closed(owner)];
  const refused = await bench.patch(other, { minutesLost: 90 }, 3).expect(403);
  expect(refused.body.detail).toContain('for the one who saw it, or the owner');
  expect((await owner.get(other)).body).toMatchObject({ minutesLost: 12, version: 3 });
  await bench.patch(own, { minutesLost: 15 }, 3).expect(200);
  await owner.patch(own, { minutesLost: 20 }, 4).expect(200);
  expect((await owner.get(own)).body).toMatchObject({ minutesLost: 20, seenBy: actors.bench.personId });
});
