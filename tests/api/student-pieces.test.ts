import { expect, test } from 'vitest';
import { aCutPiece, aDrawer, aDrawnPiece, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp } from '../support/start-app.ts';

test('a student sees practice pieces, and of other pieces neither plans nor heats nor incidents', async () => {
  const app = await startApp();
  const { bench, student, desk } = app;
  await aDrawer(app);
  const ring = await aDrawnPiece(app);
  const practice = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const { plan, heats } = await planInUse(bench, ring.id);
  const { heats: own } = await planInUse(bench, practice.id);
  const incident = (await desk.post('/incidents', { pieceId: ring.id, kind: 'lost' }).expect(201)).body;
  const ofTheRing = [
    `/pieces/${ring.id}`,
    `/pieces/${ring.id}/design`,
    `/pieces/${ring.id}/plans`,
    `/plans/${plan.id}`,
    `/heats/${heats[0]!.id}`,
    `/incidents/${incident.id}`,
  ];
  for (const path of ofTheRing) {
    await bench.get(path).expect(200);
    await student.get(path).expect(404);
  }
  expect((await student.get('/pieces').expect(200)).body.items).toMatchObject([{ id: practice.id }]);
  const seen = (await student.get('/heats').expect(200)).body.items.map(({ id }: { id: string }) => id);
  expect(new Set(seen)).toEqual(new Set(own.map(({ id }) => id)));
  expect((await student.get(`/heats?pieceId=${ring.id}`).expect(200)).body.items).toEqual([]);
  expect((await student.get('/incidents').expect(200)).body.items).toEqual([]);

  await student.post(`/pieces/${ring.id}/plans`, { search: {} }).expect(404);
  await student.move(`/heats/${heats[0]!.id}`, { from: 'laid_out', to: 'primed' }).expect(404);
  const refused = await student.post('/incidents', { pieceId: ring.id, kind: 'lost' }).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/pieceId' }]);
  await student.post('/incidents', { pieceId: practice.id, kind: 'pit' }).expect(201);
  expect((await student.get(`/commissions/${practice.commissionId}`).expect(200)).body).toMatchObject({ clientName: null });
});

test('a heat in hand is not shown any more to who only learns since, unless it is of a practice piece', async () => {
  const app = await startApp();
  const { lots, heats } = await aCutPiece(app);
  const { id } = heats[0]!;
  const prime = await readiness(app.bench, id, lots);
  await app.bench.move(`/heats/${id}`, prime).expect(200);
  expect((await app.bench.get('/bench/now').expect(200)).body.heat).toMatchObject({ id });
  const { personId } = app.actors.bench;
  const { version } = (await app.owner.get(`/people/${personId}`).expect(200)).body;
  await app.owner.patch(`/people/${personId}`, { roles: ['student'] }, version).expect(200);
  expect((await app.bench.get('/bench/now').expect(200)).body).toMatchObject({ heat: null, choices: [] });
});
