import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';

const OWN = { language: 'de', units: { length: 'gauge', temperature: 'F', mass: 'ozt' } };

test('PUT /preferences is one’s own, over what the studio has', async () => {
  const { bench, student, owner } = await startApp();
  const before = await bench.get('/preferences').expect(200).expect('etag', '"1"');
  expect(before.body).toMatchObject({
    own: { language: null, units: null },
    language: 'en',
    units: { length: 'mm' },
    version: 1,
  });
  const set = await bench.put('/preferences', OWN, 1).expect(200).expect('etag', '"2"');
  expect(set.body).toMatchObject({ own: OWN, ...OWN, studio: { language: 'en', units: { length: 'mm' } }, version: 2 });
  expect((await student.get('/preferences')).body).toMatchObject({ language: 'en', version: 1 });
  await bench.put('/preferences', OWN, 1).expect(412);
  await bench.put('/preferences', OWN).expect(428);
  const { items } = (await owner.get('/journal?what=preferences').expect(200)).body;
  expect(items).toHaveLength(1);
  // Taken back, it is the studio's again.
  const back = await bench.put('/preferences', { language: null, units: null }, 2).expect(200);
  expect(back.body).toMatchObject({ language: 'en', version: 3 });
});

test('PUT /preferences names every field that cannot be used', async () => {
  const { bench } = await startApp();
  const refused = await bench
    .put('/preferences', { language: 'english!', units: { length: 'cm', temperature: 'C', mass: 'g' } }, 1)
    .expect(422);
  expect((refused.body.errors as { pointer: string }[]).map(({ pointer }) => pointer)).toEqual(['/language', '/units/length']);
});
