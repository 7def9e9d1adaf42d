import { expect, test } from 'vitest';
import { beaker, bangle, brooch, links } from '../../seed/larger-designs.ts';
import { boxLid, earring, grainRing, pendant } from '../../shared/design/examples.ts';
import type { Design } from '../../shared/design/design.ts';
import { addMetal } from '../support/a-metal.ts';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

/** Thirty parts in a row, each on the one before. */
const row: Design = {
  parts: Array.from({ length: 30 }, (_, index) => ({
    id: `bar-${index + 1}`,
    metal: 'sterling-925',
    form: { kind: 'bar', lengthMm: 10, widthMm: 3, thicknessMm: 1 } as const,
  })),
  joints: Array.from({ length: 29 }, (_, index) => ({
    id: `butt-${index + 1}`,
    kind: 'butt' as const,
    between: [
      { part: `bar-${index + 1}`, alongMm: 10 },
      { part: `bar-${index + 2}`, alongMm: 0 },
    ] as const,
    widthMm: 3,
    thicknessMm: 1,
    gapMm: 0.05,
  })),
};

test('a piece of thirty parts: the drawing grows by buttons, a joint is found on it, a place is shown by keys, steps are taken back by keys', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: row });
  const { page, complaints } = await visit(app, `/pieces/${id}/design`, { as: 'bench', width: 1280 });
  const drawing = page.getByRole('region', { name: 'The piece, to scale' });
  const svg = drawing.locator('svg');
  await svg.waitFor();
  const before = (await svg.boundingBox())!;
  for (let step = 0; step < 3; step += 1) await drawing.getByRole('button', { name: 'Larger' }).click();
  await drawing.getByText('300%').waitFor();
  expect((await svg.boundingBox())!.width).toBeCloseTo(before.width * 3, -1);
  const pane = page.getByRole('group', { name: 'The drawing, enlarged' });
  await pane.waitFor();
  await expectNoSidewaysScroll(page);
  await expectAccessible(page);
  // By keys as well, while the drawing has the focus and at no other time.
  await pane.focus();
  await page.keyboard.press('-');
  await drawing.getByText('200%').waitFor();
  await page.keyboard.press('+');
  await drawing.getByText('300%').waitFor();
  await page.keyboard.press('Control+0');
  await page.getByRole('link', { name: 'Today' }).focus();
  await page.keyboard.press('+');
  expect(await drawing.getByRole('status').textContent()).toBe('300%');
  await pane.focus();
  await page.keyboard.press('0');
  await drawing.getByText('100%').waitFor();
  await drawing.getByText('the keys + and − make it larger and smaller').waitFor();

  const joint = page.getByRole('region', { name: 'Joints' }).getByRole('listitem').nth(28);
  await joint.locator('summary').first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => drawing.locator('.design-opened').textContent()).toBe('29');
  // The first bar, at the place of its middle, by keys alone.
  await joint.getByRole('button', { name: 'Show it on the drawing: One place of butt-29' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate('document.activeElement.tagName')).toBe('svg');
  await expectAccessible(page);
  for (let step = 0; step < 60; step += 1) await page.keyboard.press('ArrowLeft');
  const at = (await svg.locator('g.design-cross').boundingBox())!;
  expect(at.width).toBeGreaterThan(0);
  await page.keyboard.press('Escape');
  await drawing.getByText('arrows move the mark').waitFor({ state: 'hidden' });

  await page.getByRole('region', { name: 'Parts' }).getByText('bar-30', { exact: true }).click();
  await page.getByRole('button', { name: 'Take bar-30 and its joint away' }).click();
  await expect.poll(() => page.getByRole('region', { name: 'Joints' }).getByRole('listitem').count()).toBe(28);
  await page.keyboard.press('Control+z');
  await expect.poll(() => page.getByRole('region', { name: 'Joints' }).getByRole('listitem').count()).toBe(29);
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(() => page.getByRole('region', { name: 'Joints' }).getByRole('listitem').count()).toBe(28);
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 2', { exact: true }).waitFor();
  expect((await app.bench.get(`/pieces/${id}/design`).expect(200)).body.joints).toHaveLength(28);
  expect(complaints).toEqual([]);
});

test('by keys alone a place is shown on a plate: the mark is led to it and taken', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: pendant });
  const { page } = await visit(app, `/pieces/${id}/design`, { as: 'bench', width: 360 });
  const joint = page.getByRole('region', { name: 'Joints' }).getByRole('listitem').filter({ hasText: 'bezel' });
  await joint.locator('summary').first().focus();
  await page.keyboard.press('Enter');
  await joint.getByRole('button', { name: 'Show it on the drawing: One place of bezel' }).focus();
  await page.keyboard.press('Enter');
  const drawing = page.getByRole('region', { name: 'The piece, to scale' });
  // The plate is its part already: the mark begins in the middle of it.
  await drawing.getByText('Joint bezel: tap the place on backplate').waitFor();
  await expect.poll(() => page.evaluate('document.activeElement.tagName')).toBe('svg');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await drawing.getByText('Joint bezel: tap the place').waitFor({ state: 'hidden' });
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 2', { exact: true }).waitFor();
  const bezel = (await app.bench.get(`/pieces/${id}/design`).expect(200)).body.joints.find(
    ({ id: one }: { id: string }) => one === 'bezel',
  );
  expect(bezel.between[0]).toEqual({ part: 'plate', xMm: 15, yMm: 10 });
});

test('loose contacts are drawn, saved and taken away; a metal of the studio is chosen for a part', async () => {
  const app = await startApp();
  await aDrawer(app);
  const own = await addMetal(app.owner);
  const { id } = await aDrawnPiece(app, { design: links });
  const { page } = await visit(app, `/pieces/${id}/design`, { as: 'bench', width: 820 });
  const contacts = page.getByRole('region', { name: 'Loose contacts' });
  const count = links.contacts!.length;
  await expect.poll(() => contacts.getByRole('listitem').count()).toBe(count);
  const last = contacts.getByRole('listitem').last();
  await last.locator('summary').click();
  await last.getByLabel('How well heat passes').fill('0.02');
  await expectAccessible(page);
  await contacts.getByRole('button', { name: 'Add a contact' }).click();
  const added = contacts.getByRole('listitem').last();
  for (const place of ['One place', 'The other place'])
    await added
      .getByRole('group', { name: place })
      .getByLabel('On part')
      .selectOption({ index: place === 'One place' ? 1 : 2 });
  const parts = page.getByRole('region', { name: 'Parts' }).getByRole('listitem');
  await parts.first().locator('summary').first().click();
  await parts.first().getByLabel('Metal', { exact: true }).selectOption({ label: 'Our 950' });
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 2', { exact: true }).waitFor();
  const saved = (await app.bench.get(`/pieces/${id}/design`).expect(200)).body;
  expect(saved.contacts).toHaveLength(count + 1);
  expect(saved.contacts[count - 1].conductanceWPerK).toBe(0.02);
  expect(saved.parts[0].metal).toMatchObject({ code: own.id, finenessFraction: 0.95 });
  await contacts.getByRole('listitem').last().locator('summary').click();
  await contacts
    .getByRole('button', { name: /^Take the contact/ })
    .last()
    .click();
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 3', { exact: true }).waitFor();
  expect((await app.bench.get(`/pieces/${id}/design`).expect(200)).body.contacts).toHaveLength(count);
});

test('every piece of the demo is opened, changed and saved', async () => {
  const app = await startApp();
  await aDrawer(app);
  const designs: Record<string, Design> = { pendant, grainRing, earring, boxLid, bangle, brooch, beaker, links };
  const { browser } = await visit(app, '/', { as: 'bench' });
  const { page } = await visit(app, '/', { as: 'owner', browser });
  for (const [name, design] of Object.entries(designs)) {
    const { id } = await aDrawnPiece(app, { design });
    await page.goto(`${app.baseUrl}/pieces/${id}/design`);
    await page.getByText('Version 1', { exact: true }).waitFor();
    const most = page.getByLabel('Most joints in one heat');
    await most.fill('4');
    await page.getByRole('button', { name: 'Save the design' }).click();
    await page.getByText('Version 2', { exact: true }).waitFor();
    const { body } = await app.bench.get(`/pieces/${id}/design`).expect(200);
    expect([name, body.rules.maxJointsPerHeat, body.parts.length]).toEqual([name, 4, design.parts.length]);
    expect(body.contacts ?? []).toEqual(design.contacts ?? []);
  }
});
