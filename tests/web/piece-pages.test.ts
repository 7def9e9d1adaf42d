import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

test('a piece is cut from its page: the weight is asked for, and an unusual one wants a reason', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id, number } = await aDrawnPiece(app);
  const { page, complaints } = await visit(app, '/pieces', { as: 'bench', width: 360 });
  await page.getByRole('link', { name: number, exact: true }).click();
  await page.getByRole('heading', { name: `${number} Pendant` }).waitFor();
  await page.getByRole('img', { name: number }).waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Metal is cut' }).click();
  // A hundred pennyweight are over a hundred and fifty grams: many times what it weighs.
  await page.getByLabel('Metal issued').fill('100 dwt');
  await page.getByText('= 155.52 g').waitFor();
  await page.getByRole('button', { name: 'Metal is cut' }).last().click();
  await page.getByLabel('Unusual, but it can be so').fill('one big sheet, the rest goes back');
  await page.getByRole('button', { name: 'It is so: save it' }).click();
  await page.getByRole('button', { name: 'To the soldering' }).waitFor();
  expect((await app.bench.get(`/pieces/${id}`).expect(200)).body).toMatchObject({ state: 'cut', metalIssuedG: 155.5174 });
  expect(complaints).toEqual([]);
});
