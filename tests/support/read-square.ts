import { createRequire } from 'node:module';
import type jsqr from 'jsqr';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';

// A CommonJS module whose types promise a default export that Node does not give.
const readSquareOf = createRequire(import.meta.url)('jsqr') as typeof jsqr.default;

/** A page as it would be printed, with so many dots an inch. */
export async function printed(browser: Browser, html: string, dotsPerInch: number): Promise<Page> {
  const tab = await browser.newPage({ deviceScaleFactor: dotsPerInch / 96 });
  await tab.emulateMedia({ media: 'print' });
  await tab.setContent(html);
  return tab;
}

/** What the first square on a page says, read from a picture of it by a general-purpose library; undefined: it finds none. */
export async function readSquare(tab: Page): Promise<string | undefined> {
  const picture = await tab.locator('svg').first().screenshot();
  const { data, info } = await sharp(picture).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return readSquareOf(new Uint8ClampedArray(data), info.width, info.height)?.data;
}
