import { expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

async function someFlux(app: TestApp): Promise<string> {
  const flux = { name: 'Flux powder', kind: 'flux', unit: 'g', price: '0.018', pack: 250, orderPoint: 300 };
  return (await app.owner.post('/supplies', flux).expect(201)).body.id as string;
}

const onHandOf = async ({ owner }: TestApp, id: string) => (await owner.get(`/supplies/${id}`).expect(200)).body.onHand;

test('a supply is added by the pack, received, used and counted, and what was booked wrong is taken back', async () => {
  const app = await startApp();
  const { page, complaints } = await visit(app, '/drawer/supplies', { as: 'owner' });
  await page.getByText('No flux, pickle salt').waitFor();
  await page.getByText('Add a supply').click();
  await page.getByLabel('Name in the supplier').fill('Flux powder');
  await page.getByLabel('Sold in packs').fill('250');
  await page.getByLabel('Price of a pack').fill('4,50');
  await page.getByLabel('Order when').fill('300');
  await page.reload();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('link', { name: 'Flux powder' }).click();
  const [{ id, price }] = (await app.owner.get('/supplies').expect(200)).body.items;
  // 4.50 for 250 g.
  expect(price).toBe('0.018');

  const book = async (act: string, quantity: string) => {
    await page.getByLabel('What happens').selectOption(act);
    await page.getByLabel(act === 'counted: the book follows' ? 'What there is' : 'How much').fill(quantity);
  };
  const bookIt = page.getByRole('button', { name: 'Book it' });
  await book('came in', '500');
  await page.getByLabel('Paid for all of it').fill('12');
  await bookIt.click();
  await page.getByText('Booked: received, 500.00 g.').waitFor();
  await page.getByText('€12.00').waitFor();
  await book('used up', '200');
  await bookIt.click();
  await page.getByText('Booked: used, 200.00 g.').waitFor();
  await page.getByText('300.00 g (1.20 packs)').waitFor();
  await page.getByRole('status').getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('It is taken back.').waitFor();
  await page.getByText('500.00 g (2 packs)').waitFor();
  await book('counted: the book follows', '480');
  await page.getByLabel('Reason').fill('counted on Sunday');
  await bookIt.click();
  await page.getByText('Booked: counted down, 20.00 g.').waitFor();
  await expectAccessible(page);
  const counted = page.getByRole('row', { name: /counted down/ });
  await counted.getByRole('button', { name: /^Take it back: counted down/ }).click();
  await counted.getByLabel('Why it is taken back').fill('the other jar');
  await expectAccessible(page);
  await counted.getByRole('button', { name: 'Take it back' }).click();
  await page.getByRole('cell', { name: 'the other jar' }).waitFor();
  expect(await onHandOf(app, id)).toBe(500);
  await book('counted: the book follows', '500');
  await page.getByLabel('Reason').fill('counted again');
  await bookIt.click();
  await page.getByText('Count and book agree.').waitFor();
  expect(complaints).toEqual([]);
});

test('a supply is put right, and one that is kept no longer stands apart', async () => {
  const app = await startApp();
  const id = await someFlux(app);
  const { page } = await visit(app, `/drawer/supplies/${id}`, { as: 'owner' });
  await page.getByText('Put Flux powder right').click();
  expect(await page.getByLabel('Price of a pack').inputValue()).toBe('4.5');
  await page.getByLabel('Order when').fill('');
  await page.getByLabel('Still kept').uncheck();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect
    .poll(async () => (await app.owner.get(`/supplies/${id}`).expect(200)).body)
    .toMatchObject({ orderPoint: null, active: false, price: '0.018', pack: 250, version: 2 });
  await page.getByRole('link', { name: 'Supplies' }).click();
  await page.getByText('No longer kept (1)').waitFor();
});

test('the bench uses stones by the piece without their price, in German on a phone', async () => {
  const app = await startApp();
  const garnet = { name: 'Granat 3 mm', kind: 'stone', unit: 'piece', price: '4.50', pack: 10, orderPoint: 5 };
  const { id } = (await app.owner.post('/supplies', garnet).expect(201)).body;
  await app.owner.post('/supply-movements', { kind: 'receive', supplyId: id, quantity: 6 }).expect(201);
  await app.bench.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page } = await visit(app, '/drawer/supplies', { as: 'bench', width: 360, language: 'de' });
  await page.getByRole('link', { name: 'Granat 3 mm' }).waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('link', { name: 'Granat 3 mm' }).click();
  await page.getByLabel('Wie viel').fill('2');
  await page.getByRole('button', { name: 'Buchen' }).click();
  await page.getByText('Gebucht: verbraucht, 2 Stück.').waitFor();
  await page.getByText('10 Stück', { exact: true }).first().waitFor();
  expect(await page.getByText('4,50').count()).toBe(0);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  expect(await onHandOf(app, id)).toBe(4);
});
