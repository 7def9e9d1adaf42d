import { expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { addProduct } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';
import { startApp } from '../support/start-app.ts';

test('a solder is put right by its owner; that there is no cadmium needs the paper that says so', async () => {
  const app = await startApp();
  const { id } = await addProduct(app.owner, { cadmiumStanding: 'unknown' });
  const stored = async () => (await app.owner.get(`/solder-products/${id}`).expect(200)).body;
  const { page } = await visit(app, '/drawer', { as: 'owner', width: 360 });
  const hard = page.getByRole('region', { name: 'Hard wire' });
  await hard.getByText('Put Hard wire right').click();
  await hard.getByLabel('Price, ').fill('1,95');
  await hard.getByLabel('Cadmium in it').selectOption('no');
  await page.reload();
  await hard.getByLabel('Where that paper is').fill('sheet 14');
  await hard.getByLabel('Date on that paper').fill('2031-04-01');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await hard.getByRole('button', { name: 'Save', exact: true }).click();
  await expect.poll(stored).toMatchObject({
    version: 2,
    price: { amount: '1.95', per: 'g' },
    cadmiumStanding: 'no',
    cadmiumDocument: { reference: 'sheet 14', datedOn: '2031-04-01' },
    solidusC: 740,
    silverFraction: 0.75,
  });
  // What was put right elsewhere meanwhile is not written over.
  await hard.getByText('Put Hard wire right').click();
  await hard.getByLabel('Weeks from order').fill('4');
  await app.owner.patch(`/solder-products/${id}`, { packG: 10 }, 2).expect(200);
  await hard.getByRole('button', { name: 'Save', exact: true }).click();
  await hard.getByRole('alert').waitFor();
  expect(await stored()).toMatchObject({ version: 3, packG: 10, leadWeeks: 2 });
});

test('a metal is priced anew and no longer kept', async () => {
  const app = await startApp();
  const metal = (await app.owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const { page } = await visit(app, '/drawer/metal', { as: 'owner' });
  const buying = page.getByRole('region', { name: 'Metals we buy' });
  await page.getByText(`Put ${metal.name} right`).click();
  await buying.getByLabel('Price, ').fill('34.2');
  await buying.getByLabel('Still kept').uncheck();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('no longer kept', { exact: true }).waitFor();
  const { body } = await app.owner.get(`/metal-products/${metal.id}`).expect(200);
  expect(body).toMatchObject({ version: 2, active: false, price: { amount: '34.2', per: 'ozt' }, form: metal.form });
});

test('the desk notes a supplier and puts it right, and its products follow to its new name', async () => {
  const app = await startApp();
  const product = await addProduct(app.owner);
  const { page } = await visit(app, '/drawer/orders', { as: 'desk', width: 360 });
  await page.getByText('Add a supplier').click();
  const added = page.locator('details', { hasText: 'Add a supplier' }).last();
  await added.getByLabel('Name').fill('Harbour Metals');
  await added.getByLabel('Working days').fill('8');
  await added.getByLabel('Least they take').fill('90');
  await added.getByRole('button', { name: 'Note the supplier' }).click();
  await page.getByText('8 working days, least €90.00').waitFor();
  await page.getByText('Put Harbour Metals right').click();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  const named = page.locator('li', { hasText: 'Put Harbour Metals right' });
  await named.getByLabel('Name').fill('Quay Metals');
  await named.getByLabel('Least they take').fill('');
  await named.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Put Quay Metals right').waitFor();
  const [supplier] = (await app.desk.get('/suppliers').expect(200)).body.items;
  expect(supplier).toMatchObject({ name: 'Quay Metals', leadWorkingDays: 8, minimum: { amountMinor: 0, currency: 'EUR' } });
  expect((await app.owner.get(`/solder-products/${product.id}`).expect(200)).body.supplier).toBe('Quay Metals');
});

test('the lines of an order are changed until it is sent', async () => {
  const app = await startApp();
  const { id: productId } = await addProduct(app.owner);
  const metal = (await app.owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const supplier = (await app.desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 10 }).expect(201)).body;
  const made = { supplierId: supplier.id, lines: [{ productId, quantityG: 25 }] };
  const { id } = (await app.desk.post('/supplier-orders', made).expect(201)).body;
  const { page } = await visit(app, `/drawer/orders/${id}`, { as: 'desk', width: 360 });
  await page.getByText('Change the lines').click();
  const line = page.getByRole('group', { name: 'Hard wire' });
  await line.getByLabel('Ordered').fill('12');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await line.getByText('in whole packs of 5').or(page.getByRole('alert')).first().waitFor();
  await line.getByLabel('Ordered').fill('15');
  await line.getByLabel('Price, ').fill('1,80');
  await page.getByLabel('What else').selectOption({ label: metal.name });
  await page.getByRole('button', { name: 'Add a line' }).click();
  await page.getByRole('group', { name: metal.name }).getByLabel('Ordered').fill('100');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('rowheader', { name: metal.name }).waitFor();
  const order = async () => (await app.desk.get(`/supplier-orders/${id}`).expect(200)).body;
  expect((await order()).lines).toMatchObject([
    { productId, orderedG: 15, price: { amount: '1.8', per: 'g' } },
    { metalProductId: metal.id, orderedG: 100 },
  ]);
  await page.getByText('Change the lines').click();
  await page.getByRole('button', { name: `Leave it out: ${metal.name}` }).click();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect.poll(async () => (await order()).lines.length).toBe(1);
  await page.getByRole('button', { name: 'It is sent' }).click();
  await page.getByText('sent', { exact: true }).waitFor();
  expect(await page.getByText('Change the lines').count()).toBe(0);
});
