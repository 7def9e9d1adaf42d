import { expect, test } from 'vitest';
import { predictedState } from '../../shared/thermal/predicted-state.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness, workHeat } from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp, type Person } from '../support/start-app.ts';

/** A practice piece with its plan in use, cut, in a studio with solder. */
async function aPracticePiece() {
  const app = await startApp();
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const { plan, heats } = await planInUse(app.bench, piece.id);
  await issueMetal(app.bench, piece.id);
  return { ...app, lots, piece, plan, heats };
}

/** Every word that tells what an earlier joint does. */
async function answersTold(person: Person, { planId, heatId }: { planId: string; heatId: string }) {
  const plan = (await person.get(`/plans/${planId}`).expect(200)).body;
  const listed = (await person.get(`/pieces/${plan.pieceId}/plans`).expect(200)).body.items[0];
  const heat = (await person.get(`/heats/${heatId}`).expect(200)).body;
  const now = (await person.get(`/bench/now?heatId=${heatId}`).expect(200)).body.heat;
  const checked = plan.check.heats[heat.position - 1];
  expect(listed.check).toEqual(plan.check);
  return {
    joints: [checked, heat.expected, now.expected].flatMap(({ earlierJoints }) =>
      earlierJoints.map(({ joint }: { joint: string }) => joint),
    ),
    margins: now.margins.length as number,
    verdict: plan.check.verdict as string | null,
    guessFirst: [checked.guessFirst, heat.guessFirst, now.guessFirst] as string[][],
  };
}

test('a student says first what earlier joints will do, and is told nothing of them before', async () => {
  const { student, bench, plan, heats } = await aPracticePiece();
  const fourth = { planId: plan.id, heatId: heats[3]!.id };
  const hidden = await answersTold(student, fourth);
  expect(hidden).toMatchObject({ joints: [], margins: 0, verdict: null });
  const [first] = hidden.guessFirst;
  expect(first!.toSorted()).toEqual(['bail-seam', 'bezel', 'wall-seam']);
  expect(hidden.guessFirst).toEqual([first, first, first]);
  const open = await answersTold(bench, fourth);
  expect(new Set(open.joints)).toEqual(new Set(first));
  expect(open.joints).toHaveLength(9);
  expect(open.guessFirst).toEqual([[], [], []]);
  const whatIf = { edits: [{ kind: 'solder', heat: 4, solder: 'medium' }] };
  expect((await student.post(`/plans/${plan.id}/what-if`, whatIf).expect(409)).body.missing[0]).toContain('guess first');

  const now = (await student.get(`/bench/now?heatId=${fourth.heatId}`).expect(200)).body.heat;
  expect(now.nextStep.says).toBe(`Guess first what ${first!.join(', ')} will do, each: stay solid, soften or run`);

  const guesses = first!.map((joint) => ({ joint, guess: 'runs' }));
  const told = (await student.post(`/plans/${plan.id}/guesses`, { heat: 4, guesses }).expect(201)).body;
  const check = plan.check.heats[3].earlierJoints as { joint: string; solidMarginK: number; runMarginK: number; says: string }[];
  expect(told.guesses).toHaveLength(3);
  for (const { joint, predicted, isRight, says } of told.guesses) {
    const of = check.find((each) => each.joint === joint)!;
    expect(predicted).toBe(predictedState(of));
    expect(isRight).toBe(predicted === 'runs');
    expect(says).toBe(of.says);
  }
  const after = await answersTold(student, fourth);
  expect(after.margins).toBe(3);
  expect(after.guessFirst).toEqual([[], [], []]);
  // What is left to guess in another heat keeps the whole verdict back.
  expect(after.verdict).toBe((await answersTold(student, { ...fourth, heatId: heats[2]!.id })).verdict);
  const book = (await student.get(`/plans/${plan.id}/guesses`).expect(200)).body;
  expect(book.guesses).toHaveLength(3);
  expect(book.guessFirst.map(({ heat }: { heat: number }) => heat)).not.toContain(4);
});

test('guesses are made whole, once, by a student, and before the heat is lit', async () => {
  const { student, bench, owner, desk, actors, lots, plan, heats } = await aPracticePiece();
  const path = `/plans/${plan.id}/guesses`;
  const all = [
    { joint: 'bail-seam', guess: 'solid' },
    { joint: 'bezel', guess: 'softens' },
    { joint: 'wall-seam', guess: 'solid' },
  ];
  await bench.post(path, { heat: 4, guesses: all }).expect(403);
  await desk.post(path, { heat: 4, guesses: all }).expect(403);
  const half = (await student.post(path, { heat: 4, guesses: [all[1]] }).expect(422)).body;
  expect(half.errors).toMatchObject([{ pointer: '/guesses', detail: 'Guess wall-seam, bail-seam too: all are told at once.' }]);
  const odd = [...all, all[0]!, { joint: 'bail-on', guess: 'solid' }];
  const refused = (await student.post(path, { heat: 4, guesses: odd }).expect(422)).body;
  expect(refused.errors).toMatchObject([{ pointer: '/guesses/3/joint' }, { pointer: '/guesses/4/joint' }]);
  expect((await student.post(path, { heat: 9, guesses: all }).expect(422)).body.errors).toMatchObject([{ pointer: '/heat' }]);
  expect((await student.post(path, { heat: 1, guesses: all }).expect(409)).body.detail).toContain('no earlier joint');
  const send = () => student.post(path, { heat: 4, guesses: all }).set('idempotency-key', 'guess-of-four');
  const told = (await send().expect(201)).body;
  expect((await send().expect(201)).body).toEqual(told);
  expect((await student.post(path, { heat: 4, guesses: all }).expect(409)).body.detail).toContain('you have guessed');
  const seen = (await owner.get(path).expect(200)).body;
  expect(seen).toMatchObject({
    guesses: [{ name: 'Pebble', joint: 'bail-seam', personId: actors.student.personId }, {}, {}],
    guessFirst: [],
  });

  // Once it was lit, what came of it is to be seen: it is told, and no guess counts.
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  expect((await student.post(path, { heat: 3, guesses: [all[2]] }).expect(409)).body.detail).toContain('has been lit');
  expect((await answersTold(student, { planId: plan.id, heatId: heats[2]!.id })).joints).not.toEqual([]);
});

test('a tutor says yes to one heat for one student, after their guess, and may take it back', async () => {
  const { student, bench, owner, actors, lots, plan, heats } = await aPracticePiece();
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  const heat = heats[3]!;
  const path = `/heats/${heat.id}/tutors-yes`;
  const yes = { studentId: actors.student.personId, yes: true };
  await student.post(path, yes).expect(403);
  expect((await bench.post(path, yes).expect(403)).body.detail).toContain('for a tutor');
  for (const studentId of [actors.owner.personId, actors.bench.personId])
    expect((await owner.post(path, { studentId, yes: true }).expect(422)).body.errors).toMatchObject([{ pointer: '/studentId' }]);
  const first = (await owner.post(path, yes).expect(409)).body;
  expect(first.missing).toEqual([expect.stringMatching(/^Pebble has to guess first what becomes of /)]);
  const unready = await student.move(`/heats/${heat.id}`, await readiness(student, heat.id, lots)).expect(409);
  expect(unready.body.missing).toEqual([expect.stringMatching(/^guess first/), expect.stringContaining('tutor’s yes')]);

  const { guessFirst } = (await student.get(`/heats/${heat.id}`).expect(200)).body;
  const guesses = guessFirst.map((joint: string) => ({ joint, guess: 'solid' }));
  await student.post(`/plans/${plan.id}/guesses`, { heat: 4, guesses }).expect(201);
  const said = (await owner.post(path, yes).expect(200)).body;
  expect(said.tutorsYes).toMatchObject([{ studentId: actors.student.personId, tutorId: actors.owner.personId }]);
  expect((await owner.post(path, yes).expect(200)).body.tutorsYes).toEqual(said.tutorsYes);
  await student.move(`/heats/${heat.id}`, await readiness(student, heat.id, lots)).expect(200);
  // Ready, and then the tutor is called away.
  await owner.post(path, { ...yes, yes: false }).expect(200);
  const dark = await student.move(`/heats/${heat.id}`, { from: 'primed', to: 'alight' }).expect(409);
  expect(dark.body.missing).toEqual([expect.stringContaining('tutor’s yes')]);
  await owner.post(path, yes).expect(200);
  await student.move(`/heats/${heat.id}`, { from: 'primed', to: 'alight' }).expect(200);
  expect((await owner.post(path, { ...yes, yes: false }).expect(200)).body.tutorsYes).toEqual([]);
  expect((await owner.post(path, yes).expect(409)).body.missing).toEqual(['it is alight']);
});

test('a plan that a student looks for comes without what it does to the joints', async () => {
  const app = await startApp();
  await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const draft = (await app.student.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201)).body;
  expect(draft.check.verdict).toBeNull();
  expect(draft.check.problems.filter(({ joint }: { joint: string | null }) => joint !== null)).toEqual([]);
  const found = (await app.student.post(`/pieces/${piece.id}/plans`, { search: { workUnits: 1000 } }).expect(201)).body;
  expect(found.search).toBeNull();
  const hidden = (await app.bench.get(`/plans/${found.id}`).expect(200)).body.check.heats as {
    heat: number;
    earlierJoints: { joint: string }[];
  }[];
  for (const { heat, earlierJoints } of hidden.filter((each) => each.earlierJoints.length > 0)) {
    const guesses = earlierJoints.map(({ joint }) => ({ joint, guess: 'solid' }));
    await app.student.post(`/plans/${found.id}/guesses`, { heat, guesses }).expect(201);
  }
  const whole = (await app.student.get(`/plans/${found.id}`).expect(200)).body;
  expect(whole).toEqual({ ...(await app.bench.get(`/plans/${found.id}`)).body, allowedMoves: ['checked'] });
  expect(whole.search.why.length).toBeGreaterThan(0);
  expect(whole.check.verdict).not.toBeNull();
});
