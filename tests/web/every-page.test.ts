import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { aSeededBook } from '../support/a-seeded-book.ts';
import { openBrowser } from '../support/browser.ts';
import type { TestApp } from '../support/start-app.ts';

const text = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const LOOK = text('../support/in-page/look-at-page.mjs');
const NOTE_CLICKS = text('../support/in-page/note-clicks.mjs');
const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];

/** The pages as the frame routes to them. */
const ROUTES = [...text('../../src/web/shell/frame.tsx').matchAll(/<Route (?:path="([^"]+)"|default)/g)].map(
  ([, path]) => path ?? '*',
);

/** Where each page is looked at, in the seeded book; a page without a line here fails. */
const WAYS: Readonly<Record<string, (book: Book) => readonly string[]>> = {
  '/': () => ['/'],
  '/bench': () => ['/bench'],
  '/commissions': () => ['/commissions'],
  '/commissions/new': () => ['/commissions/new'],
  '/commissions/:id': ({ idOf }) => [
    `/commissions/${idOf('/commissions', 'Pendant, larger')}`,
    `/commissions/${idOf('/commissions', 'Ring with two grains')}`,
  ],
  '/commissions/:id/price': ({ idOf }) => [
    `/commissions/${idOf('/commissions', 'Pendant, larger')}/price`,
    `/commissions/${idOf('/commissions', 'Ring with two grains')}/price`,
  ],
  '/pieces': () => ['/pieces'],
  '/pieces/:id': ({ idOf }) => [
    `/pieces/${idOf('/pieces', 'Pendant, larger')}`,
    `/pieces/${idOf('/pieces', 'Ring with two grains')}`,
  ],
  '/pieces/:id/plan': ({ idOf }) => [`/pieces/${idOf('/pieces', 'Pendant, larger')}/plan`],
  '/pieces/:id/design': ({ idOf }) => [`/pieces/${idOf('/pieces', 'Pendant, larger')}/design`],
  '/drawer': () => ['/drawer'],
  '/drawer/orders': () => ['/drawer/orders'],
  '/drawer/orders/:id': ({ idsOf }) => idsOf('/supplier-orders').map((id) => `/drawer/orders/${id}`),
  '/drawer/stocktake': () => ['/drawer/stocktake'],
  '/drawer/stocktake/:id': ({ idsOf }) => [`/drawer/stocktake/${idsOf('/stocktakes')[0]}`],
  '/drawer/baths': () => ['/drawer/baths'],
  '/baths/:id': ({ idsOf }) => [`/baths/${idsOf('/pickle-baths').at(-1)}`],
  '/drawer/metal': () => ['/drawer/metal'],
  '/drawer/metal/:id': ({ idsOf }) => [`/drawer/metal/${idsOf('/metal-lots')[0]}`],
  '/drawer/supplies': () => ['/drawer/supplies'],
  '/drawer/supplies/:id': ({ idsOf }) => [`/drawer/supplies/${idsOf('/supplies')[0]}`],
  '/lots/:id': ({ idsOf }) => [`/lots/${idsOf('/solder-lots').at(-1)}`],
  '/reports': () => ['/reports'],
  '/reports/:name': ({ reports }) => reports.map((name) => `/reports/${name}`),
  '/dates': () => ['/dates'],
  '/search': () => ['/search?text=pendant'],
  '/studio/:part?': () => ['/studio', '/studio/settings', '/studio/people', '/studio/clients', '/studio/keys', '/studio/copy'],
  '*': () => ['/no-such-page'],
};

interface Thing {
  id: string;
  title?: string;
}

interface Book {
  idOf: (list: string, title: string) => string;
  idsOf: (list: string) => string[];
  reports: string[];
}

const LISTS = [
  '/commissions',
  '/pieces',
  '/supplier-orders',
  '/stocktakes',
  '/pickle-baths',
  '/metal-lots',
  '/supplies',
  '/solder-lots',
];

async function readBook({ owner }: TestApp): Promise<Book> {
  const lists = new Map<string, Thing[]>();
  for (const list of LISTS) lists.set(list, (await owner.get(`${list}?limit=100`).expect(200)).body.items);
  const { items: reports } = (await owner.get('/reports').expect(200)).body as { items: { name: string }[] };
  return {
    idOf: (list, title) => lists.get(list)!.find((thing) => thing.title === title)!.id,
    idsOf: (list) => lists.get(list)!.map(({ id }) => id),
    reports: reports.map(({ name }) => name),
  };
}

const closing: (() => Promise<void>)[] = [];
const whenDone = (close: () => Promise<void>) => closing.push(close);
let book: Book;
let pages: Readonly<Record<'en' | 'de', Page>>;

beforeAll(async () => {
  const app = await aSeededBook(whenDone);
  book = await readBook(app);
  const browser = await openBrowser([], whenDone);
  pages = { en: await openIn(browser, app, 'en'), de: await openIn(browser, app, 'de') };
});

afterAll(async () => {
  for (const close of closing.toReversed()) await close();
});

/** The book as an owner opens it who reads that language. */
async function openIn(browser: Browser, app: TestApp, language: string): Promise<Page> {
  const { id } = (await app.owner.post('/people', { name: `Owner, ${language}`, roles: ['owner'] }).expect(201)).body;
  const { token } = app.services.keys.addToken(app.actors.owner, { name: 'page', personId: id });
  const authorization = `Bearer ${token}`;
  const preferred = await fetch(`${app.baseUrl}/api/v1/preferences`, {
    method: 'PUT',
    headers: { authorization, 'content-type': 'application/json', 'if-match': '"1"' },
    body: JSON.stringify({ language, units: null }),
  });
  expect(preferred.status).toBe(200);
  const context = await browser.newContext({
    locale: language,
    reducedMotion: 'reduce',
    extraHTTPHeaders: { authorization },
    serviceWorkers: 'block',
  });
  await context.addInitScript(NOTE_CLICKS);
  await context.addInitScript(LOOK);
  const page = await context.newPage();
  await page.goto(`${app.baseUrl}/nowhere`);
  await page.getByRole('main').waitFor();
  // Once: from here on the page is never left, only routed.
  await page.evaluate(AXE);
  return page;
}

/** Takes a link to an address of the book, as a tap on one does, and waits until the page stands there with the focus on its heading. */
async function goTo(page: Page, path: string): Promise<void> {
  await page.evaluate(`(() => {
    const link = document.createElement('a');
    link.href = ${JSON.stringify(path)};
    document.activeElement.blur();
    document.body.append(link);
    link.click();
    link.remove();
  })()`);
  await expect.poll(() => page.evaluate<boolean>(`lookAtPage.isAt(${JSON.stringify(path)})`), { message: path }).toBe(true);
  await page.evaluate('lookAtPage.open()');
}

async function setWindow(page: Page, width: number, textSize = '100%'): Promise<void> {
  await page.setViewportSize({ width, height: 740 });
  await page.evaluate(`lookAtPage.enlarge(${JSON.stringify(textSize)})`);
}

const seen = (page: Page, what: string) => page.evaluate<string[]>(`lookAtPage.${what}()`);

async function againstWcag(page: Page, rules?: readonly string[]): Promise<string[]> {
  const runOnly = rules ? { type: 'rule', values: rules } : { type: 'tag', values: WCAG };
  const options = { runOnly, resultTypes: ['violations'], ...(!rules && { rules: { 'target-size': { enabled: true } } }) };
  const { violations } = await page.evaluate<AxeResults>(`axe.run(document, ${JSON.stringify(options)})`);
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
}

/** Goes through the page by Tab alone, from its beginning until the focus leaves it. */
async function byKeyboard(page: Page): Promise<string[]> {
  const faults = await seen(page, 'byKeyboardOdd');
  const stops = await seen(page, 'stops');
  await page.evaluate('lookAtPage.toBeginning()');
  const visited: number[] = [];
  // A date has a stop for its day, its month, its year and its calendar.
  for (let press = 0; press < stops.length * 5 + 10; press++) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate<{ at: number; faults: string[]; name?: string }>('lookAtPage.focused()');
    faults.push(...focused.faults);
    if (focused.name === undefined || (visited.length > 1 && focused.at === visited[0] && focused.at !== visited.at(-1))) break;
    if (focused.at >= 0 && focused.at !== visited.at(-1)) visited.push(focused.at);
  }
  if (visited.some((at, index) => index > 0 && at < visited[index - 1]!)) faults.push('Tab goes back before the end');
  faults.push(...stops.filter((_, at) => !visited.includes(at)).map((name) => `Tab does not come to ${name}`));
  return [...new Set(faults)];
}

test('every page of the frame has its place in the table', () => {
  expect(Object.keys(WAYS).toSorted()).toEqual(ROUTES.toSorted());
});

for (const route of ROUTES)
  test(route, async () => {
    const faults: string[] = [];
    for (const path of WAYS[route]!(book))
      for (const language of ['en', 'de'] as const) {
        const page = pages[language];
        const note = (where: string, found: readonly string[]) =>
          faults.push(...found.map((one) => `${path} ${language} ${where}: ${one}`));
        await setWindow(page, 1280);
        await goTo(page, path);
        await expect.poll(() => page.title()).toBe(`${(await page.locator('h1').innerText()).trim()} – Hearthbook`);
        expect(await page.getAttribute('html', 'lang')).toBe(language);
        note('wide', [...(await againstWcag(page)), ...(await seen(page, 'layout'))]);
        if (language === 'en') note('Tab, wide', await byKeyboard(page));
        await page.emulateMedia({ colorScheme: 'dark' });
        note('dark', await againstWcag(page, ['color-contrast']));
        await page.emulateMedia({ colorScheme: 'light' });
        await setWindow(page, 1280, '200%');
        note('wide, text doubled', await seen(page, 'layout'));
        await setWindow(page, 640);
        note('wide, zoomed', await seen(page, 'layout'));
        await setWindow(page, 360);
        note('phone', [
          ...(await againstWcag(page, language === 'en' ? ['target-size'] : undefined)),
          ...(await seen(page, 'layout')),
        ]);
        if (language === 'en') note('Tab, phone', await byKeyboard(page));
        await setWindow(page, 360, '200%');
        note('phone, text doubled', await seen(page, 'layout'));
      }
    expect(faults).toEqual([]);
  });

test('the list of rooms opens from the lower edge of a phone, by a key too, and gives the focus back', async () => {
  const page = pages.en;
  await setWindow(page, 360);
  await goTo(page, '/dates');
  const here = page.getByRole('button', { name: 'Dates All rooms of the book' });
  const room = page.getByRole('link', { name: 'Drawer', exact: true });
  await here.focus();
  await page.keyboard.press('Enter');
  await room.waitFor();
  expect(await againstWcag(page)).toEqual([]);
  for (const control of [here, page.getByRole('searchbox'), room]) {
    const box = (await control.boundingBox())!;
    expect(Math.min(box.height, box.width)).toBeGreaterThanOrEqual(44);
    // Within the reach of a thumb: the lower half.
    expect(box.y).toBeGreaterThan(370);
  }
  await page.keyboard.press('Escape');
  expect(await room.isVisible()).toBe(false);
  expect(await page.evaluate('document.activeElement.className')).toBe('bar-here');
  await page.keyboard.press('Space');
  await room.press('Enter');
  await page.getByRole('button', { name: 'Drawer All rooms of the book' }).waitFor();
  expect(await room.isVisible()).toBe(false);
});

test('on paper a page is dark on light, without the ways about it', async () => {
  const page = pages.en;
  await setWindow(page, 1280);
  await page.emulateMedia({ colorScheme: 'dark', media: 'print' });
  for (const path of ['/reports/solder-use', '/drawer/orders', '/pieces']) {
    await goTo(page, path);
    expect(await page.getByRole('banner').isVisible()).toBe(false);
    expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0);
    expect(await page.evaluate('getComputedStyle(document.querySelector("h1")).color')).toBe('rgb(35, 30, 25)');
  }
  await page.emulateMedia({ colorScheme: 'light', media: 'screen' });
});

test('what a key did is told, and the focus goes on from there', async () => {
  const page = pages.en;
  await setWindow(page, 1280);
  await goTo(page, `/commissions/${book.idOf('/commissions', 'Lid to match a box')}`);
  await page.getByRole('button', { name: 'Shape it' }).focus();
  await page.keyboard.press('Enter');
  const told = page.getByRole('status').filter({ hasText: 'Done: Shape it.' });
  await told.waitFor();
  await expect.poll(() => told.evaluate('document.activeElement.textContent')).toContain('Done: Shape it.');
});
