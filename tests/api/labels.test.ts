import { expect, test } from 'vitest';
import { aClient, aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { openBrowser } from '../support/browser.ts';
import { getBytes, readPdf, wordsOf } from '../support/read-pdf.ts';
import { printed, readSquare } from '../support/read-square.ts';
import { startApp, type Person } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const page = async (person: Person, path: string) =>
  (
    await person
      .get(`/labels/${path}`)
      .expect(200)
      .expect('content-type', /^text\/html/)
  ).text;
const pdf = async (person: Person, path: string) =>
  readPdf(await getBytes(person, `/labels/${path}${path.includes('?') ? '&' : '?'}format=pdf`));
const drawings = (html: string) => html.match(/<svg[\s\S]*?<\/svg>/g)!;
/** Words break at other places on paper. */
const letters = (words: string) => words.replaceAll(/\s/g, '');

test('the label of a lot has its two temperatures, mark, number and use-by, on the page and as PDF', async () => {
  const { owner, student } = await startApp();
  const { id: productId } = await addProduct(owner, {
    name: 'Hard paste',
    form: 'paste',
    metalFraction: 0.75,
    solidusC: 740,
    liquidusC: 775,
  });
  const lot = await receiveLot(owner, productId, { markOnMetal: 'H', useBy: '2032-05-05' });
  const html = await page(student, `solder-lots/${lot.id}`);
  const words = 'Hard paste Lot L1, mark H 740–775 °C use by May 5, 2032 cadmium free';
  expect(letters(wordsOf(html))).toBe(letters(`Lot L1 ${words}`));
  const printed = await pdf(student, `solder-lots/${lot.id}`);
  expect(letters(printed.text)).toBe(letters(words));
  expect(printed.info).toMatchObject({ Title: 'Lot L1', Author: 'Our studio' });
  expect((await pdf(student, `solder-lots/${lot.id}`)).bytes).toEqual(printed.bytes);
  // Black alone.
  expect(html.match(/(fill|stroke|color|rgb)[^;"]*/g)).toEqual(['color: #000']);
});

test('a letter that the fonts lack is never a box: the PDF is refused with it, and the page has it', async () => {
  const { owner } = await startApp();
  const lot = await receiveLot(owner, (await addProduct(owner, { name: '銀ろう' })).id);
  expect(wordsOf(await page(owner, `solder-lots/${lot.id}`))).toContain('銀ろう');
  const refused = await owner.get(`/labels/solder-lots/${lot.id}?format=pdf`).expect(422);
  expect(refused.body).toMatchObject({ type: '/api/v1/problems/letters-not-in-font', letters: ['銀', 'ろ', 'う'] });
});

test('what is in doubt about a lot stands on its label, in the language of the studio', async () => {
  const { owner } = await startApp();
  await owner.patch('/settings', { language: 'de' }, 0).expect(200);
  const product = await addProduct(owner, { cadmiumStanding: 'unknown', leadOrTinStanding: 'unknown', gradeWord: 'hart' });
  const lot = await receiveLot(owner, product.id, { markOnMetal: null });
  const words = wordsOf(await page(owner, `solder-lots/${lot.id}`));
  expect(letters(words)).toBe(
    letters('Charge L1 hart: Hard wire Charge L1 740–775 °C Cadmium unbekannt: nicht erhitzen Blei oder Zinn unbekannt'),
  );
});

test('the label of a bath says what is in it, since when, and no iron; its square leads where the studio says', async () => {
  const { owner } = await startApp();
  const { body: bath } = await owner.post('/pickle-baths', { acid: 'citric', strengthGPerL: 120 }).expect(201);
  const html = await page(owner, `pickle-baths/${bath.id}`);
  expect(letters(wordsOf(html))).toContain(letters('Citric acid, 120 g/L mixed May 5, 2031 NO IRON not for food'));
  await owner.patch('/settings', { bookAddress: 'http://bench.local:3047' }, 0).expect(200);
  // At 203 dots an inch, as printers of labels have it.
  const tab = await printed(await openBrowser(), await page(owner, `pickle-baths/${bath.id}`), 203);
  expect(await readSquare(tab)).toBe(`http://bench.local:3047/baths/${bath.id}`);
  const refused = await owner.patch('/settings', { bookAddress: 'bench.local/' }, 1).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/bookAddress' }]);
});

test('a tag of a piece tells nobody whose it is, what it is for or what it costs', async () => {
  const app = await startApp();
  const { desk, student } = app;
  const clientId = await aClient(app.owner);
  const { name } = (await desk.get(`/clients/${clientId}`)).body;
  const commission = await aCommission(desk, { clientId, title: 'Ring for a proposal', quiet: true, dueOn: '2031-07-01' });
  const piece = putPiece(app, commission, { state: 'shaping' });
  const html = await page(desk, `pieces/${piece.id}`);
  expect(letters(wordsOf(html))).toBe(letters('C31-001.1 C31-001.1 Commission C31-001 due Jul 1, 2031'));
  for (const secret of [name, 'proposal', clientId]) expect(html).not.toContain(secret);
  await student.get(`/labels/pieces/${piece.id}`).expect(404);
  await student.get(`/labels/solder-lots/${piece.id}`).expect(404);
});

test('the square on the printed page is read from a picture of it', async () => {
  const { owner, baseUrl } = await startApp();
  const lot = await receiveLot(owner, (await addProduct(owner)).id);
  const tab = await printed(await openBrowser(), await page(owner, `solder-lots/${lot.id}`), 300);
  expect(await readSquare(tab)).toBe(`${baseUrl}/lots/${lot.id}`);
  const { width, height } = (await tab.locator('svg').boundingBox())!;
  expect([width, height].map((px) => Math.round((px * 25.4) / 96))).toEqual([30, 15]);
  // No word leaves its label, nor goes into the square.
  const words = await tab.locator('svg text').evaluateAll((all) =>
    all.map((one) => {
      const {
        x,
        y,
        width: wide,
        height: high,
      } = (one as unknown as { getBBox(): Record<string, number> }).getBBox() as {
        x: number;
        y: number;
        width: number;
        height: number;
      };
      return { left: x, top: y, right: x + wide, bottom: y + high };
    }),
  );
  expect(words.length).toBeGreaterThan(3);
  for (const { left, top, right, bottom } of words) {
    expect(left).toBeGreaterThanOrEqual(0.9);
    expect(top).toBeGreaterThanOrEqual(0);
    expect(right).toBeLessThan(14.5);
    expect(bottom).toBeLessThan(15);
  }
});

const mm = (px: number) => (px * 25.4) / 96;

test.each([
  ['A4', 21, [210, 297], [63.5, 38.1], [7.25 + 2 * 66, 15.15 + 38.1]],
  ['letter', 30, [215.9, 279.4], [66.7, 25.4], [4.76 + 2 * 69.85, 12.7 + 25.4]],
] as const)('a sheet of %s holds %i labels where the sheet has them', async (size, places, paper, label, place) => {
  const { owner } = await startApp();
  await owner.patch('/settings', { papers: { size } }, 0).expect(200);
  const { id: productId } = await addProduct(owner);
  const lots = [await receiveLot(owner, productId), await receiveLot(owner, productId)].map(({ id }) => id);
  const copies = Math.floor(places / 2) - 1;
  const used = places - 2 * copies;
  const query = `${lots[0]}?layout=sheet&also=${lots[1]}&copies=${copies}&startAt=${used + 1}`;
  const html = await page(owner, `solder-lots/${query}`);
  expect(html.match(/<section/g)).toHaveLength(1);
  expect(drawings(html)).toHaveLength(2 * copies);
  const tab = await printed(await openBrowser(), html, 96);
  const box = async (selector: string, index: number) => (await tab.locator(selector).nth(index).boundingBox())!;
  const [whole, one] = [await box('section', 0), await box('svg', 5 - used)];
  for (const [px, expected] of [
    [whole.width, paper[0]],
    [whole.height, paper[1]],
    [one.width, label[0]],
    [one.height, label[1]],
    [one.x, place[0]],
    [one.y, place[1]],
  ] as const)
    expect(Math.abs(mm(px) - expected)).toBeLessThan(0.2);
  const over = await owner.get(`/labels/solder-lots/${lots[0]}?layout=sheet&startAt=${places}&copies=2`).expect(200);
  expect(over.text.match(/<section/g)).toHaveLength(2);
  const text = (await pdf(owner, `solder-lots/${query}`)).text;
  expect(text.match(/Lot L\d/g)).toHaveLength(2 * copies);
});

test('a label that could not be printed or read is refused, with what is wrong with each field', async () => {
  const { owner } = await startApp();
  const lot = await receiveLot(owner, (await addProduct(owner)).id);
  const errors = async (query: string) =>
    (await owner.get(`/labels/solder-lots/${lot.id}?${query}`).expect(422)).body.errors as { pointer: string; detail: string }[];
  expect(await errors('widthMm=2.36&heightMm=400')).toMatchObject([
    { pointer: '?widthMm', detail: 'A label is 25 to 150 mm wide; this is 2.36. 2.36 in are 59.9 mm, if that was meant.' },
    { pointer: '?heightMm' },
  ]);
  expect(await errors('layout=sheet&widthMm=60')).toMatchObject([{ pointer: '?widthMm' }]);
  expect(await errors(`copies=101&also=${lot.id}`)).toMatchObject([{ pointer: '?copies' }]);
  expect(await errors('startAt=2')).toMatchObject([{ pointer: '?startAt' }]);
  expect(await errors('layout=sheet&startAt=22')).toMatchObject([{ pointer: '?startAt', detail: 'The sheet has 21 labels.' }]);
  expect(await errors('also=L1')).toMatchObject([{ pointer: expect.stringContaining('?also') }]);
  await owner.patch('/settings', { bookAddress: `https://${'a-long-name-of-a-host.'.repeat(3)}example:3047` }, 0).expect(200);
  expect(await errors('widthMm=25&heightMm=12')).toMatchObject([
    { pointer: '?heightMm', detail: expect.stringContaining('too fine to read') },
  ]);
});
