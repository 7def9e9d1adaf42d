import { expect, test } from 'vitest';
import { runDueBenchTimes } from '../../src/features/bench-time/bench-time-due-work.ts';
import { aCutPiece, heatsOf, jointStates, planInUse, workHeat } from '../support/at-the-bench.ts';
import { aDevice, heatInSteps, sendSteps } from '../support/bench-steps.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

const at = (time: string) => `2031-05-05T${time}:00Z`;

test('a forgotten timer is asked about at the next touch of the bench, with what was last written, and is never cut in silence', async () => {
  const app = await startApp();
  const { bench, clock, owner } = app;
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { closingTime: '18:00', timeZone: 'Europe/Berlin' }, version).expect(200);
  const { piece, heats, lots } = await aCutPiece(app);
  clock.set(at('12:10'));
  await bench.post('/bench-times', { pieceId: piece.id, operation: 'soldering' }).expect(201);
  clock.set(at('15:20'));
  await workHeat(bench, heats[0]!.id, lots);
  // 18:00 in Berlin is 16:00 UTC in May: an hour past closing the timer was forgotten.
  clock.set(at('17:01'));
  runDueBenchTimes(app);
  clock.set('2031-05-06T07:30:00Z');
  const now = (await bench.get('/bench/now').expect(200)).body;
  expect(now.running).toBeNull();
  expect(now.inDoubt).toMatchObject([
    {
      benchTime: { pieceId: piece.id, state: 'in_doubt', stoppedAt: null, minutes: null },
      says: `You were on ${piece.number} from 14:10. When did you stop?`,
      suggestedStoppedAt: '2031-05-05T15:20:00.000Z',
    },
  ]);
  const [{ benchTime, suggestedStoppedAt }] = now.inDoubt;
  // It counts for nothing until then.
  expect((await bench.get('/bench-times/days?from=2031-05-05&to=2031-05-06')).body.items).toEqual([]);
  const agreed = { from: 'in_doubt', to: 'agreed', stoppedAt: suggestedStoppedAt };
  await bench.move(`/bench-times/${benchTime.id}`, agreed, clock.now()).expect(200);
  expect((await bench.get('/bench/now')).body.inDoubt).toEqual([]);
  expect((await bench.get('/bench-times/days?from=2031-05-05&to=2031-05-06')).body.items).toMatchObject([
    { day: '2031-05-05', minutes: 190 },
  ]);
});

test('forty minutes without a network: what fits is done at its own time, what a newer plan overtook is told where it went', async () => {
  const app = await startApp();
  const { bench, owner, clock } = app;
  const { piece, heats, lots } = await aCutPiece(app);
  const tablet = aDevice('tablet-7');
  // From ten o'clock on nothing goes out. The first heat is done, a timer runs, the second heat is made ready and lit.
  const first = await heatInSteps(bench, tablet, {
    heatId: heats[0]!.id,
    lots,
    times: [at('10:01'), at('10:03'), at('10:04'), at('10:06'), at('10:12'), at('10:14')],
  });
  const timer = tablet(at('10:14'), { do: 'start_time', pieceId: piece.id, operation: 'fitting joints' });
  const second = await heatInSteps(bench, tablet, {
    heatId: heats[1]!.id,
    lots,
    times: [at('10:20'), at('10:22'), at('10:23'), at('10:25'), at('10:31'), at('10:33')],
  });
  const stop = tablet(at('10:34'), { do: 'move_bench_time', startedBy: timer.key, from: 'running', to: 'stopped' });
  const noted = [...first, timer, ...second, stop];

  // Meanwhile the owner, who sees a piece nobody works at, turns the order of the seams about and takes that into use.
  clock.set(at('10:18'));
  const [wall, bail, ...rest] = pendantPlan.heats;
  const { plan: turned } = await planInUse(owner, piece.id, { plan: { heats: [bail, wall, ...rest] } });
  const newHeats = await heatsOf(owner, turned.id);
  expect((await owner.get(`/heats/${heats[0]!.id}`)).body.state).toBe('skipped');

  // The network is back; the tablet sends all it has, in no order.
  clock.set(at('10:41'));
  const answers = await sendSteps(bench, noted.toReversed(), clock.now());
  const byKey = new Map(answers.map((answer) => [answer.key, answer]));
  for (const { key } of [...first, ...second]) {
    const { status, result, problem } = byKey.get(key)!;
    expect([status, result, problem!.type, problem!.state]).toEqual([409, null, '/api/v1/problems/moved-on', 'skipped']);
  }
  // The time is kept as it was, and so is everything that does not hang on the plan.
  expect(byKey.get(timer.key)!.status).toBe(200);
  expect(byKey.get(stop.key)!.result).toMatchObject({ state: 'stopped', minutes: 20, startedAt: '2031-05-05T10:14:00.000Z' });
  const went = byKey.get(first[0]!.key)!.problem!;
  expect(went['nowIn']).toEqual([
    { heatId: newHeats[1]!.id, number: newHeats[1]!.number, joints: ['wall-seam'], state: 'laid_out', sameSolder: true },
  ]);
  expect(went.detail).toContain(`A newer plan makes wall-seam in ${newHeats[1]!.number}: note there what was done`);

  // So the hand notes there what was done, at the time it was done: nothing is lost.
  const where = (key: string) => (byKey.get(key)!.problem!['nowIn'] as { heatId: string }[])[0]!.heatId;
  const again = [...first, ...second].map(({ occurredAt, key, deviceId: _id, deviceSeq: _seq, ...given }) =>
    tablet(occurredAt, { ...given, heatId: where(key) }),
  );
  const done = await sendSteps(bench, again, clock.now());
  expect(done.map(({ status }) => status)).toEqual(again.map(() => 200));
  expect(await jointStates(bench, piece.id)).toEqual({
    'wall-seam': 'sound',
    'bail-seam': 'sound',
    bezel: 'open',
    'bail-on': 'open',
  });
  expect((await bench.get(`/heats/${newHeats[1]!.id}`)).body).toMatchObject({
    state: 'cleared',
    alightAt: '2031-05-05T10:03:00.000Z',
    endedAt: '2031-05-05T10:04:00.000Z',
  });
  // Sent once more, by a tablet that did not hear the answers, all is as it was.
  expect(await sendSteps(bench, noted.toReversed(), clock.now())).toEqual(answers);
  expect(await sendSteps(bench, again, clock.now())).toEqual(done);
  expect(
    (await owner.get('/stock-movements?limit=50')).body.items.filter(({ kind }: { kind: string }) => kind === 'use'),
  ).toHaveLength(2);
  expect((await owner.post('/stock/audit').expect(200)).body.findings).toEqual([]);
});

test('a step that overtook an earlier one of its device is done when it comes again after it', async () => {
  const app = await startApp();
  const { bench, clock } = app;
  const { heats, lots } = await aCutPiece(app);
  const tablet = aDevice('tablet-8');
  const times = ['08:01', '08:02', '08:03', '08:04', '08:05', '08:06'].map(at);
  const steps = await heatInSteps(bench, tablet, { heatId: heats[0]!.id, lots, times });
  clock.set(at('08:30'));
  const one = async (index: number) => (await sendSteps(bench, [steps[index]!], clock.now()))[0]!.status;
  expect([await one(2), await one(1), await one(0)]).toEqual([409, 409, 200]);
  // The third waits for the second, however often it comes.
  expect([await one(2), await one(1), await one(1), await one(2), await one(2)]).toEqual([409, 200, 200, 200, 200]);
  expect((await bench.get(`/heats/${heats[0]!.id}`)).body).toMatchObject({
    state: 'cooling',
    alightAt: '2031-05-05T08:02:00.000Z',
  });
});
