import { expect, test } from 'vitest';
import { aPricedPendant, anAcceptedQuote, aSentQuote, eur, typePrices } from '../support/a-quote.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

const inEuro = (minor: number) => new Intl.NumberFormat('en', { style: 'currency', currency: 'EUR' }).format(minor / 100);

test('a stone, a discount and a price rounded up stand in the letter as they will be sent', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner', width: 360 });
  await page.getByText('Stones, findings, hallmark').click();
  await page.getByLabel('What is bought in').fill('moonstone');
  await page.getByLabel('Costs us, EUR').fill('18');
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByLabel('Discount, %').fill('10');
  await page.getByLabel('Tax is counted').selectOption('gross_rounded_up');
  const overrides = {
    passThrough: { moonstone: { kind: 'stone', cost: '18', handlingFraction: 0.25 } },
    policy: { discountFraction: 0.1, tax: { method: 'gross_rounded_up' } },
  };
  const { answer } = (await app.owner.post('/estimates', { commissionId, overrides }).expect(200)).body;
  const { grossMinor, discountMinor } = answer.totals;
  // A gross that is rounded up is whole euros.
  expect(grossMinor % 100).toBe(0);
  const outside = page.locator('.outside');
  await outside.getByText(inEuro(grossMinor), { exact: true }).waitFor();
  await outside.getByText(inEuro(-discountMinor)).waitFor();
  await outside.getByText('Rounded up by').waitFor();
  // 18.00 and a quarter for handling.
  await page.locator('.worked', { hasText: 'moonstone, passed on' }).getByText('€22.50').first().waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Keep as a sketch' }).click();
  await page.getByRole('button', { name: 'Send it' }).waitFor();
  const { items } = (await app.owner.get(`/quotes?commissionId=${commissionId}`).expect(200)).body;
  expect(items).toEqual([expect.objectContaining({ number: 1, gross: eur(grossMinor) })]);
  await page.getByRole('button', { name: 'Take it out' }).waitFor({ state: 'detached' });
});

test('a part of what was paid goes back by the owner, with a reason', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { deposit } = await anAcceptedQuote(app, commissionId);
  await app.desk.post('/payments', { commissionId, kind: 'deposit', amount: deposit, how: 'card' }).expect(201);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  await page.getByRole('button', { name: 'Send part of it back' }).click();
  await page.getByLabel('How much goes back').fill('12,50');
  await page.getByRole('button', { name: 'Send part of it back' }).last().click();
  await page.getByLabel('Reason').fill('the stone came cheaper');
  await page.getByRole('button', { name: 'Send part of it back' }).last().click();
  await page.getByText('€12.50 of it went back').waitFor();
  const { items } = (await app.owner.get(`/payments?commissionId=${commissionId}`).expect(200)).body;
  expect(items).toEqual(
    expect.arrayContaining([
      expect.objectContaining({ kind: 'send_back', amount: eur(1250), reason: 'the stone came cheaper' }),
      expect.objectContaining({ kind: 'deposit', state: 'part_sent_back', sentBack: eur(1250) }),
    ]),
  );
  await expectAccessible(page);
});

test('metal alone is priced again when silver has moved, and the version before stays as it was sent', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId);
  await typePrices(app, { finePrice: { perG: '1.30', typedAt: app.clock.now().toISOString(), source: 'the refiner’s page' } });
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  await page.getByRole('button', { name: 'Re-price metal only: version 1' }).click();
  await page.getByText('Compare two versions').click();
  await page.getByText('From version 1 to version 2').waitFor();
  const { items } = (await app.owner.get(`/quotes?commissionId=${commissionId}`).expect(200)).body;
  const [next, before] = items;
  expect(before).toMatchObject({ id: sent.id, state: 'sent', gross: sent.gross });
  const { differences } = (await app.owner.get(`/quotes/${next.id}/comparison?with=${sent.id}`).expect(200)).body;
  const moved = differences.lines.filter(({ differenceMinor }: { differenceMinor: number }) => differenceMinor !== 0);
  // Only metal, and the scrap of it.
  expect(new Set(moved.map(({ group }: { group: string }) => group))).toEqual(new Set(['metal', 'scrap_credit']));
  await page.getByRole('region', { name: 'Lines that move' }).getByText('Metal, Sterling silver').waitFor();
});
