import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { aFollowedCommission } from '../support/a-private-link.ts';
import { openBrowser } from '../support/browser.ts';
import { startApp } from '../support/start-app.ts';

const AXE = readFileSync(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');
const AXE_RUN = `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ' ' + nodes[0].html))`;

test('what a client reads fits a phone and can be read aloud, and a yes is given without script', async () => {
  const app = await startApp();
  const { browser, quote } = await aFollowedCommission(app, { language: 'de', title: 'Anhänger für einen grünen Cabochon' });
  const chromium = await openBrowser();
  const url = (path: string) => app.baseUrl + browser.base + path;
  for (const colorScheme of ['light', 'dark'] as const) {
    const page = await chromium.newPage({ viewport: { width: 360, height: 740 }, colorScheme });
    for (const path of ['', '/letters/1']) {
      await page.goto(url(path));
      const widths = 'document.documentElement.scrollWidth - document.documentElement.clientWidth';
      expect([path, await page.evaluate(widths)]).toEqual([path, 0]);
      await page.evaluate(AXE);
      expect([path, colorScheme, await page.evaluate(AXE_RUN)]).toEqual([path, colorScheme, []]);
    }
  }
  const bare = await (await chromium.newContext({ javaScriptEnabled: false })).newPage();
  await bare.goto(url(''));
  await bare.getByRole('checkbox').check();
  await bare.getByRole('button', { name: 'Annehmen' }).click();
  expect(await bare.getByRole('status').textContent()).toContain('Wir haben Ihre Zusage');
  expect((await app.desk.get(`/quotes/${quote.id}`).expect(200)).body.state).toBe('accepted');
});
