import { expect, test } from 'vitest';
import { takeThrough } from '../support/a-quote.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, workHeat } from '../support/at-the-bench.ts';
import { pendant, pendantPlan } from '../support/pendant.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { aMetalProduct } from '../support/stocked.ts';

const ownStock = { kind: 'own_stock', clientId: undefined, dueOn: '2031-06-20' };

interface Held {
  solder: Record<string, number>;
  metalG: number;
}

/** What is held of each solder by its code, and of sheet. */
async function heldNow({ owner, bench }: TestApp): Promise<Held> {
  const { items, metals } = (await bench.get('/stock').expect(200)).body;
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true, findings: [] });
  return {
    solder: Object.fromEntries(
      (items as { code: string; heldG: number }[]).filter(({ heldG }) => heldG !== 0).map(({ code, heldG }) => [code, heldG]),
    ),
    metalG: (metals as { heldG: number }[])[0]?.heldG ?? 0,
  };
}

async function aSheet({ owner }: TestApp): Promise<void> {
  const sheet = aMetalProduct({ name: 'Sheet 0.8', form: { kind: 'sheet', thicknessMm: 0.8 } });
  await owner.post('/metal-products', sheet).expect(201);
}

test('a piece added after acceptance is held for as its plan is taken into use, as much as the first was at acceptance', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  await aDrawer(app);
  await aSheet(app);
  const first = await aDrawnPiece(app, { ...ownStock, quantity: 2 });
  await planInUse(bench, first.id);
  expect(await heldNow(app)).toEqual({ solder: {}, metalG: 0 });
  await takeThrough(owner, first.commissionId, ['shaping', 'agreed']);
  const one = await heldNow(app);
  expect(Object.keys(one.solder).toSorted()).toEqual(['easy', 'hard', 'medium']);
  const added = (
    await bench.post('/pieces', { commissionId: first.commissionId, title: 'Another', metal: 'sterling-925' }).expect(201)
  ).body;
  await bench.put(`/pieces/${added.id}/design`, pendant).expect(200);
  await planInUse(bench, added.id);
  const two = await heldNow(app);
  for (const [code, heldG] of Object.entries(one.solder)) expect(two.solder[code]).toBeCloseTo(2 * heldG, 4);
  expect(two.metalG).toBeCloseTo(2 * one.metalG, 4);
});

test('a piece remade in place of a scrapped one is held for again', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  const { lots } = await aDrawer(app);
  await aSheet(app);
  const piece = await aDrawnPiece(app, ownStock);
  const { heats } = await planInUse(bench, piece.id);
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed', 'on_bench']);
  const before = await heldNow(app);
  await issueMetal(bench, piece.id);
  await workHeat(bench, heats[0]!.id, lots);
  await bench.post('/incidents', { pieceId: piece.id, kind: 'overheated', heatId: heats[0]!.id }).expect(201);
  const scrap = { from: 'hurt', to: 'scrapped', metalReturnedG: 6.9, remake: true };
  const { remakePieceId } = (await owner.move(`/pieces/${piece.id}`, scrap).expect(200)).body;
  expect(await heldNow(app)).toEqual({ solder: {}, metalG: 0 });
  await planInUse(bench, remakePieceId);
  expect(await heldNow(app)).toEqual(before);
});

test('a plan with another grade, taken into use after acceptance, holds that grade and lets go of the one it no longer takes', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app, ownStock);
  await planInUse(bench, piece.id);
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed']);
  const before = await heldNow(app);
  // The same plan in use again takes nothing more.
  await planInUse(bench, piece.id);
  expect(await heldNow(app)).toEqual(before);
  const heats = pendantPlan.heats.map((heat) => (heat.solder === 'easy' ? { ...heat, solder: 'medium' } : heat));
  await planInUse(bench, piece.id, { plan: { heats } });
  const after = await heldNow(app);
  expect(after.solder['easy']).toBeUndefined();
  expect(after.solder['hard']).toBe(before.solder['hard']);
  expect(after.solder['medium']).toBeGreaterThan(before.solder['medium']!);
});
