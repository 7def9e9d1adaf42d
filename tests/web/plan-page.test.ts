import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { pendant, pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

/** The pendant the wrong way round: what is made first melts lowest. */
const ORDER = ['easy', 'easy', 'hard', 'medium'];
const BAD = { heats: pendantPlan.heats.map(({ joints }, index) => ({ joints, solder: ORDER[index] })) };

test('the plan page says what each heat does, follows a change of hand, and saves it as the next version', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  await app.bench.post(`/pieces/${id}/plans`, { plan: BAD }).expect(201);
  const { page, complaints } = await visit(app, `/pieces/${id}/plan`, { as: 'bench' });
  const problems = page.getByRole('region', { name: 'What is predicted to go wrong' });
  await problems.waitFor();
  await page.getByRole('img', { name: /What heat \d does/ }).waitFor();
  await expectAccessible(page);
  // The best of what was tried, as often as it leaves something.
  await page.getByText('Computing').waitFor({ state: 'hidden' });
  for (let left = 4; left > 0 && (await problems.isVisible()); left -= 1) {
    await problems.getByRole('button', { name: 'Do that' }).first().click();
    await page.getByText('Computing').waitFor({ state: 'hidden' });
  }
  expect(await problems.isVisible()).toBe(false);
  // It survives a reload before it is saved.
  await page.reload();
  await page.getByText('Changed, not saved').waitFor();
  await page.getByRole('button', { name: 'Save as the next version' }).click();
  await page.getByText('Plan version 2, by hand, draft').waitFor();
  const { items } = (await app.bench.get(`/pieces/${id}/plans`).expect(200)).body;
  expect(items[0]).toMatchObject({ number: 2, origin: 'by_hand' });
  expect(items[0].check.problems).toEqual([]);
  expect(complaints).toEqual([]);
});

test('the plan page finds a plan in the browser, on a phone too, and keeps it', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const { page } = await visit(app, `/pieces/${id}/plan`, { as: 'bench', width: 360 });
  await page.getByRole('button', { name: 'One heat a joint, by hand' }).click();
  await page.getByRole('button', { name: 'Find me a plan' }).click();
  await page.getByRole('button', { name: 'Work with this plan' }).first().click({ timeout: 60_000 });
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Save as the next version' }).click();
  await page.getByText('Plan version 1, by hand, draft').waitFor();
  const [kept] = (await app.bench.get(`/pieces/${id}/plans`).expect(200)).body.items;
  expect(kept.check.problems).toEqual([]);
  expect(kept.plan.heats.flatMap(({ joints }: { joints: string[] }) => joints).toSorted()).toEqual(
    pendant.joints.map(({ id: joint }) => joint).toSorted(),
  );
});

test('a heat is moved by keyboard alone, and an order that cannot be is said so at once', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  await app.bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201);
  const { page } = await visit(app, `/pieces/${id}/plan`, { as: 'bench', language: 'de' });
  await page.getByRole('button', { name: 'Move heat 3 earlier' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Move heat 2 earlier' }).focus();
  await page.keyboard.press('Enter');
  // The seam of the wall has to be made before it is set on the plate.
  await page.getByRole('alert').getByText('wall-seam').waitFor();
});
