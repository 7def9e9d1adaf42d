import { expect, test } from 'vitest';
import { earring } from '../../seed/designs.ts';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

test('joints by fields and on the drawing: what stands on end is laid flat to be tapped, one is made already, rules name them', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: earring });
  const { page } = await visit(app, `/pieces/${id}/design`, { as: 'bench' });
  const joints = page.getByRole('region', { name: 'Joints' });
  await joints.getByText('post-on', { exact: true }).click();
  const post = joints.getByRole('listitem').last();
  // The post is seen from its end on the disc; its other end is to be tapped.
  await post.getByRole('button', { name: 'Show it on the drawing: The other place' }).click();
  const drawing = page.getByRole('region', { name: 'The piece, to scale' });
  await drawing.getByText('tap the place on post').waitFor();
  const box = (await drawing.locator('polygon').boundingBox())!;
  await page.mouse.click(box.x + box.width - 3, box.y + box.height / 2);
  await expect.poll(() => post.getByLabel('Along it').inputValue()).toBe('11');
  await post.getByText('Solder, load, joints').click();
  await post.getByLabel('Is it made already').selectOption({ label: 'yes, with a solder that is known' });
  await post.getByLabel('Which solder').selectOption('easy');
  await post.getByLabel('Cadmium in it').selectOption('no');
  await joints.getByText('loop-on', { exact: true }).click();
  const loop = joints.getByRole('listitem').nth(1);
  await loop.getByText('Solder, load, joints').click();
  await loop.getByRole('checkbox', { name: 'hard' }).check();
  // A new name is taken over by the rules.
  await loop.getByLabel('Short name').fill('loop-set');
  await loop.getByLabel('Short name').blur();
  const rules = page.getByRole('region', { name: 'Rules' });
  await rules.getByRole('button', { name: 'Add joints never of one heat' }).click();
  await rules.getByLabel('Joints of one heat lie at most apart').fill('1 in');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 2', { exact: true }).waitFor();
  const { body } = await app.bench.get(`/pieces/${id}/design`).expect(200);
  expect(body.joints[2]).toMatchObject({
    between: [{ part: 'disc' }, { part: 'post', alongMm: 11 }],
    made: { solder: { id: 'easy', solidusC: 671, liquidusC: 718 }, cadmiumStanding: 'no' },
  });
  expect(body.rules).toMatchObject({
    before: [['loop-seam', 'loop-set']],
    notSameHeat: [['loop-seam', 'loop-set']],
    grades: { 'loop-set': { exclude: ['hard'] } },
    maxSpreadMm: 25.4,
  });
  expect(body.entered).toMatchObject({ '/rules/maxSpreadMm': '1 in' });
});
