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

test('PATCH /settings takes nothing for an answer where it is one', async () => {
  const { owner } = await startApp();
  const finePrice = { perG: '1.05', typedAt: '2031-05-05T07:00:00Z', source: 'the Monday letter' };
  const typed = (await owner.patch('/settings', { finePrice, profit: { markupFraction: 0.8 } }, 0).expect(200)).body.settings;
  expect(typed).toMatchObject({
    finePrice: { ...finePrice, typedAt: '2031-05-05T07:00:00.000Z' },
    profit: { markupFraction: 0.8 },
  });
  const gone = (await owner.patch('/settings', { finePrice: null, scrapCredit: null }, 1).expect(200)).body.settings;
  expect(gone).toEqual({ ...typed, finePrice: null, scrapCredit: null });
  // A bath of which no acid can be used prices nothing.
  const refused = await owner.patch('/settings', { studioName: null, pickle: { usableAcidFraction: 0 } }, 2).expect(422);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
    '/studioName',
    '/pickle/usableAcidFraction',
  ]);
  expect((await owner.get('/settings')).body.settings).toEqual(gone);
});

test('PATCH /settings asks about a metal the table does not have, and refuses a price in another unit', async () => {
  const { owner } = await startApp();
  const metalPrices = { sterling: { amount: '1.42', per: 'g' }, 'sterling-925': { amount: '900', per: 'g' } };
  const refused = await owner.patch('/settings', { metalPrices }, 0).expect(422);
  expect(refused.body.errors).toEqual([
    { pointer: '/metalPrices/sterling', detail: expect.stringContaining('sterling-925, fine-silver-999'), confirmable: true },
    { pointer: '/metalPrices/sterling-925/amount', detail: expect.stringMatching(/you wrote 90000/), given: '900' },
  ]);
  expect((await owner.get('/settings')).body.settings.metalPrices).toEqual({});
  const own = { metalPrices: { Electrum: { amount: '30', per: 'g' }, 'sterling-925': { amount: '46', per: 'ozt' } } };
  await owner
    .patch('/settings', own, 0)
    .set('confirm', '/metalPrices/Electrum')
    .set('confirm-reason', 'our own alloy')
    .expect(200);
  // What is there already is not asked about again.
  await owner.patch('/settings', { metalPrices: { Electrum: { amount: '31', per: 'g' } } }, 1).expect(200);
});
