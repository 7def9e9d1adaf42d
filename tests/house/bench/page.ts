/**
 * What the page weighs and how soon it is there: the script that the first view of each page fetches, gzipped, with the engine's worker
 * apart; from the address to the first heading that says something, with the processor four times slower, on loopback; and how far
 * what is there was moved afterwards (Cumulative Layout Shift, web.dev/cls). Goals: 120 kB, 1.5 s, none.
 */

import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import { buildApp } from '../../../src/app.ts';
import { actorFrom } from '../../../src/features/people/keys.service.ts';
import { insertPerson } from '../../../src/features/people/people.store.ts';
import { systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import { setup as buildPage } from '../../support/built-page.ts';
import { launchBrowser } from '../../support/launch-browser.ts';
import { round } from './measure.ts';

const PAGES = ['/', '/commissions', '/pieces', '/drawer', '/dates', '/reports', '/bench', '/studio/settings'];
const VISITS = 5;
const SLOWER = 4;

/** In the page, before anything of it. */
const ADD_SHIFTS = `window.shifted = 0;
  new PerformanceObserver((list) => {
    for (const { value } of list.getEntries()) window.shifted += value;
  }).observe({ type: 'layout-shift', buffered: true });`;
const FIRST_PAINT = `performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN`;

interface Seen {
  scriptKb: number;
  workerKb: number;
  paintMs: number;
  headingMs: number;
  shift: number;
}

async function visit(
  browser: Browser,
  { address, authorization, path }: { address: string; authorization: string; path: string },
): Promise<Seen> {
  const context = await browser.newContext({
    locale: 'en',
    extraHTTPHeaders: { authorization },
    viewport: { width: 820, height: 1180 },
  });
  try {
    const page = await context.newPage();
    const scripts: { url: string; kb: number }[] = [];
    page.on('response', (response) => {
      if (!new URL(response.url()).pathname.endsWith('.js')) return;
      void response.body().then(
        (body) => scripts.push({ url: response.url(), kb: gzipSync(body).length / 1024 }),
        () => {},
      );
    });
    await page.addInitScript({ content: ADD_SHIFTS });
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    const begun = performance.now();
    await page.goto(address + path, { waitUntil: 'commit' });
    await page.locator('h1').first().waitFor();
    const headingMs = performance.now() - begun;
    await page.waitForLoadState('networkidle');
    const kbOf = (isWorker: boolean) =>
      scripts.filter(({ url }) => /worker/.test(url) === isWorker).reduce((sum, { kb }) => sum + kb, 0);
    return {
      scriptKb: kbOf(false),
      workerKb: kbOf(true),
      paintMs: await page.evaluate<number>(FIRST_PAINT),
      headingMs,
      shift: await page.evaluate<number>('window.shifted'),
    };
  } finally {
    await context.close();
  }
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1]!;
}

export async function run(): Promise<void> {
  buildPage();
  const { db, close } = openDb(':memory:', systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock }, { logLevel: 'silent' });
  const createdAt = systemClock.now().toISOString();
  const owner = insertPerson(db, { id: 'owner', name: 'Flint', roles: ['owner'], tutor: true, createdAt });
  const authorization = `Bearer ${services.keys.addToken(actorFrom(owner), { name: 'bench' }).token}`;
  const address = await http.listen({ host: '127.0.0.1', port: 0 });
  const browser = await launchBrowser();
  try {
    const rows: Record<string, unknown>[] = [];
    for (const path of PAGES) {
      const seen: Seen[] = [];
      for (let nth = 0; nth < VISITS; nth++) seen.push(await visit(browser, { address, authorization, path }));
      rows.push({
        page: path,
        'script, kB gzipped': round(median(seen.map(({ scriptKb }) => scriptKb))),
        'worker, kB': round(median(seen.map(({ workerKb }) => workerKb))),
        'first paint, ms': Math.round(median(seen.map(({ paintMs }) => paintMs))),
        'heading, ms': Math.round(median(seen.map(({ headingMs }) => headingMs))),
        'layout shift': Math.max(...seen.map(({ shift }) => shift)),
      });
    }
    console.log(
      `An empty book, a cold cache, the processor ${SLOWER} times slower; the median of ${VISITS} visits, of shifts the largest.`,
    );
    console.table(rows);
  } finally {
    await browser.close();
    await http.close();
    close();
  }
}
