import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { bench as ownBench, pendant, pendantPlan, solders } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

const shield = { kind: 'shield', guards: 'wall' };
const asked = { design: pendant, solders, bench: ownBench, plan: pendantPlan };
const bezel = (of: { earlierJoints: { joint: string }[] }) => of.earlierJoints.find(({ joint }) => joint === 'bezel');

test('POST plan-what-if answers the difference alone: before and after of what an edit changes', async () => {
  const { student } = await startApp();
  const edits = [{ kind: 'unprotect', heat: 4, protections: pendantPlan.heats[3]!.protections }];
  const { body } = await student
    .post('/calculations/plan-what-if', { ...asked, edits })
    .expect(200)
    .expect('content-type', /json/);
  expect(body.verdict).toEqual({ before: 'clear_to_heat', after: 'problem' });
  expect(body.problems).toMatchObject({ gone: [], new: [{ heat: 4, joint: 'bezel', rule: 'may_run' }] });
  expect(body.heats).toHaveLength(1);
  const [heat] = body.heats;
  expect(heat).toMatchObject({ before: 4, after: 4, joints: ['bail-on'], isEdited: true });
  expect(heat.timeToFlowS.after).toBeLessThan(heat.timeToFlowS.before);
  const plan = { heats: [...pendantPlan.heats.slice(0, 3), { ...pendantPlan.heats[3], protections: [] }] };
  const whole = (await student.post('/calculations/plan-check', { ...asked, plan }).expect(200)).body;
  expect(bezel(whole.heats[3])).toMatchObject((bezel(heat) as unknown as { after: object }).after);
  const none = await student
    .post('/calculations/plan-what-if', { ...asked, edits: [{ kind: 'move_heat', heat: 1, to: 1 }] })
    .expect(200);
  expect(none.body).toMatchObject({ heats: [], problems: { gone: [], new: [] }, says: 'Nothing changes' });
});

test('POST plan-what-if refuses in words an edit that cannot be made, one that breaks a rule, and what is no edit', async () => {
  const { bench } = await startApp();
  const refused = async (edits: unknown[]) =>
    (await bench.post('/calculations/plan-what-if', { ...asked, edits }).expect(422)).body;
  const order = await refused([{ kind: 'move_heat', heat: 3, to: 1 }]);
  expect(order.type).toBe('/api/v1/problems/invalid-fields');
  expect(order.errors).toEqual([{ pointer: '/edits', detail: expect.stringContaining('wall-seam') }]);
  const missing = await refused([
    { kind: 'solder', heat: 3, solder: 'easy' },
    { kind: 'solder', heat: 5, solder: 'easy' },
  ]);
  expect(missing.errors).toEqual([{ pointer: '/edits/1', detail: 'There is no heat 5: the plan has 4' }]);
  for (const edits of [
    [],
    [{ kind: 'paint', heat: 1 }],
    [{ kind: 'solder', heat: 0, solder: 'easy' }],
    [{ kind: 'solder', heat: 1 }],
  ])
    expect((await refused(edits)).errors[0].pointer).toMatch(/^\/edits/);
});

test('POST what-if asks of a plan of the book, with what it was made from, and keeps nothing', async () => {
  const app = await startApp();
  const { bench, desk, student } = app;
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const made = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  const edits = [{ kind: 'unprotect', heat: 4, protections: [shield] }];
  const { body } = await desk.post(`/plans/${made.id}/what-if`, { edits }).expect(200);
  const again = (await bench.post(`/pieces/${id}/plans`, { plan: body.plan }).expect(201)).body;
  expect(body.verdict).toEqual({ before: made.check.verdict, after: again.check.verdict });
  expect(body.heats[0].timeToFlowS).toEqual({ before: made.check.heats[3].timeToFlowS, after: again.check.heats[3].timeToFlowS });
  expect((await bench.get(`/plans/${made.id}`)).body).toEqual(made);
  await student.post(`/plans/${made.id}/what-if`, { edits }).expect(404);
});
