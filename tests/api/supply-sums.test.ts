import type Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { nowSupplies } from '../../src/platform/db/tables.ts';
import { countReads } from '../support/counted-reads.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A supply with a ledger of so many deliveries and uses, one of each three deliveries taken back. */
async function aLedger({ owner }: TestApp, name: string, deliveries: number) {
  const flux = { name, kind: 'flux', unit: 'g', price: '0.018', supplier: 'Harbour Metals', pack: 250 };
  const supplyId = (await owner.post('/supplies', flux).expect(201)).body.id as string;
  const book = async (line: object) =>
    (await owner.post('/supply-movements', { supplyId, ...line }).expect(201)).body.id as string;
  for (let k = 1; k <= deliveries; k++) {
    const id = await book({ kind: 'receive', quantity: 70 + k, unitCost: `0.0${10 + (k % 7)}` });
    await book({ kind: 'use', quantity: 3.7 });
    await book({ kind: 'put_back', quantity: 0.4 });
    if (k % 3 === 0) await owner.post(`/supply-movements/${id}/reversals`, { reason: 'other jar' }).expect(201);
  }
}

test('what is kept of supplies is what their ledgers add up to', async () => {
  const app = await startApp();
  await aLedger(app, 'Flux powder', 10);
  const shown = async () => (await app.owner.get('/supplies').expect(200)).body.items;
  const kept = await shown();
  // 70 · 10 + (1 + … + 10) − 3 · 70 − (3 + 6 + 9) − 10 · (3.7 − 0.4)
  expect(kept).toMatchObject([{ onHand: 494 }]);
  app.db.delete(nowSupplies).run();
  expect(await shown()).toEqual(kept);
});

test('a list of supplies reads none of their ledgers, however long they are', async () => {
  const app = await startApp();
  await aLedger(app, 'Flux powder', 2);
  await aLedger(app, 'Flux paste', 12);
  const read = countReads((app.db as unknown as { $client: Database.Database }).$client);
  await app.owner.get('/supplies').expect(200);
  const { rows, asked } = read();
  expect(rows).toBeGreaterThan(0);
  expect([...asked.keys()].filter((text) => text.includes('supply_movements'))).toEqual([]);
});

test('an audit tells sums of supplies that are kept wrong', async () => {
  const app = await startApp();
  await aLedger(app, 'Flux powder', 1);
  const audit = async () => (await app.owner.post('/stock/audit', {}).expect(200)).body.findings as { says: string }[];
  expect(await audit()).toEqual([]);
  app.db.update(nowSupplies).set({ onHandUnits: 1, averageCost: '0.5' }).run();
  expect((await audit()).map(({ says }) => says)).toEqual([
    'Flux powder shows 0.0001 g; its movements add up to 67.7 g',
    'Flux powder shows an average cost of 0.500000; its movements come to 0.011000',
  ]);
});
