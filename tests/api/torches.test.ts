import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { HEATS, STRIP } from '../support/observed-heats.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp, type Person } from '../support/start-app.ts';

const own = { name: 'Big torch', torch: { powerW: 260, spreadMm: 10, gasC: 1500 } };

async function aTorch(person: Person, torch: object = own): Promise<string> {
  return (await person.post('/torches', torch).expect(201)).body.id;
}

test('a torch is noted, read, renamed; its name is its own', async () => {
  const { bench, desk, student } = await startApp();
  const made = await bench.post('/torches', own).expect(201).expect('etag', '"1"');
  expect(made.body).toMatchObject({ ...own, version: 1 });
  const path = `/torches/${made.body.id}`;
  expect((await student.get(path).expect(200)).body).toEqual(made.body);
  await bench.post('/torches', { ...own, torch: 'micro' }).expect(409);
  const small = await aTorch(bench, { name: 'Pencil', torch: 'small' });
  const { items } = (await desk.get('/torches').expect(200)).body;
  expect(items.map(({ id }: { id: string }) => id)).toEqual([small, made.body.id]);
  await bench.patch(path, { name: 'Pencil' }, 1).expect(409);
  const renamed = await bench.patch(path, { name: 'Brazing torch', torch: 'large' }, 1).expect(200);
  expect(renamed.body).toMatchObject({ name: 'Brazing torch', torch: 'large', version: 2 });
  await bench.patch(path, { name: 'Late' }, 1).expect(412);
  await student.post('/torches', { name: 'Mine', torch: 'small' }).expect(403);
  await bench.post('/torches', { name: 'Odd', torch: { powerW: -4, spreadMm: 10, gasC: 1500 } }).expect(422);
});

test('a calibration is kept for a person and a torch, and their plans go by the newest', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const torchId = await aTorch(bench);
  const plan = async (person: Person, asked: object = {}) =>
    (
      await person
        .post(`/pieces/${piece.id}/plans`, { plan: pendantPlan, bench: { torchId, support: 'brick' }, ...asked })
        .expect(201)
    ).body;

  const before = await plan(bench);
  expect(before.bench).toMatchObject({ torchId, torch: own.torch, calibration: null });
  expect(before.check.assumptions.uncertainty).toContain('0.5 ·');

  const fitted = await bench
    .post('/calibrations', {
      torchId,
      observations: [
        { ...HEATS.disc, secondsToFlow: 8 },
        { ...HEATS.ring, secondsToFlow: 14, secondsToEndOfGlow: 20 },
      ],
      strips: [{ ...STRIP, secondsBetweenChips: 3 }],
    })
    .expect(201)
    .expect('etag', '"1"');
  expect(fitted.body).toMatchObject({ torchId, personId: app.actors.bench.personId, version: 1, heatIds: [] });
  expect(fitted.body.observations).toHaveLength(2);
  expect(fitted.body.power.toldByData).toBe(true);

  const after = await plan(bench);
  const { power, loss, spread } = fitted.body;
  expect(after.check.assumptions.calibration).toEqual({
    powerFactor: power.value,
    lossFactor: loss.value,
    spreadFactor: spread.value,
  });
  expect(after.check.assumptions.uncertainty).toContain('0.3 ·');
  expect(after.check.heats[3].timeToFlowS).not.toBe(before.check.heats[3].timeToFlowS);
  // The calibration is of one pair of hands.
  expect((await plan(owner)).check.assumptions.calibration).toBeNull();
  // An earlier draft goes by it too, once it is checked again.
  const again = await bench.post(`/plans/${before.id}/check`).expect(200);
  expect(again.body.check.assumptions.calibration).toEqual(after.check.assumptions.calibration);

  const newer = await bench
    .post('/calibrations', { torchId, observations: [{ ...HEATS.disc, secondsToFluxClear: 6, secondsToFlow: 9 }] })
    .expect(201);
  expect(newer.body.version).toBe(2);
  const { body: list } = await bench.get(`/calibrations?torchId=${torchId}&personId=${app.actors.bench.personId}`).expect(200);
  expect(list.items.map(({ version }: { version: number }) => version)).toEqual([2, 1]);
  expect((await bench.get(`/calibrations/${newer.body.id}`).expect(200)).body).toEqual(newer.body);
  expect((await plan(bench)).bench.calibration).toMatchObject({
    powerFactor: newer.body.power.value,
    lossFactor: 1,
    spreadFactor: 1,
  });
  await app.student.get(`/calibrations/${newer.body.id}`).expect(404);
  expect((await app.student.get('/calibrations').expect(200)).body.items).toEqual([]);
  const learner = await app.student
    .post('/calibrations', { torchId, observations: [{ ...HEATS.disc, secondsToFlow: 12 }] })
    .expect(201);
  expect((await app.student.get(`/calibrations/${learner.body.id}`).expect(200)).body).toEqual(learner.body);
  // What the factors multiply stands still.
  await bench.patch(`/torches/${torchId}`, { torch: 'large' }, 1).expect(409);
  await bench.patch(`/torches/${torchId}`, { name: 'The big one' }, 1).expect(200);

  const search = await plan(bench, { plan: undefined, search: { timeMs: 2000, workUnits: 20_000 } });
  expect(search.check.assumptions.calibration.powerFactor).toBe(newer.body.power.value);
});

test('heats of the book calibrate with the times that were noted as they cooled', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const torchId = await aTorch(bench);
  await owner.patch('/settings', { bench: { torchId } }, 0).expect(200);
  const piece = await aDrawnPiece(app);
  const { plan, heats } = await planInUse(bench, piece.id);
  expect(plan.bench).toMatchObject({ torchId, torch: own.torch });
  await issueMetal(bench, piece.id);
  const [first, second] = [heats[0]!, heats[1]!];
  const path = `/heats/${first.id}`;
  await bench.move(path, await readiness(bench, first.id, lots)).expect(200);
  await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
  const cooling = { from: 'alight', to: 'cooling', seen: 'ran bright' };
  const turned = await bench.move(path, { ...cooling, observed: { secondsToFluxClear: 9, secondsToFlow: 4 } }).expect(422);
  expect(turned.body.detail).toContain('before the flow');
  const { timeToFlowS } = (await bench.get(path).expect(200)).body.expected;
  const secondsToFlow = Math.round(8 * timeToFlowS) / 10;
  const cooled = await bench.move(path, { ...cooling, observed: { secondsToFlow } }).expect(200);
  expect(cooled.body.observed).toEqual({ secondsToFlow });
  const black = await bench
    .move(path, { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true, observed: { secondsToEndOfGlow: 2.5 } })
    .expect(200);
  expect(black.body.observed).toEqual({ secondsToFlow, secondsToEndOfGlow: 2.5 });

  const fitted = await bench.post('/calibrations', { torchId, heatIds: [first.id] }).expect(201);
  expect(fitted.body.heatIds).toEqual([first.id]);
  expect(fitted.body.observations[0]).toMatchObject({
    heat: 1,
    secondsToFlow,
    secondsToEndOfGlow: 2.5,
    support: plan.bench.support,
  });
  expect(fitted.body.power.value).toBeGreaterThan(1);

  const other = await aTorch(bench, { name: 'Pencil', torch: 'small' });
  const refused = await owner.post('/calibrations', { torchId, heatIds: [first.id, second.id] }).expect(422);
  expect(refused.body.errors.map(({ detail }: { detail: string }) => detail)).toEqual([
    expect.stringContaining('was not lit by you'),
    expect.stringContaining('was not lit by you'),
  ]);
  const elsewhere = await bench.post('/calibrations', { torchId: other, heatIds: [first.id] }).expect(422);
  expect(elsewhere.body.errors).toEqual([
    expect.objectContaining({ pointer: '/heatIds/0', detail: expect.stringContaining('another torch') }),
  ]);
});

test('POST calibrations keeps nothing that cannot tell the power', async () => {
  const { bench, desk } = await startApp();
  const torchId = await aTorch(bench);
  const nothing = await bench.post('/calibrations', { torchId }).expect(409);
  expect(nothing.body).toMatchObject({ type: '/api/v1/problems/condition-not-met', says: expect.any(Array) });
  await bench.post('/calibrations', { torchId, observations: [{ ...HEATS.ring, secondsToEndOfGlow: 16 }] }).expect(409);
  expect((await bench.get('/calibrations').expect(200)).body.items).toEqual([]);
  const unknown = '01900000-0000-7000-8000-000000000000';
  await bench.post('/calibrations', { torchId: unknown, observations: [{ ...HEATS.disc, secondsToFlow: 8 }] }).expect(404);
  await bench.get(`/calibrations/${unknown}`).expect(404);
  await bench.post('/calibrations', { torchId, heatIds: [unknown, unknown] }).expect(422);
  await desk.post('/calibrations', { torchId }).expect(403);
});

test('a torch of the book is named by its id alone, and must be there', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const torchId = await aTorch(bench);
  const refused = async (asked: object) => {
    const { body } = await bench
      .post(`/pieces/${piece.id}/plans`, { plan: pendantPlan, bench: { support: 'brick', ...asked } })
      .expect(422);
    return body.errors.map(({ pointer }: { pointer: string }) => pointer);
  };
  const unknown = '01900000-0000-7000-8000-000000000000';
  expect(await refused({ torchId: unknown })).toEqual(['/bench/torchId']);
  expect(await refused({ torchId, torch: 'medium' })).toEqual(['/bench/torch']);
  expect(await refused({})).toEqual(['/bench/torch']);
  expect(await refused({ torchId, calibration: null })).toEqual(['/bench/calibration']);
  const settings = await owner.patch('/settings', { bench: { torchId: unknown } }, 0).expect(422);
  expect(settings.body.errors).toEqual([expect.objectContaining({ pointer: '/bench/torchId' })]);
  await owner.patch('/settings', { bench: { torchId } }, 0).expect(200);
  const out = await owner.patch('/settings', { bench: { torchId: null } }, 1).expect(200);
  expect(out.body.settings.bench).not.toHaveProperty('torchId');
});
