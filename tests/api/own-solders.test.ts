import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct } from '../support/stock.ts';

test('a plan is offered the solders of the drawer, each with the numbers of its own packet', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  await aDrawer(app);
  const own = { solidusC: 745, liquidusC: 778, silverFraction: 0.76, densityGPerCm3: 9.9, smallestPieceG: 0.002 };
  await addProduct(owner, { code: 'quay-hard', ...own });
  for (const given of [
    { code: 'old-easy', cadmiumStanding: 'yes' },
    { code: 'found-rod', cadmiumStanding: 'unknown' },
    { code: 'tin', leadOrTinStanding: 'yes' },
  ])
    await addProduct(owner, given);
  const retired = await addProduct(owner, { code: 'no-more' });
  await owner.patch(`/solder-products/${retired.id}`, { active: false }, 1).expect(200);
  const piece = await aDrawnPiece(app);
  const asked = { search: { workUnits: 2000 } };
  for (const body of [{ plan: pendantPlan }, asked]) {
    const plan = (await bench.post(`/pieces/${piece.id}/plans`, body).expect(201)).body;
    const solders = plan.solders as { id: string }[];
    expect(solders.map(({ id }) => id).sort()).toEqual(['easy', 'hard', 'medium', 'quay-hard']);
    expect(solders.find(({ id }) => id === 'quay-hard')).toMatchObject(own);
    const codes = solders.map(({ id }) => id);
    for (const { solder } of plan.plan.heats as { solder: string }[]) expect(codes).toContain(solder);
  }
});

test('the grades and the rows of the standard are there to compare with: an empty drawer offers none of them', async () => {
  const app = await startApp();
  const { bench } = app;
  const piece = await aDrawnPiece(app);
  const listed = (await bench.get('/solder-grades').expect(200)).body.items as { id: string; cadmiumStanding: string }[];
  expect(listed.filter(({ cadmiumStanding }) => cadmiumStanding === 'yes').map(({ id }) => id)).toContain('BAg-1');
  const refused = await bench.post(`/pieces/${piece.id}/plans`, { search: {} }).expect(409);
  expect(refused.body.detail).toContain('no solder product free of cadmium and lead');
  expect((await bench.get('/solder-products').expect(200)).body.items).toEqual([]);
});
