/**
 * How soon the melting ladder follows a hand: from the drop of a heat in the list to the picture being painted, in Chromium, for a piece
 * of ten joints, beside a turn of the same page in which nothing is computed. The goal is 50 ms on a machine that does nothing else.
 */

import type { Page } from 'playwright-core';
import type { Design } from '../../../shared/design/design.ts';
import { buildApp } from '../../../src/app.ts';
import { actorFrom } from '../../../src/features/people/keys.service.ts';
import { insertPerson } from '../../../src/features/people/people.store.ts';
import { systemClock } from '../../../src/platform/clock.ts';
import { openDb } from '../../../src/platform/db/client.ts';
import { launchBrowser } from '../../support/launch-browser.ts';
import { setup as buildPage } from '../../support/built-page.ts';
import { round } from './measure.ts';

const JOINTS = 10;
const DROPS = 24;
const GOAL_MS = 50;

const SOLDERS = [
  { id: 'hard', solidusC: 745, liquidusC: 778 },
  { id: 'medium', solidusC: 720, liquidusC: 750 },
  { id: 'easy', solidusC: 705, liquidusC: 723 },
];

/** Bars end to end. */
const row: Design = {
  parts: Array.from({ length: JOINTS + 1 }, (_, index) => ({
    id: `bar-${index}`,
    metal: 'sterling-925',
    form: { kind: 'bar', lengthMm: 12, widthMm: 3, thicknessMm: 1.2 } as const,
  })),
  joints: Array.from({ length: JOINTS }, (_, index) => ({
    id: `butt-${index + 1}`,
    kind: 'butt' as const,
    between: [
      { part: `bar-${index}`, alongMm: 12 },
      { part: `bar-${index + 1}`, alongMm: 0 },
    ] as const,
    widthMm: 3,
    thicknessMm: 1.2,
    gapMm: 0.05,
  })),
};
const plan = {
  heats: row.joints.map(({ id }, index) => ({ joints: [id], solder: SOLDERS[Math.floor((index * 3) / JOINTS)]!.id })),
};

export async function run(): Promise<void> {
  buildPage();
  const { db, close } = openDb(':memory:', systemClock.now());
  const { http, services } = await buildApp({ db, clock: systemClock }, { logLevel: 'silent' });
  const createdAt = systemClock.now().toISOString();
  const owner = insertPerson(db, { id: 'owner', name: 'Flint', roles: ['owner'], tutor: true, createdAt });
  const { token } = services.keys.addToken(actorFrom(owner), { name: 'bench' });
  const address = await http.listen({ host: '127.0.0.1', port: 0 });
  const authorization = `Bearer ${token}`;
  const send = async (method: string, path: string, body: object) => {
    const headers = { authorization, 'content-type': 'application/json' };
    const answer = await fetch(`${address}/api/v1${path}`, { method, headers, body: JSON.stringify(body) });
    if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
    return (await answer.json()) as { id: string };
  };
  const commission = await send('POST', '/commissions', {
    title: 'Row',
    kind: 'own_stock',
    wish: 'to be measured',
    clientId: null,
  });
  const piece = await send('POST', '/pieces', { commissionId: commission.id, title: 'Row', metal: 'sterling-925' });
  await send('PUT', `/pieces/${piece.id}/design`, row);
  await send('POST', `/pieces/${piece.id}/plans`, { plan, solders: SOLDERS });
  const browser = await launchBrowser();
  try {
    const context = await browser.newContext({
      locale: 'en',
      extraHTTPHeaders: { authorization },
      viewport: { width: 1280, height: 900 },
    });
    const page = await context.newPage();
    page.setDefaultTimeout(120_000);
    await page.goto(`${address}/pieces/${piece.id}/plan`);
    await page.locator('.plan-board[aria-busy=false] .heat-pictures svg').first().waitFor();
    const empty = await page.evaluate<number[]>(emptyTurns(DROPS));
    const drops = await dropsOf(page);
    console.table([
      { what: 'a turn that computes nothing', ...spread(empty) },
      { what: `a heat dropped, ${JOINTS} joints`, ...spread(drops) },
    ]);
    const ratio = round(median(drops) / median(empty));
    console.log(`${ratio} times an empty turn; ${drops.filter((ms) => ms <= GOAL_MS).length} of ${DROPS} within ${GOAL_MS} ms`);
  } finally {
    await browser.close();
    await http.close();
    close();
  }
}

/** Each a plan that the page has not seen: the last heats change places, then those before them. */
async function dropsOf(page: Page): Promise<number[]> {
  const times: number[] = [];
  for (let drop = 0; drop < DROPS; drop++) {
    const from = JOINTS - 1 - (drop % (JOINTS - 1));
    times.push(await page.evaluate<number>(dropAndWait(from, from - 1)));
    // What else is computed of it, such as fixes, is not to be in the way of the next.
    await page.locator('.plan-verdict[aria-busy=false]').waitFor();
  }
  return times;
}

/** In the page: what has changed is drawn, and painted. */
const PAINTED = 'const painted = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));';

/** In the page: drags one heat onto another, and waits until the ladder of the new plan is painted. */
const dropAndWait = (from: number, to: number) => `(async () => {
  ${PAINTED}
  const cards = document.querySelectorAll('.heat-card');
  const drag = (type) => new DragEvent(type, { bubbles: true, cancelable: true });
  cards[${from}].dispatchEvent(drag('dragstart'));
  await painted();
  const board = document.querySelector('.plan-board');
  const began = performance.now();
  const answered = new Promise((done) => {
    let wasOld = false;
    new MutationObserver(() => {
      if (board.ariaBusy === 'true') wasOld = true;
      else if (wasOld) done();
    }).observe(board, { attributeFilter: ['aria-busy'] });
  });
  cards[${to}].dispatchEvent(drag('drop'));
  await answered;
  await painted();
  return performance.now() - began;
})()`;

/** In the page: frames that are asked for and painted, with nothing in them. */
const emptyTurns = (turns: number) => `(async () => {
  ${PAINTED}
  const times = [];
  for (let turn = 0; turn < ${turns}; turn++) {
    const began = performance.now();
    await painted();
    times.push(performance.now() - began);
  }
  return times;
})()`;

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1]!;
}

function spread(values: readonly number[]) {
  const sorted = values.toSorted((a, b) => a - b);
  return {
    'median, ms': round(median(values)),
    'nine in ten, ms': round(sorted[Math.floor(sorted.length * 0.9)]!),
    'most, ms': round(sorted.at(-1)!),
  };
}
