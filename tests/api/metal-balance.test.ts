import { expect, test } from 'vitest';
import { putPiece } from '../support/a-piece.ts';
import { putCommission } from '../support/a-record.ts';
import { startApp } from '../support/start-app.ts';

/** A built piece with so many grams issued for it and on the scale. */
async function balanceOf(kind: string, { issuedG, weighedG }: { issuedG: number; weighedG: number }) {
  const app = await startApp();
  const commission = await putCommission(app, { state: 'made', kind });
  const metal = { metalIssuedTenthMg: issuedG * 10_000, weighedTenthMg: weighedG * 10_000, builtBy: app.actors.bench.personId };
  putPiece(app, commission, { ...metal, state: 'ready' });
  return (await app.bench.get('/reports/metal-balance').expect(200)).body.rows;
}

test('metal-balance weighs a piece that was made, and of a repair counts what was issued for it', async () => {
  // Without a design there are no filings to expect: 2 g of 10 that nobody can explain.
  expect(await balanceOf('one_off', { issuedG: 10, weighedG: 8 })).toMatchObject([
    { issuedG: 10, inPiecesG: 8, jarG: 0, unexplainedG: 2, unexplainedFraction: 0.2 },
  ]);
  // A beaker of 299 g came in, and 1 g of it is ours.
  expect(await balanceOf('repair', { issuedG: 1, weighedG: 300 })).toMatchObject([
    { issuedG: 1, inPiecesG: 1, unexplainedG: 0, unexplainedFraction: 0 },
  ]);
});
