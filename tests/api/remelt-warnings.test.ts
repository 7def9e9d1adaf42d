import { expect, test } from 'vitest';
import { predicted, putEndedHeat, putIncident, putJointLine } from '../support/a-heated-book.ts';
import { putPiece } from '../support/a-piece.ts';
import { putCommission } from '../support/a-record.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, workHeat, workToLooking } from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

const PATH = '/reports/remelt-warnings';

async function aPieceIn(app: TestApp) {
  return putPiece(app, await putCommission(app, { state: 'on_bench' }));
}

/** So many joints in one heat with one margin, of which the first so many moved. */
function heatOf(app: TestApp, pieceId: string, solidMarginK: number, count: number, moved: number): string {
  const names = Array.from({ length: count }, (_, index) => `j${solidMarginK}-${index}`);
  const heatId = putEndedHeat(app, { pieceId, earlierJoints: names.map((name) => predicted(name, solidMarginK)) });
  for (const name of names.slice(0, moved)) putJointLine(app, pieceId, name);
  return heatId;
}

interface Row {
  by: string;
  band: string;
  joints: number;
  remelts: number;
  [member: string]: unknown;
}

const bands = (rows: Row[], by = 'solid_margin') =>
  rows.filter((row) => row.by === by).map(({ band, joints, remelts }) => [band, joints, remelts]);

// The studio's worked example: 6 of 14, 3 of 22, 1 of 41, none of 57; shown (x + ½)/(n + 1) as 6.5/15, 3.5/23, 1.5/42, 0.5/58, the
// last at most 3/57. The other limits are those of Clopper and Pearson: of 6 in 14 the beta quantiles 0.025 of (6, 9) and 0.975 of (7, 8).
test('GET /reports/remelt-warnings sets remelts beside the margin that was predicted', async () => {
  const app = await startApp();
  const { id } = await aPieceIn(app);
  const first = heatOf(app, id, -30, 14, 6);
  heatOf(app, id, -5, 22, 3);
  heatOf(app, id, 10, 41, 1);
  heatOf(app, id, 40, 57, 0);
  const { rows, rise } = (await app.bench.get(PATH).expect(200)).body;
  expect(rows[0]).toMatchObject({
    by: 'solid_margin',
    band: 'under -20 K',
    fromK: null,
    toK: -20,
    heats: 1,
    joints: 14,
    remelts: 6,
    plainFraction: 0.4286,
    shownFraction: 0.4333,
    leastFraction: 0.1766,
    mostFraction: 0.7114,
    says: '6 of 14: 43 %, between 18 % and 71 %',
    entries: { heatIds: [first] },
  });
  expect(rows[0].entries.remelted).toHaveLength(6);
  expect(rows.slice(0, 4).map(({ shownFraction }: Row) => shownFraction)).toEqual([0.4333, 0.1522, 0.0357, 0.0086]);
  expect(rows[3]).toMatchObject({ band: '20 K and over', plainFraction: 0, leastFraction: 0, mostFraction: 0.0526 });
  expect(rows[3].says).toBe('none of 57: under 5.3 %');
  // 14 + 22 under zero, 41 + 57 over it.
  expect(bands(rows, 'verdict')).toEqual([
    ['softens', 36, 9],
    ['stays_solid', 98, 1],
  ]);
  expect(rise).toMatchObject({ inUseK: 0, supportedK: 0, suggestedK: null, steps: [] });
  const csv = (await app.desk.get(`${PATH}?format=csv`).expect(200)).text.split('\r\n');
  expect(csv.slice(0, 2)).toEqual([
    'by,band,from_k,under_k,heats,joints,remelts,plain_fraction,shown_fraction,least_fraction,most_fraction',
    'solid_margin,under -20 K,,-20,1,14,6,0.4286,0.4333,0.1766,0.7114',
  ]);
});

test('GET /reports/remelt-warnings puts a margin at a border into the band above it', async () => {
  const app = await startApp();
  const { id } = await aPieceIn(app);
  const margins = [-20.1, -20, -0.1, 0, 19.9, 20];
  putEndedHeat(app, { pieceId: id, earlierJoints: margins.map((margin, index) => predicted(`j${index}`, margin)) });
  const { rows } = (await app.bench.get(PATH).expect(200)).body;
  expect(rows[0].says).toBe('none of 1: too few to tell');
  expect(bands(rows)).toEqual([
    ['under -20 K', 1, 0],
    ['from -20 to under 0 K', 2, 0],
    ['from 0 to under 20 K', 2, 0],
    ['20 K and over', 1, 0],
  ]);
});

test('a remelt is of the last heat before it in which the joint lay, however it was noted', async () => {
  const app = await startApp();
  const { bench, clock } = app;
  const [piece, other] = [await aPieceIn(app), await aPieceIn(app)];
  const both = [predicted('seam', 30), predicted('bezel', 5)];
  const first = putEndedHeat(app, { pieceId: piece.id, earlierJoints: both });
  putEndedHeat(app, { pieceId: other.id, earlierJoints: both });
  clock.advance({ minutes: 30 });
  const second = putEndedHeat(app, { pieceId: piece.id, earlierJoints: both });
  clock.advance({ minutes: 30 });
  // The bezel moved after the second; the seam was seen to have reflowed in the first, and the wall lay in none.
  putJointLine(app, piece.id, 'bezel');
  putIncident(app, { pieceId: piece.id, kind: 'reflow', heatId: first, jointId: 'seam' });
  putIncident(app, { pieceId: piece.id, kind: 'reflow', jointId: 'wall' });
  putIncident(app, { pieceId: piece.id, kind: 'pit', heatId: first, jointId: 'bezel' });
  // Said to have moved, and taken back.
  putJointLine(app, piece.id, 'seam');
  putJointLine(app, piece.id, 'seam', 'moved', 'sound');
  // The same remelt noted in two ways is one.
  putIncident(app, { pieceId: piece.id, kind: 'reflow', jointId: 'bezel' });
  const { rows } = (await bench.get(PATH).expect(200)).body;
  expect(rows.filter(({ by }: Row) => by === 'solid_margin').map(({ entries }: Row) => entries)).toMatchObject([
    { remelted: [{ heatId: second, jointId: 'bezel' }] },
    { remelted: [{ heatId: first, jointId: 'seam' }] },
  ]);
});

test('a heat that did not flow counts only where a joint ran all the same', async () => {
  const app = await startApp();
  const { id } = await aPieceIn(app);
  const heat = { pieceId: id, earlierJoints: [predicted('seam', 5), predicted('bezel', 5)], outcome: 'no_flow' };
  putEndedHeat(app, heat);
  expect((await app.bench.get(PATH).expect(200)).body.rows).toEqual([]);
  putEndedHeat(app, heat);
  putJointLine(app, id, 'seam');
  expect(bands((await app.bench.get(PATH).expect(200)).body.rows)).toEqual([['from 0 to under 20 K', 1, 1]]);
});

const ran = (joint: string, runMarginK: number) => predicted(joint, runMarginK - 40, { runMarginK, verdict: 'runs' });
const names = (count: number, of: string) => Array.from({ length: count }, (_, index) => `${of}${index}`);

test('a rise is suggested once the record supports it, from joints without anti-flow and margins without the rise they had', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aPieceIn(app);
  const put = (of: string, count: number, runMarginK: number, extra: object = {}) =>
    putEndedHeat(app, { pieceId: id, earlierJoints: names(count, of).map((name) => ran(name, runMarginK)), ...extra });
  // 29 joints 3 K over their liquidus, none of which ran; with anti-flow on them, twenty more prove nothing.
  put('a', 29, -3);
  put('b', 20, -3, { antiFlowOn: names(20, 'b') });
  const before = (await bench.get(PATH).expect(200)).body.rise;
  expect(before).toMatchObject({ inUseK: 0, suggestedK: null, steps: [{ fromK: 0, toK: 5, joints: 29, remelts: 0 }] });
  // The thirtieth was predicted with a rise of 6 K to hold by 2 K: without it, to run by 4 K.
  putEndedHeat(app, { pieceId: id, earlierJoints: [predicted('c', -40, { runMarginK: 2, verdict: 'may_run' })], riseK: 6 });
  const { rise } = (await bench.get(PATH).expect(200)).body;
  expect(rise).toMatchObject({ inUseK: 0, supportedK: 5, suggestedK: 5, steps: [{ joints: 30, most: 0.1, supported: true }] });
});

test('GET /reports/remelt-warnings counts by the day of the studio on which the heat ended', async () => {
  // 22:30 in UTC is half past midnight of the 6th in Berlin.
  const app = await startApp({ clock: testClock('2031-05-05T22:30:00Z') });
  const { id } = await aPieceIn(app);
  const { version } = (await app.owner.get('/settings').expect(200)).body;
  await app.owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  heatOf(app, id, 10, 2, 1);
  const count = async (query: string) => (await app.bench.get(`${PATH}?${query}`).expect(200)).body.rows.length as number;
  expect(await count('to=2031-05-05')).toBe(0);
  expect(await count('from=2031-05-06&to=2031-05-06')).toBe(2);
  expect(await count('from=2031-05-07')).toBe(0);
});

test('a pendant worked at the bench, with one joint that slides, is the record of its plan', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const bare = pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder }));
  const { plan, heats } = await planInUse(bench, id, { plan: { heats: bare } });
  await issueMetal(bench, id);
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  await workToLooking(bench, heats[3]!.id, lots);
  const incident = { kind: 'reflow', movedJoints: ['bezel', 'wall-seam'], note: 'the wall slid' };
  await bench
    .move(`/heats/${heats[3]!.id}`, { from: 'looking', to: 'spoilt', outcome: 'earlier_joint_moved', incident })
    .expect(200);
  const { check } = (await bench.get(`/plans/${plan.id}`).expect(200)).body as {
    check: { heats: { earlierJoints: { joint: string; solidMarginK: number }[] }[] };
  };
  const cases = check.heats.flatMap(({ earlierJoints }) => earlierJoints);
  expect(cases.length).toBeGreaterThan(2);
  const rows = ((await bench.get(PATH).expect(200)).body.rows as Row[]).filter(({ by }) => by === 'solid_margin');
  expect(rows.reduce((sum, { joints }) => sum + joints, 0)).toBe(cases.length);
  const remelted = rows.flatMap(({ entries }) => (entries as { remelted: object[] }).remelted);
  expect(remelted).toHaveLength(2);
  expect(remelted).toEqual(
    expect.arrayContaining([
      { heatId: heats[3]!.id, jointId: 'bezel' },
      { heatId: heats[3]!.id, jointId: 'wall-seam' },
    ]),
  );
});
