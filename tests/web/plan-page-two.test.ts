import { expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

const later = (page: Page, heat: number) => page.getByRole('button', { name: `Move heat ${heat} later` });
const save = (page: Page) => page.getByRole('button', { name: 'Save as the next version' });
const jointsOf = (plan: { heats: readonly { joints: readonly string[] }[] }) => plan.heats.map(({ joints }) => joints[0]);

test('two browsers at one plan: the second to save is told what differs, keeps both or takes theirs, and loses nothing', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const bare = { heats: pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder })) };
  await app.bench.post(`/pieces/${id}/plans`, { plan: bare }).expect(201);
  const mine = await visit(app, `/pieces/${id}/plan`, { as: 'bench', width: 360 });
  const theirs = await visit(app, `/pieces/${id}/plan`, { as: 'owner', browser: mine.browser });
  const { page } = mine;
  const versions = async () => (await app.owner.get(`/pieces/${id}/plans`).expect(200)).body.items;
  const [wall, bail, bezel, on] = jointsOf(bare);

  await later(page, 1).click();
  await page.getByText('Changed, not saved').waitFor();
  await later(theirs.page, 2).click();
  await save(theirs.page).click();
  await theirs.page.getByText('Plan version 2, by hand, draft').waitFor();

  await save(page).click();
  const told = page.getByRole('alert');
  await told.getByText('Somebody has saved plan version 2 since you began from version 1').waitFor();
  await told.getByText(`${bail}: heat 1 in yours, 3 in theirs`).waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  // It is told again after a reload, and mine is still here.
  await page.reload();
  await told.getByText('Somebody has saved plan version 2').waitFor();
  const first = page.getByRole('region', { name: 'The heats, in order' }).getByRole('listitem').first();
  expect(await first.textContent()).toContain(bail);
  await told.getByRole('button', { name: 'Look at theirs' }).click();
  await expect.poll(() => first.textContent()).toContain(wall);
  expect(await later(page, 1).isDisabled()).toBe(true);
  await told.getByRole('button', { name: 'Back to mine' }).click();
  await told.getByRole('button', { name: 'Save mine as the version after it' }).click();
  await page.getByText('Plan version 3, by hand, draft').waitFor();
  expect((await versions()).map(({ plan }: { plan: typeof bare }) => jointsOf(plan))).toEqual([
    [bail, wall, bezel, on],
    [wall, bezel, bail, on],
    [wall, bail, bezel, on],
  ]);

  // The other way: they go on from mine, and what they had planned is put aside and brought back.
  await later(theirs.page, 3).click();
  await theirs.page.getByText('Changed, not saved').waitFor();
  await save(theirs.page).click();
  await theirs.page.getByRole('alert').getByText('Somebody has saved plan version 3').waitFor();
  await theirs.page.getByRole('button', { name: 'Go on from theirs' }).click();
  await theirs.page.getByText('Plan version 3, by hand, draft').waitFor();
  await theirs.page.getByRole('button', { name: 'Bring mine back' }).click();
  await theirs.page.getByText('Changed, not saved').waitFor();
  await save(theirs.page).click();
  await theirs.page.getByText('Plan version 4, by hand, draft').waitFor();
  expect(jointsOf((await versions())[0].plan)).toEqual([wall, bezel, on, bail]);
  expect([...mine.complaints, ...theirs.complaints]).toEqual([]);
});
