import { expect, test } from 'vitest';
import { lineCosts, runDueCosts, wholeCosts } from '../../src/features/stock/index.ts';
import type { Db } from '../../src/platform/db/client.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';
import { sql } from 'drizzle-orm';

const SUMS = {
  kept: sql`SELECT lot_id AS id, on_hand_tenth_mg AS sum FROM now_solder_lots UNION ALL SELECT product_id, held_tenth_mg FROM now_solder_products UNION ALL SELECT piece_id || product_id, used_tenth_mg FROM now_solder_pieces UNION ALL SELECT piece_id || product_id, held_tenth_mg FROM now_solder_pieces`,
  summed: sql`SELECT lot_id AS id, sum(on_hand_tenth_mg) AS sum FROM stock_movements WHERE lot_id IS NOT NULL GROUP BY lot_id
    UNION ALL SELECT product_id, sum(held_tenth_mg) FROM stock_movements GROUP BY product_id
    UNION ALL SELECT piece_id || product_id, -sum(iif(kind IN ('use', 'scrap', 'put_back') AND id NOT IN (SELECT reverses_id FROM stock_movements WHERE reverses_id IS NOT NULL), on_hand_tenth_mg, 0))
      FROM stock_movements WHERE piece_id IS NOT NULL GROUP BY piece_id, product_id
    UNION ALL SELECT piece_id || product_id, sum(held_tenth_mg) FROM stock_movements WHERE piece_id IS NOT NULL GROUP BY piece_id, product_id`,
};

async function aLedger(app: TestApp) {
  const { owner, bench } = app;
  const piece = putPiece(app, await aCommission(owner));
  const product = await addProduct(owner);
  const ids: string[] = [];
  const book = async (kind: string, more: object) => {
    const body = (await bench.post('/stock-movements', { kind, pieceId: piece.id, reason: 'a trial', ...more }).expect(201)).body;
    ids.push(body.id);
  };
  for (const amount of ['1.70', '1.95', '2.10']) {
    const lot = await receiveLot(owner, product.id, { quantityG: 5, unitCost: { amount, per: 'g' } });
    await book('use', { lotId: lot.id, quantityG: 3.2 });
    await book('put_back', { lotId: lot.id, quantityG: 0.4 });
    await book('scrap', { lotId: lot.id, quantityG: 0.1 });
  }
  const takeBack = (id: string) => owner.post(`/stock-movements/${id}/reversals`, { reason: 'typed wrong' }).expect(201);
  return { product, ids, takeBack };
}

const sumsOf = (db: Db, what: keyof typeof SUMS) =>
  db.all<{ id: string; sum: number }>(SUMS[what]).toSorted((a, b) => a.id.localeCompare(b.id) || a.sum - b.sum);

test('what triggers sum is what the ledger adds up to, with what was taken back', async () => {
  const app = await startApp();
  const { ids, takeBack } = await aLedger(app);
  expect(sumsOf(app.db, 'kept')).toEqual(sumsOf(app.db, 'summed'));
  await takeBack(ids[0]!);
  await takeBack(ids[4]!);
  const kept = sumsOf(app.db, 'kept');
  expect(kept).toEqual(sumsOf(app.db, 'summed'));
  // Three uses of 3.2 g, put back 0.4 and scrapped 0.1 each time, less the first use and the second that was put back.
  expect(kept.map(({ sum }) => sum)).toContain(87_000 - 32_000 + 4000);
});

test('costs that are kept are those of a ledger that is read whole, by either method', async () => {
  for (const stockCost of ['oldest_first', 'average']) {
    const app = await startApp();
    const { version } = (await app.owner.get('/settings')).body;
    await app.owner.patch('/settings', { stockCost }, version).expect(200);
    const { ids, takeBack } = await aLedger(app);
    const listed = async () => (await app.owner.get('/stock-movements')).body.items;
    const [before, stock] = [await listed(), (await app.owner.get('/stock')).body];
    runDueCosts(app, 1);
    expect(await listed()).toEqual(before);
    expect((await app.owner.get('/stock')).body).toEqual(stock);
    // A line from before what was kept, taken back after it.
    await takeBack(ids[3]!);
    const [kept, whole] = [lineCosts(app.db, 'solder'), wholeCosts(app.db, 'solder')];
    expect(before.length).toBeGreaterThan(10);
    for (const { id } of await listed()) expect(kept.costOf(id)).toBe(whole.costOf(id));
    for (const [id, { value, layers }] of whole.byProduct) expect(kept.byProduct.get(id)).toMatchObject({ value, layers });
    runDueCosts(app, 1);
    expect((await app.owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true, findings: [] });
  }
});
