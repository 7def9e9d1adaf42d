import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, CLEARED, issueMetal, jointStates, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp } from '../support/start-app.ts';

/** A vented dome with a pin, and beside it on the plate a piece of enamel that may not get hot. */
const locket = (enamelMaxC?: number) => ({
  parts: [
    { id: 'dome', metal: 'sterling-925', form: { kind: 'dome', blankDiameterMm: 20, thicknessMm: 0.8 }, hollow: { ventMm: 1 } },
    {
      id: 'pin',
      metal: 'sterling-925',
      form: { kind: 'round_wire', lengthMm: 10, diameterMm: 1 },
      ...(enamelMaxC === undefined ? {} : { maxC: enamelMaxC }),
    },
  ],
  joints: [
    {
      id: 'pinned',
      kind: 'post',
      between: [
        { part: 'dome', xMm: 0, yMm: 0 },
        { part: 'pin', alongMm: 0 },
      ],
      diameterMm: 1,
      gapMm: 0.05,
    },
  ],
});
const plan = {
  heats: [
    { joints: ['pinned'], solder: 'easy' },
    { joints: [], purpose: 'anneal' },
  ],
};

test('a hollow form goes to the pickle with its vent open, and is never quenched', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: locket() });
  const { heats } = await planInUse(bench, id, { plan: { heats: plan.heats.slice(0, 1) } });
  await issueMetal(bench, id);
  const path = `/heats/${heats[0]!.id}`;
  const ready = await readiness(bench, heats[0]!.id, lots);
  expect(ready.cautionsRead).toContain('C8');
  expect(ready.cautionsRead).not.toContain('C11');
  const unvented = await bench.move(path, ready).expect(409);
  expect(unvented.body.missing).toEqual(['see that the vent of the hollow form is open (ventOpen)']);
  await bench.move(path, { ...ready, ventOpen: true }).expect(200);
  await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
  await bench.move(path, { from: 'alight', to: 'cooling', seen: 'even' }).expect(200);
  const black = { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true };
  const shut = await bench.move(path, black).expect(409);
  expect(shut.body.missing).toEqual(['see that the vent is open (ventOpen)']);
  await bench.move(path, { ...black, ventOpen: true }).expect(200);
  const wet = await bench.move(path, { from: 'in_pickle', to: 'looking' }).expect(409);
  expect(wet.body.missing).toEqual([expect.stringContaining('driedThrough')]);
  await bench.move(path, { from: 'in_pickle', to: 'looking', driedThrough: true }).expect(200);
});

test('what may not get hot is out before the pickle', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: locket() });
  await bench
    .put(`/pieces/${id}/design`, locket(1200), 1)
    .set({ confirm: '/parts/1/maxC', 'confirm-reason': 'tried on scrap' })
    .expect(200);
  const { heats } = await planInUse(bench, id, { plan: { heats: plan.heats.slice(0, 1) } });
  await issueMetal(bench, id);
  const path = `/heats/${heats[0]!.id}`;
  await bench.move(path, { ...(await readiness(bench, heats[0]!.id, lots)), ventOpen: true }).expect(200);
  await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
  await bench.move(path, { from: 'alight', to: 'cooling', seen: 'even' }).expect(200);
  const step = { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true, ventOpen: true };
  expect((await bench.move(path, step).expect(409)).body.missing[0]).toContain('stoneIn');
  await bench.move(path, { ...step, stoneIn: true }).expect(409);
  await bench.move(path, { ...step, stoneIn: false }).expect(200);
});

test('what may not get hot is not heated over its limit', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: locket(500) });
  const { heats, plan: made } = await planInUse(bench, id, { plan: { heats: plan.heats.slice(0, 1) } });
  expect(made.check.verdict).toBe('problem');
  await issueMetal(bench, id);
  const ready = { ...(await readiness(bench, heats[0]!.id, lots)), ventOpen: true };
  const refused = await bench.move(`/heats/${heats[0]!.id}`, ready).expect(409);
  expect(refused.body.missing).toEqual([
    expect.stringMatching(/^pin is predicted to reach \d+ °C, over its limit of 500 °C: take it out, or plan again$/),
  ]);
});

test('an anneal takes no solder, and books none', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: locket() });
  const annealed = { heats: [plan.heats[0]!, { joints: ['pinned'], purpose: 'anneal' }] };
  const { heats } = await planInUse(bench, id, { plan: annealed });
  await issueMetal(bench, id);
  const [first, second] = heats;
  const early = await bench.move(`/heats/${second!.id}`, { from: 'laid_out', to: 'primed' }).expect(409);
  expect(early.body.missing).toContain('joint pinned is open');
  for (const heat of [first!, second!]) {
    const path = `/heats/${heat.id}`;
    const shown = (await bench.get(path)).body;
    const due = shown.cautions.filter((caution: { due: boolean }) => caution.due).map((caution: { id: string }) => caution.id);
    const lot = heat === first ? { lotId: lots['easy'] } : {};
    const ready = { jointFitted: true, fluxOn: true, protectionsPlaced: true, ventOpen: true, cautionsRead: due, ...lot };
    if (heat === second) await bench.move(path, { from: 'laid_out', to: 'primed', ...ready, lotId: lots['easy'] }).expect(409);
    await bench.move(path, { from: 'laid_out', to: 'primed', ...ready }).expect(200);
    await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
    await bench.move(path, { from: 'alight', to: 'cooling', seen: 'dull red' }).expect(200);
    await bench.move(path, { from: 'cooling', to: 'looking' }).expect(200);
    await bench.move(path, CLEARED).expect(200);
  }
  expect(await jointStates(bench, id)).toEqual({ pinned: 'sound' });
  const uses = (await owner.get('/stock-movements')).body.items.filter(({ kind }: { kind: string }) => kind === 'use');
  expect(uses).toHaveLength(1);
  await bench.move(`/pieces/${id}`, { from: 'soldering', to: 'built' }).expect(200);
});
