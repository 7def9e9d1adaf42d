import { expect, test } from 'vitest';
import { addMetal } from '../support/a-metal.ts';
import { typePrices } from '../support/a-quote.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { HEATS, STRIP } from '../support/observed-heats.ts';
import { bench as brick, pendant, pendantPlan, solders } from '../support/pendant.ts';
import { startApp, type Person } from '../support/start-app.ts';

/** The pendant with a plate of another metal. */
const plateOf = (metal: unknown) => ({
  ...pendant,
  parts: pendant.parts.map((part) => (part.id === 'plate' ? { ...part, metal } : part)),
});
const low = { solidusC: { value: 720, source: 'own trial' } };
const plateIn = (check: { heats: { parts: { part: string; limitC: number }[] }[] }) =>
  check.heats.flatMap(({ parts }) => parts).find(({ part }) => part === 'plate');

async function metalOfPlate(person: Person, pieceId: string) {
  const { body } = await person.get(`/pieces/${pieceId}/design`).expect(200);
  return (body.parts as { id: string; metal: unknown }[]).find(({ id }) => id === 'plate')!.metal;
}

test('a part names a metal of the studio by its id, in designs, plans, prices and pieces', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  await addMetal(bench);
  await typePrices(app);
  const { version } = (await owner.get('/settings')).body;
  await owner.patch('/settings', { metalPrices: { 'our-950': { amount: '1.50', per: 'g' } } }, version).expect(200);
  await aDrawer(app);
  const { id, commissionId } = await aDrawnPiece(app, { design: plateOf('our-950'), quantity: 2 });
  expect(await metalOfPlate(bench, id)).toMatchObject({ code: 'our-950', kind: 'silver', solidusC: 870, densityGPerCm3: 10.4 });
  const second = await bench.post('/pieces', { commissionId, title: 'Another', metal: 'our-950' }).expect(201);
  expect(second.body.metal).toBe('our-950');

  const plan = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  expect(plateIn(plan.check)).toMatchObject({ limitC: 870 });
  const search = { workUnits: 5000, timeMs: 5000 };
  const found = (await bench.post(`/pieces/${id}/plans`, { search }).expect(201)).body;
  expect(plateIn(found.check)).toMatchObject({ limitC: 870 });

  const { request, answer } = (await owner.post('/estimates', { pieceId: id }).expect(200)).body;
  expect(request.metals).toContainEqual({
    id: 'our-950',
    densityGPerCm3: 10.4,
    fineness: 0.95,
    price: { amount: '1.50', per: 'g' },
  });
  expect(answer.lines.length).toBeGreaterThan(5);
});

test('a later correction changes no design that is saved, nor its plan; saved again by the id alone, it does', async () => {
  const app = await startApp();
  const { bench } = app;
  await addMetal(bench);
  await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: plateOf('our-950') });
  const plan = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  const { computedG } = (await bench.get(`/pieces/${id}`)).body;
  await bench.patch('/metals/our-950', { ...low, densityGPerCm3: { value: 10.1, source: 'weighed again' } }, 1).expect(200);

  expect((await bench.get(`/pieces/${id}`)).body.computedG).toBe(computedG);
  const again = (await bench.post(`/plans/${plan.id}/check`).expect(200)).body;
  expect(plateIn(again.check)).toEqual(plateIn(plan.check));
  // What was read is what can be written: the copy stays.
  const copy = await metalOfPlate(bench, id);
  const kept = await bench.put(`/pieces/${id}/design`, plateOf(copy), 1).expect(200);
  expect(kept.body.parts[0].metal).toEqual(copy);
  const taken = await bench.put(`/pieces/${id}/design`, plateOf('our-950'), 2).expect(200);
  expect(taken.body.parts[0].metal).toMatchObject({ code: 'our-950', solidusC: 720, densityGPerCm3: 10.1 });
  expect((await bench.get(`/pieces/${id}`)).body.computedG).toBeLessThan(computedG);
  const anew = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  expect(plateIn(anew.check)).toMatchObject({ limitC: 720 });
});

test('pieces of one commission are priced each by the metal as its own design keeps it', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  await addMetal(bench);
  await typePrices(app);
  const price = { amount: '1.50', per: 'g' };
  await owner.patch('/settings', { metalPrices: { 'our-950': price } }, 1).expect(200);
  await aDrawer(app);
  const { id, commissionId } = await aDrawnPiece(app, { design: plateOf('our-950'), quantity: 2 });
  const lighter = { densityGPerCm3: { value: 10.1, source: 'weighed again' } };
  await bench.patch('/metals/our-950', lighter, 1).expect(200);
  const second = (await bench.post('/pieces', { commissionId, title: 'Another', metal: 'our-950' }).expect(201)).body;
  await bench.put(`/pieces/${second.id}/design`, plateOf('our-950')).expect(200);
  for (const pieceId of [id, second.id]) await bench.post(`/pieces/${pieceId}/plans`, { plan: pendantPlan }).expect(201);
  const { request } = (await owner.post('/estimates', { commissionId }).expect(200)).body;
  expect(request.metals).toContainEqual({ id: 'our-950', densityGPerCm3: 10.4, fineness: 0.95, price });
  expect(request.metals).toContainEqual({ id: 'our-950, as in p2', densityGPerCm3: 10.1, fineness: 0.95, price });
  const plates = (request.design.parts as { id: string; metal: string }[]).filter((part) => part.id.endsWith('plate'));
  expect(plates.map(({ metal }) => metal)).toEqual(['our-950', 'our-950, as in p2']);
});

test('a copy with a code is the metal of that code; the same in every part', async () => {
  const app = await startApp();
  const { bench } = app;
  await addMetal(bench);
  const { id } = await aDrawnPiece(app, { design: plateOf('our-950') });
  const copy = (await metalOfPlate(bench, id)) as object;
  const refused = async (design: object) => (await bench.put(`/pieces/${id}/design`, design, 1).expect(422)).body.errors;
  expect(await refused(plateOf({ ...copy, solidusC: 900 }))).toEqual([
    expect.objectContaining({ pointer: '/parts/0/metal/code', detail: expect.stringContaining('not the numbers of our-950') }),
  ]);
  expect(await refused(plateOf({ ...copy, code: 'theirs' }))).toEqual([
    expect.objectContaining({ pointer: '/parts/0/metal/code', detail: expect.stringContaining('no metal theirs') }),
  ]);
  await bench.patch('/metals/our-950', low, 1).expect(200);
  const mixed = plateOf(copy);
  const parts = mixed.parts.map((part) => (part.id === 'bail' ? { ...part, metal: 'our-950' } : part));
  expect(await refused({ ...mixed, parts })).toEqual([
    expect.objectContaining({ pointer: '/parts/2/metal/code', detail: expect.stringContaining('different numbers') }),
  ]);
  await bench.put(`/pieces/${id}/design`, plateOf({ ...copy, code: undefined, solidusC: 900 }), 1).expect(200);
});

test('a metal that is not there is refused with those that are; one that is retired, in what is new', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  await addMetal(bench);
  const { id, commissionId } = await aDrawnPiece(app, { design: plateOf('our-950'), quantity: 2 });
  const path = `/pieces/${id}/design`;
  const design = { ...plateOf('our-905'), joints: [{ id: 'j', kind: 'jump_ring', closes: 'nothing', gapMm: 0.05 }] };
  const refused = await bench.put(path, design, 1).expect(422);
  expect(refused.body.errors[0]).toEqual({
    pointer: '/parts/0/metal',
    given: 'our-905',
    detail: expect.stringMatching(/no metal our-905: name one of sterling-925, .*stainless-steel, our-950, or add it at/),
  });
  expect(refused.body.errors).toContainEqual(expect.objectContaining({ pointer: '/joints/0/closes' }));
  const piece = await bench
    .post('/pieces', { commissionId: '01900000-0000-7000-8000-000000000000', title: 'Ring', metal: 'our-905' })
    .expect(422);
  expect(piece.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['/commissionId', '/metal']);
  const { version } = (await owner.get('/settings')).body;
  const priced = await owner
    .patch('/settings', { metalPrices: { 'our-905': { amount: '1.50', per: 'g' } } }, version)
    .expect(422);
  expect(priced.body.errors).toEqual([
    expect.objectContaining({ pointer: '/metalPrices/our-905', confirmable: true, detail: expect.stringContaining('our-950') }),
  ]);

  await bench.patch('/metals/our-950', { active: false }, 1).expect(200);
  const retired = await bench.put(path, plateOf('our-950'), 1).expect(422);
  expect(retired.body.errors[0].detail).toBe('Our 950 (our-950) is retired: bring it back first, or choose another metal.');
  await bench.post('/pieces', { commissionId, title: 'Ring', metal: 'our-950' }).expect(422);
  // What has it already goes on with it.
  await bench.put(path, plateOf(await metalOfPlate(bench, id)), 1).expect(200);
});

test('calculations know the metals of the studio by their ids', async () => {
  const { bench, student } = await startApp();
  await addMetal(bench, low);
  const design = plateOf('our-950');
  const checked = await student
    .post('/calculations/plan-check', { design, solders, bench: brick, plan: pendantPlan })
    .expect(200);
  expect(plateIn(checked.body)).toMatchObject({ limitC: 720 });
  const options = { workUnits: 2000 };
  const found = await student.post('/calculations/plan-search', { design, solders, bench: brick, options }).expect(200);
  expect(plateIn(found.body.check)).toMatchObject({ limitC: 720 });
  const plate = { id: 'plate', metal: 'our-950', form: { kind: 'sheet', lengthMm: 10, widthMm: 10, thicknessMm: 1 } };
  const weighed = await student.post('/calculations/piece-weight', { design: { parts: [plate] } }).expect(200);
  // 0.1 cm³ at 10.4 g/cm³.
  expect(weighed.body).toMatchObject({ totalG: expect.closeTo(1.04, 9), fineness: expect.closeTo(0.95, 9) });
  const strips = [{ ...STRIP, metal: 'our-950', secondsBetweenChips: 3 }];
  const fitted = { torch: 'medium', observations: [{ ...HEATS.disc, secondsToFlow: 8 }], strips };
  await student.post('/calculations/torch-calibration', fitted).expect(200);

  const unknown = plateOf('our-905');
  const asked = { solders, bench: brick, plan: pendantPlan };
  const observations = [
    { ...HEATS.disc, design: { ...HEATS.disc.design, parts: [{ ...plate, metal: 'our-905' }] }, secondsToFlow: 8 },
  ];
  for (const [name, body, pointer] of [
    ['plan-check', { ...asked, design: unknown }, '/design/parts/0/metal'],
    ['piece-weight', { design: { parts: [{ ...plate, metal: 'our-905' }] } }, '/design/parts/0/metal'],
    ['torch-calibration', { ...fitted, strips: [{ ...strips[0], metal: 'our-905' }] }, '/strips/0/metal'],
    ['torch-calibration', { ...fitted, observations }, '/observations/0/design/parts/0/metal'],
  ] as const) {
    const refused = await student.post(`/calculations/${name}`, body).expect(422);
    expect(refused.body.errors[0]).toMatchObject({ pointer, detail: expect.stringContaining('our-950') });
  }
});

test('a calibration keeps the metal of what it was fitted to', async () => {
  const { bench } = await startApp();
  await addMetal(bench);
  const torchId = (await bench.post('/torches', { name: 'Pencil', torch: 'small' }).expect(201)).body.id;
  const strips = [{ ...STRIP, metal: 'our-950', secondsBetweenChips: 3 }];
  const kept = await bench
    .post('/calibrations', { torchId, observations: [{ ...HEATS.disc, secondsToFlow: 8 }], strips })
    .expect(201);
  const read = await bench.get(`/calibrations/${kept.body.id}`).expect(200);
  expect(read.body.strips[0].metal).toMatchObject({ code: 'our-950', solidusC: 870 });
});

test('a base metal in the fire asks for the caution on fume; a silver of the studio does not', async () => {
  const app = await startApp();
  const { bench } = app;
  await addMetal(bench);
  await addMetal(bench, { id: 'bronze', kind: 'base', like: 'copper', finenessFraction: undefined });
  await aDrawer(app);
  const cautionsOf = async (metal: string) => {
    const { id } = await aDrawnPiece(app, { design: plateOf(metal) });
    const { heats } = await planInUse(bench, id);
    const withPlate = (heats as { id: string; joints: string[] }[]).find(({ joints }) => joints.includes('bezel'))!;
    const { cautions } = (await bench.get(`/heats/${withPlate.id}`).expect(200)).body;
    return (cautions as { id: string }[]).map(({ id: caution }) => caution);
  };
  expect(await cautionsOf('bronze')).toContain('C7');
  expect(await cautionsOf('brass')).toContain('C7');
  expect(await cautionsOf('our-950')).not.toContain('C7');
  expect(await cautionsOf('sterling-925')).not.toContain('C7');
});
