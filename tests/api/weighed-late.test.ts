import { expect, test } from 'vitest';
import { aCutPiece, workHeat, workToLooking } from '../support/at-the-bench.ts';
import { aDevice, sendSteps } from '../support/bench-steps.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const WEIGHED_AT = '2031-05-05T08:10:00.000Z';
const onTablet = aDevice('tablet-1');
const step = (given: Record<string, unknown>, occurredAt = WEIGHED_AT) => onTablet(occurredAt, given);

const onHandG = async ({ owner }: TestApp, lotId: string) =>
  (await owner.get(`/solder-lots/${lotId}`).expect(200)).body.onHandG as number;

test('a weighing that is told late is of its own time: what was taken since is taken from what was weighed', async () => {
  const app = await startApp();
  const { bench, clock, student } = app;
  const { heats, lots } = await aCutPiece(app);
  clock.set('2031-05-05T08:30:00Z');
  await workToLooking(bench, heats[0]!.id, lots);
  const cleared = { from: 'looking', to: 'cleared', outcome: 'flowed', jointsSound: true };
  await bench.move(`/heats/${heats[0]!.id}`, cleared, clock.now()).expect(200);
  const usedG = 5 - (await onHandG(app, lots['hard']!));
  expect(usedG).toBeGreaterThan(0);

  clock.set('2031-05-05T09:00:00Z');
  const weighing = step({ do: 'weigh_lot', lotId: lots['hard'], weighedG: 4.5, reason: 'chips swept up' });
  expect(await sendSteps(bench, [weighing, weighing], clock.now())).toMatchObject([{ status: 200 }, { status: 200 }]);
  expect(await onHandG(app, lots['hard']!)).toBeCloseTo(4.5 - usedG, 4);
  const { items } = (await app.owner.get(`/stock-movements?lotId=${lots['hard']}`).expect(200)).body;
  expect(items.filter(({ kind }: { kind: string }) => kind === 'count_down')).toMatchObject([
    { occurredAt: WEIGHED_AT, onHandG: -0.5 },
  ]);

  const refused = [
    step({ do: 'weigh_lot', lotId: lots['hard'], weighedG: 4, reason: 'looked again' }, '2031-05-05T10:00:00Z'),
    step({ do: 'weigh_lot', lotId: lots['hard'], weighedG: 80, reason: 'looked again' }),
  ];
  expect(await sendSteps(bench, refused, clock.now())).toMatchObject([
    { status: 422, problem: { errors: [{ pointer: '/occurredAt' }] } },
    { status: 422, problem: { errors: [{ pointer: '/weighedG' }] } },
  ]);
  const byStudent = await sendSteps(
    student,
    [step({ do: 'weigh_lot', lotId: lots['hard'], weighedG: 4, reason: 'a try' })],
    clock.now(),
  );
  expect(byStudent).toMatchObject([{ status: 403, problem: { type: '/api/v1/problems/forbidden' } }]);
});

test('a guess made with the network gone is told with the answer when it is back', async () => {
  const app = await startApp();
  const { bench, student } = app;
  const { heats, lots, plan } = await aCutPiece(app, { kind: 'teaching_piece' });
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  const guesses = ['wall-seam', 'bail-seam', 'bezel'].map((joint) => ({ joint, guess: 'solid' }));
  const guess = step({ do: 'guess', planId: plan.id, heat: 4, guesses });
  const [told] = await sendSteps(student, [guess], app.clock.now());
  expect(told).toMatchObject({ status: 200, result: { heat: 4, guesses: [{ guess: 'solid' }, {}, {}] } });
  expect((await student.get(`/plans/${plan.id}/guesses`).expect(200)).body.guesses).toHaveLength(3);
  const [again] = await sendSteps(bench, [step({ do: 'guess', planId: plan.id, heat: 4, guesses })], app.clock.now());
  expect(again).toMatchObject({ status: 403, problem: { type: '/api/v1/problems/forbidden' } });
});
