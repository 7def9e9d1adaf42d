import { expect, test } from 'vitest';
import { LIFECYCLES, type Lifecycle } from '../../shared/lifecycles/lifecycles.ts';
import { ACCESS } from '../../src/platform/http/access-table.ts';
import { FINER_RULES, finerRulesOf, isNamedBy } from '../../src/platform/http/finer-rules.ts';
import { startApp } from '../support/start-app.ts';

test('every rule that holds besides the table is of routes that are there', () => {
  expect(FINER_RULES.length).toBeGreaterThan(20);
  const named = FINER_RULES.flatMap(({ routes }) => routes);
  expect(named.filter((one) => !Object.keys(ACCESS).some((route) => isNamedBy(one, route)))).toEqual([]);
});

const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

test('the page has every call with all that holds for it, and every move with who may make it', async () => {
  const { baseUrl } = await startApp();
  const page = await (await fetch(`${baseUrl}/docs/roles`)).text();
  for (const route of Object.keys(ACCESS)) {
    const row = page.split('\n').find((line) => line.replaceAll('<wbr>', '').includes(`<code>${route}</code>`));
    expect([route, row]).toEqual([route, expect.stringContaining(escaped(finerRulesOf(route).join(' ')))]);
  }
  let moves = 0;
  for (const { moves: all } of Object.values<Lifecycle>(LIFECYCLES)) {
    for (const { from, to, who } of all) {
      moves++;
      const cells = [from.join(', '), to].map((text) => `<td>${text.replaceAll('_', ' ')}</td>`).join('');
      expect(page).toContain(`<tr>${cells}<td>${who.join(', ')}</td>`);
    }
  }
  expect(moves).toBeGreaterThan(80);
});
