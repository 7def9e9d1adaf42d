import { expect, test } from 'vitest';
import { solderNeeded } from '../../src/features/pieces/index.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { pendantPlan, solders } from '../support/pendant.ts';
import { addProduct, receiveLot } from '../support/stock.ts';
import { startApp } from '../support/start-app.ts';

test('POST plans keeps a plan by hand as a draft, checked at once with the bench and the drawer of the studio', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const made = await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201).expect('etag', '"1"');
  expect(made.body).toMatchObject({
    number: 1,
    state: 'draft',
    origin: 'by_hand',
    designNumber: 1,
    isCurrent: true,
    madeJoints: [],
    bench: { torch: 'medium', support: 'brick' },
    search: null,
    byStudent: false,
    allowedMoves: ['checked'],
  });
  expect(made.body.plan).toEqual(pendantPlan);
  expect(made.body.solders.map((solder: { id: string; availableG: number }) => [solder.id, solder.availableG])).toEqual([
    ['hard', 5],
    ['medium', 5],
    ['easy', 5],
  ]);
  expect(made.body.check.heats).toHaveLength(4);
  expect(made.body.check.heats[3].earlierJoints).toHaveLength(3);
  expect((await bench.get(`/plans/${made.body.id}`).expect(200)).body).toEqual(made.body);
  expect((await desk.get(`/pieces/${id}/plans`).expect(200)).body.items).toHaveLength(1);
  await desk.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(403);
});

test('POST plans tells every structural fault, and keeps nothing', async () => {
  const app = await startApp();
  const { bench } = app;
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const plan = {
    heats: [
      { joints: ['bezel', 'nose'], solder: 'tin' },
      { joints: ['wall-seam'], solder: 'hard' },
    ],
  };
  const refused = await bench.post(`/pieces/${id}/plans`, { plan }).expect(422);
  expect(refused.body.type).toBe('/api/v1/problems/invalid-fields');
  const pointers = (refused.body.errors as { pointer: string }[]).map(({ pointer }) => pointer);
  expect(pointers).toEqual(
    expect.arrayContaining(['/plan/heats/0/joints/1', '/plan/heats/0/solder', '/plan/heats', '/design/rules/before/0']),
  );
  for (const body of [{}, { plan: pendantPlan, search: {} }, { plan: { heats: [] } }, { search: { keep: [] } }, { plans: 1 }])
    await bench.post(`/pieces/${id}/plans`, body).expect(422);
  expect((await bench.get(`/pieces/${id}/plans`)).body.items).toEqual([]);
  await bench.post('/pieces/01890000-0000-7000-8000-000000000000/plans', { plan: pendantPlan }).expect(404);
});

test('POST plans finds a plan, says how good it is and why, and it is worked like any other', async () => {
  const app = await startApp();
  const { bench } = app;
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const { plan, heats } = await planInUse(bench, id, { search: { targetMarginK: 0 } });
  expect(plan.origin).toBe('found');
  expect(plan.search.outcome).toMatch(/^(optimal|feasible)$/);
  expect(plan.search.proof.length).toBeGreaterThan(0);
  expect(plan.search.why).toHaveLength(plan.plan.heats.length);
  const joints = heats.flatMap((heat) => heat.joints).sort();
  expect(joints).toEqual(['bail-on', 'bail-seam', 'bezel', 'wall-seam']);
  expect((await bench.get(`/plans/${plan.id}`)).body).toMatchObject({ state: 'in_use', version: 3 });
});

test('a search without solder in the drawer is refused; solders and bench may be given instead', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aDrawnPiece(app);
  const none = await bench.post(`/pieces/${id}/plans`, { search: {} }).expect(409);
  expect(none.body.type).toBe('/api/v1/problems/condition-not-met');
  const given = { plan: pendantPlan, solders, bench: { torch: 'small', support: 'charcoal' } };
  const made = (await bench.post(`/pieces/${id}/plans`, given).expect(201)).body;
  expect(made.bench).toEqual({ torch: 'small', support: 'charcoal' });
  await bench.move(`/plans/${made.id}`, { from: 'draft', to: 'checked' }).expect(200);
  const refused = await bench.move(`/plans/${made.id}`, { from: 'checked', to: 'in_use' }).expect(409);
  expect(refused.body).toMatchObject({ solder: 'hard', detail: expect.stringContaining('no such product') });
  expect((await bench.get(`/plans/${made.id}`)).body.state).toBe('checked');
});

test('with an empty drawer a plan is found or kept by hand all the same, and says what is to be ordered', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const products: { code: string; id: string }[] = [];
  for (const { id: code, solidusC, liquidusC } of solders)
    products.push({ code, id: (await addProduct(owner, { code, solidusC, liquidusC, gradeWord: code, name: code })).id });
  const { id } = await aDrawnPiece(app);
  const byHand = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  expect(byHand.short).toEqual(
    ['hard', 'medium', 'easy'].map((solder) => {
      const needG = byHand.short.find((one: { solder: string }) => one.solder === solder).needG;
      const says = `The plan takes ${needG} g of ${solder}, and the drawer has 0 g free: order it before the piece is begun.`;
      return { solder, needG, availableG: 0, says };
    }),
  );
  // As the report of what a plan needs has it.
  expect(byHand.short[0].needG).toBeCloseTo(0.0026, 6);
  const edit = { kind: 'flame', heat: 1, flame: null };
  await bench.post(`/plans/${byHand.id}/what-if`, { edits: [edit] }).expect(200);
  const found = (await bench.post(`/pieces/${id}/plans`, { search: { targetMarginK: 0 } }).expect(201)).body;
  expect(found.short.length).toBeGreaterThan(0);
  // What came since is seen when it is checked again; in use, the heats themselves tell.
  for (const { id: productId, code } of products)
    await receiveLot(owner, productId, { quantityG: 5, markOnMetal: code[0]!.toUpperCase() });
  expect((await bench.post(`/plans/${byHand.id}/check`).expect(200)).body.short).toEqual([]);
  expect((await bench.get(`/plans/${found.id}`).expect(200)).body.short).toEqual(found.short);
  await bench.move(`/plans/${found.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await bench.move(`/plans/${found.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  expect((await bench.get(`/plans/${found.id}`).expect(200)).body.short).toEqual([]);
});

test('a draft is checked again with today’s stock; later versions keep the check they were signed with', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const draft = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  const path = `/plans/${draft.id}`;
  await bench
    .post('/stock-movements', { kind: 'use', lotId: lots['easy'], quantityG: 1, reason: 'a trial on scrap' })
    .expect(201);
  const settings = (await owner.get('/settings')).body;
  await owner.patch('/settings', { bench: { ...settings.settings.bench, riseK: 5 } }, settings.version).expect(200);
  const again = (await bench.post(`${path}/check`).expect(200)).body;
  expect(again.solders[2]).toMatchObject({ id: 'easy', availableG: 4 });
  expect(again.check.assumptions.riseK).toBe(5);
  expect((await bench.get(path)).body).toEqual(again);

  await bench.move(path, { from: 'draft', to: 'checked' }).expect(200);
  await owner.patch('/settings', { bench: { ...settings.settings.bench, riseK: 7 } }, settings.version + 1).expect(200);
  expect((await bench.post(`${path}/check`).expect(200)).body.check.assumptions.riseK).toBe(7);
  expect((await bench.get(path)).body.check.assumptions.riseK).toBe(5);
  await bench.move(path, { from: 'checked', to: 'signed' }).expect(403);
  const early = await bench.move(path, { from: 'draft', to: 'in_use' }).expect(409);
  expect(early.body.type).toBe('/api/v1/problems/moved-on');
});

test('a newer plan in use takes the place of the older, whose heats are skipped', async () => {
  const app = await startApp();
  const { bench } = app;
  const { products } = await aDrawer(app);
  const { id, number } = await aDrawnPiece(app);
  const first = await planInUse(bench, id);
  const second = await planInUse(bench, id);
  expect((await bench.get(`/plans/${first.plan.id}`)).body.state).toBe('replaced');
  const skipped = (await bench.get(`/heats?planId=${first.plan.id}`)).body.items;
  expect(skipped.map(({ state }: { state: string }) => state)).toEqual(['skipped', 'skipped', 'skipped', 'skipped']);
  expect(second.heats[0]!.number).toBe(`${number} H5`);
  const needed = solderNeeded(app.db, id);
  // The seam: 3 × 0.35 × 0.05 mm³ at 9.97 g/cm³ and 1.3 over is under the smallest chip, 1.3 mg; the ring's end likewise.
  expect(needed.find(({ code }) => code === 'hard')).toEqual({ productId: products['hard'], code: 'hard', tenthMg: 26 });
});

test('a plan by hand may name a counted joint once, for all its copies', async () => {
  const app = await startApp();
  const { bench } = app;
  await aDrawer(app);
  const design = {
    parts: [
      { id: 'plate', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 20, thicknessMm: 1 } },
      { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 }, count: 2 },
    ],
    joints: [
      {
        id: 'set',
        kind: 'granule',
        count: 2,
        between: [{ part: 'plate', xMm: 5, yMm: 0 }, { part: 'grain' }],
        diameterMm: 2,
        neckRadiusMm: 0.4,
        gapMm: 0.05,
      },
    ],
  };
  const { id } = await aDrawnPiece(app, { design });
  const { plan, heats } = await planInUse(bench, id, { plan: { heats: [{ joints: ['set'], solder: 'easy' }] } });
  expect(plan.plan.heats).toEqual([{ joints: ['set.1', 'set.2'], solder: 'easy' }]);
  expect(heats[0]).toMatchObject({ joints: ['set.1', 'set.2'], partsInFire: ['plate', 'grain.1', 'grain.2'] });
  expect((heats[0] as unknown as { placed: unknown[] }).placed).toHaveLength(2);
});

test('while a plan is looked for the server answers others', async () => {
  const app = await startApp();
  const { bench } = app;
  // Eight unlike prongs on one disc: a search that takes seconds.
  const prongs = Array.from({ length: 8 }, (_, i) => ({
    part: { id: `p${i}`, metal: 'sterling-925', form: { kind: 'round_wire', diameterMm: 0.8 + i / 20, lengthMm: 6 } },
    joint: {
      id: `j${i}`,
      kind: 'post',
      between: [
        { part: 'disc', xMm: 7 * Math.cos(i), yMm: 7 * Math.sin(i) },
        { part: `p${i}`, alongMm: 0 },
      ],
      diameterMm: 0.8 + i / 20,
    },
  }));
  const disc = { id: 'disc', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 20, thicknessMm: 1 } };
  const design = {
    parts: [disc, ...prongs.map(({ part }) => part)],
    joints: prongs.map(({ joint }) => joint),
    rules: { maxJointsPerHeat: 1 },
  };
  const solders = [
    { id: 'hard', solidusC: 740, liquidusC: 788 },
    { id: 'easy', solidusC: 671, liquidusC: 718 },
  ];
  const options = { protections: [{ kind: 'shield' }, { kind: 'flame_away' }] };
  let isOver = false;
  const search = bench
    .post('/calculations/plan-search', { design, solders, bench: { torch: 'medium', support: 'brick' }, options })
    .then((reply) => {
      isOver = true;
      return reply;
    });
  await new Promise((resolve) => setTimeout(resolve, 100));
  await bench.get('/health').expect(200);
  expect(isOver).toBe(false);
  expect((await search).body.stats.thermalRuns).toBeGreaterThan(100);
});

test('a plan that is made after another that its maker did not know is refused with the difference, and kept when they know', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}/plans`;
  const mine = { heats: pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder })) };
  const [first, second, ...rest] = mine.heats;
  const theirs = { heats: [second, first, ...rest] };
  await app.owner.post(path, { plan: theirs, after: 0 }).expect(201);
  const refused = (await app.bench.post(path, { plan: mine, after: 0 }).expect(412)).body;
  expect(refused).toMatchObject({
    type: '/api/v1/problems/stale',
    changedBy: 'Flint',
    number: 1,
    difference: [
      { fields: ['heat'], joints: first!.joints },
      { fields: ['heat'], joints: second!.joints },
    ],
    waysOn: [{ body: { after: 1 } }],
  });
  expect((await app.bench.get(path).expect(200)).body.items).toHaveLength(1);
  expect((await app.bench.post(path, refused.waysOn[0].body).expect(201)).body.number).toBe(2);
});
