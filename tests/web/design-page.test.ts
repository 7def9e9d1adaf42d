import { expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { aCommission } from '../support/a-commission.ts';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { pendant } from '../support/pendant.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

/** A piece that nobody has drawn yet. */
async function anEmptyPiece({ desk, bench }: TestApp): Promise<string> {
  const { id: commissionId } = await aCommission(desk);
  const { body } = await bench.post('/pieces', { commissionId, title: 'Pendant', metal: 'sterling-925' }).expect(201);
  return body.id;
}

/** American wire gauge in mm: 20 is 0.8118, 16 is 1.2908. @source ASTM B258: No. 36 is 0.127 mm, and 39 steps are 92 to 1 */
const gauge = (number: number) => 0.127 * 92 ** ((36 - number) / 39);

async function addPart(page: Page, shape: string, sizes: Readonly<Record<string, string>>): Promise<void> {
  await page.getByLabel('Shape of the next part').selectOption({ label: shape });
  await page.getByRole('button', { name: 'Add the part' }).click();
  const card = page.getByRole('region', { name: 'Parts' }).getByRole('listitem').last();
  for (const [label, size] of Object.entries(sizes)) await card.getByLabel(label, { exact: true }).fill(size);
}

test('from an empty piece to a pendant by clicking and typing: gauge is kept, the weight is the server’s, the places are those tapped', async () => {
  const app = await startApp();
  await aDrawer(app);
  const id = await anEmptyPiece(app);
  const { page, complaints } = await visit(app, `/pieces/${id}/design`, { as: 'bench' });
  await addPart(page, 'sheet', { Length: '30', Width: '20', Thickness: '20 ga' });
  await addPart(page, 'ring of round wire', { 'Inside diameter': '4', Diameter: '16 ga' });
  const parts = [
    { id: 'sheet', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: gauge(20) } },
    { id: 'wire-ring', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: gauge(16) } },
  ];
  const { totalG } = (await app.bench.post('/calculations/piece-weight', { design: { parts } }).expect(200)).body;
  await page.getByText(`${totalG.toFixed(2)} g in all`).waitFor();

  // A ring closed, and then stood on the upper edge of the plate, in the middle.
  await page.getByLabel('Kind of the next joint').selectOption({ label: 'ring closed' });
  await page.getByRole('button', { name: 'Add the joint' }).click();
  await page.getByLabel('The part it closes').selectOption('wire-ring');
  await page.getByLabel('Kind of the next joint').selectOption({ label: 'tee joint' });
  await page.getByRole('button', { name: 'Add the joint' }).click();
  await page.getByRole('button', { name: 'Show it on the drawing: One place of tee' }).click();
  const drawing = page.getByRole('region', { name: 'The piece, to scale' });
  await drawing.getByText('Joint tee: tap the part.').waitFor();
  await drawing.locator('polygon').first().click({ force: true });
  await drawing.getByText('Joint tee: tap the place on sheet').waitFor();
  const box = (await drawing.locator('polygon').first().boundingBox())!;
  await page.mouse.click(box.x + box.width / 2 + 4, box.y + 5);
  await page.getByRole('group', { name: 'One place' }).getByLabel('Upward').waitFor();
  // The other by its numbers alone.
  const other = page.getByRole('group', { name: 'The other place' });
  await other.getByLabel('On part').selectOption('wire-ring');
  await other.getByLabel('Along it').fill('8.5');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 1', { exact: true }).waitFor();
  const saved = (await app.bench.get(`/pieces/${id}/design`).expect(200)).body;
  expect(saved.parts[0].form.thicknessMm).toBeCloseTo(gauge(20), 5);
  expect(saved.entered).toEqual({ '/parts/0/form/thicknessMm': '20 ga', '/parts/1/form/diameterMm': '16 ga' });
  expect(saved.joints).toMatchObject([
    { kind: 'jump_ring', closes: 'wire-ring' },
    // It goes exactly to the middle of the edge that was tapped nearby; the width of the joint is that of the wire.
    {
      kind: 'tee',
      between: [
        { part: 'sheet', xMm: 15, yMm: 20 },
        { part: 'wire-ring', alongMm: 8.5 },
      ],
      gapMm: 0.05,
    },
  ]);
  expect(saved.joints[1].lengthMm).toBeCloseTo(gauge(16), 5);
  // What was typed is shown again.
  await page.reload();
  await page.getByText('sheet', { exact: true }).first().click();
  await expect.poll(() => page.getByLabel('Thickness', { exact: true }).first().inputValue()).toBe('20 ga');
  expect(complaints).toEqual([]);
});

test('a reload keeps what is not saved, every step can be taken back, and somebody else’s version is told before either is lost', async () => {
  const app = await startApp();
  const { id } = await aDrawnPiece(app);
  const { page } = await visit(app, `/pieces/${id}/design`, { as: 'bench', width: 360 });
  await page.getByText('Version 1', { exact: true }).waitFor();
  await page.getByLabel('Most joints in one heat').fill('2');
  await page.getByText('Changed, not saved').waitFor();
  await page.reload();
  await page.getByText('Changed, not saved').waitFor();
  expect(await page.getByLabel('Most joints in one heat').inputValue()).toBe('2');
  await page.getByLabel('Least silver in every solder').fill('60');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => page.getByLabel('Least silver in every solder').inputValue()).toBe('65');
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(() => page.getByLabel('Least silver in every solder').inputValue()).toBe('60');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);

  const theirs = { ...pendant, rules: { ...pendant.rules, maxJointsPerHeat: 1 } };
  await app.desk.put(`/pieces/${id}/design`, theirs, 1).expect(200);
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Somebody has saved version 2 since you began from version 1').waitFor();
  await page.getByRole('button', { name: 'Look at theirs' }).click();
  await expect.poll(() => page.getByLabel('Most joints in one heat').inputValue()).toBe('1');
  await page.getByRole('button', { name: 'Save mine over it' }).click();
  await page.getByText('Version 3', { exact: true }).waitFor();
  const { body } = await app.bench.get(`/pieces/${id}/design`).expect(200);
  expect(body.rules).toMatchObject({ maxJointsPerHeat: 2, leastSilverFraction: 0.6 });
});

test('what the server refuses is told at the part and at the field', async () => {
  const app = await startApp();
  const id = await anEmptyPiece(app);
  const { page } = await visit(app, `/pieces/${id}/design`, { as: 'desk' });
  await addPart(page, 'tube', { Length: '10', 'Outside diameter': '3', 'Inside diameter': '4' });
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByRole('alert').waitFor();
  const card = page.getByRole('region', { name: 'Parts' }).getByRole('listitem').first();
  await card.getByText('one thing to mend').waitFor();
  expect(await card.getByLabel('Shape', { exact: true }).getAttribute('aria-invalid')).toBe('true');
  await card.getByLabel('Inside diameter').fill('2');
  await page.getByRole('button', { name: 'Save the design' }).click();
  await page.getByText('Version 1', { exact: true }).waitFor();
});

test('by keyboard alone, in German: a piece is begun from one drawn already; a student reads it', async () => {
  const app = await startApp();
  const id = await anEmptyPiece(app);
  await app.bench.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page, browser } = await visit(app, `/pieces/${id}/design`, { as: 'bench' });
  await page.getByRole('button', { name: 'Ohrring mit Stift und Öse' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Entwurf speichern' }).focus();
  await page.keyboard.press('Enter');
  await page.getByText('Fassung 1', { exact: true }).waitFor();
  await expectAccessible(page);
  const { body } = await app.bench.get(`/pieces/${id}/design`).expect(200);
  expect(body.parts.map(({ id: part }: { id: string }) => part)).toEqual(['disc', 'loop', 'post']);
  // Students see the pieces they practise on.
  const practice = await aDrawnPiece(app, { kind: 'teaching_piece', clientId: null });
  const { page: read } = await visit(app, `/pieces/${practice.id}/design`, { as: 'student', browser });
  await read.getByText('You can read this').waitFor();
  expect(await read.getByRole('button', { name: 'Save the design' }).count()).toBe(0);
  expect(await read.getByLabel('Most joints in one heat').isDisabled()).toBe(true);
});
