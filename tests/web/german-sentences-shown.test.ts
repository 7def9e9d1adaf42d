import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { visit } from '../support/page.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

/** Words that hardly a sentence of English does without, and no German one has. */
const ENGLISH = /(?<![\p{L}-])(the|is|are|with|of|and|not|to|for|its?|be|by|has|were|that|this|from|or)(?![\p{L}-])/iu;

/** Every text on the page, what is folded away too. */
async function textsOn(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`
    [...document.querySelectorAll('main p, main li, main td, main th, main h1, main h2, main h3, main summary, main label, main option, main text, main title, main desc, main button, main strong, main span, main dt, main dd')]
      .filter((element) => element.childElementCount === 0 || element.matches('p, li, td, summary, dd'))
      .map((element) => element.textContent.trim())`);
}

const inEnglish = (texts: readonly string[]) => [...new Set(texts.filter((text) => ENGLISH.test(text)))];

test('in German no sentence of the engine stays English on the plan page', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  // The wrong way round: what is made first melts lowest.
  const solders = ['easy', 'easy', 'hard', 'medium'];
  const bad = { heats: pendantPlan.heats.map(({ joints }, index) => ({ joints, solder: solders[index] })) };
  await app.bench.post(`/pieces/${id}/plans`, { plan: bad }).expect(201);
  await app.bench.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page, complaints } = await visit(app, `/pieces/${id}/plan`, { as: 'bench', language: 'de' });
  await page
    .getByText(/Läuft laut Vorhersage/)
    .first()
    .waitFor();
  await page.getByText('Wird gerechnet').waitFor({ state: 'hidden' });
  const checked = await textsOn(page);
  expect(checked.length).toBeGreaterThan(60);
  expect(inEnglish(checked)).toEqual([]);

  await page.getByRole('button', { name: 'Finde mir einen Plan' }).click();
  await page.getByRole('button', { name: 'Mit diesem Plan arbeiten' }).first().waitFor({ timeout: 60_000 });
  expect(inEnglish(await textsOn(page))).toEqual([]);

  // What must be made first goes last.
  await page.getByRole('button', { name: 'Lötung 1 später' }).click();
  await page.getByRole('button', { name: 'Lötung 2 später' }).click();
  await page.getByRole('button', { name: 'Lötung 3 später' }).click();
  await page.getByRole('alert').getByText('wall-seam kommt vor bezel').waitFor();
  expect(inEnglish(await textsOn(page))).toEqual([]);
  expect(complaints).toEqual([]);
});

test('what the server refuses is said in German, at its field and with its figures', async () => {
  const app = await startApp();
  await app.desk.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page } = await visit(app, '/commissions/new', { as: 'desk', language: 'de' });
  await page.getByLabel('Was ist gewünscht').fill('Armreif');
  await page.getByLabel('Wie viele').fill('0');
  await page.getByLabel('Bis wann').fill('2031-07-01');
  await page.getByLabel('Name der Kundin, des Kunden').fill('Millrace');
  await page.getByLabel('E-Mail oder Telefon').fill('millrace@example.org');
  await page.getByRole('button', { name: 'Notieren' }).click();
  await page.getByText('Die Menge muss zwischen 1 und 500 sein; da steht 0.').first().waitFor();
  expect(await page.getByRole('alert').getByRole('listitem').allTextContents()).toEqual([
    'Menge: Die Menge muss zwischen 1 und 500 sein; da steht 0.',
  ]);
  expect(inEnglish(await textsOn(page))).toEqual([]);
});
