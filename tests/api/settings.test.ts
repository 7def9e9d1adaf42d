import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';

test('a new studio starts with defaults that say where they come from, and without prices or tax', async () => {
  const { owner } = await startApp();
  const { body } = await owner.get('/settings').expect(200).expect('etag', '"0"');
  expect(body.settings).toMatchObject({
    currency: 'EUR',
    finePrice: null,
    metalPrices: {},
    tax: { rateFraction: 0 },
    bench: { riseK: 0, antiFlowBudgetS: 15 },
  });
  expect(body.startsFrom.newStudioFactor).toContain('25 to 50 %');
});

test('PATCH /settings merges, takes lines out with null, and leaves a journal line', async () => {
  const { owner } = await startApp();
  const price = { amount: '46.00', per: 'ozt' };
  await owner
    .patch('/settings', { studioName: 'Quillwharf Bench', metalPrices: { 'sterling-925': price, copper: price } }, 0)
    .expect(200);
  const changed = await owner
    .patch('/settings', { metalPrices: { copper: null }, profit: { markupFraction: 0.8 }, pickle: { acid: 'citric' } }, 1)
    .expect(200);
  expect(changed.body).toMatchObject({
    version: 2,
    settings: { studioName: 'Quillwharf Bench', metalPrices: { 'sterling-925': price }, profit: { markupFraction: 0.8 } },
  });
  expect(changed.body.settings.metalPrices).not.toHaveProperty('copper');
  expect(changed.body.settings.pickle).toMatchObject({ acid: 'citric', volumeL: 1.5 });
  expect((await owner.get('/settings')).body.settings).toEqual(changed.body.settings);
  expect((await owner.get('/journal?what=settings')).body.items).toHaveLength(2);
  expect((await owner.patch('/settings', { studioName: 'x' }, 1).expect(412)).body.type).toBe('/api/v1/problems/stale');
});

test('PATCH /settings refuses what cannot be, and offers what was probably meant', async () => {
  const { owner } = await startApp();
  const refused = await owner
    .patch(
      '/settings',
      { timeZone: 'Mars', currency: 'euro', depositFraction: 50, profit: { marginFraction: 1.2 }, torch: 'big' },
      0,
    )
    .expect(422);
  const errors = Object.fromEntries((refused.body.errors as { pointer: string }[]).map((error) => [error.pointer, error]));
  expect(Object.keys(errors).sort()).toEqual(['/currency', '/depositFraction', '/profit/marginFraction', '/timeZone', '/torch']);
  expect(errors['/depositFraction']).toMatchObject({ given: 50, perhaps: 0.5 });
  expect((await owner.get('/settings')).body.version).toBe(0);
});
