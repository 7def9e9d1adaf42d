import { expect, test } from 'vitest';
import { insertPerson } from '../../src/features/people/people.store.ts';
import { jointGuesses, plans } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import { putEndedHeat, putIncident } from '../support/a-heated-book.ts';
import { putPiece } from '../support/a-piece.ts';
import { putCommission, putSoldering } from '../support/a-record.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { startApp, testClock } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const PATH = '/reports/student-guesses';

test('GET /reports/student-guesses counts plans, guesses, joints and incidents of each student', async () => {
  const app = await startApp();
  const { db, clock, owner, bench, desk, student, actors } = app;
  const pebble = actors.student.personId;
  const piece = putPiece(app, await putCommission(app, { state: 'on_bench', kind: 'teaching_piece', clientId: null }));
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id);
  const own = putEndedHeat(app, { pieceId: piece.id, earlierJoints: [], litBy: pebble });
  const others = putEndedHeat(app, { pieceId: piece.id, earlierJoints: [] });
  const solder = (heatId: string, jointId: string, outcome: 'sound' | 'spoilt') =>
    putSoldering(app, { pieceId: piece.id, heatId, jointId, productId: product.id, lotId: lot.id, outcome });
  // Of three joints soldered for the first time, two were sound at once; the spoilt one again, and a fourth that was not the first.
  solder(own, 'seam', 'sound');
  solder(own, 'bezel', 'spoilt');
  solder(own, 'bail', 'sound');
  solder(others, 'post', 'spoilt');
  clock.advance({ minutes: 5 });
  solder(own, 'bezel', 'sound');
  solder(own, 'post', 'sound');
  const inOwn = putIncident(app, { pieceId: piece.id, kind: 'no_flow', heatId: own });
  const seenApart = putIncident(app, { pieceId: piece.id, kind: 'pit', seenBy: pebble });
  putIncident(app, { pieceId: piece.id, kind: 'pit', heatId: others, seenBy: pebble });
  const [plan] = db.select().from(plans).all();
  const guess = (joint: string, guessed: 'solid' | 'softens' | 'runs', predicted: 'solid' | 'softens' | 'runs') =>
    db
      .insert(jointGuesses)
      .values({
        id: newId(clock.now()),
        personId: pebble,
        planId: plan!.id,
        heat: 1,
        joint,
        guess: guessed,
        predicted,
        at: clock.now().toISOString(),
      })
      .run();
  guess('a', 'solid', 'solid');
  guess('b', 'softens', 'softens');
  guess('c', 'runs', 'runs');
  guess('d', 'solid', 'runs');
  insertPerson(db, { id: newId(clock.now()), name: 'Marl', roles: ['student'], createdAt: clock.now().toISOString() });

  const { rows } = (await owner.get(PATH).expect(200)).body;
  expect(rows).toEqual([
    {
      personId: pebble,
      student: 'Pebble',
      plans: 0,
      guesses: 4,
      right: 3,
      rightFraction: 0.75,
      // Clopper and Pearson for 3 of 4: the beta quantiles 0.025 of (3, 2) and 0.975 of (4, 1), the last 0.975^(1/4).
      leastFraction: 0.1941,
      mostFraction: 0.9937,
      jointsSoldered: 3,
      firstTimeJoints: 2,
      incidents: 2,
      entries: { planIds: [], guessIds: expect.any(Array), heatIds: [own], incidentIds: [inOwn, seenApart] },
    },
  ]);
  expect(0.975 ** 0.25).toBeCloseTo(0.9937, 4);
  expect((await owner.get(`${PATH}?format=csv`).expect(200)).text).toBe(
    'student,plans,guesses,right,right_fraction,least_fraction,most_fraction,joints_soldered,first_time_joints,incidents\r\nPebble,0,4,3,0.75,0.1941,0.9937,3,2,2\r\n',
  );
  for (const person of [bench, desk, student]) await person.get(PATH).expect(403);
});

test('GET /reports/student-guesses is a tutor’s too, and counts by the day of the studio', async () => {
  // 22:30 in UTC is half past midnight of the 6th in Berlin.
  const app = await startApp({ clock: testClock('2031-05-05T22:30:00Z') });
  const { owner, bench, actors, db } = app;
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  const piece = putPiece(app, await putCommission(app, { state: 'on_bench' }));
  putIncident(app, { pieceId: piece.id, kind: 'pit', seenBy: actors.student.personId });
  const basalt = (await owner.get(`/people/${actors.bench.personId}`).expect(200)).body;
  await owner.patch(`/people/${basalt.id}`, { tutor: true }, basalt.version).expect(200);
  const rows = async (query: string) => (await bench.get(`${PATH}?${query}`).expect(200)).body.rows as object[];
  expect(await rows('to=2031-05-05')).toEqual([]);
  expect(await rows('from=2031-05-06&to=2031-05-06')).toMatchObject([
    { student: 'Pebble', guesses: 0, rightFraction: null, leastFraction: null, mostFraction: null, incidents: 1 },
  ]);
  expect(db.select().from(jointGuesses).all()).toEqual([]);
});

test('what a student guesses over HTTP is in the report as it was told', async () => {
  const app = await startApp();
  const { owner, bench, student } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const { plan } = await planInUse(bench, piece.id);
  const guesses = ['bail-seam', 'bezel', 'wall-seam'].map((joint) => ({ joint, guess: 'softens' }));
  const told = (await student.post(`/plans/${plan.id}/guesses`, { heat: 4, guesses }).expect(201)).body;
  const { rows } = (await owner.get(PATH).expect(200)).body;
  expect(rows).toMatchObject([{ student: 'Pebble', guesses: 3, right: told.right, jointsSoldered: 0 }]);
});
