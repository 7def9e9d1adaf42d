import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, jointStates, planInUse, workHeat, workToLooking } from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { overSearch } from '../support/plan-searches.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A pendant with so many heats cleared and the next one spoilt. */
async function spoiltAt(app: TestApp, cleared: number, spoilt: object) {
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const bare = pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder }));
  const { heats } = await planInUse(bench, id, { plan: { heats: bare } });
  await issueMetal(bench, id);
  for (const heat of heats.slice(0, cleared)) await workHeat(bench, heat.id, lots);
  await workToLooking(bench, heats[cleared]!.id, lots);
  await bench.move(`/heats/${heats[cleared]!.id}`, { from: 'looking', to: 'spoilt', ...spoilt }).expect(200);
  return { id, lots };
}

const reflowOf = (...movedJoints: string[]) => ({
  outcome: 'earlier_joint_moved',
  incident: { kind: 'reflow', jointId: movedJoints[0], movedJoints, note: 'it slid' },
});

interface Checked {
  check: { heats: { earlierJoints: { joint: string; severity: string }[] }[] };
}

const severityOf = ({ check }: Checked, joint: string) =>
  check.heats[0]!.earlierJoints.find((one) => one.joint === joint)!.severity;

/** A search that is written down, of the piece as it is, kept as a plan. */
async function foundFor({ bench }: TestApp, pieceId: string, options: object) {
  const { id } = (await bench.post('/plan-searches', { pieceId, options }).expect(202)).body;
  expect((await overSearch(bench, id)).state).toBe('done');
  return (await bench.post(`/plan-searches/${id}/plans`).expect(201)).body;
}

test('after a reflow the moved joint alone is planned again, the others as they are with the solder really in them', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await spoiltAt(app, 3, reflowOf('bezel'));
  const options = { policy: 'do_not_run', targetMarginK: 0 };
  const found = await foundFor(app, id, options);
  expect(found.plan.heats.map(({ joints }: { joints: string[] }) => joints)).toEqual([['bezel']]);
  expect(
    found.madeJoints.map(({ joint, solder, doubtful }: { joint: string; solder: { id: string }; doubtful: boolean }) => [
      joint,
      solder.id,
      doubtful,
    ]),
  ).toEqual([
    ['bail-on', 'easy', false],
    ['bail-seam', 'hard', true],
    ['wall-seam', 'hard', false],
  ]);
  const atOnce = (await bench.post(`/pieces/${id}/plans`, { search: options }).expect(201)).body;
  expect([atOnce.plan, atOnce.check, atOnce.madeJoints]).toEqual([found.plan, found.check, found.madeJoints]);
});

test('a doubtful joint carries its doubt into the plan: what would be a note is a caution, until somebody has looked at it', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await spoiltAt(app, 3, reflowOf('bezel'));
  expect(await jointStates(bench, id)).toMatchObject({ 'wall-seam': 'sound', 'bail-seam': 'doubtful' });
  // Medium softens both seams, of hard solder, on a bezel that is made again.
  const plan = { heats: [{ joints: ['bezel'], solder: 'medium' }] };
  const doubted = (await bench.post(`/pieces/${id}/plans`, { plan }).expect(201)).body;
  expect([severityOf(doubted, 'wall-seam'), severityOf(doubted, 'bail-seam')]).toEqual(['note', 'caution']);
  await bench.move(`/pieces/${id}/joints/bail-seam`, { from: 'doubtful', to: 'sound', lookedAt: true }).expect(200);
  const again = (await bench.post(`/plans/${doubted.id}/check`).expect(200)).body;
  expect(severityOf(again, 'bail-seam')).toBe('note');
});

test('a joint that did not flow keeps to the solder that is on it, also where another would be better', async () => {
  const app = await startApp();
  const { bench } = app;
  const noFlow = { outcome: 'no_flow', usedG: 0.02, incident: { kind: 'no_flow' } };
  const { id } = await spoiltAt(app, 2, noFlow);
  const found = await foundFor(app, id, { preferHigherGrades: true, targetMarginK: 0, policy: 'do_not_run' });
  const solderOf = (joint: string) =>
    found.plan.heats.find(({ joints }: { joints: string[] }) => joints.includes(joint)).solder as string;
  expect(solderOf('bezel')).toBe('medium');
  expect(found.madeJoints.map(({ joint }: { joint: string }) => joint)).toEqual(['bail-seam', 'wall-seam']);
  const other = { heats: [{ joints: ['bezel', 'bail-on'], solder: 'easy' }] };
  expect((await bench.post(`/pieces/${id}/plans`, { plan: other }).expect(422)).body.errors[0].detail).toContain(
    'must have medium',
  );
});

test('an order that the bench has overtaken bars no plan: the seam that moved is made again though the bezel is on it', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await spoiltAt(app, 2, reflowOf('wall-seam'));
  expect(await jointStates(bench, id)).toMatchObject({ 'wall-seam': 'moved', bezel: 'sound', 'bail-on': 'open' });
  const plan = {
    heats: [
      { joints: ['wall-seam'], solder: 'easy' },
      { joints: ['bail-on'], solder: 'easy' },
    ],
  };
  const made = (await bench.post(`/pieces/${id}/plans`, { plan }).expect(201)).body;
  expect(made.check.heats).toHaveLength(2);
  const { id: search } = (await bench.post('/plan-searches', { pieceId: id }).expect(202)).body;
  const { answer } = await overSearch(bench, search);
  expect(answer.plan.heats.flatMap(({ joints }: { joints: string[] }) => joints).toSorted()).toEqual(['bail-on', 'wall-seam']);
});

test('a piece with every joint made has nothing to look for', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, id);
  await issueMetal(bench, id);
  for (const heat of heats) await workHeat(bench, heat.id, lots);
  const refused = await bench.post('/plan-searches', { pieceId: id }).expect(409);
  expect(refused.body.detail).toContain('every joint is made already');
});
