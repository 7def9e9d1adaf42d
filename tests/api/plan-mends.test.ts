import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';
import { bench as torchAndBrick, pendant, pendantPlan, solders } from '../support/pendant.ts';

const heats = pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder }));

test('a plan that breaks rules is refused with all of them, each with the edit that puts it right, to be sent as it stands', async () => {
  const { bench } = await startApp();
  const design = {
    ...pendant,
    rules: { ...pendant.rules, before: [['bail-seam', 'wall-seam']], grades: { bezel: { only: 'easy' } } },
  };
  const request = { design, solders, bench: torchAndBrick, plan: { heats } };
  const { body } = await bench.post('/calculations/plan-check', request).expect(422);
  const errors = body.errors as { pointer: string; bestFix: { faultsLeft: number; says: string; change: { plan: object } } }[];
  expect(errors.map(({ pointer }) => pointer).toSorted()).toEqual(['/design/rules/before/0', '/plan/heats/2/solder']);
  for (const { pointer, bestFix } of errors) {
    expect(bestFix.faultsLeft).toBe(1);
    expect(bestFix.says).toMatch(/: 1 broken rule is left, not yet tried in the fire$/);
    const again = await bench.post('/calculations/plan-check', { ...request, plan: bestFix.change.plan }).expect(422);
    expect(again.body.errors.map((error: { pointer: string }) => error.pointer)).not.toContain(pointer);
    const last = again.body.errors[0].bestFix;
    expect(last.faultsLeft).toBe(0);
    const mended = await bench.post('/calculations/plan-check', { ...request, plan: last.change.plan }).expect(200);
    expect(mended.body.problems).toHaveLength(last.problemsLeft);
  }
});

test('a name that stands for nothing has no edit that puts it right', async () => {
  const { bench } = await startApp();
  const plan = { heats: [{ joints: ['wall-seam'], solder: 'tin' }, ...heats.slice(1)] };
  const { body } = await bench
    .post('/calculations/plan-check', { design: pendant, solders, bench: torchAndBrick, plan })
    .expect(422);
  expect(body.errors).toEqual([{ pointer: '/plan/heats/0/solder', detail: 'Heat 1 uses solder tin: there is no such solder' }]);
});

test('each problem says what it comes to, what it may come to, and by how much it is off', async () => {
  const { bench } = await startApp();
  const { body } = await bench
    .post('/calculations/plan-check', { design: pendant, solders, bench: torchAndBrick, plan: { heats } })
    .expect(200);
  expect(body.problems.length).toBeGreaterThan(0);
  for (const { heat, joint, peakC, limitC, marginK, uncertaintyK } of body.problems) {
    const earlier = body.heats[heat - 1].earlierJoints.find((each: { joint: string }) => each.joint === joint);
    expect([peakC, uncertaintyK, marginK]).toEqual([earlier.peakC, earlier.uncertaintyK, earlier.runMarginK]);
    expect(limitC - peakC).toBeCloseTo(marginK, 6);
    expect(marginK).toBeLessThan(uncertaintyK);
  }
});

test('protections that were not typed may be filled in before a plan is judged', async () => {
  const { bench } = await startApp();
  const request = { design: pendant, solders, bench: torchAndBrick, plan: { heats }, fill: [{ kind: 'anti_flow' }] };
  const { body } = await bench.post('/calculations/plan-check', request).expect(200);
  expect(body.problems).toEqual([]);
  expect(body.filled).toMatchObject({ added: 1, says: expect.stringContaining('heat 4') });
  const { fill: _fill, ...asTold } = { ...request, plan: body.filled.plan };
  const again = await bench.post('/calculations/plan-check', asTold).expect(200);
  const { filled: _filled, ...check } = body;
  expect(again.body).toEqual(check);
  const { body: refused } = await bench.post('/calculations/plan-check', { ...request, fill: [{ kind: 'luck' }] }).expect(422);
  expect(refused.errors[0].pointer).toBe('/fill/0/kind');
  // What edits change is asked of a plan as it stands.
  const edits = [{ kind: 'move_heat', heat: 1, to: 2 }];
  await bench.post('/calculations/plan-what-if', { ...request, edits }).expect(422);
});
