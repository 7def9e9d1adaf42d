import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { bookSolderUse } from '../../src/features/stock/index.ts';
import { designs, heats } from '../../src/platform/db/tables.ts';
import { writtenBy } from '../../src/platform/http/actor.ts';
import { putIncident } from '../support/a-heated-book.ts';
import { putPiece } from '../support/a-piece.ts';
import { putCommission, putHeat, putSoldering, putTime } from '../support/a-record.ts';
import { pendant } from '../support/pendant.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const PATH = '/reports/mishaps';

/** A piece with a heat of easy solder at 2.00 a gram, and a joint that was soldered hard before. */
async function aHeatedPiece(app: TestApp) {
  const { owner, db } = app;
  const piece = putPiece(app, await putCommission(app, { state: 'on_bench' }));
  const hard = await addProduct(owner, { code: 'hard', gradeWord: 'hard' });
  const easy = await addProduct(owner, { code: 'easy', gradeWord: 'easy', solidusC: 671, liquidusC: 718 });
  const lot = await receiveLot(owner, easy.id, { unitCost: { amount: '2.00', per: 'g' } });
  const hardLot = await receiveLot(owner, hard.id);
  const heatId = putHeat(app, { pieceId: piece.id, productId: easy.id, number: 1 });
  db.update(designs).set({ body: pendant }).where(eq(designs.pieceId, piece.id)).run();
  db.update(heats).set({ lotId: lot.id }).where(eq(heats.id, heatId)).run();
  const { actors, clock } = app;
  const use = { lotId: lot.id, pieceId: piece.id, heatId, tenthMg: 5000, at: clock.now() };
  bookSolderUse(db, writtenBy(actors.bench, clock.now()), use);
  const bezel = { pieceId: piece.id, heatId, jointId: 'bezel', outcome: 'sound' as const };
  putSoldering(app, { ...bezel, productId: hard.id, lotId: hardLot.id });
  return { piece, heatId };
}

test('GET /reports/mishaps counts by kind, cause, joint and grade, and sums what was lost', async () => {
  const app = await startApp();
  const { owner, bench, actors } = app;
  const { piece, heatId } = await aHeatedPiece(app);
  const inHeat = { pieceId: piece.id, heatId };
  // 60 minutes at 24.00 + 16.00 + 2.50: 42.50 an hour.
  putTime(app, { pieceId: piece.id, minutes: 60 });
  const reflow = { ...inHeat, kind: 'reflow', jointId: 'bezel', likelyCause: 'flame_on_solder' };
  const first = putIncident(app, { ...reflow, minutesLost: 20, solderUsedTenthMg: 5000 });
  const second = putIncident(app, { ...reflow, minutesLost: 10, state: 'put_right', seenBy: actors.student.personId });
  const noFlow = putIncident(app, { ...inHeat, kind: 'no_flow', jointId: 'bail-on', likelyCause: 'dirty' });
  const pit = putIncident(app, { pieceId: piece.id, kind: 'pit', minutesLost: 6 });
  const { rows } = (await owner.get(PATH).expect(200)).body;
  expect(rows).toEqual([
    {
      kind: 'reflow',
      cause: 'flame_on_solder',
      jointKind: 'loop_base',
      // The bezel was soldered hard, whatever the heat takes.
      grade: 'hard',
      times: 2,
      fraction: 0.5,
      runningFraction: 0.5,
      open: 1,
      minutesLost: 30,
      minutesNotNoted: 0,
      solderG: 0.5,
      // 30 min · 42.50/60 = 21.25, and 0.5 g · 2.00.
      money: { amountMinor: 2225, currency: 'EUR' },
      people: [
        { personId: actors.bench.personId, name: 'Basalt', times: 1 },
        { personId: actors.student.personId, name: 'Pebble', times: 1 },
      ],
      entries: { incidentIds: [first, second] },
    },
    {
      kind: 'pit',
      cause: null,
      jointKind: null,
      grade: null,
      times: 1,
      fraction: 0.25,
      runningFraction: 0.75,
      open: 1,
      minutesLost: 6,
      minutesNotNoted: 0,
      solderG: 0,
      // 6 · 42.50/60
      money: { amountMinor: 425, currency: 'EUR' },
      people: [{ personId: actors.bench.personId, name: 'Basalt', times: 1 }],
      entries: { incidentIds: [pit] },
    },
    expect.objectContaining({
      kind: 'no_flow',
      cause: 'dirty',
      jointKind: 'tee',
      grade: 'easy',
      runningFraction: 1,
      minutesLost: 0,
      minutesNotNoted: 1,
      money: { amountMinor: 0, currency: 'EUR' },
      entries: { incidentIds: [noFlow] },
    }),
  ]);
  // What it cost and who saw it is the owner's.
  const forBench = (await bench.get(PATH).expect(200)).body.rows[0];
  expect(forBench).toMatchObject({ times: 2, minutesLost: 30, money: null, people: null });
  const header = 'kind,cause,joint_kind,grade,times,fraction,running_fraction,open,lost_min,not_noted,solder_g,money_EUR,seen_by';
  expect((await owner.get(`${PATH}?format=csv`).expect(200)).text.split('\r\n').slice(0, 2)).toEqual([
    header,
    'reflow,flame_on_solder,loop_base,hard,2,0.5,0.5,1,30,0,0.5,22.25,Basalt 1; Pebble 1',
  ]);
  expect((await bench.get(`${PATH}?format=csv`).expect(200)).text.split('\r\n')[1]).toBe(
    'reflow,flame_on_solder,loop_base,hard,2,0.5,0.5,1,30,0,0.5,,',
  );
});

test('minutes lost on work without noted time cost what the settings say', async () => {
  const app = await startApp();
  const piece = putPiece(app, await putCommission(app, { state: 'on_bench' }));
  putIncident(app, { pieceId: piece.id, kind: 'burst', minutesLost: 90 });
  // 24.00 + 16.00 + 2.50 an hour, an hour and a half.
  expect((await app.owner.get(PATH).expect(200)).body.rows).toMatchObject([{ money: { amountMinor: 6375 }, fraction: 1 }]);
});

test('GET /reports/mishaps counts by the day of the studio', async () => {
  // 22:30 in UTC is half past midnight of the 1st of January in Berlin's summer time, half past eleven in winter.
  const clock = testClock('2031-12-31T22:30:00Z');
  const app = await startApp({ clock });
  const { version } = (await app.owner.get('/settings').expect(200)).body;
  await app.owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  const piece = putPiece(app, await putCommission(app, { state: 'on_bench', dueOn: '2032-03-01' }));
  putIncident(app, { pieceId: piece.id, kind: 'pit' });
  clock.advance({ minutes: 30 });
  putIncident(app, { pieceId: piece.id, kind: 'burst' });
  const kinds = async (query: string) =>
    (await app.owner.get(`${PATH}?${query}`).expect(200)).body.rows.map(({ kind }: { kind: string }) => kind) as string[];
  expect(await kinds('from=2031-01-01&to=2031-12-31')).toEqual(['pit']);
  expect(await kinds('from=2032-01-01')).toEqual(['burst']);
});
