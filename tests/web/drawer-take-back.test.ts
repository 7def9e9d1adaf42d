import { expect, test } from 'vitest';
import { aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { addProduct, receiveLot } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';
import { startApp } from '../support/start-app.ts';

test('a weighing that was of another lot is taken back at once, and later from the list with a reason', async () => {
  const app = await startApp();
  const product = await addProduct(app.owner);
  const lot = await receiveLot(app.owner, product.id);
  const { page } = await visit(app, `/lots/${lot.id}`, { as: 'bench', width: 360 });
  const onHand = async () => (await app.bench.get(`/solder-lots/${lot.id}`).expect(200)).body.onHandG;
  const weigh = async (grams: string) => {
    await page.getByLabel('What the scale says').fill(grams);
    await page.getByLabel('Why it was weighed').fill('before the pendant');
    await page.getByRole('button', { name: 'Weigh it' }).click();
  };
  await weigh('12.5');
  await page.getByText('The book follows the scale').waitFor();
  expect(await onHand()).toBe(12.5);
  await page.getByRole('status').getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('It is taken back.').waitFor();
  expect(await onHand()).toBe(20);
  await weigh('19');
  const counted = page.getByRole('row', { name: /counted down.*before the pendant/ }).first();
  await counted.getByRole('button', { name: /^Take it back/ }).click();
  await counted.getByLabel('Why it is taken back').fill('with its tin');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await counted.getByRole('button', { name: 'Take it back' }).click();
  await page.getByRole('cell', { name: 'with its tin' }).waitFor();
  expect(await onHand()).toBe(20);
  // What came in is the owner's to take back.
  expect(
    await page
      .getByRole('row', { name: /received/ })
      .getByRole('button')
      .count(),
  ).toBe(0);
});

test.each([
  ['en', 'Used by hand', 'How much', 'Reason', 'Book it', 'Booked: used, 0.250 g.', 'Take it back'],
  ['de', 'Von Hand verbraucht', 'Wie viel', 'Grund', 'Buchen', 'Gebucht: verbraucht, 0,250 g.', 'Zurücknehmen'],
] as const)(
  'in %s solder that was used by hand is booked with its reason, and taken back',
  async (language, title, much, why, book, told, back) => {
    const app = await startApp();
    const product = await addProduct(app.owner);
    const lot = await receiveLot(app.owner, product.id);
    await app.bench.put('/preferences', { language, units: null }, 1).expect(200);
    const { page, complaints } = await visit(app, `/lots/${lot.id}`, { as: 'bench', width: 360, language });
    const onHand = async () => (await app.bench.get(`/solder-lots/${lot.id}`).expect(200)).body.onHandG;
    const form = page.getByRole('form', { name: title });
    await form.getByLabel(much).fill(language === 'de' ? '0,25' : '0.25');
    await form.getByLabel(why).fill('trial on scrap');
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await form.getByRole('button', { name: book }).click();
    await form.getByText(told).waitFor();
    expect(await onHand()).toBe(19.75);
    await page.getByRole('cell', { name: 'trial on scrap' }).waitFor();
    // More than there is, is refused in words.
    await form.getByLabel(much).fill('500');
    await form.getByLabel(why).fill('a slip');
    await form.getByRole('button', { name: book }).click();
    await form.getByRole('alert').waitFor();
    expect(await onHand()).toBe(19.75);
    await page
      .getByRole('row', { name: /trial on scrap/ })
      .getByRole('button')
      .click();
    await page
      .getByRole('row', { name: /trial on scrap/ })
      .getByRole('textbox')
      .fill('not that lot');
    await page
      .getByRole('row', { name: /trial on scrap/ })
      .getByRole('button', { name: back, exact: true })
      .click();
    await page.getByRole('cell', { name: 'not that lot' }).waitFor();
    expect(await onHand()).toBe(20);
    expect(complaints).toEqual([]);
  },
);

test('the owner takes back a lot that never came', async () => {
  const app = await startApp();
  await addProduct(app.owner);
  const { page } = await visit(app, '/drawer', { as: 'owner' });
  await page.getByText('Receive a lot').click();
  await page.getByLabel('Came on').fill('2031-05-05');
  await page.getByLabel('How much').fill('10');
  await page.getByLabel('Mark on the metal').fill('H');
  await page.getByLabel('Paid, ').fill('1.85');
  await page.getByRole('button', { name: 'Into the drawer' }).click();
  await page.getByText('Lot L1 is in the drawer.').waitFor();
  await page.getByRole('status').getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('It is taken back.').waitFor();
  const [lot] = (await app.owner.get('/solder-lots').expect(200)).body.items;
  expect(lot.onHandG).toBe(0);
});

test('metal given to the wrong piece goes back into its lot, and the scale is followed', async () => {
  const app = await startApp();
  const piece = await aDrawnPiece(app);
  const product = (await app.owner.post('/metal-products', aMetalProduct()).expect(201)).body;
  const received = { productId: product.id, receivedOn: '2031-05-05', quantityG: 50 };
  const lot = (await app.owner.post('/metal-lots', received).expect(201)).body;
  const onHand = async () => (await app.bench.get(`/metal-lots/${lot.id}`).expect(200)).body.onHandG;
  const { page } = await visit(app, '/drawer/metal', { as: 'bench' });
  await page.getByText('Book metal in or out').click();
  await page.getByLabel('For which piece').selectOption(piece.id);
  await page.getByLabel('How much').fill('7');
  await page.getByRole('button', { name: 'Book it' }).click();
  await page.getByText('Booked.').waitFor();
  expect(await onHand()).toBe(43);
  await page.getByRole('status').getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('It is taken back.').waitFor();
  expect(await onHand()).toBe(50);
  await page.getByRole('link', { name: `Lot ${lot.number}: ${product.name}` }).click();
  await page.getByLabel('What the scale says').fill('49.5');
  await page.getByLabel('Why it was weighed').fill('Sunday');
  await page.getByRole('button', { name: 'Weigh it' }).click();
  await page.getByRole('cell', { name: 'counted down', exact: true }).waitFor();
  await expectAccessible(page);
  expect(await onHand()).toBe(49.5);
});

test('what the refiner wrote is typed, taken back and typed right; a jar that was never sent goes back', async () => {
  const app = await startApp();
  const sent = { jar: 'sweep', refiner: 'Millrace Refiners', weighedG: 61.4, sentOn: '2031-05-05' };
  await app.desk.post('/scrap-returns', sent).expect(201);
  const { page } = await visit(app, '/drawer/metal', { as: 'desk', width: 360 });
  await page.clock.setFixedTime(app.clock.now());
  await page.reload();
  await page.getByText('What the refiner wrote of S1').click();
  const settle = async (assay: string) => {
    const typed = { 'Lost in melting': '6,5', 'Fine metal in the bar': assay, 'Paid of the fine metal': '94' };
    for (const [label, value] of Object.entries(typed)) await page.getByLabel(label).fill(value);
    await page.getByLabel('Price of fine metal').fill('1.05');
    await page.getByLabel('Fee for the jar').fill('25');
    await page.getByLabel('Fee for each gram').fill('0,04');
    await page.getByRole('button', { name: 'Note the settlement' }).click();
  };
  await settle('188');
  await page.getByRole('button', { name: 'Take it back: settlement of S1' }).click();
  await page.getByLabel('Why it is taken back').fill('digits swapped');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('What the refiner wrote of S1').click();
  await settle('881');
  // Of 57.409 g of bar 50.577 g are fine; 94 % of it at 1.05 is 49.92, the fees are 27.456.
  await page.getByText('€22.46').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  const [settled] = (await app.desk.get('/scrap-returns').expect(200)).body.items;
  expect(settled.settlement).toMatchObject({ meltLossFraction: 0.065, assayFraction: 0.881, payFraction: 0.94, feePerG: '0.04' });
  await app.desk.post('/scrap-returns', sent).expect(201);
  await page.reload();
  await page.getByRole('button', { name: 'Take it back: S2, never sent' }).click();
  await page.getByLabel('Why it is taken back').fill('it was not fetched');
  await page.getByRole('button', { name: 'Take it back', exact: true }).click();
  await page.getByText('it was not fetched').waitFor();
  expect((await app.desk.get('/scrap-returns').expect(200)).body.items[0].takenBack.reason).toBe('it was not fetched');
});
