import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, CLEARED, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { pendant } from '../support/pendant.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A piece whose first heats may be worked up to the pickle. */
async function aPieceAtTheFire(app: TestApp) {
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, id);
  await issueMetal(bench, id);
  const toCooling = async (index: number): Promise<string> => {
    const path = `/heats/${heats[index]!.id}`;
    await bench.move(path, await readiness(bench, heats[index]!.id, lots)).expect(200);
    await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
    await bench.move(path, { from: 'alight', to: 'cooling', seen: 'ran bright' }).expect(200);
    return path;
  };
  return { heats, toCooling };
}

const dip = { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true };

test('a bath counts copper and acid of every heat that goes in, by the recipe of the quote', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  const { toCooling, heats } = await aPieceAtTheFire(app);
  const bath = (await bench.post('/pickle-baths', {}).expect(201)).body;
  expect(bath).toMatchObject({ number: 'B1', acid: 'bisulphate', volumeL: 1.5, state: 'fresh', dips: 0, fraction: 0 });
  const path = await toCooling(0);
  expect((await bench.move(path, { ...dip, bathC: 95, bathId: bath.id }).expect(422)).body.errors[0].detail).toContain(
    'Never boil pickle',
  );
  await bench.move(path, { ...dip, bathC: 50 }).expect(422);
  await bench.move(path, { ...dip, bathId: heats[0]!.id }).expect(404);
  await bench.move(path, { ...dip, bathId: bath.id, bathC: 50 }).expect(200);
  const [taken] = (await desk.get(`/pickle-baths/${bath.id}/dips`).expect(200)).body.items;
  // The wall alone is in that fire: a band of π · (10 + 0.35) · 3 · 2 = 195.09 mm². CuO 1.95093 cm² · 1.5 µm · 6.31 g/cm³ · 10⁻⁴ =
  // 1.84656 mg, of which copper is 63.546/79.545. Acid: CuO · 2 · 120.06/79.545, borax 1.95093 · 0.02 · 0.35 g · 2 · 120.06/201.22,
  // and 1.95093 cm² · 0.015 mL/cm² · 100 g/L carried out: 5.5742 + 16.2966 + 2.9264 mg.
  expect(pendant.parts.find(({ id }) => id === 'wall')?.form).toMatchObject({
    insideDiameterMm: 10,
    heightMm: 3,
    thicknessMm: 0.35,
  });
  expect(taken).toMatchObject({ heatId: heats[0]!.id, bathC: 50 });
  expect(taken.areaCm2).toBeCloseTo(1.95093, 4);
  expect(taken.copperG * 1000).toBeCloseTo(1.47516, 4);
  expect(taken.acidG * 1000).toBeCloseTo(24.797, 2);
  const after = (await bench.get(`/pickle-baths/${bath.id}`)).body;
  expect(after).toMatchObject({ state: 'in_use', dips: 1, copper: { limitG: 15 }, acidUsed: { limitG: 90 } });
});

test('a spent bath is not chosen again; it is neutralised, and where it went is noted', async () => {
  const app = await startApp();
  const { bench, owner, student } = app;
  const { toCooling } = await aPieceAtTheFire(app);
  const first = await toCooling(0);
  const bath = (
    await bench
      .post('/pickle-baths', { acid: 'other', volumeL: 0.1, copperLimitGPerL: 1 })
      .set('confirm', '/volumeL, /copperLimitGPerL')
      .set('confirm-reason', 'a thimble')
      .expect(201)
  ).body;
  await bench.move(first, { ...dip, bathId: bath.id }).expect(200);
  const counted = (await bench.get(`/pickle-baths/${bath.id}`)).body;
  expect(counted).toMatchObject({ state: 'in_use', acidUsed: null, copper: { limitG: 0.1 } });
  expect((await bench.move(`/pickle-baths/${bath.id}`, { from: 'in_use', to: 'spent' }).expect(409)).body.missing[0]).toContain(
    '1 % of its limit',
  );
  await bench.move(`/pickle-baths/${bath.id}`, { from: 'in_use', to: 'tiring' }).expect(403);
  const spent = (await bench.move(`/pickle-baths/${bath.id}`, { from: 'in_use', to: 'spent', reason: 'it is green' }).expect(200))
    .body;
  expect(spent.says).toMatch(/: called spent, it is green\. Neutralise it, and mix a new one\.$/);
  await bench.move(first, { from: 'in_pickle', to: 'looking' }).expect(200);
  await bench.move(first, { from: 'looking', to: 'cleared', outcome: 'flowed', jointsSound: true }).expect(200);
  const spare = (await bench.post('/pickle-baths', {}).expect(201)).body;
  const second = await toCooling(1);
  const refused = (await bench.move(second, { ...dip, bathId: bath.id }).expect(409)).body;
  expect(refused.detail).toBe('Cannot dip in bath B1: it is spent. Choose another or renew it');
  expect(refused.offers).toEqual([{ bathId: spare.id, number: 'B2', state: 'fresh' }]);
  await bench.move(second, { ...dip, bathId: spare.id }).expect(200);
  const path = `/pickle-baths/${bath.id}`;
  expect((await owner.move(path, { from: 'spent', to: 'neutralised', ph: 4 }).expect(409)).body.missing[0]).toContain(
    'the pH is 4',
  );
  await owner.move(path, { from: 'spent', to: 'neutralised', goneTo: 'x' }).expect(422);
  expect((await owner.move(path, { from: 'spent', to: 'neutralised', ph: 7.5 }).expect(200)).body.says).toMatch(
    /\. Neutralised on 2031-05-05, pH 7\.5: hand it on by the rule of the place\.$/,
  );
  await owner.move(path, { from: 'neutralised', to: 'gone' }).expect(409);
  await owner.move(path, { from: 'neutralised', to: 'gone', goneTo: 'the town’s collection of hazardous waste' }).expect(200);
  const [log] = (await student.get('/pickle-baths?state=gone').expect(200)).body.items;
  expect(log.says).toMatch(/\. Gone on 2031-05-05: the town’s collection of hazardous waste\.$/);
  expect(log).toMatchObject({ number: 'B1', ph: 7.5, neutralisedOn: '2031-05-05', goneOn: '2031-05-05', allowedMoves: [] });
});

test('a bath that heats wear out goes from in use to tiring to spent by itself', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { heats, toCooling } = await aPieceAtTheFire(app);
  // Oxide of 50 µm, 25.2 mg of copper a cm²: wall and bail leave 65 mg, the plate with the wall 0.35 g, all together more than the 0.45 g
  // that this bath may hold.
  const { version } = (await owner.get('/settings')).body;
  await owner.patch('/settings', { pickle: { oxideUm: 50 } }, version).expect(200);
  const mixed = { volumeL: 0.45, copperLimitGPerL: 1, acid: 'other' };
  const bath = (
    await bench
      .post('/pickle-baths', mixed)
      .set('confirm', '/volumeL, /copperLimitGPerL')
      .set('confirm-reason', 'a thimble')
      .expect(201)
  ).body;
  const states: string[] = [];
  for (const index of heats.keys()) {
    const path = await toCooling(index);
    await bench.move(path, { ...dip, bathId: bath.id }).expect(200);
    states.push((await bench.get(`/pickle-baths/${bath.id}`)).body.state);
    await bench.move(path, { from: 'in_pickle', to: 'looking' }).expect(200);
    await bench.move(path, CLEARED).expect(200);
  }
  expect(states).toEqual(['in_use', 'in_use', 'tiring', 'spent']);
  expect((await bench.get(`/pickle-baths/${bath.id}`)).body.says).toMatch(
    /^Copper [\d.]+ g\/L \(1\d\d % of its limit\): spent by copper\./,
  );
  // Without what went in last it is tiring again, as it was.
  const [last] = (await bench.get(`/pickle-baths/${bath.id}/dips`)).body.items;
  await bench.post(`/bath-dips/${last.id}/reversals`, { reason: 'into the citric one' }).expect(201);
  expect((await bench.get(`/pickle-baths/${bath.id}`)).body).toMatchObject({ state: 'tiring', dips: 3 });
});

test('iron in a bath: the pieces in it are looked at for blush before it is used again', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  const { toCooling } = await aPieceAtTheFire(app);
  const bath = (await bench.post('/pickle-baths', {}).expect(201)).body;
  const path = `/pickle-baths/${bath.id}`;
  expect((await bench.move(path, { from: 'fresh', to: 'in_use' }).expect(409)).body.missing[0]).toContain('first dip');
  await bench.move(await toCooling(0), { ...dip, bathId: bath.id }).expect(200);
  await desk.move(path, { from: 'in_use', to: 'fouled', reason: 'binding wire' }).expect(200);
  const half = (await bench.move(path, { from: 'fouled', to: 'in_use', ironOut: true }).expect(409)).body;
  expect(half.missing).toEqual([
    'look at the pieces that were in it for copper blush (piecesChecked)',
    'say how many blushed (blushes)',
  ]);
  const clean = { from: 'fouled', to: 'in_use', ironOut: true, piecesChecked: true, blushes: 1 };
  expect((await bench.move(path, clean).expect(200)).body).toMatchObject({ state: 'in_use', blushes: 1 });
});

test('a dip that was counted in the wrong bath is taken back once, and the bath is what the dips left make it', async () => {
  const app = await startApp();
  const { bench, desk, owner, student } = app;
  const { toCooling } = await aPieceAtTheFire(app);
  const bath = (await bench.post('/pickle-baths', {}).expect(201)).body;
  const path = `/pickle-baths/${bath.id}`;
  await bench.move(await toCooling(0), { ...dip, bathId: bath.id }).expect(200);
  const worn = (await bench.get(path).expect(200)).body;
  expect(worn).toMatchObject({ state: 'in_use', dips: 1 });
  const [taken] = (await desk.get(`${path}/dips`).expect(200)).body.items;
  expect(taken).toMatchObject({ takenBack: null, heatNumber: 1 });

  const back = `/bath-dips/${taken.id}/reversals`;
  await desk.post(back, { reason: 'it went into the other one' }).expect(403);
  await student.post(back, { reason: 'it went into the other one' }).expect(403);
  await bench.post(back, { reason: ' ' }).expect(422);
  await bench.post(`/bath-dips/${bath.id}/reversals`, { reason: 'it went into the other one' }).expect(404);
  const reversed = (await bench.post(back, { reason: 'it went into the other one' }).expect(201)).body;
  expect(reversed).toEqual({ ...taken, takenBack: { reason: 'it went into the other one', at: '2031-05-05T08:00:00.000Z' } });
  expect((await bench.get(path).expect(200)).body).toMatchObject({
    state: 'fresh',
    dips: 0,
    copper: { usedG: 0 },
    version: worn.version + 1,
  });
  expect((await desk.get(`${path}/dips`).expect(200)).body.items).toEqual([reversed]);
  expect((await bench.post(back, { reason: 'again' }).expect(409)).body.detail).toBe(
    'Cannot take this dip back: it was taken back already',
  );
  const [line] = (await owner.get('/journal?what=dip-reversal').expect(200)).body.items;
  expect(line.after).toMatchObject({ dipId: taken.id, reason: 'it went into the other one' });
});

test('of a bath that is neutralised no dip is taken back; what somebody said of a bath stays', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { toCooling } = await aPieceAtTheFire(app);
  const baths = [
    (await bench.post('/pickle-baths', {}).expect(201)).body,
    (await bench.post('/pickle-baths', {}).expect(201)).body,
  ];
  const first = await toCooling(0);
  await bench.move(first, { ...dip, bathId: baths[0].id }).expect(200);
  await bench.move(`/pickle-baths/${baths[0].id}`, { from: 'in_use', to: 'spent', reason: 'it is green' }).expect(200);
  const [taken] = (await bench.get(`/pickle-baths/${baths[0].id}/dips`)).body.items;
  await owner.move(`/pickle-baths/${baths[0].id}`, { from: 'spent', to: 'neutralised', ph: 7.5 }).expect(200);
  const late = (await bench.post(`/bath-dips/${taken.id}/reversals`, { reason: 'never dipped' }).expect(409)).body;
  expect(late.detail).toBe('Cannot take this dip back: bath B1 is neutralised, and is counted no more');

  await bench.move(first, { from: 'in_pickle', to: 'looking' }).expect(200);
  await bench.move(first, { from: 'looking', to: 'cleared', outcome: 'flowed', jointsSound: true }).expect(200);
  await bench.move(await toCooling(1), { ...dip, bathId: baths[1].id }).expect(200);
  await bench.move(`/pickle-baths/${baths[1].id}`, { from: 'in_use', to: 'spent', reason: 'it is green' }).expect(200);
  const [other] = (await bench.get(`/pickle-baths/${baths[1].id}/dips`)).body.items;
  await bench.post(`/bath-dips/${other.id}/reversals`, { reason: 'never dipped' }).expect(201);
  expect((await bench.get(`/pickle-baths/${baths[1].id}`)).body).toMatchObject({
    state: 'spent',
    stateReason: 'it is green',
    dips: 0,
  });
});
