import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { startApp, type Person } from '../support/start-app.ts';
import '../support/fixed-seed.ts';

const LISTS = ['suppliers', 'clients', 'solder-products', 'solder-lots', 'metal-products', 'metal-lots'] as const;

const exportOf = async (owner: Person, list: string) =>
  (await owner.get(`/exports/${list}`).expect(200).expect('content-type', 'text/csv; charset=utf-8')).text;

async function takeIn(owner: Person, list: string, text: string) {
  const { body } = await owner.post(`/imports/${list}?run=real`).set('content-type', 'text/csv').send(text);
  expect(body).toMatchObject({ refused: 0, alreadyThere: 0 });
  return body as { made: number };
}

/** Words with all that a table of text, or a spreadsheet, may take for something else. */
const odd = (most: number) =>
  fc
    .array(
      fc.constantFrom('=', '+', '-', '@', "'", '"', ',', ';', '＝', ' ', 'a', 'Ä', '1', '.', '5', '銀', '🔥', 'sep=', '\\', '|'),
      { minLength: 1, maxLength: 12 },
    )
    .map((parts) => parts.join('').normalize('NFC').trim().slice(0, most).trim())
    .filter((words) => words !== '');
const block = fc.array(odd(40), { minLength: 1, maxLength: 3 }).map((lines) => lines.join('\n'));
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });
const price = fc
  .integer({ min: 1, max: 9_000_000 })
  .map((micros) => ({ amount: (micros / 1e6 + 0.5).toFixed(6), per: 'g' as const }));
const money = fc.integer({ min: 0, max: 49_999 }).map((amountMinor) => ({ amountMinor, currency: 'EUR' }));
const standing = fc.constantFrom('no', 'yes', 'unknown');

const supplier = fc.record({
  name: odd(120),
  leadWorkingDays: fc.integer({ min: 1, max: 30 }),
  minimum: money,
  post: fc.constant({ amountMinor: 500, currency: 'EUR' }),
  note: orNull(block),
});
const client = fc.record({
  name: odd(120),
  email: fc.constantFrom('a@example.org', 'b@example.org'),
  phone: orNull(fc.constantFrom('+4915112345678', '+441632960961')),
  language: fc.constantFrom('en', 'de-AT'),
  postAddress: orNull(block),
  ringSizeMm: orNull(fc.integer({ min: 410, max: 760 }).map((tenths) => tenths / 10)),
  metalSensitivity: orNull(odd(120)),
  photoAllowed: fc.boolean(),
  notes: orNull(block),
});
const product = fc.record({
  code: fc.stringMatching(/^[a-z0-9][a-z0-9_-]{0,10}$/),
  name: odd(60),
  gradeWord: odd(60),
  solidusC: fc.integer({ min: 650, max: 700 }),
  liquidusC: fc.integer({ min: 7001, max: 7700 }).map((tenths) => tenths / 10),
  silverFraction: orNull(fc.constantFrom(0.5, 0.655, 0.8)),
  cadmiumStanding: standing,
  leadOrTinStanding: standing,
  form: fc.constantFrom('sheet', 'wire', 'pallion', 'rod', 'powder'),
  densityGPerCm3: fc.constantFrom(9, 9.97, 10.1),
  smallestPieceG: fc.constantFrom(0.0013, 0.01),
  safetySheet: odd(200),
  supplier: odd(120),
  packG: fc.constantFrom(5, 12.5),
  price,
  leadWeeks: fc.integer({ min: 0, max: 52 }),
});
const lot = fc.record({
  quantityG: fc.integer({ min: 5000, max: 4_000_000 }).map((tenthMg) => tenthMg / 10_000),
  usedG: fc.integer({ min: 0, max: 4000 }).map((tenthMg) => tenthMg / 10_000),
  receivedOn: fc.constantFrom('2029-02-28', '2031-05-05'),
  unitCost: price,
  markOnMetal: orNull(odd(6)),
  cadmiumStanding: standing,
  document: fc.constant({ kind: 'supplier_sheet', reference: "='12'", datedOn: '2030-01-01' }),
  heldBack: fc.boolean(),
});

test('what is exported is read back equal, whatever is written in it', async () => {
  const studio = fc.record({
    suppliers: fc.uniqueArray(supplier, { maxLength: 4, selector: ({ name }) => name.toLowerCase() }),
    clients: fc.uniqueArray(client, { maxLength: 4, selector: ({ name, email }) => `${name} ${email}` }),
    products: fc.uniqueArray(product, { minLength: 1, maxLength: 3, selector: ({ code }) => code }),
    lots: fc.array(lot, { maxLength: 4 }),
  });
  let seen = 0;
  await fc.assert(
    fc.asyncProperty(studio, async ({ suppliers, clients, products, lots }) => {
      const [from, to] = [await startApp(), await startApp()];
      const made = async (path: string, body: object) => {
        const sent = (confirm: string) =>
          from.owner
            .post(path, body)
            .set('confirm', confirm || '/nothing')
            .set('confirm-reason', 'a property');
        const asked = await sent('');
        if (asked.status === 201) return asked.body as { id: string; version: number };
        const pointers = asked.body.errors.map(({ pointer }: { pointer: string }) => pointer).join(', ');
        return (await sent(pointers).expect(201)).body as { id: string; version: number };
      };
      for (const one of suppliers) await made('/suppliers', one);
      for (const one of clients) await made('/clients', one);
      const ids: string[] = [];
      for (const one of products) ids.push((await made('/solder-products', one)).id);
      await from.owner.patch(`/solder-products/${ids[0]}`, { active: false }, 1).expect(200);
      for (const [index, { usedG, heldBack, ...one }] of lots.entries()) {
        const { id } = await made('/solder-lots', { ...one, productId: ids[index % ids.length]! });
        if (usedG > 0)
          await from.owner.post('/stock-movements', { kind: 'scrap', lotId: id, quantityG: usedG, reason: 'sweepings' });
        const { state } = (await from.owner.get(`/solder-lots/${id}`)).body;
        if (heldBack && state !== 'held_back')
          await from.owner.move(`/solder-lots/${id}`, { from: state, to: 'held_back', reason: '=grade in doubt' }).expect(200);
      }
      const wires = [
        { kind: 'sheet', thicknessMm: 0.8 },
        { kind: 'tube', outsideDiameterMm: 4, insideDiameterMm: 3.2 },
        { kind: 'grain' },
      ];
      for (const [index, { name, note }] of suppliers.entries()) {
        const metal = { name: `${name.slice(0, 100)} ${index}`, metal: 'sterling-925', form: wires[index % 3]!, supplier: name };
        const { id: metalId } = await made('/metal-products', { ...metal, price: { amount: '46.00', per: 'ozt' } });
        await made('/metal-lots', { productId: metalId, receivedOn: '2031-05-01', quantityG: 80.5 + index, note });
      }
      for (const list of LISTS) {
        const text = await exportOf(from.owner, list);
        const { made: count } = await takeIn(to.owner, list, text);
        seen += count;
        expect(await exportOf(to.owner, list)).toBe(text);
        // No cell is a formula to a spreadsheet.
        const cells = parse(text).flat();
        expect(cells.filter((cell) => /^\s*[=+\-@＝]/u.test(cell) && Number.isNaN(Number(cell)))).toEqual([]);
      }
    }),
    { numRuns: 6, endOnFailure: true },
  );
  expect(seen).toBeGreaterThan(20);
});

test('the columns of every list are told, and are those of its export', async () => {
  const { owner, desk } = await startApp();
  const { lists } = (await desk.get('/imports').expect(200)).body as {
    lists: { list: string; columns: { header: string; needed: boolean; says: string }[] }[];
  };
  expect(lists.map(({ list }) => list).toSorted()).toEqual(LISTS.toSorted());
  for (const { list, columns } of lists) {
    expect((await exportOf(owner, list)).trim()).toBe(columns.map(({ header }) => header).join(','));
    expect(columns.every(({ says }) => says.length > 3)).toBe(true);
  }
  await owner.patch('/settings', { currency: 'JPY' }, 0).expect(200);
  expect(await exportOf(owner, 'suppliers')).toContain('minimum_JPY,post_JPY');
});
