import type { Page } from 'playwright-core';
import { aDrawer, aDrawnPiece, issueMetal, planInUse } from './at-the-bench.ts';
import { startApp, testClock, type TestApp, type TestClock } from './start-app.ts';

const START = '2031-05-05T08:00:00Z';

/** A clock that goes on from the morning of the tests as the real one does, so that a browser's can go with it. */
function goingClock(): TestClock {
  const began = Date.now();
  return { ...testClock(START), now: () => new Date(Date.parse(START) + Date.now() - began) };
}

/** A studio with a pendant that is cut, its plan in use. */
export async function aCutPendant(commission: Record<string, unknown> = {}) {
  const app = await startApp({ clock: goingClock() });
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app, commission);
  const { heats, plan } = await planInUse(app.bench, piece.id);
  await issueMetal(app.bench, piece.id);
  return { app, lots, piece, heats, plan };
}

/** Sets the browser's clock by the server's, from the next page on. */
export async function sameClock({ clock }: TestApp, page: Page): Promise<void> {
  await page.clock.install({ time: clock.now() });
  await page.reload();
}

/** The one button that does what comes next. */
export const mainButton = (page: Page) => page.locator('.bench-main');

/** A flow in the very second of the lighting is none that a torch could be calibrated by. */
export async function untilItMayFlow(page: Page): Promise<void> {
  const since = await page.evaluate<number>('Date.now()');
  await page.waitForFunction((from) => Date.now() - from > 1500, since);
}

/** Presses it through all that is asked before a step, and then for the step itself. */
export async function pressTo(page: Page, step: string, press = () => mainButton(page).click()): Promise<void> {
  const button = mainButton(page);
  const wanted = page.locator('.bench-main', { hasText: step });
  const ask = page.locator('.bench-main', { hasText: /^(Yes, next|Ja, weiter)$/ });
  await ask.or(wanted).first().waitFor();
  while (!(await wanted.isVisible())) {
    const says = await page.locator('.bench-says').textContent();
    await press();
    await page.locator('.bench-says', { hasNotText: says! }).first().waitFor();
    await button.waitFor();
  }
  await press();
}
