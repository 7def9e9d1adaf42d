import { expect, test } from 'vitest';
import { aDrawer } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { addProduct } from '../support/stock.ts';
import { startApp } from '../support/start-app.ts';

test('a lot is received at the desk and weighed at the bench, and the book follows the scale', async () => {
  const app = await startApp();
  await addProduct(app.owner, { name: 'Harbour hard wire' });
  const { page, browser, complaints } = await visit(app, '/drawer', { as: 'desk' });
  await page.getByRole('heading', { name: 'Harbour hard wire' }).waitFor();
  await page.getByText('Receive a lot').click();
  await page.getByLabel('Came on').fill('2031-05-05');
  await page.getByLabel('How much').fill('10 dwt');
  await page.getByLabel('Mark on the metal').fill('H');
  await page.getByLabel('Paid, ').fill('1,85');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Into the drawer' }).click();
  await page.getByText('Lot L1 is in the drawer.').waitFor();
  const [lot] = (await app.desk.get('/solder-lots').expect(200)).body.items;
  // 20 dwt are one troy ounce, 31.1034768 g.
  expect(lot).toMatchObject({ number: 'L1', receivedG: 15.5517, markOnMetal: 'H', unitCost: { amount: '1.85', per: 'g' } });
  expect(complaints).toEqual([]);

  const { page: bench } = await visit(app, `/lots/${lot.id}`, { as: 'bench', width: 360, browser });
  await bench.getByRole('heading', { name: 'Lot L1: Harbour hard wire' }).waitFor();
  expect(await bench.getByText('1.85').count()).toBe(0);
  await bench.getByLabel('What the scale says').fill('15.10');
  await bench.getByLabel('Why it was weighed').fill('before the pendant');
  await bench.getByRole('button', { name: 'Weigh it' }).click();
  await bench.getByText('The book follows the scale').waitFor();
  await bench.getByText('counted down').waitFor();
  await expectAccessible(bench);
  await expectNoSidewaysScroll(bench);
  expect((await app.bench.get(`/solder-lots/${lot.id}`).expect(200)).body.onHandG).toBe(15.1);
});

test('a solder is added with its temperatures in °F, after what was missing is named', async () => {
  const app = await startApp();
  const { page } = await visit(app, '/drawer', { as: 'owner' });
  await page.getByText('No solder is in the book yet').waitFor();
  await page.getByText('Add a solder').click();
  await page.getByLabel('Name on the packet').fill('Easy wire');
  await page.getByLabel('Short name').fill('easy-wire');
  await page.getByLabel('Grade word').fill('easy');
  await page.getByLabel('Begins to melt').fill('1240F');
  await page.getByLabel('Silver in it').fill('65');
  await page.getByLabel('Density').fill('9.4');
  await page.getByLabel('Cadmium in it').selectOption('no');
  await page.getByLabel('Lead or tin').selectOption('no');
  await page.getByLabel('Smallest piece').fill('1.3 mg');
  await page.getByLabel('Supplier').fill('Harbour Metals');
  await page.getByLabel('safety data sheet').fill('sheet 12 in the red folder');
  await page.getByLabel('Sold in packs').fill('5');
  await page.getByLabel('Price, ').fill('1.80');
  await page.getByLabel('Weeks from order').fill('2');
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('alert').waitFor();
  await page.reload();
  await page.getByLabel('Flows at').fill('1325F');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('heading', { name: 'Easy wire' }).waitFor();
  const [product] = (await app.owner.get('/solder-products').expect(200)).body.items;
  // 1240 °F and 1325 °F are 671.1 °C and 718.3 °C.
  expect(product.solidusC).toBeCloseTo(671.1, 1);
  expect(product.liquidusC).toBeCloseTo(718.3, 1);
  expect(product.smallestPieceG).toBe(0.0013);
});

test('a doubtful lot is held back with a reason, in German on a phone', async () => {
  const app = await startApp();
  const { lots } = await aDrawer(app);
  await app.bench.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page } = await visit(app, '/drawer', { as: 'bench', width: 360 });
  await page.getByRole('link', { name: 'Charge L1' }).waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('link', { name: 'Charge L1' }).click();
  await page.getByRole('button', { name: 'Sperren' }).click();
  await page.getByLabel('Grund').first().fill('Zeichen nicht mehr lesbar');
  await page.getByRole('button', { name: 'Sperren' }).last().click();
  await page.getByText('gesperrt').waitFor();
  await expectNoSidewaysScroll(page);
  const { body } = await app.owner.get(`/solder-lots/${lots['hard']}`).expect(200);
  expect(body).toMatchObject({ state: 'held_back', stateReason: 'Zeichen nicht mehr lesbar' });
});
