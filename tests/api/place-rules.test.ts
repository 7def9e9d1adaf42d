import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';

const german = {
  source: 'what the office wrote on 2031-03-01',
  office: 'Harbour office',
  leastSolderFinenessFraction: 0.65,
  markOverG: 7.78,
};

test('rules of places are empty until the owner enters them, whole, each with its source', async () => {
  const { owner, bench, desk } = await startApp();
  expect((await bench.get('/place-rules').expect(200)).body).toEqual({ items: [], nextCursor: null });
  await bench.get('/place-rules/DE').expect(404);
  await desk.put('/place-rules/DE', german).expect(403);
  const entered = await owner.put('/place-rules/DE', german).expect(200).expect('etag', '"1"');
  expect(entered.body).toEqual({
    place: 'DE',
    ...german,
    toleranceWithoutSolderFraction: null,
    toleranceWithSolderFraction: null,
    addedMetalG: null,
    addedMetalFraction: null,
    taxRateFraction: null,
    keepYears: null,
    version: 1,
    updatedAt: '2031-05-05T08:00:00.000Z',
  });
  // What is left out is not asked there.
  await owner.put('/place-rules/DE', { source: german.source, taxRateFraction: 0.19 }).expect(428);
  const again = await owner.put('/place-rules/DE', { source: german.source, taxRateFraction: 0.19 }, 1).expect(200);
  expect(again.body).toMatchObject({ version: 2, taxRateFraction: 0.19, markOverG: null, office: null });
  await owner.put('/place-rules/DE', german, 1).expect(412);
  await owner.put('/place-rules/AT', { source: 'the law' }).expect(200);
  const first = (await bench.get('/place-rules?limit=1').expect(200)).body;
  expect(first).toMatchObject({ items: [{ place: 'AT' }], nextCursor: 'AT' });
  expect((await bench.get('/place-rules?limit=1&cursor=AT').expect(200)).body).toMatchObject({
    items: [{ place: 'DE', version: 2 }],
    nextCursor: null,
  });
  const { items } = (await owner.get('/journal?thingId=DE').expect(200)).body;
  expect(items).toMatchObject([
    { what: 'place_rules', before: { version: 1 }, after: { version: 2 } },
    { what: 'place_rules', before: null },
  ]);
});

test('rules of a place are held to shape and fences', async () => {
  const { owner } = await startApp();
  const pointers = async (place: string, body: object) =>
    (await owner.put(`/place-rules/${place}`, body).expect(422)).body.errors.map(({ pointer }: { pointer: string }) => pointer);
  expect(await pointers('de', german)).toEqual([':id']);
  expect(await pointers('DE', { ...german, source: '' })).toEqual(['/source']);
  expect(await pointers('DE', { ...german, leastSolderFinenessFraction: 650, markOverG: -1, colour: 'red' })).toEqual(
    expect.arrayContaining(['/leastSolderFinenessFraction', '/markOverG', '/colour']),
  );
  expect(await pointers('DE', { ...german, taxRateFraction: 0.4 })).toEqual(['/taxRateFraction']);
  await owner
    .put('/place-rules/DE', { ...german, taxRateFraction: 0.4 })
    .set({ confirm: '/taxRateFraction', 'confirm-reason': 'luxury tax' })
    .expect(200);
});

test('what is published says where it is from and what of it is memory', async () => {
  const { student } = await startApp();
  const { items, about } = (await student.get('/place-rules/published').expect(200)).body;
  expect(about).toContain('Nothing is computed with it');
  expect(items).toContainEqual({
    place: 'US',
    field: 'toleranceWithSolderFraction',
    value: 0.01,
    says: 'The whole article with its solder is at least 915',
    source: '15 U.S.C. 296',
    standing: 'memory',
  });
});

test('metal is added to a marked piece within the limits of its place; without any, its office is asked', async () => {
  const { owner, bench, stranger } = await startApp();
  const ask = async (query: string) => (await bench.get(`/place-rules/DE/added-metal?${query}`).expect(200)).body;
  expect(await ask('pieceG=4&addedG=1')).toEqual({
    finding: 'no_rule',
    addedFraction: 0.25,
    says: ['No limit is entered for this place: ask its office before you add any'],
  });
  await owner.put('/place-rules/DE', { source: 'the office', addedMetalG: 1 }).expect(200);
  expect(await ask('pieceG=4&addedG=1')).toMatchObject({ finding: 'within', says: [] });
  expect(await ask('pieceG=4&addedG=1.5')).toMatchObject({ finding: 'over' });
  const wrong = await bench.get('/place-rules/DE/added-metal?pieceG=0').expect(422);
  expect(wrong.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['?pieceG', '?addedG']);
  await stranger.get('/place-rules/DE/added-metal?pieceG=4&addedG=1').expect(401);
});

test('POST /calculations/hourly-rates tells what an hour has to cost', async () => {
  const { desk } = await startApp();
  const year = { payPerYear: '30000', onCostsPerYear: '7440', paidHoursPerYear: 1560, overheadPerYear: '19430.40' };
  const studio = { ...year, consumablesPerYear: '3036', people: 1, daysPerYear: 220, hoursPerDay: 8 };
  const { body } = await desk.post('/calculations/hourly-rates', studio).expect(200);
  expect(body).toEqual({
    benchHoursPerYear: 1214.4,
    labourPerHour: '24.00',
    overheadPerBenchHour: '16.00',
    consumablesPerBenchHour: '2.50',
  });
  await desk.post('/calculations/hourly-rates', { ...studio, people: 0, colour: 1 }).expect(422);
});
