import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, workHeat } from '../support/at-the-bench.ts';
import { pendant } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';
import { aMetalProduct } from '../support/stocked.ts';

const SETTLEMENT = {
  settledOn: '2031-05-05',
  meltLossFraction: 0.065,
  assayFraction: 0.881,
  payFraction: 0.94,
  finePricePerG: '1.05',
  feeFixed: '25.00',
  feePerG: '0.04',
};

// 58.4865 g of sterling are 54.10 g fine; of the jar of 61.40 g a bar of 57.409 g is melted, 50.577329 g of it fine, 49.92 paid,
// 27.46 asked: 22.46 come back, and 93.5 % of what was expected was found.
test('a jar that is sent and settled tells what came of it, and what was found of what was expected', async () => {
  const { owner, bench, desk } = await startApp();
  const metal = (await owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const lot = (await owner.post('/metal-lots', { productId: metal.id, receivedOn: '2031-05-05', quantityG: 100 }).expect(201))
    .body;
  const scrap = (quantityG: number) =>
    bench.post('/metal-movements', { kind: 'scrap', lotId: lot.id, quantityG, reason: 'ends' }).expect(201);
  await scrap(58.4865);
  const mistake = (await scrap(1)).body;
  await bench.post(`/metal-movements/${mistake.id}/reversals`, { reason: 'other jar' }).expect(201);
  const { version } = (await owner.get('/settings')).body;
  const finePrice = { perG: '1.05', typedAt: '2031-05-05T07:00:00Z', source: 'the paper' };
  await owner
    .patch('/settings', { finePrice, refiner: { payFraction: 0.94, feeFixed: '25.00', feePerG: '0.04' } }, version)
    .expect(200);
  const { jars } = (await bench.get('/scrap-jars').expect(200)).body;
  expect(jars.map(({ jar }: { jar: string }) => jar)).toEqual(['filings', 'offcuts', 'sweep', 'solder_bearing']);
  expect(jars[1]).toMatchObject({ expectedFineG: 54.1, expectedG: 58.4865, advice: { send: false } });
  expect(jars[1].advice.says).toBe(
    'Wait until the jar is worth five fees: it is worth about 53.40 EUR, and sending it costs 27.34 EUR.',
  );
  const send = { jar: 'offcuts', refiner: 'Millrace Refiners', weighedG: 61.4, sentOn: '2031-05-05' };
  expect((await desk.post('/scrap-returns', { ...send, sentOn: '2031-06-01' }).expect(422)).body.errors[0].pointer).toBe(
    '/sentOn',
  );
  const sent = (await desk.post('/scrap-returns', send).expect(201)).body;
  expect(sent).toMatchObject({ number: 'S1', expectedFineG: 54.1, settlement: null });
  const early = await desk.post(`/scrap-returns/${sent.id}/settlements`, { ...SETTLEMENT, settledOn: '2031-05-04' }).expect(422);
  expect(early.body.errors).toMatchObject([{ pointer: '/settledOn', detail: 'It was sent on 2031-05-05, after that.' }]);
  const settled = (await desk.post(`/scrap-returns/${sent.id}/settlements`, SETTLEMENT).expect(201)).body.settlement;
  expect(settled).toMatchObject({
    paid: { amountMinor: 4992, currency: 'EUR' },
    fees: { amountMinor: 2746, currency: 'EUR' },
    credit: { amountMinor: 2246, currency: 'EUR' },
    recoveredFraction: 0.9349,
  });
  expect(settled.barG).toBeCloseTo(57.409, 9);
  expect(settled.fineG).toBeCloseTo(50.577329, 9);
  await desk.post(`/scrap-returns/${sent.id}/settlements`, SETTLEMENT).expect(409);
  expect((await desk.get('/scrap-returns?jar=offcuts')).body.items).toHaveLength(1);
  expect((await bench.get('/scrap-jars')).body.jars[1]).toMatchObject({ expectedFineG: 0, expectedG: 0 });
});

test('every piece that is built leaves its filings in the jar, once', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, piece.id);
  await issueMetal(bench, piece.id);
  for (const { id } of heats) await workHeat(bench, id, lots);
  expect((await bench.get('/scrap-jars')).body.jars[0].pieces).toBe(0);
  await bench.move(`/pieces/${piece.id}`, { from: 'soldering', to: 'built' }).expect(200);
  // Plate 4.9728 g and bail 0.4 g of sterling, wall 0.36 g of fine silver; 8 % of it is filed away.
  const [filings] = (await bench.get('/scrap-jars')).body.jars;
  expect(filings.pieces).toBe(1);
  expect(filings.expectedG).toBeCloseTo(0.08 * 5.9, 1);
  expect(filings.expectedFineG / filings.expectedG).toBeGreaterThan(0.925);
  const sent = { jar: 'filings', refiner: 'Millrace Refiners', weighedG: 0.6, sentOn: '2031-05-05' };
  expect((await desk.post('/scrap-returns', sent).expect(201)).body).toMatchObject({
    pieces: 1,
    expectedFineG: filings.expectedFineG,
  });
  expect((await bench.get('/scrap-jars')).body.jars[0]).toMatchObject({ pieces: 0, expectedFineG: 0 });
});

test('a piece that came to be mended leaves filings of what was cut for it alone', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const joints = pendant.joints.map((joint) => ({ ...joint, made: { solder: 'unknown' } }));
  const mended = await aDrawnPiece(app, { kind: 'repair', design: { ...pendant, joints } });
  await bench.move(`/pieces/${mended.id}`, { from: 'drawn', to: 'built' }).expect(200);
  expect((await owner.get('/scrap-jars')).body.jars[0]).toMatchObject({ pieces: 0, expectedG: 0 });
});

test('a settlement that was typed wrong is taken back, then a jar that was never sent; what was in it is in it again', async () => {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const metal = (await owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const lot = (await owner.post('/metal-lots', { productId: metal.id, receivedOn: '2031-05-05', quantityG: 100 }).expect(201))
    .body;
  const scrap = (quantityG: number) =>
    bench.post('/metal-movements', { kind: 'scrap', lotId: lot.id, quantityG, reason: 'ends' }).expect(201);
  const offcuts = async () => (await bench.get('/scrap-jars').expect(200)).body.jars[1].expectedG;
  const send = async () => {
    app.clock.advance({ seconds: 1 });
    const sent = { jar: 'offcuts', refiner: 'Millrace Refiners', weighedG: 61.4, sentOn: '2031-05-05' };
    return (await desk.post('/scrap-returns', sent).expect(201)).body.id as string;
  };
  const takeBack = (id: string, reason = 'other jar') => desk.post(`/scrap-returns/${id}/reversals`, { reason });
  await scrap(40);
  const first = await send();
  app.clock.advance({ seconds: 1 });
  await scrap(2);
  const second = await send();
  expect(await offcuts()).toBe(0);
  const early = (await takeBack(first).expect(409)).body;
  expect(early.detail).toBe('Cannot take S1 back: its jar was sent again with S2; take that back first');
  await bench.post(`/scrap-returns/${second}/reversals`, { reason: 'other jar' }).expect(403);
  expect((await takeBack(second, 'x').expect(422)).body.errors).toMatchObject([{ pointer: '/reason' }]);
  expect((await takeBack(second).expect(201)).body).toMatchObject({ takenBack: { reason: 'other jar' }, version: 2 });
  expect(await offcuts()).toBe(2);
  await takeBack(second).expect(409);
  await desk.post(`/scrap-returns/${second}/settlements`, SETTLEMENT).expect(409);
  await desk.post(`/scrap-returns/${first}/settlements`, SETTLEMENT).expect(201);
  const unsettled = (await takeBack(first, 'assay misread').expect(201)).body;
  expect(unsettled).toMatchObject({ settlement: null, takenBack: null, version: 3 });
  expect(await offcuts()).toBe(2);
  const again = await desk.post(`/scrap-returns/${first}/settlements`, { ...SETTLEMENT, assayFraction: 0.9 }).expect(201);
  // 61.40 g less 6.5 %, nine tenths of it fine.
  expect(again.body.settlement.fineG).toBeCloseTo(61.4 * 0.935 * 0.9, 9);
  await takeBack(first).expect(201);
  await takeBack(first).expect(201);
  expect(await offcuts()).toBe(42);
});

test('filings of a jar that was never sent are told of their pieces again, and can be sent once more', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, piece.id);
  await issueMetal(bench, piece.id);
  for (const { id } of heats) await workHeat(bench, id, lots);
  await bench.move(`/pieces/${piece.id}`, { from: 'soldering', to: 'built' }).expect(200);
  const filings = async () => (await bench.get('/scrap-jars').expect(200)).body.jars[0];
  const before = await filings();
  const send = { jar: 'filings', refiner: 'Millrace Refiners', weighedG: 0.6, sentOn: '2031-05-05' };
  const sent = (await desk.post('/scrap-returns', send).expect(201)).body;
  expect((await filings()).pieces).toBe(0);
  await desk.post(`/scrap-returns/${sent.id}/reversals`, { reason: 'not fetched' }).expect(201);
  expect(await filings()).toEqual(before);
  expect((await desk.post('/scrap-returns', send).expect(201)).body).toMatchObject({ number: 'S2', pieces: 1 });
});
