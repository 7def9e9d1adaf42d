import { expect, test } from 'vitest';
import { extractText } from 'unpdf';
import { getBytes, getPdf, wordsOf } from '../support/read-pdf.ts';
import { startApp, type Person } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';
import { aMetalProduct } from '../support/stocked.ts';

const page = async (person: Person, path: string) => wordsOf((await person.get(`/documents/${path}`).expect(200)).text);
/** Words break at other places on paper. */
const letters = (words: string) => words.replace(/^[\s\S]*?(?=Our studio)/, '').replaceAll(/\s|Page \d of \d/g, '');
const money = ({ amountMinor }: { amountMinor: number }) => `€${(amountMinor / 100).toFixed(2)}`;

test('the reorder list on paper is the reorder list, a table a supplier, on the page and as PDF', async () => {
  const { owner, desk, bench } = await startApp();
  await desk
    .post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8, minimum: { amountMinor: 15000, currency: 'EUR' } })
    .expect(201);
  const hard = await addProduct(owner, { packG: 25 });
  await receiveLot(owner, hard.id, { quantityG: 2 });
  await addProduct(owner, { code: 'easy', name: 'Easy', form: 'paste', metalFraction: 0.75, supplier: 'Millrace Solders' });
  const { suppliers } = (await desk.get('/reorder-list').expect(200)).body;
  expect(suppliers).toHaveLength(2);
  const words = await page(desk, 'reorder-list');
  expect(letters((await getPdf(desk, '/documents/reorder-list')).text)).toBe(letters(words.slice(words.indexOf('Our studio'))));
  for (const { supplier, lines, total } of suppliers) {
    expect(words).toContain(supplier);
    expect(words).toContain(`In all ${money(total)}`);
    for (const line of lines) {
      expect(words).toContain(`${line.packs} pack${line.packs === 1 ? '' : 's'} of ${line.packG.toFixed(2)} g`);
      expect(words).toContain(`${line.positionG.toFixed(2)} g left, order at ${line.orderPointG.toFixed(2)} g`);
      expect(words).toContain(money(line.cost));
    }
  }
  // 25 g ÷ 31.1034768 g
  expect(words).toContain('Hard wire hard_wire 25.00 g (0.80 ozt)');
  expect(words).toContain('Easy, paste easy');
  expect(words).toContain('They take orders from €150.00: wait, or ask them.');
  await bench.get('/documents/reorder-list').expect(403);
  await owner.patch('/settings', { language: 'de', papers: { size: 'letter' } }, 0).expect(200);
  const german = await page(desk, 'reorder-list');
  for (const part of [
    'Zu bestellen',
    '25,00 g (0,80 ozt) 1 Packung zu 25,00 g',
    'noch 2,00 g, bestellt wird bei 25,00 g',
    'Zusammen',
  ])
    expect(german).toContain(part);
  expect((await getBytes(desk, '/documents/reorder-list?format=pdf')).toString('latin1')).toMatch(/MediaBox \[0 0 612 792\]/);
});

test('with nothing at its point the list says so', async () => {
  const { desk } = await startApp();
  expect(await page(desk, 'reorder-list')).toContain('Nothing is at its point today.');
});

test('a stocktake sheet has every lot and nothing of what the book says is there, before and after it is compared', async () => {
  const { owner, bench, student } = await startApp();
  const { id: productId } = await addProduct(owner, { name: 'Hard' });
  // Amounts that no number, date or mark could be taken for.
  for (let lot = 1; lot <= 40; lot++)
    await receiveLot(owner, productId, { quantityG: 71.5 + lot / 1000, markOnMetal: `H${lot}` });
  const { body: metal } = await owner.post('/metal-products', aMetalProduct()).expect(201);
  const receipt = { productId: metal.id, receivedOn: '2031-05-05', quantityG: 83.25 };
  await owner.post('/metal-lots', receipt).expect(201);
  const { body: stocktake } = await bench.post('/stocktakes', {}).expect(201);
  const path = `stocktake-sheets/${stocktake.id}`;
  const words = await page(bench, path);
  for (const part of [
    'Stocktake sheet T1',
    'L1: Hard, wire mark H1',
    'L40: Hard, wire mark H40',
    'M1: Round wire 1.2',
    'Scale, g',
  ])
    expect(words).toContain(part);
  expect(words).not.toMatch(/7[12][.,]|83[.,]2/);
  const bytes = await getBytes(bench, `/documents/${path}?format=pdf`);
  const { text: pages } = await extractText(new Uint8Array(bytes), { mergePages: false });
  expect(pages.length).toBeGreaterThan(1);
  for (const one of pages) {
    expect(one).toMatch(/Lot\s+Scale, g\s+Empty box, g\s+Not weighed:\s+why/);
    expect(one).not.toMatch(/7[12][.,]|83[.,]2/);
  }
  expect(pages.join(' ').match(/[LM]\d+: /g)).toHaveLength(41);
  const counts = stocktake.counts.map(({ lotId }: { lotId: string }) => ({ lotId, weighedG: 60.5 }));
  await bench.post(`/stocktakes/${stocktake.id}/counts`, { counts }).expect(201);
  await bench.move(`/stocktakes/${stocktake.id}`, { from: 'counting', to: 'compared' }).expect(200);
  expect(await page(bench, path)).toBe(words);
  await student.get(`/documents/${path}`).expect(403);
  await bench.get(`/documents/stocktake-sheets/${productId}`).expect(404);
});
