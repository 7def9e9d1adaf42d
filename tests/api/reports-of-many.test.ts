import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { putPiece } from '../support/a-piece.ts';
import { eur } from '../support/a-quote.ts';
import { putCommission, putQuote, putTime } from '../support/a-record.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const { cases } = JSON.parse(readFileSync(new URL('../reference/estimate-cases.json', import.meta.url), 'utf8')) as {
  cases: { request: EstimateRequest }[];
};

/** More than reports read together. */
const MANY = 260;

/**
 * Commissions in the order of their numbers: the k-th took k minutes at 24.00 an hour on its first piece and two on its second; each
 * piece took k mg of metal and put none back; every tenth took 0.01 g of solder; one in two has a price.
 */
async function manyCommissions(app: TestApp) {
  const [first] = cases;
  const product = await addProduct(app.owner);
  const lot = await receiveLot(app.owner, product.id);
  const made: { k: number; id: string; pieceIds: string[]; timeIds: string[]; quoteId: string | null }[] = [];
  for (let k = 1; k <= MANY; k++) {
    const commission = await putCommission(app, { state: 'made' });
    const pieceIds = [1, 2].map((serial) => putPiece(app, commission, { serial, metalIssuedTenthMg: k * 10 }).id);
    const timeIds = [k, 2].map((minutes, index) => putTime(app, { pieceId: pieceIds[index]!, minutes }));
    const quoteId = k % 2 === 0 ? putQuote(app, commission.id, first!.request) : null;
    made.push({ k, id: commission.id, pieceIds, timeIds, quoteId });
    if (k % 10 !== 0) continue;
    const use = { kind: 'use', lotId: lot.id, quantityG: 0.01, reason: 'bezel', pieceId: pieceIds[0] };
    await app.bench.post('/stock-movements', use).expect(201);
  }
  return made;
}

test('reports of more work than they read together give each commission its own figures, as it has them alone', async () => {
  const app = await startApp();
  const settings = await app.owner.get('/settings').expect(200);
  const metalPrices = { 'sterling-925': { amount: '1.42', per: 'g' } };
  await app.owner.patch('/settings', { metalPrices }, settings.body.version).expect(200);
  const made = await manyCommissions(app);
  const { rows } = (await app.owner.get('/reports/quote-against-actual').expect(200)).body;
  expect(rows).toHaveLength(MANY);
  const byId = new Map(rows.map((row: { commissionId: string }) => [row.commissionId, row]));
  for (const { k, id, pieceIds, timeIds, quoteId } of made) {
    const solderG = k % 10 === 0 ? 0.01 : 0;
    expect(byId.get(id), String(k)).toMatchObject({
      quoted: { quoteNumber: quoteId && 1, minutes: quoteId && 255 },
      // 24.00 an hour is 40 a minute; 2 mg for each k, at 1.42 a gram.
      actual: { minutes: k + 2, solderG, labour: eur((k + 2) * 40), metal: eur(Math.round((2 * k * 142) / 1000)) },
      pieces: [
        { pieceId: pieceIds[0], minutes: k, solderG },
        { pieceId: pieceIds[1], minutes: 2, solderG: 0 },
      ],
      entries: { quoteId, benchTimeIds: timeIds },
    });
    if (k % 65 !== 0) continue;
    const { spend } = (await app.owner.get(`/commissions/${id}`).expect(200)).body;
    const { labour, overhead, consumables, solder, metal, hallmark } = (byId.get(id) as { actual: object })
      .actual as typeof spend;
    expect({ labour, overhead, consumables, solder, metal, hallmark }).toEqual({
      labour: spend.labour,
      overhead: spend.overhead,
      consumables: spend.consumables,
      solder: spend.solder,
      metal: spend.metal,
      hallmark: spend.hallmark,
    });
  }
  const lost = (await app.owner.get('/reports/lost-money').expect(200)).body.rows as { entries: { quoteId: string } }[];
  expect(lost.map(({ entries }) => entries.quoteId).toSorted()).toEqual(made.flatMap(({ quoteId }) => quoteId ?? []).toSorted());
  const [balance] = (await app.owner.get('/reports/metal-balance').expect(200)).body.rows;
  // 2 mg · (1 + 2 + … + 260)
  expect(balance).toMatchObject({ metal: 'sterling-925', issuedG: 67.86, inWorkG: 67.86 });
});
