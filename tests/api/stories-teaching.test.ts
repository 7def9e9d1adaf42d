import { expect, test } from 'vitest';
import { aDrawer, heatsOf, readiness, workToLooking, CLEARED } from '../support/at-the-bench.ts';
import { pendant, pendantPlan } from '../support/pendant.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A practice piece as the desk notes it and a hand draws it: nobody has ordered it. */
async function aPracticePiece(app: TestApp) {
  const { desk, bench } = app;
  const { lots } = await aDrawer(app);
  const noted = { title: 'Practice pendant', kind: 'teaching_piece', wish: 'an evening class', dueOn: '2031-06-20' };
  const commission = (await desk.post('/commissions', noted).expect(201)).body;
  const at = `/commissions/${commission.id}`;
  const laidOut = { commissionId: commission.id, title: 'Pendant', metal: 'sterling-925' };
  const piece = (await bench.post('/pieces', laidOut).expect(201)).body;
  await bench.put(`/pieces/${piece.id}/design`, pendant).expect(200);
  await desk.move(at, { from: 'asked', to: 'shaping' }).expect(200);
  return { lots, at, piece, onPiece: `/pieces/${piece.id}` };
}

test('a teaching piece goes without a quote, from the student’s plan to a piece on the shelf', async () => {
  const app = await startApp();
  const { student, bench, owner, actors } = app;
  const { lots, at, piece, onPiece } = await aPracticePiece(app);
  await owner.move(at, { from: 'shaping', to: 'agreed' }).expect(200);

  // The student plans, says first what every earlier joint will do, and sees the answer beside the guess.
  const plan = (await student.post(`${onPiece}/plans`, { plan: pendantPlan }).expect(201)).body;
  const toGuess = (await student.get(`/plans/${plan.id}/guesses`).expect(200)).body.guessFirst as {
    heat: number;
    joints: string[];
  }[];
  expect(toGuess.map(({ heat }) => heat)).toEqual([3, 4]);
  for (const { heat, joints } of toGuess) {
    const guesses = joints.map((joint) => ({ joint, guess: 'softens' }));
    const told = (await student.post(`/plans/${plan.id}/guesses`, { heat, guesses }).expect(201)).body;
    expect(told.right).toBe(told.guesses.filter(({ isRight }: { isRight: boolean }) => isRight).length);
  }
  await student.move(`/plans/${plan.id}`, { from: 'draft', to: 'checked' }).expect(200);
  const book = (await owner.get(`/plans/${plan.id}/guesses`).expect(200)).body.guesses;
  expect(book).toHaveLength(4);
  await owner.move(`/plans/${plan.id}`, { from: 'checked', to: 'signed' }).expect(200);
  await bench.move(`/plans/${plan.id}`, { from: 'signed', to: 'in_use' }).expect(200);
  await bench.move(at, { from: 'agreed', to: 'on_bench' }).expect(200);
  await bench.move(onPiece, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(200);

  // Each heat by the tutor's yes to it.
  const heats = await heatsOf(student, plan.id);
  for (const { id } of heats) {
    await owner.post(`/heats/${id}/tutors-yes`, { studentId: actors.student.personId, yes: true }).expect(200);
    expect((await student.get(`/bench/now?heatId=${id}`)).body.heat.danger).toMatchObject({ tutorsYes: true, blocked: [] });
    await workToLooking(student, id, lots);
    await student.move(`/heats/${id}`, CLEARED).expect(200);
  }
  await bench.move(onPiece, { from: 'soldering', to: 'built' }).expect(200);
  await bench.move(onPiece, { from: 'built', to: 'finishing' }).expect(200);
  const lookedOver = ['joints', 'surface', 'edges', 'sizes', 'fittings'];
  await owner.move(onPiece, { from: 'finishing', to: 'checked', lookedOver }).expect(200);
  const { computedG } = (await owner.get(onPiece)).body;
  await owner.move(onPiece, { from: 'checked', to: 'ready', weighedG: computedG, photoTaken: true, labelled: true }).expect(200);
  await owner.move(at, { from: 'on_bench', to: 'made' }).expect(200);
  await owner.move(at, { from: 'made', to: 'handed_over' }).expect(200);
  expect((await student.get(onPiece).expect(200)).body).toMatchObject({ number: piece.number, state: 'ready' });
  expect((await owner.get(`/quotes?commissionId=${at.split('/').at(-1)}`)).body.items).toEqual([]);
});

test('a student without a tutor lights nothing, whatever plan is in use and however the step comes', async () => {
  const app = await startApp();
  const { student, bench, owner } = app;
  const { lots, onPiece } = await aPracticePiece(app);
  const plan = (await owner.post(`${onPiece}/plans`, { plan: pendantPlan }).expect(201)).body;
  await owner.move(`/plans/${plan.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await owner.move(`/plans/${plan.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  await bench.move(onPiece, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(200);
  const [heat] = await heatsOf(student, plan.id);
  const path = `/heats/${heat!.id}`;
  const ready = await readiness(student, heat!.id, lots);
  const refused = (await student.move(path, ready).expect(409)).body;
  expect(refused.missing).toEqual([expect.stringContaining('without a tutor’s yes')]);
  // As a step of the bench it is the same, and a hand's making ready does not stand for a tutor's yes.
  const device = { deviceId: 'tablet-2', occurredAt: '2031-05-05T08:00:00Z' };
  const steps = [{ do: 'move_heat', key: 'student-step-1', deviceSeq: 1, heatId: heat!.id, ...ready, ...device }];
  const { answers } = (await student.post('/bench/steps', { sentAt: device.occurredAt, steps }).expect(200)).body;
  expect(answers[0]).toMatchObject({ status: 409, problem: { missing: refused.missing } });
  await bench.move(path, await readiness(bench, heat!.id, lots)).expect(200);
  const dark = (await student.move(path, { from: 'primed', to: 'alight' }).expect(409)).body;
  expect(dark.missing).toEqual(refused.missing);
  expect((await student.get('/bench/now?heatId=' + heat!.id)).body.heat.danger).toMatchObject({
    tutorsYes: false,
    blocked: ['A student lights no heat without a tutor’s yes to it'],
  });
  expect((await bench.get(path)).body).toMatchObject({ state: 'primed', litBy: null });
});
