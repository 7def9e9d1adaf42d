import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { joints } from '../../src/platform/db/tables.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness, workHeat, workToLooking } from '../support/at-the-bench.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A piece that is cut, with its plan in use. */
async function cutPiece(app: TestApp, commission: Record<string, unknown> = {}) {
  const piece = await aDrawnPiece(app, commission);
  const { heats, plan } = await planInUse(app.bench, piece.id);
  await issueMetal(app.bench, piece.id);
  return { piece, heats, plan };
}

test('a person’s next heat comes with all that is needed to do it', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { piece, heats } = await cutPiece(app);
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  const { heat, running, choices, deferral } = (await bench.get('/bench/now').expect(200)).body;
  expect(running).toBeNull();
  expect(choices).toMatchObject([{ heatId: heats[3]!.id, number: `${piece.number} H4`, dueOn: '2031-06-20', state: 'laid_out' }]);
  expect(heat).toMatchObject({
    id: heats[3]!.id,
    piece: { id: piece.id, number: piece.number, state: 'soldering' },
    says: `${piece.number} H4: bail-on with easy wire, 1 piece, ${heat.plannedG * 1000} mg in all, with plate, wall, bail in the fire`,
    nextStep: { to: 'primed', says: expect.stringContaining('cautions read') },
    partsInFire: ['plate', 'wall', 'bail'],
    // The target flows at 718 + 10 °C; 728 °C is 1342.4 °F, and dark red by Chapman's table.
    peak: { peakC: 728, peakF: 1342, colour: 'dark red', colourSource: expect.stringContaining('Chapman') },
    lots: [{ id: lots['easy'], markOnMetal: 'E', onHandG: 5, isEnough: true }],
    flameSays: 'Heat the whole evenly, the joint last, tilted by 45°, away from bezel',
    toPlace: [
      { says: 'Steel tweezers on joint bezel', iron: true, removeBefore: 'pickle' },
      { says: 'Anti-flow on bezel', iron: false },
      { says: 'Shield paste on wall', iron: false },
    ],
    danger: { cadmium: [], unknownSolder: [], vents: [], limits: [], ironOn: true, quench: 'water', blocked: [] },
  });
  expect(heat.expected.timeToFlowS).toBeGreaterThan(0);
  const seam = heat.margins.find(({ joint }: { joint: string }) => joint === 'wall-seam');
  expect(seam.solid).toMatch(/^predicted to (stay solid by|soften, )/);
  expect(seam.run).toMatch(/^predicted (not )?to run, /);
  expect(heat.cautions.find(({ id }: { id: string }) => id === 'C14')).toMatchObject({ due: true, tick: 'each_time' });
  expect(deferral).toContain('try it on scrap');
});

test('the heat in hand comes before that of the timer, and that before a choice', async () => {
  const app = await startApp();
  const { bench, clock } = app;
  const { lots } = await aDrawer(app);
  const ring = await cutPiece(app, { dueOn: '2031-06-10' });
  const cup = await cutPiece(app, { dueOn: '2031-06-05' });
  const now = async () => (await bench.get('/bench/now').expect(200)).body;
  const free = await now();
  expect(free.heat).toBeNull();
  expect(free.choices.map(({ pieceId }: { pieceId: string }) => pieceId)).toEqual([cup.piece.id, ring.piece.id]);
  await bench.post('/bench-times', { pieceId: ring.piece.id, operation: 'fitting joints' }).expect(201);
  expect(await now()).toMatchObject({ heat: { id: ring.heats[0]!.id }, running: { pieceId: ring.piece.id } });
  const path = `/heats/${cup.heats[0]!.id}`;
  await bench.move(path, await readiness(bench, cup.heats[0]!.id, lots)).expect(200);
  expect((await now()).heat).toMatchObject({
    id: cup.heats[0]!.id,
    nextStep: { to: 'alight', says: 'Light it' },
    lot: { markOnMetal: 'H' },
  });
  expect((await now()).heat.says).toMatch(/hard wire, lot L\d+ marked H, /);
  clock.advance({ minutes: 1 });
  await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
  expect((await now()).heat.nextStep).toMatchObject({ to: 'cooling' });
  const asked = (await bench.get(`/bench/now?heatId=${ring.heats[1]!.id}`).expect(200)).body.heat;
  expect(asked).toMatchObject({ id: ring.heats[1]!.id });
});

test('what blocks a heat is told before it is tried', async () => {
  const app = await startApp();
  const { bench, student, owner, db } = app;
  await aDrawer(app);
  const { piece, heats } = await cutPiece(app, { kind: 'teaching_piece' });
  const seen = async (person = student) => (await person.get(`/bench/now?heatId=${heats[1]!.id}`).expect(200)).body.heat.danger;
  expect(await seen()).toMatchObject({ tutorsYes: false, blocked: [expect.stringContaining('tutor’s yes')] });
  expect((await seen(bench)).blocked).toEqual([]);
  await owner.post(`/heats/${heats[1]!.id}/tutors-yes`, { studentId: app.actors.student.personId, yes: true }).expect(200);
  expect((await seen()).blocked).toEqual([]);
  db.update(joints)
    .set({ state: 'doubtful', solder: null, cadmiumStanding: 'unknown' })
    .where(eq(joints.pieceId, piece.id))
    .run();
  const blocked = await seen(bench);
  expect(blocked.cadmium).toContainEqual({ joint: 'bail-seam', standing: 'unknown' });
  expect(blocked.unknownSolder).toContain('bail-seam');
  expect(blocked.blocked).toContain(
    "Do not heat: cadmium may be in joint bail-seam. Only a supplier's sheet or a laboratory analysis can clear it",
  );
});

test('a student is shown practice pieces alone, and a heat of another piece is not there', async () => {
  const app = await startApp();
  const { student, bench, desk } = app;
  await aDrawer(app);
  const { heats } = await cutPiece(app);
  expect((await student.get('/bench/now').expect(200)).body).toMatchObject({ heat: null, choices: [] });
  expect((await bench.get('/bench/now').expect(200)).body.choices).toHaveLength(1);
  await student.get(`/bench/now?heatId=${heats[0]!.id}`).expect(404);
  await desk.get('/bench/now').expect(403);
});

test('a piece that was hurt stays in sight of everybody at the bench until it is planned anew', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { heats } = await cutPiece(app);
  const { id } = heats[0]!;
  await workToLooking(bench, id, lots);
  const spoilt = { from: 'looking', to: 'spoilt', outcome: 'no_flow', usedG: 0.02, incident: { kind: 'no_flow' } };
  await bench.move(`/heats/${id}`, spoilt).expect(200);
  const { heat, choices } = (await bench.get('/bench/now').expect(200)).body;
  expect(choices).toMatchObject([{ heatId: id, state: 'spoilt' }]);
  expect(heat).toMatchObject({ id, state: 'spoilt' });
});

test('work that was called off is nobody’s next step, but for what is in the fire', async () => {
  const app = await startApp();
  const { bench, db } = app;
  const { lots } = await aDrawer(app);
  const { heats } = await cutPiece(app);
  const choices = async () => (await bench.get('/bench/now').expect(200)).body.choices as unknown[];
  expect(await choices()).toHaveLength(1);
  db.run(`UPDATE commissions SET state = 'called_off'`);
  expect(await choices()).toEqual([]);
  db.run(`UPDATE commissions SET state = 'on_bench'`);
  await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(200);
  db.run(`UPDATE commissions SET state = 'called_off'`);
  expect(await choices()).toMatchObject([{ heatId: heats[0]!.id, state: 'primed' }]);
});
