import { expect, test } from 'vitest';
import { aPricedPendant, aSentQuote, aSketch, anAcceptedQuote } from '../support/a-quote.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

async function statesOf({ owner }: TestApp, commissionId: string) {
  const { items } = (await owner.get(`/quotes?commissionId=${commissionId}`).expect(200)).body;
  return (items as { state: string; stateReason: string | null }[]).map(({ state, stateReason }) => [state, stateReason]);
}

test('a version that was sent by mistake is withdrawn by one tap, and another time with a reason', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await aSketch(app, commissionId);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner', width: 360 });
  await page.getByRole('button', { name: 'Send it' }).click();
  await page.getByText('Done: Send it.').waitFor();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('It is taken back.').waitFor();
  await expect.poll(() => statesOf(app, commissionId)).toEqual([['withdrawn', 'taken back at once']]);
  await aSentQuote(app, commissionId);
  await page.reload();
  await page.getByRole('button', { name: 'Withdraw it' }).click();
  await page.getByLabel('Reason').fill('the stone is not to be had');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Withdraw it' }).last().click();
  await page.getByText('the stone is not to be had').waitFor();
  expect((await statesOf(app, commissionId))[0]).toEqual(['withdrawn', 'the stone is not to be had']);
});

test('the desk notes that the client says no, and why', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await aSentQuote(app, commissionId);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'desk' });
  await page.getByRole('button', { name: 'The client says no' }).click();
  await page.getByLabel('Reason').fill('too dear');
  await page.getByRole('button', { name: 'The client says no' }).last().click();
  await page.locator('.word', { hasText: 'declined' }).waitFor();
  expect(await statesOf(app, commissionId)).toEqual([['declined', 'too dear']]);
});

test('a newer version that was agreed later takes the place of the accepted one', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await anAcceptedQuote(app, commissionId);
  const { page } = await visit(app, `/commissions/${commissionId}/price`, { as: 'owner' });
  await page.getByRole('button', { name: 'Put the newer one in its place' }).click();
  await page.getByRole('alert').getByText('send a newer version first').waitFor();
  await aSentQuote(app, commissionId, { overrides: { policy: { discountFraction: 0.1 } } });
  await page.reload();
  await page.getByRole('button', { name: 'Put the newer one in its place' }).click();
  await page.locator('.word', { hasText: 'replaced' }).waitFor();
  expect(await statesOf(app, commissionId)).toEqual([
    ['accepted', null],
    ['replaced', 'version 2 was accepted'],
  ]);
});
