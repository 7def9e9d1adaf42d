import { expect, test } from 'vitest';
import { runDuePlanSearches } from '../../src/features/plan-searches/plan-search-due-work.ts';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { pendant } from '../support/pendant.ts';
import { followSearch, overSearch } from '../support/plan-searches.ts';
import { startApp } from '../support/start-app.ts';
import { slowSearch, unlikeProngs } from '../support/unlike-prongs.ts';

test('a search of a piece is written down, followed to its end, and what it found becomes a draft like one found at once', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  await aDrawer(app);
  const { id: pieceId } = await aDrawnPiece(app);
  const options = { targetMarginK: 0 as const };
  const asked = await bench.post('/plan-searches', { pieceId, options }).expect(202).expect('etag', '"1"');
  expect(asked.headers['location']).toBe(`/api/v1/plan-searches/${asked.body.id}`);
  expect(asked.body).toMatchObject({
    pieceId,
    state: 'waiting',
    options,
    progress: null,
    answer: null,
    allowedMoves: ['stopped'],
  });
  expect(asked.body.personId).toBe(app.actors.bench.personId);

  const events = await followSearch(app, asked.body.id);
  expect(events[0]!.event).toBe('progress');
  const last = events.at(-1)!;
  expect(last).toMatchObject({
    event: 'end',
    id: 'end',
    data: { state: 'done', outcome: 'optimal', failure: null, planId: null },
  });
  const read = await bench.get(`/plan-searches/${asked.body.id}`).expect(200);
  expect(read.body).toEqual(last.data);
  expect(read.headers['etag']).toBe(`"${read.body.version}"`);
  const { progress, answer } = read.body;
  expect(progress.best.levels.map(({ level }: { level: string }) => level)).toEqual(
    answer.proof.map(({ level }: { level: string }) => level),
  );
  expect(progress.workUnits).toBeLessThanOrEqual(answer.stats.workUnits);

  const atOnce = (await bench.post(`/pieces/${pieceId}/plans`, { search: options }).expect(201)).body;
  const kept = await bench.post(`/plan-searches/${asked.body.id}/plans`).expect(201).expect('etag', '"1"');
  expect(kept.body).toMatchObject({
    pieceId,
    number: atOnce.number + 1,
    state: 'draft',
    origin: 'found',
    plan: atOnce.plan,
    check: atOnce.check,
  });
  expect((await bench.get(`/plan-searches/${asked.body.id}`)).body.planId).toBe(kept.body.id);
  const again = await bench.post(`/plan-searches/${asked.body.id}/plans`).expect(409);
  expect(again.body).toMatchObject({ type: '/api/v1/problems/condition-not-met', planId: kept.body.id });
  await desk.post(`/plan-searches/${asked.body.id}/plans`).expect(403);
});

test('a piece that has changed since keeps no plan of before', async () => {
  const app = await startApp();
  const { bench } = app;
  await aDrawer(app);
  const { id: pieceId } = await aDrawnPiece(app);
  const { id } = (await bench.post('/plan-searches', { pieceId }).expect(202)).body;
  const early = await bench.post(`/plan-searches/${id}/plans`);
  if (early.status !== 201) expect(early.body.detail).toContain('has no answer');
  await overSearch(bench, id);
  await bench.put(`/pieces/${pieceId}/design`, { ...pendant, rules: {} }, 1).expect(200);
  const refused = await bench.post(`/plan-searches/${id}/plans`).expect(409);
  expect(refused.body.type).toBe('/api/v1/problems/moved-on');
  expect((await bench.get(`/pieces/${pieceId}/plans`)).body.items).toHaveLength(0);
});

test('a running search is stopped by a move and answers with the best it has; one that waits is over at once', async () => {
  const app = await startApp();
  const { bench, desk, owner } = app;
  const asked = async () => (await bench.post('/plan-searches', slowSearch()).expect(202)).body.id as string;
  const [running, waiting] = [await asked(), await asked()];
  const best = async () => (await bench.get(`/plan-searches/${running}`)).body.progress?.best ?? null;
  await expect.poll(best, { timeout: 50_000 }).not.toBe(null);
  expect((await best()).levels).toHaveLength(6);
  const stopped = await bench.move(`/plan-searches/${waiting}`, { from: 'waiting', to: 'stopped' }).expect(200);
  expect(stopped.body).toMatchObject({ state: 'stopped', answer: null, endedAt: expect.any(String), allowedMoves: [] });

  const late = await bench.move(`/plan-searches/${running}`, { from: 'waiting', to: 'stopped' }).expect(409);
  expect(late.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'running', allowed: ['stopped'] });
  await bench.move(`/plan-searches/${running}`, { from: 'running', to: 'done' }).expect(403);
  await desk.move(`/plan-searches/${running}`, { from: 'running', to: 'stopped' }).expect(403);
  await owner.move(`/plan-searches/${running}`, { from: 'running', to: 'stopped' }).expect(200);
  const over = await overSearch(bench, running);
  expect(over).toMatchObject({ state: 'stopped', outcome: 'feasible', answer: { stats: { stoppedBy: 'host' } } });
  expect(over.answer.plan.heats.flatMap(({ joints }: { joints: string[] }) => joints)).toHaveLength(14);
  const refused = await bench.post(`/plan-searches/${running}/plans`).expect(409);
  expect(refused.body.detail).toContain('a design of no piece');
  const none = await bench.post(`/plan-searches/${waiting}/plans`).expect(409);
  expect(none.body.type).toBe('/api/v1/problems/condition-not-met');
  const lines = (await owner.get(`/journal?thingId=${running}`).expect(200)).body.items as { after: { state: string } }[];
  expect(lines.toReversed().map(({ after }) => after.state)).toEqual(['waiting', 'running', 'stopped', 'stopped']);
});

test('what cannot be searched is refused before it waits; what the engine cannot compute ends as failed, in words', async () => {
  const app = await startApp();
  const { bench } = app;
  await aDrawer(app);
  const { id: pieceId } = await aDrawnPiece(app);
  const { design, solders } = unlikeProngs(2);
  for (const body of [{}, { pieceId, design }, { pieceId, options: { keep: [] } }, { pieceId, options: { workUnits: 1 } }])
    await bench.post('/plan-searches', body).expect(422);
  const keep = [{ joints: ['nose'], solder: 'tin' }];
  const faulty = await bench.post('/plan-searches', { design, solders, options: { keep } }).expect(422);
  expect(faulty.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toContain('/options/keep/0/joints/0');
  await bench.post('/plan-searches', { pieceId: '01890000-0000-7000-8000-000000000000' }).expect(404);
  expect((await bench.get('/plan-searches')).body.items).toEqual([]);

  // The body takes a gas of 800 °C up, the heat model of 900.
  const cold = { torch: { powerW: 250, spreadMm: 10, gasC: 850 }, support: 'brick' };
  const { id } = (await bench.post('/plan-searches', { ...unlikeProngs(2), bench: cold, options: {} }).expect(202)).body;
  const over = await overSearch(bench, id);
  expect(over).toMatchObject({
    state: 'failed',
    answer: null,
    failure: expect.stringMatching(/^Cannot compute this: gasC must be/),
  });
});

test('a student looks for plans of practice pieces and of designs of their own, and knows of no others', async () => {
  const app = await startApp();
  const { bench, student, owner, desk } = app;
  await aDrawer(app);
  const { id: pieceId } = await aDrawnPiece(app);
  await student.post('/plan-searches', { pieceId }).expect(404);
  await desk.post('/plan-searches', { pieceId }).expect(403);
  const ofPiece = (await bench.post('/plan-searches', { pieceId }).expect(202)).body.id;
  const free = { ...unlikeProngs(2), options: {} };
  const [ofBench, ofStudent] = [
    (await bench.post('/plan-searches', free).expect(202)).body.id,
    (await student.post('/plan-searches', free).expect(202)).body.id,
  ];
  const seenBy = async (person: typeof bench, query = '') =>
    (await person.get(`/plan-searches${query}`).expect(200)).body.items.map(({ id }: { id: string }) => id);
  expect(await seenBy(student)).toEqual([ofStudent]);
  expect(await seenBy(bench)).toEqual([ofBench, ofPiece]);
  expect(await seenBy(owner)).toEqual([ofStudent, ofBench, ofPiece]);
  expect(await seenBy(bench, `?pieceId=${pieceId}`)).toEqual([ofPiece]);
  for (const path of ['', '/events']) await student.get(`/plan-searches/${ofPiece}${path}`).expect(404);
  await bench.get(`/plan-searches/${ofStudent}`).expect(404);
  await student.move(`/plan-searches/${ofBench}`, { from: 'waiting', to: 'stopped' }).expect(404);
  for (const id of [ofPiece, ofBench, ofStudent]) await overSearch(owner, id);
  expect(await seenBy(owner, '?state=waiting')).toEqual([]);
});

test('without an answer in time a search says that it was the clock', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = (await bench.post('/plan-searches', { ...unlikeProngs(12), options: { timeMs: 300 } }).expect(202)).body;
  const { state, answer } = await overSearch(bench, id);
  expect([state, answer.stats.stoppedBy]).toEqual(['done', 'time']);
});

test('a search is cleared away thirty days after its end, and the plan that was kept of it stays', async () => {
  const app = await startApp();
  const { bench, clock } = app;
  await aDrawer(app);
  const { id: pieceId } = await aDrawnPiece(app);
  const { id } = (await bench.post('/plan-searches', { pieceId, options: { targetMarginK: 0 } }).expect(202)).body;
  await overSearch(bench, id);
  const plan = (await bench.post(`/plan-searches/${id}/plans`).expect(201)).body;
  clock.advance({ days: 30 });
  runDuePlanSearches(app);
  await bench.get(`/plan-searches/${id}`).expect(200);
  clock.advance({ minutes: 1 });
  runDuePlanSearches(app);
  await bench.get(`/plan-searches/${id}`).expect(404);
  expect((await bench.get(`/plans/${plan.id}`).expect(200)).body.search.outcome).toBe('optimal');
});
