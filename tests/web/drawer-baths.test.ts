import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** One heat of a piece in a pickle. */
async function aDippedHeat(app: TestApp): Promise<{ pieceId: string }> {
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id: pieceId } = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, pieceId);
  await issueMetal(bench, pieceId);
  const { body: bath } = await bench.post('/pickle-baths', {}).expect(201);
  const heat = `/heats/${heats[0]!.id}`;
  await bench.move(heat, await readiness(bench, heats[0]!.id, lots)).expect(200);
  await bench.move(heat, { from: 'primed', to: 'alight' }).expect(200);
  await bench.move(heat, { from: 'alight', to: 'cooling', seen: 'ran bright' }).expect(200);
  await bench.move(heat, { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true, bathId: bath.id }).expect(200);
  return { pieceId };
}

test('a pickle is mixed, made harmless and gone, each with what has to be noted', async () => {
  const app = await startApp();
  const { page } = await visit(app, '/drawer/baths', { as: 'owner', width: 360 });
  await page.clock.setFixedTime(app.clock.now());
  await page.getByText('No pickle is mixed.').waitFor();
  await page.getByRole('button', { name: 'It is mixed' }).click();
  const onItsOwn = page.getByRole('link', { name: 'Pickle B1 on its own' });
  await onItsOwn.click();
  // The list has the same buttons, and stays until the other page is there.
  await onItsOwn.waitFor({ state: 'hidden' });
  await page.getByRole('button', { name: 'It is neutralised' }).click();
  await page.getByLabel('Reason').fill('made up twice as strong');
  await page.getByLabel('pH measured').fill('7.5');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'It is neutralised' }).last().click();
  await page.getByText('neutralised', { exact: true }).waitFor();
  await page.getByRole('button', { name: 'It is gone' }).click();
  await page.getByLabel('Where it went').fill('the town’s collection point');
  await page.getByRole('button', { name: 'It is gone' }).last().click();
  await page.getByText(/collection point/).waitFor();
  const [bath] = (await app.owner.get('/pickle-baths').expect(200)).body.items;
  expect(bath).toMatchObject({ number: 'B1', state: 'gone', ph: 7.5, goneTo: 'the town’s collection point' });
});

test.each([
  ['en', 'What went into it', /^Take it back: H1/, 'Why it is taken back', 'Take it back', 'taken back'],
  ['de', 'Was hineinging', /^Zurücknehmen: H1/, 'Warum', 'Zurücknehmen', 'zurückgenommen'],
] as const)(
  'in %s a dip that was counted wrongly is taken back on the page of the pickle',
  async (language, title, open, why, take, told) => {
    const app = await startApp();
    const { pieceId } = await aDippedHeat(app);
    await app.owner.put('/preferences', { language, units: null }, 1).expect(200);
    const { page, complaints } = await visit(app, '/drawer/baths', { as: 'owner', width: 360, language });
    await page.getByRole('link', { name: /B1/ }).last().click();
    const dips = page.getByRole('region', { name: title });
    await dips.getByRole('link', { name: 'H1' }).waitFor();
    expect(await dips.getByRole('link', { name: 'H1' }).getAttribute('href')).toBe(`/pieces/${pieceId}`);
    await dips.getByRole('button', { name: open }).click();
    await dips.getByLabel(why).fill('the other pot');
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await dips.getByRole('button', { name: take, exact: true }).click();
    await dips.getByText(told).first().waitFor();
    await dips.getByText('the other pot').waitFor();
    const [bath] = (await app.owner.get('/pickle-baths').expect(200)).body.items;
    expect(bath).toMatchObject({ state: 'fresh', dips: 0 });
    expect(complaints).toEqual([]);
  },
);

test('a metal is added by its gauge, received, given to a piece, and a jar of filings is sent', async () => {
  const app = await startApp();
  const piece = await aDrawnPiece(app);
  const { page } = await visit(app, '/drawer/metal', { as: 'owner', width: 360 });
  await page.clock.setFixedTime(app.clock.now());
  await page.getByText('Receive metal').click();
  await page.getByText('No metal product is in the book yet').waitFor();
  await page.getByText('Add a metal').click();
  await page.getByLabel('Name in the supplier').fill('Round wire, 18 gauge');
  await page.getByLabel('Form', { exact: true }).selectOption('round_wire');
  await page.getByLabel('Diameter').fill('18 ga');
  await page.getByLabel('Supplier', { exact: true }).fill('Harbour Metals');
  await page.getByLabel('Price, ').fill('46');
  await page.getByLabel('for each').selectOption('ozt');
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByText('Round wire, 18 gauge is in the book.').waitFor();
  const [product] = (await app.owner.get('/metal-products').expect(200)).body.items;
  // 18 gauge is 0.005 in × 92^((36 − 18) / 39) = 1.0237 mm (ASTM B258).
  expect(product).toMatchObject({ price: { amount: '46', per: 'ozt' }, entered: { '/form/diameterMm': '18 ga' } });
  expect(product.form.diameterMm).toBeCloseTo(1.0237, 4);
  await page.getByLabel('How much').fill('20');
  await page.getByLabel('Came on').fill('2031-05-05');
  await page.getByRole('button', { name: 'Into the drawer' }).click();
  await page.getByText('Book metal in or out').click();
  await page.getByLabel('For which piece').selectOption(piece.id);
  await page.getByLabel('How much').first().fill('7.5');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Book it' }).click();
  await page.getByText('Booked.').waitFor();
  const [lot] = (await app.owner.get('/metal-lots').expect(200)).body.items;
  expect(lot).toMatchObject({ productId: product.id, receivedG: 20, onHandG: 12.5 });
  await page.getByText('Send a jar').click();
  await page.getByLabel('To whom').fill('Quay Refiners');
  await page.getByLabel('Weight without the jar').fill('61.4');
  await page.getByLabel('Sent on').fill('2031-05-05');
  await page.getByRole('button', { name: 'It is sent' }).click();
  await page.getByText('to Quay Refiners').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  expect((await app.owner.get('/scrap-returns').expect(200)).body.items).toMatchObject([{ jar: 'filings', weighedG: 61.4 }]);
});
