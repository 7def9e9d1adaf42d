import { EventEmitter, once } from 'node:events';
import { expect, test } from 'vitest';
import { aPricedPendant, aSketch, typePrices } from '../support/a-quote.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const inEuro = (minor: number, locale = 'en') =>
  new Intl.NumberFormat(locale, { style: 'currency', currency: 'EUR' }).format(minor / 100);

async function versionsOf({ owner }: TestApp, commissionId: string) {
  const { items } = (await owner.get(`/quotes?commissionId=${commissionId}`).expect(200)).body;
  return items as {
    id: string;
    number: number;
    state: string;
    gross: { amountMinor: number };
    deposit: { amountMinor: number };
  }[];
}

test('from a planned piece to a sent quote, a yes and a deposit, by clicking', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { body: fromBook } = await app.owner.post('/estimates', { commissionId }).expect(200);
  const { page, complaints } = await visit(app, `/commissions/${commissionId}`, { as: 'owner' });
  await page.getByRole('link', { name: 'Price it' }).click();
  const price = page.locator('.price-now');
  await price.getByText(inEuro(fromBook.answer.totals.grossMinor)).waitFor();
  await page.getByText('No version was written yet').waitFor();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Keep as a sketch' }).click();
  await page.getByRole('button', { name: 'Send it' }).waitFor();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Send it' }).click();
  await page.getByRole('button', { name: 'The client says yes' }).click();
  await page.locator('.word', { hasText: 'accepted' }).waitFor();
  const [quote] = await versionsOf(app, commissionId);
  expect(quote).toMatchObject({ number: 1, state: 'accepted', gross: { amountMinor: fromBook.answer.totals.grossMinor } });
  // The deposit that was agreed stands there to be noted.
  const { amountMinor } = quote!.deposit;
  await expect.poll(() => page.getByLabel('Amount, EUR').inputValue()).toBe((amountMinor / 100).toFixed(2));
  await page.getByRole('button', { name: 'Note the payment' }).click();
  await page.getByRole('link', { name: `Receipt for ${inEuro(amountMinor)}`, exact: true }).waitFor();
  await expectAccessible(page);
  const { items: payments } = (await app.desk.get(`/payments?commissionId=${commissionId}`).expect(200)).body;
  expect(payments).toEqual([
    expect.objectContaining({ kind: 'deposit', state: 'received', amount: { amountMinor, currency: 'EUR' } }),
  ]);
  await page.getByText('If it were called off now').click();
  await page.getByText('Left of the money after the cost').waitFor();
  expect(complaints).toEqual([]);
});

test('a margin that is typed shows its markup, and the other way round; the price moves by what the book says', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  const margin = page.getByLabel('Margin, %');
  const markup = page.getByLabel('Markup, %');
  await margin.fill('50');
  // A share of 50 % of the price is as much again on the cost.
  await expect.poll(() => markup.inputValue()).toBe('100');
  await markup.fill('25');
  await expect.poll(() => margin.inputValue()).toBe('20');
  const { body } = await app.owner
    .post(`/quotes/${sketch.id}/what-if`, { overrides: { policy: { profit: { markupFraction: 0.25 } } } })
    .expect(200);
  const price = page.locator('.price-now');
  await price.getByText(inEuro(body.after.totals.grossMinor)).waitFor();
  await price.getByText(`moves by ${inEuro(body.after.totals.grossMinor - body.before.totals.grossMinor)}`).waitFor();
  const rows = page.getByRole('region', { name: 'Lines that move' }).getByRole('row');
  await rows.filter({ hasText: 'Price of the making' }).getByText(inEuro(body.after.totals.makingPriceMinor)).waitFor();
  await expectAccessible(page);
  // Nothing is kept yet, but what was typed survives a reload.
  expect(await versionsOf(app, commissionId)).toMatchObject([{ gross: sketch.gross }]);
  await page.reload();
  await price.getByText(inEuro(body.after.totals.grossMinor)).waitFor();
  // Of what was kept the list comes late: what is typed meanwhile is of the kept version.
  const list = new EventEmitter();
  const comes = once(list, 'comes');
  await page.route(/\/quotes\?/, async (route) => {
    await comes;
    await route.continue();
  });
  await page.getByRole('button', { name: 'Keep in version 1' }).click();
  await expect.poll(async () => (await versionsOf(app, commissionId))[0]!.gross.amountMinor).toBe(body.after.totals.grossMinor);
  await expect.poll(() => price.getByText('moves by').count()).toBe(0);
  // Typed the other way it takes the place of the markup that was kept.
  await margin.fill('50');
  const listed = page.waitForResponse(/\/quotes\?/);
  list.emit('comes');
  await listed;
  await expect.poll(() => margin.inputValue()).toBe('50');
  await page.getByRole('button', { name: 'Keep in version 1' }).click();
  await expect
    .poll(async () => (await app.owner.get(`/quotes/${sketch.id}`).expect(200)).body.inside.profit.ofMaking)
    .toEqual({ marginFraction: 0.5, markupFraction: 1 });
});

test('unusual minutes are tried at once, and asked about when they are kept', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId);
  const { labour } = (await app.owner.get(`/quotes/${sketch.id}`).expect(200)).body.inside.request;
  const { operation, minutes } = labour[0] as { operation: string; minutes: number };
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  await page.getByText('Minutes by operation').click();
  await page.getByLabel(`${operation}, minutes`).fill(String(minutes * 5));
  await page.getByText('Unusual. It is only tried here').waitFor();
  await page.locator('.price-now').getByText('moves by').waitFor();
  await page.getByRole('button', { name: 'Keep as the next version' }).click();
  await page.getByLabel('Unusual, but it can be so').fill('all of it by hand, as they asked');
  await page.getByRole('button', { name: 'It is so: save it' }).click();
  await expect.poll(async () => (await versionsOf(app, commissionId)).length).toBe(2);
  const [next] = await versionsOf(app, commissionId);
  expect((await app.owner.get(`/quotes/${next!.id}`).expect(200)).body.inside.overrides).toEqual({
    labour: { [operation]: { minutes: minutes * 5 } },
  });
  // The two are compared line by line.
  await page.getByText('Compare two versions').click();
  await page.getByText('From version 1 to version 2').waitFor();
  await page.getByRole('region', { name: 'Numbers that are not alike' }).getByText(`labour.${operation}.minutes`).waitFor();
  await expectAccessible(page);
});

test('every line opens into its working, with the numbers that the book gives', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  const work = page.locator('.worked', { hasText: 'Work, at the bench' });
  await work.locator('summary').click();
  await work.getByText('rate an hour').waitFor();
  const { body } = await app.owner.post('/estimates', { commissionId }).expect(200);
  const steps = body.answer.steps as { key: string; value: number }[];
  const minutes = steps.find(({ key }) => key === 'labour.bench.minutes')!.value;
  await work
    .getByText(`${new Intl.NumberFormat('en', { maximumSignificantDigits: 6 }).format(minutes)} min`, { exact: true })
    .first()
    .waitFor();
  await expectAccessible(page);
});

test('the desk sees the outside and no cost, sends nothing, and notes what comes in', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { gross } = await aSketch(app, commissionId);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'desk', width: 360 });
  await page.getByRole('heading', { name: 'Outside: for the client' }).waitFor();
  await page.getByText(inEuro(gross.amountMinor)).first().waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  for (const hidden of [
    'Inside: for the owner',
    'Margin, % of the price',
    'Overhead',
    'Re-price metal only',
    'If it were called off now',
  ])
    expect(await page.getByText(hidden).count()).toBe(0);
  expect(await page.getByRole('button', { name: 'Send it' }).count()).toBe(0);
  await page.getByRole('button', { name: 'Note the payment' }).waitFor();
});

test('a private address is turned on, made, opened by the client, and cut off', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  await page.getByRole('button', { name: 'Turn private addresses on' }).click();
  await page.getByRole('button', { name: 'Make a private address' }).click();
  const address = await page.getByLabel('Copy it now').inputValue();
  expect((await fetch(address)).status).toBe(200);
  await page.getByRole('button', { name: 'Cut it off' }).click();
  await page.locator('.word', { hasText: 'cut off' }).waitFor();
  expect((await fetch(address)).status).not.toBe(200);
});

test('in German, on a phone: the price, with nothing left in English', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await aSketch(app, commissionId);
  await typePrices(app, { privateLinks: { on: true } });
  await app.owner.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner', width: 360, language: 'de' });
  await page.getByRole('heading', { name: 'Innen: für die Werkstatt' }).waitFor();
  await page.getByLabel('Marge, %').fill('33,5');
  // 0.335 / 0.665
  await expect.poll(() => page.getByLabel('Aufschlag, %').inputValue()).toBe('50,38');
  await page.getByText('Was sich ändert').first().waitFor();
  await page.getByText('Minuten je Arbeitsgang').click();
  await page.getByRole('button', { name: 'Private Adresse machen' }).waitFor();
  await expectNoSidewaysScroll(page);
  await expectAccessible(page);
  const said = (await page.locator('main').innerText()).match(/\b(and|price|cost|version|work|deposit|sawing|polishing)\b/gi);
  expect(said).toBeNull();
});
