import { expect, test } from 'vitest';
import { METAL_TABLE } from '../../shared/materials/metal-table.ts';
import { aMetal, addMetal } from '../support/a-metal.ts';
import { startApp } from '../support/start-app.ts';

const said = (value: number) => ({ value, source: 'handbook' });
const pointersOf = (body: { errors: { pointer: string }[] }) => body.errors.map(({ pointer }) => pointer).sort();

test('a metal of the studio is kept with who says so, what nobody said assumed from the nearest of the table', async () => {
  const { bench, student } = await startApp();
  const made = await bench.post('/metals', aMetal()).expect(201).expect('etag', '"1"');
  const { conductivityWPerMK, specificHeatJPerKgK } = METAL_TABLE['britannia-958'];
  expect(made.body).toMatchObject({
    id: 'our-950',
    from: 'studio',
    kind: 'silver',
    solidusC: { value: 870, source: 'data sheet of Alder Street Metals (invented)', standing: 'own' },
    densityGPerCm3: { value: 10.4, source: 'weighed in water', standing: 'own' },
    // The silver–copper eutectic is at 779 °C (NIST), and a casting may hold it.
    castSolidusC: { value: 779, standing: 'derived' },
    // 0.950 lies nearer to 0.9584 than to 0.96 or 0.935; the line of the table in the middle of a heat.
    like: 'britannia-958',
    conductivityWPerMK: {
      value: { at20C: expect.closeTo(conductivityWPerMK.value.at20C + 380 * conductivityWPerMK.value.perK, 1), perK: 0 },
      source: 'as Britannia silver of the table, at 400 °C, assumed',
      standing: 'assumed',
    },
    specificHeatJPerKgK: {
      value: { at20C: expect.closeTo(specificHeatJPerKgK.value.at20C + 380 * specificHeatJPerKgK.value.perK, 1) },
      standing: 'assumed',
    },
    emissivityFraction: { value: 0.35, standing: 'assumed' },
    active: true,
    version: 1,
  });
  expect((await student.get('/metals/our-950').expect(200).expect('etag', '"1"')).body).toEqual(made.body);
});

test('GET /metals tells the rows of the table and those of the studio apart', async () => {
  const { bench, desk } = await startApp();
  const own = await addMetal(bench);
  const { items } = (await desk.get('/metals').expect(200)).body as { items: { id: string; from: string }[] };
  const from = (where: string) => items.filter((metal) => metal.from === where);
  expect(from('table').map(({ id }) => id)).toEqual(Object.keys(METAL_TABLE));
  expect(from('studio')).toEqual([own]);
  const sterling = (await desk.get('/metals/sterling-925').expect(200)).body;
  expect(sterling).toMatchObject({ from: 'table', kind: 'silver', solidusC: { value: 802, standing: 'found' } });
  expect(items[0]).toEqual(sterling);
  await desk.get('/metals/pewter').expect(404);
  await desk.get('/metals/constructor').expect(404);
});

test('POST metals tells every bad field at once, with what was likely meant', async () => {
  const { bench } = await startApp();
  const refused = await bench
    .post('/metals', {
      ...aMetal({ id: 'Our 950', name: ' ', kind: 'alloy' }),
      finenessFraction: { value: 925, source: 'the stamp' },
      solidusC: { value: 1475 },
      liquidusC: { value: 40, source: 'a guess' },
      densityGPerCm3: { value: 10_360, source: 'weighed' },
      hardness: 60,
    })
    .expect(422);
  expect(pointersOf(refused.body)).toEqual([
    '/densityGPerCm3/value',
    '/finenessFraction/value',
    '/hardness',
    '/id',
    '/kind',
    '/liquidusC/value',
    '/name',
    '/solidusC/source',
    '/solidusC/value',
  ]);
  const of = (pointer: string) => (refused.body.errors as { pointer: string }[]).find((error) => error.pointer === pointer);
  expect(of('/finenessFraction/value')).toMatchObject({ given: 925, perhaps: 0.925 });
  expect(of('/solidusC/value')).toMatchObject({ perhaps: expect.closeTo(801.7, 1), confirmable: true });
  expect(of('/densityGPerCm3/value')).toMatchObject({ perhaps: 10.36 });
});

test('a metal is refused that melts before it begins to, a silver without its fineness, one the table has no like of', async () => {
  const { bench } = await startApp();
  const swapped = await bench
    .post('/metals', aMetal({ solidusC: { value: 925, source: 'sheet' }, liquidusC: { value: 870, source: 'sheet' } }))
    .expect(422);
  expect(swapped.body.errors).toEqual([
    { pointer: '/liquidusC/value', detail: 'Liquid point 870 is below melting start 925: swapped?', given: 870, unit: '°C' },
  ]);
  const { finenessFraction: _fineness, ...unsaid } = aMetal();
  expect(pointersOf((await bench.post('/metals', unsaid).expect(422)).body)).toEqual(['/finenessFraction']);
  const gold = { ...unsaid, id: 'gold-750', name: 'Yellow gold 750', kind: 'gold' };
  const lone = await bench.post('/metals', gold).expect(422);
  expect(lone.body.errors[0]).toMatchObject({ pointer: '/like', detail: expect.stringContaining('conductivityWPerMK') });
  const typed = { conductivityWPerMK: said(80), specificHeatJPerKgK: said(140), emissivityFraction: said(0.3) };
  const made = await bench.post('/metals', { ...gold, ...typed }).expect(201);
  expect(made.body).toMatchObject({
    like: null,
    finenessFraction: { value: 0, standing: 'assumed' },
    castSolidusC: { value: 870 },
  });
  const bronze = await bench.post('/metals', { ...gold, id: 'bronze', kind: 'base', like: 'brass' }).expect(201);
  expect(bronze.body).toMatchObject({ like: 'brass', conductivityWPerMK: { source: expect.stringContaining('Brass') } });
});

test('an id is given once, and never that of a metal of the table', async () => {
  const { bench } = await startApp();
  await addMetal(bench);
  expect((await bench.post('/metals', aMetal()).expect(409)).body.type).toBe('/api/v1/problems/already-used');
  await bench.post('/metals', aMetal({ id: 'sterling-925' })).expect(409);
  expect((await bench.get('/metals').expect(200)).body.items).toHaveLength(Object.keys(METAL_TABLE).length + 1);
});

test('PATCH metals corrects a value with its source, holds to the version, retires and brings back', async () => {
  const { bench, owner } = await startApp();
  await addMetal(bench);
  const path = '/metals/our-950';
  const trial = { value: 880, source: 'own trial on scrap' };
  await bench.patch(path, { solidusC: trial }).expect(428);
  const half = await bench.patch(path, { solidusC: { value: 880 } }, 1).expect(422);
  expect(pointersOf(half.body)).toEqual(['/solidusC/source']);
  const mended = await bench
    .patch(path, { solidusC: trial, emissivityFraction: { value: 0.4, source: 'guess' } }, 1)
    .expect(200)
    .expect('etag', '"2"');
  expect(mended.body).toMatchObject({ solidusC: { ...trial, standing: 'own' }, emissivityFraction: { value: 0.4 }, version: 2 });
  expect((await bench.patch(path, { name: 'Late' }, 1).expect(412)).body).toMatchObject({ version: 2 });
  const cleared = await bench.patch(path, { emissivityFraction: null, like: 'fine-silver-999' }, 2).expect(200);
  expect(cleared.body).toMatchObject({ emissivityFraction: { value: 0.3, standing: 'assumed' }, like: 'fine-silver-999' });
  await bench.patch(path, { liquidusC: { value: 800, source: 'sheet' } }, 3).expect(422);
  await bench.patch(path, { finenessFraction: null }, 3).expect(422);
  expect((await bench.patch(path, { active: false }, 3).expect(200)).body.active).toBe(false);
  expect((await bench.patch(path, { active: true }, 4).expect(200)).body).toMatchObject({ active: true, version: 5 });
  const table = await bench.patch('/metals/copper', { name: 'Ours' }, 1).expect(409);
  expect(table.body.type).toBe('/api/v1/problems/condition-not-met');
  await bench.patch('/metals/pewter', { name: 'Ours' }, 1).expect(404);
  const { items } = (await owner.get('/journal?what=metal').expect(200)).body;
  expect(items).toHaveLength(5);
  expect(items[4]).toMatchObject({ thingId: 'our-950', before: null, after: { solidusC: 870 } });
});

test('an unusual metal passes when it is confirmed; a stored value is not asked about again', async () => {
  const { bench } = await startApp();
  const soft = aMetal({ solidusC: { value: 560, source: 'own trial' } });
  expect(pointersOf((await bench.post('/metals', soft).expect(422)).body)).toEqual(['/solidusC/value']);
  await bench.post('/metals', soft).set('confirm', '/solidusC/value').set('confirm-reason', 'tried it thrice').expect(201);
  await bench.patch('/metals/our-950', { solidusC: { value: 560, source: 'own trial, four times' } }, 1).expect(200);
});

test('student and desk may look at metals and not add or change them', async () => {
  const { bench, student, desk, stranger } = await startApp();
  await addMetal(bench);
  for (const person of [student, desk]) {
    await person.post('/metals', aMetal({ id: 'mine' })).expect(403);
    await person.patch('/metals/our-950', { name: 'Mine' }, 1).expect(403);
    await person.get('/metals').expect(200);
  }
  await stranger.get('/metals').expect(401);
});
