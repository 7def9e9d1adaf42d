import { expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { addProduct } from '../support/stock.ts';
import { startApp } from '../support/start-app.ts';

test('what is at its point is ordered from the list, sent, and what came of it becomes a lot', async () => {
  const app = await startApp();
  const product = await addProduct(app.owner, { name: 'Hard wire', code: 'hard' });
  const { page } = await visit(app, '/drawer/orders', { as: 'owner', width: 360 });
  await page.clock.setFixedTime(app.clock.now());
  await page.getByText('Note this supplier first').waitFor();
  await expectAccessible(page);
  await page.getByLabel('Least they take').first().fill('2');
  await page.getByRole('button', { name: 'Note the supplier' }).click();
  await page.getByText(/^Why .*\?$/).click();
  await page.getByText('That leaves', { exact: false }).first().waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Make this order' }).click();
  await page.getByRole('heading', { name: /^Order .*: Harbour Metals$/ }).waitFor();
  await page.getByRole('button', { name: 'It is sent' }).click();
  await page.getByText('sent', { exact: true }).waitFor();
  await page.getByRole('button', { name: 'They promised a day' }).click();
  await page.getByLabel('Day they promised').fill('2031-05-19');
  await page.getByRole('button', { name: 'They promised a day' }).last().click();
  await page.getByText('promised', { exact: true }).waitFor();
  await page.getByLabel('Mark on the metal').fill('H');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Book the delivery' }).click();
  await page.getByText('Lots made: L1').waitFor();
  await page.getByText('came', { exact: true }).waitFor();
  const { items } = (await app.owner.get('/supplier-orders').expect(200)).body;
  expect(items).toHaveLength(1);
  expect(items[0]).toMatchObject({ state: 'in', promisedOn: '2031-05-19', lines: [{ productId: product.id, openG: 0 }] });
  const lots = (await app.owner.get('/solder-lots').expect(200)).body.items;
  expect(lots).toMatchObject([{ number: 'L1', markOnMetal: 'H', receivedG: items[0].lines[0].orderedG }]);
});

test('the bench sees orders without their prices', async () => {
  const app = await startApp();
  await addProduct(app.owner);
  const supplier = (await app.desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 10 }).expect(201)).body;
  const [product] = (await app.desk.get('/solder-products').expect(200)).body.items;
  await app.desk
    .post('/supplier-orders', { supplierId: supplier.id, lines: [{ productId: product.id, quantityG: 25 }] })
    .expect(201);
  const { page } = await visit(app, '/drawer/orders', { as: 'bench' });
  await page.getByRole('link', { name: /Order .*: Harbour Metals/ }).click();
  await page.getByRole('cell', { name: '25.00 g' }).first().waitFor();
  expect(await page.getByText('Price').count()).toBe(0);
  expect(await page.getByText('1.85').count()).toBe(0);
});

test('flux and stones at their point stand in the list and in what matters today', async () => {
  const app = await startApp();
  const flux = { name: 'Flux powder', kind: 'flux', unit: 'g', supplier: 'Harbour Metals', pack: 250, orderPoint: 200 };
  await app.owner.post('/supplies', flux).expect(201);
  await app.owner
    .post('/supplies', { ...flux, name: 'Garnet 3 mm', kind: 'stone', unit: 'piece', pack: 10, orderPoint: 5 })
    .expect(201);
  const { page } = await visit(app, '/drawer/orders', { as: 'desk', width: 360 });
  await page.getByRole('heading', { name: 'Flux, pickle, gas, findings and stones' }).waitFor();
  await page.getByText('250.00 g of Flux powder').waitFor();
  await page.getByText('10 pieces of Garnet 3 mm').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.goto(new URL('/', page.url()).href);
  await page.getByText('10 pieces of Garnet 3 mm').waitFor();
});
