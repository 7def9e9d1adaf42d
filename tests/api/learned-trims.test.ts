import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { aSketch, typePrices } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

// Book 23.46 g after 14.20 g were used, 22.91 g on the scale: true use 14.75 g, ratio 1.0387; 1.3 × 1.0387 − 1 = 0.350.
test('a weighing over its tolerance offers the trim that would have planned it, and it is taken up as it is offered', async () => {
  const { owner, bench } = await startApp();
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id, { quantityG: 37.66 });
  await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 14.2, reason: 'rings' }).expect(201);
  const weigh = async (weighedG: number) =>
    (await bench.post(`/solder-lots/${lot.id}/weighings`, { weighedG, reason: 'weighed' }).expect(201)).body.trim;
  const offer = await weigh(22.91);
  expect(offer).toMatchObject({ usedG: 14.2, trueUseG: 14.75, ratio: 1.0387, trimFraction: 0.3, offeredTrimFraction: 0.35 });
  const { version } = (await owner.get('/settings')).body;
  expect(offer.takeUp).toMatchObject({ method: 'PATCH', path: '/api/v1/settings' });
  await owner.patch('/settings', offer.takeUp.body, version).expect(200);
  expect((await owner.get('/settings')).body.settings.solderTrims).toEqual({ hard_wire: 0.35 });
  // Nothing was used since: nothing is learned.
  expect(await weigh(22.5)).toBeNull();
  await owner.patch('/settings', { solderTrims: { hard_wire: 30 } }, version + 1).expect(422);
  await owner.patch('/settings', { solderTrims: { hard_wire: null } }, version + 1).expect(200);
  expect((await owner.get('/settings')).body.settings.solderTrims).toEqual({});
});

test('heats, holds and prices count on a learned trim, where a joint says none of its own', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  await typePrices(app);
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const placedG = async () => {
    const heats = (await planInUse(bench, piece.id)).heats;
    return Object.fromEntries(heats.map(({ joints, ...heat }) => [joints.join(), heat['plannedG'] as number]));
  };
  const solderLine = async () => {
    const { id } = await aSketch(app, piece.commissionId);
    const { steps } = (await owner.get(`/quotes/${id}`)).body.inside.answer as { steps: { key: string; value: string }[] };
    return Number(steps.find(({ key }) => key === 'solder.medium.product')!.value);
  };
  const usual = await placedG();
  const quoted = await solderLine();
  const { version } = (await owner.get('/settings')).body;
  await owner.patch('/settings', { solderTrims: { medium: 0.6, constructor: 1 } }, version).expect(200);
  const learned = await placedG();
  expect(learned['wall-seam']).toBe(usual['wall-seam']);
  // The bezel is planned by volume: 1.6 in place of 1.3 times what stays in it.
  expect(learned['bezel']).toBeCloseTo((usual['bezel']! * 1.6) / 1.3, 4);
  expect(await solderLine()).toBeCloseTo((quoted * 1.6) / 1.3, 6);
});
