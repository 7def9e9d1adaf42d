/** The page in a real browser, on a real server, as somebody of the studio who has signed in. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import { eq } from 'drizzle-orm';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Role } from '../../src/platform/db/json-columns.ts';
import { tokens } from '../../src/platform/db/tables.ts';
import { openBrowser } from './browser.ts';
import type { TestApp } from './start-app.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
export const PASSWORD = 'a sentence only for tests';

export interface Visit {
  browser: Browser;
  context: BrowserContext;
  page: Page;
  /** What the browser complained of: refused scripts and styles, errors nobody caught. */
  complaints: string[];
}

/** Gives a person of the studio a sign-in name, and comes back with the cookie of a session of theirs. */
async function sessionOf(app: TestApp, role: Role): Promise<string> {
  const { personId } = app.actors[role];
  const { body } = await app.owner.get(`/people/${personId}`).expect(200);
  if (body.signInName === null) {
    await app.owner.patch(`/people/${personId}`, { signInName: role, password: PASSWORD }, body.version as number).expect(200);
    // A new password ends every token of theirs, the test's own among them.
    app.db.update(tokens).set({ revokedAt: null }).where(eq(tokens.personId, personId)).run();
  }
  const signedIn = await app.stranger.post('/sessions', { signInName: role, password: PASSWORD }).expect(201);
  return /hearthbook_session=([^;]+)/.exec(String(signedIn.headers['set-cookie']))![1]!;
}

/** @param as nobody in particular when absent: the door */
export async function visit(
  app: TestApp,
  path: string,
  { as, width = 1280, language = 'en', browser }: { as?: Role; width?: number; language?: string; browser?: Browser } = {},
): Promise<Visit> {
  const used = browser ?? (await openBrowser());
  // Colours that are still fading into others have no contrast to be measured.
  const context = await used.newContext({ viewport: { width, height: 900 }, locale: language, reducedMotion: 'reduce' });
  if (as) await context.addCookies([{ name: 'hearthbook_session', value: await sessionOf(app, as), url: app.baseUrl }]);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (/Content Security Policy|Refused to/.test(message.text())) complaints.push(message.text());
  });
  await page.goto(app.baseUrl + path);
  return { browser: used, context, page, complaints };
}

/** Holds what is on the page now to WCAG 2.2 AA, as far as a machine can tell. */
export async function expectAccessible(page: Page): Promise<void> {
  // Before that a page that is loaded anew is empty.
  await page.locator('h1').first().waitFor({ state: 'attached' });
  await page.evaluate(AXE);
  const { violations } = await page.evaluate<AxeResults>(
    `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })`,
  );
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`)).toEqual([]);
}

/** Nothing is wider than the window, so nobody has to scroll sideways to read. */
export async function expectNoSidewaysScroll(page: Page): Promise<void> {
  expect(await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth')).toBe(0);
}
