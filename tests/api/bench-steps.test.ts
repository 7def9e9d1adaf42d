import { expect, test } from 'vitest';
import { aCutPiece, jointStates, readiness } from '../support/at-the-bench.ts';
import { aDevice, heatInSteps, sendSteps } from '../support/bench-steps.ts';
import { startApp, type Person } from '../support/start-app.ts';

const AT = '2031-05-05T08:00:00Z';

const onTablet = aDevice('tablet-1');
const step = (given: Record<string, unknown>) => onTablet(AT, given);

/** Takes another step back. */
function undo(undoes: string, occurredAt = AT) {
  return step({ do: 'undo', undoes, occurredAt });
}

const send = (person: Person, steps: object[], sentAt = AT) => sendSteps(person, steps, sentAt);

const wholeHeat = (person: Person, heatId: string, lots: Record<string, string>) =>
  heatInSteps(person, onTablet, { heatId, lots, times: Array<string>(6).fill(AT) });

test('steps of a heat that arrive late, out of order and twice are done once, by the count of the device', async () => {
  const app = await startApp();
  const { bench } = app;
  const { piece, heats, lots } = await aCutPiece(app);
  const steps = await wholeHeat(bench, heats[0]!.id, lots);
  const mixed = [3, 0, 5, 1, 4, 2].map((index) => steps[index]!);
  const first = await send(bench, mixed);
  expect(first.map(({ key, status }) => [key, status])).toEqual(mixed.map(({ key }) => [key, 200]));
  expect(await jointStates(bench, piece.id)).toMatchObject({ 'wall-seam': 'sound' });
  const uses = async () =>
    (await app.owner.get('/stock-movements')).body.items.filter(({ kind }: { kind: string }) => kind === 'use');
  expect(await uses()).toHaveLength(1);
  expect(await send(bench, mixed)).toEqual(first);
  expect(await send(bench, mixed.toReversed())).toEqual(first.toReversed());
  expect(await uses()).toHaveLength(1);
});

test('a step that no longer fits is told what holds now, and those that do not hang on it are done', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { piece, heats, lots } = await aCutPiece(app);
  // While the tablet is off the net, the owner primes and un-primes the heat; the tablet's second step finds it otherwise.
  await owner.move(`/heats/${heats[0]!.id}`, await readiness(owner, heats[0]!.id, lots)).expect(200);
  const steps = [
    step({ do: 'move_heat', heatId: heats[0]!.id, from: 'laid_out', to: 'skipped' }),
    step({ do: 'move_heat', heatId: heats[0]!.id, from: 'skipped', to: 'laid_out' }),
    step({ do: 'start_time', pieceId: piece.id, operation: 'fitting joints' }),
    step({ do: 'note_incident', pieceId: piece.id, kind: 'pit' }),
  ];
  const answers = await send(bench, steps);
  expect(answers.map(({ status }) => status)).toEqual([409, 409, 200, 200]);
  expect(answers[0]!.problem).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'primed' });
  expect(answers[0]!.result).toBeNull();
  expect((await bench.get('/bench-times/current')).body.running).toMatchObject({
    pieceId: piece.id,
    startedAt: '2031-05-05T08:00:00.000Z',
  });
  expect((await bench.get('/incidents')).body.items).toMatchObject([{ kind: 'pit' }]);
  // Sent again it is not tried again, though it might fit by now.
  await owner.move(`/heats/${heats[0]!.id}`, { from: 'primed', to: 'laid_out' }).expect(200);
  expect(await send(bench, steps)).toEqual(answers);
});

test('what cannot be used in a step is told of that step alone, and what is unusual is confirmed there', async () => {
  const app = await startApp();
  const { bench } = app;
  const { piece, heats, lots } = await aCutPiece(app);
  const steps = await wholeHeat(bench, heats[0]!.id, lots);
  const wrong = { ...steps[0]!, key: 'tablet-wrong-1', fluxIsOn: true };
  const unknown = step({ do: 'note_incident', pieceId: piece.id, kind: 'reflow', minutesLost: 500 });
  const [shape, fence] = await send(bench, [wrong, unknown]);
  expect([shape!.status, shape!.problem!.errors]).toMatchObject([422, [{ pointer: '/fluxIsOn' }]]);
  expect([fence!.status, fence!.problem!.errors]).toMatchObject([422, [{ pointer: '/minutesLost', confirmable: true }]]);
  const confirm = { pointers: ['/minutesLost'], reason: 'it took the whole day' };
  const [passed] = await send(bench, [{ ...unknown, key: 'tablet-again-1', confirm }]);
  expect(passed).toMatchObject({ status: 200, result: { minutesLost: 500 } });
  const reused = await send(bench, [{ ...unknown, key: 'tablet-again-1' }]);
  expect(reused).toMatchObject([{ status: 422, problem: { type: '/api/v1/problems/idempotency-key-reused' } }]);
  const lines = (await app.owner.get(`/journal?thingId=${String(passed!.result!['id'])}`)).body.items;
  expect(lines[0]).toMatchObject({ deviceId: 'tablet-1', confirmed: confirm });
});

test('inside ten minutes a step is undone by a reversing move, and the journal keeps both', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { piece, heats, lots } = await aCutPiece(app);
  const [prime, light] = await wholeHeat(bench, heats[0]!.id, lots);
  await send(bench, [prime!, light!]);
  expect(await jointStates(bench, piece.id)).toMatchObject({ 'wall-seam': 'placed' });
  const early = step({ do: 'undo', undoes: prime!.key, occurredAt: '2031-05-05T08:01:00Z' });
  app.clock.advance({ minutes: 1 });
  const [notYet] = await send(bench, [early], '2031-05-05T08:01:00Z');
  expect(notYet).toMatchObject({ status: 409, problem: { missing: ['H1 has changed since'] } });
  const back = ['2031-05-05T08:02:00Z', '2031-05-05T08:02:10Z'].map((occurredAt, index) =>
    step({ do: 'undo', undoes: [light!.key, prime!.key][index], occurredAt }),
  );
  app.clock.advance({ minutes: 1 });
  expect((await send(bench, back, '2031-05-05T08:02:00Z')).map(({ status }) => status)).toEqual([200, 200]);
  expect((await bench.get(`/heats/${heats[0]!.id}`)).body).toMatchObject({ state: 'laid_out', lot: null, litBy: null });
  expect(await jointStates(bench, piece.id)).toMatchObject({ 'wall-seam': 'open' });
  expect((await bench.get(`/pieces/${piece.id}`)).body.state).toBe('cut');
  const states = (await owner.get(`/journal?thingId=${heats[0]!.id}`)).body.items.map(
    ({ after }: { after: { state: string } }) => after.state,
  );
  expect(states).toEqual(['laid_out', 'primed', 'alight', 'primed', 'laid_out']);
  const twice = await send(
    bench,
    [step({ do: 'undo', undoes: light!.key, occurredAt: '2031-05-05T08:02:30Z' })],
    '2031-05-05T08:02:00Z',
  );
  expect(twice[0]!.problem!.missing).toEqual(['it was taken back already']);
});

test('a step is not undone after ten minutes, nor what it booked, nor that of another', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { heats, lots } = await aCutPiece(app);
  const steps = await wholeHeat(bench, heats[0]!.id, lots);
  await send(bench, steps);
  const [booked, gone] = await send(bench, [undo(steps[5]!.key), undo('never-sent-1')]);
  expect(booked!.problem!.missing).toEqual([expect.stringContaining('booked or opened something')]);
  expect(gone!.status).toBe(404);
  expect((await send(owner, [undo(steps[4]!.key)]))[0]!.status).toBe(404);
  app.clock.advance({ minutes: 11 });
  const [late] = await send(bench, [undo(steps[4]!.key, '2031-05-05T08:11:00Z')], '2031-05-05T08:11:00Z');
  expect(late!.problem!.missing).toEqual(['it is more than ten minutes old']);
});

test('a stopped timer runs on when the stop is undone, but not beside another', async () => {
  const app = await startApp();
  const { bench } = app;
  const [started] = await send(bench, [step({ do: 'start_time', general: true, operation: 'sweeping' })]);
  const benchTimeId = started!.result!['id'] as string;
  const stop = (undone = 'running') => step({ do: 'move_bench_time', benchTimeId, from: undone, to: 'stopped' });
  const first = stop();
  const [stopped, back] = await send(bench, [first, step({ do: 'undo', undoes: first.key })]);
  expect([stopped!.status, back!.status]).toEqual([200, 200]);
  expect((await bench.get(`/bench-times/${benchTimeId}`)).body).toMatchObject({ state: 'running', stoppedAt: null });
  const second = stop();
  await send(bench, [second, step({ do: 'start_time', general: true, operation: 'phone' })]);
  const [beside] = await send(bench, [step({ do: 'undo', undoes: second.key })]);
  expect(beside!.problem!.missing).toEqual([expect.stringContaining('another one runs now')]);
  const other = (await bench.get('/bench-times/current').expect(200)).body.running.id as string;
  const later = { occurredAt: '2031-05-05T08:03:00Z' };
  app.clock.advance({ minutes: 4 });
  const sentAt = '2031-05-05T08:04:00Z';
  const over = step({ do: 'move_bench_time', benchTimeId: other, from: 'running', to: 'stopped', ...later });
  const [ended, across] = await send(bench, [over, step({ do: 'undo', undoes: second.key, occurredAt: sentAt })], sentAt);
  expect(ended!.status).toBe(200);
  expect(across!.problem!.missing).toEqual([expect.stringContaining('other work was noted since')]);
});

test('a device whose clock is off is asked, and its times are moved or stand', async () => {
  const app = await startApp();
  const { bench } = app;
  const steps = [step({ do: 'start_time', general: true, operation: 'sweeping', occurredAt: '2031-05-05T07:50:00Z' })];
  const sentAt = '2031-05-05T07:53:00Z';
  const asked = await bench.post('/bench/steps', { sentAt, steps }).expect(422);
  expect(asked.body.errors).toMatchObject([
    {
      pointer: '/sentAt',
      confirmable: true,
      perhaps: '2031-05-05T08:00:00.000Z',
      detail: expect.stringContaining('7 min behind'),
    },
  ]);
  const mended = await bench.post('/bench/steps', { sentAt, mendClock: true, steps }).expect(200);
  expect(mended.body.answers[0].result.startedAt).toBe('2031-05-05T07:57:00.000Z');
  // The same step again, by a clock that is right since: it is done, and stays as it is.
  expect((await bench.post('/bench/steps', { sentAt: AT, steps }).expect(200)).body).toEqual(mended.body);
  const headers = { confirm: '/sentAt', 'confirm-reason': 'the server was off' };
  const other = [step({ do: 'start_time', general: true, operation: 'phone', occurredAt: '2031-05-05T07:58:00Z' })];
  const stands = await bench.post('/bench/steps', { sentAt, steps: other }).set(headers).expect(200);
  expect(stands.body.answers[0].result.startedAt).toBe('2031-05-05T07:58:00.000Z');
});

test('a student’s steps are held to practice pieces, and the desk has none', async () => {
  const app = await startApp();
  const { student, desk } = app;
  const { piece, heats } = await aCutPiece(app);
  const steps = [
    step({ do: 'move_heat', heatId: heats[0]!.id, from: 'laid_out', to: 'skipped' }),
    step({ do: 'move_piece', pieceId: piece.id, from: 'cut', to: 'set_aside', reason: 'resting' }),
    step({ do: 'move_joint', pieceId: piece.id, joint: 'bezel', from: 'open', to: 'placed' }),
  ];
  expect((await send(student, steps)).map(({ status }) => status)).toEqual([404, 404, 404]);
  await desk.post('/bench/steps', { sentAt: AT, steps }).expect(403);
});
