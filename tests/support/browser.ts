/** A real Chromium for tests of what runs in a browser. */

import type { Browser } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { launchBrowser } from './launch-browser.ts';

/** Closed when the test is over. @param flags besides the usual @param whenDone takes what closes it, where several tests share one */
export async function openBrowser(
  flags: readonly string[] = [],
  whenDone: (close: () => Promise<void>) => void = onTestFinished,
): Promise<Browser> {
  const browser = await launchBrowser(flags);
  whenDone(() => browser.close());
  return browser;
}
