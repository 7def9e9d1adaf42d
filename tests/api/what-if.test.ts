import { expect, test } from 'vitest';
import { aPricedPendant, aSentQuote, aSketch } from '../support/a-quote.ts';
import { aDrawnPiece } from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

interface Difference {
  group: string;
  label: string;
  beforeMinor: number | null;
  afterMinor: number | null;
  differenceMinor: number;
}
const sum = (lines: Difference[]) => lines.reduce((total, { differenceMinor }) => total + differenceMinor, 0);
const totalOf = ({ totals }: { totals: (Omit<Difference, 'group' | 'label'> & { total: string })[] }, name: string) =>
  totals.find(({ total }) => total === name)!.differenceMinor;

test('POST /quotes/:id/what-if moves one number, shows the price move, and keeps nothing', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId);
  const before = (await app.owner.get(`/quotes/${sent.id}`)).body;
  const asked = { overrides: { policy: { discountFraction: 0.1, ratesPerHour: { bench: '30.00' } } } };
  const { body } = await app.owner.post(`/quotes/${sent.id}/what-if`, asked).expect(200);
  expect(body.changed).toEqual([
    { input: 'policy.ratesPerHour.bench', before: '24.00', after: '30.00' },
    { input: 'policy.discountFraction', before: 0, after: 0.1 },
  ]);
  const moved = body.differences.lines.filter(({ differenceMinor }: Difference) => differenceMinor !== 0);
  const minutes = before.inside.answer.steps.find(({ key }: { key: string }) => key === 'labour.minutes').value;
  expect(moved).toHaveLength(1);
  expect(moved[0]).toMatchObject({ label: 'labour bench', differenceMinor: expect.closeTo((minutes / 60) * 600, -0.5) });
  const discount = body.differences.sold.find(({ group }: Difference) => group === 'discount');
  expect(discount).toMatchObject({ beforeMinor: null, afterMinor: -body.after.totals.discountMinor });
  expect(sum(body.differences.lines)).toBe(totalOf(body.differences, 'baseMinor'));
  expect(sum(body.differences.sold)).toBe(totalOf(body.differences, 'netMinor'));
  expect(body.before.totals).toEqual(before.inside.answer.totals);
  expect(body.after.totals).toEqual(body.answer.totals);
  expect((await app.owner.get(`/quotes/${sent.id}`)).body).toEqual(before);
  expect((await app.owner.get('/quotes')).body.items).toHaveLength(1);
});

test('POST /quotes/:id/what-if is the owner’s, and holds what is typed to shape and fences', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { id } = await aSketch(app, commissionId);
  await app.desk.post(`/quotes/${id}/what-if`, { overrides: {} }).expect(403);
  await app.owner.post('/quotes/01890a5d-ac96-774b-bcce-b302099a8057/what-if', { overrides: {} }).expect(404);
  const wrong = await app.owner.post(`/quotes/${id}/what-if`, { overrides: { policy: { profit: { marginFraction: 1.2 } } } });
  expect([wrong.status, wrong.body.errors[0].pointer]).toEqual([422, '/overrides/policy/profit/marginFraction']);
  const same = (await app.owner.post(`/quotes/${id}/what-if`, { overrides: {} }).expect(200)).body;
  expect(same.changed).toEqual([]);
  expect(sum(same.differences.lines)).toBe(0);
  const markup = (await app.owner.post(`/quotes/${id}/what-if`, { overrides: { policy: { profit: { markupFraction: 1 } } } }))
    .body;
  expect(markup.changed).toEqual([
    { input: 'policy.profit.marginFraction', before: 0.4, after: null },
    { input: 'policy.profit.markupFraction', before: null, after: 1 },
  ]);
  expect(markup.after.profit.ofMaking).toEqual({ marginFraction: 0.5, markupFraction: 1 });
  expect(markup.before.profit.ofMaking).toEqual({ marginFraction: 0.4, markupFraction: 0.6667 });
});

test('GET /quotes/:id/comparison sets two versions of a commission side by side, the earlier first', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const first = await aSketch(app, commissionId);
  const stone = [{ id: 'stone', kind: 'stone', cost: '18.00', handlingFraction: 0.25 }];
  const second = await aSketch(app, commissionId, { overrides: { passThrough: stone, labour: [] } });
  const compared = (await app.owner.get(`/quotes/${second.id}/comparison?with=${first.id}`).expect(200)).body;
  expect(compared).toMatchObject({ before: { number: 1 }, after: { number: 2 }, currency: 'EUR' });
  expect(compared.differences.sold).toContainEqual({
    group: 'pass_through',
    label: 'stone',
    beforeMinor: null,
    afterMinor: 2250,
    differenceMinor: 2250,
  });
  const labour = compared.differences.lines.find(({ group }: Difference) => group === 'labour');
  expect(labour).toMatchObject({ label: 'labour bench', afterMinor: null, differenceMinor: -labour.beforeMinor });
  expect(compared.changed.map(({ input }: { input: string }) => input)).toContain('labour.polishing');
  await app.desk.get(`/quotes/${second.id}/comparison?with=${first.id}`).expect(403);
  const other = await aDrawnPiece(app);
  await app.bench.post(`/pieces/${other.id}/plans`, { plan: pendantPlan }).expect(201);
  const elsewhere = await aSketch(app, other.commissionId);
  const refused = await app.owner.get(`/quotes/${second.id}/comparison?with=${elsewhere.id}`).expect(422);
  expect(refused.body.errors[0]).toMatchObject({ pointer: '?with', detail: 'That version is of another commission.' });
});

test('a small run is set up once and gets faster: priced as a run, and a piece', async () => {
  const app = await startApp();
  const { commissionId, pieceId } = await aPricedPendant(app, { kind: 'small_run', quantity: 12 });
  const one = (await app.owner.post('/estimates', { pieceId }).expect(200)).body;
  const run = (await app.owner.post('/estimates', { commissionId }).expect(200)).body;
  expect(one.run).toBeNull();
  const minutes = ({ answer }: typeof one) => answer.steps.find(({ key }: { key: string }) => key === 'labour.minutes').value;
  // Σ k^(log₂ 0.85) to 12; 35 min of set-up, at the factor of 1.25 as all of it.
  const times = Array.from({ length: 12 }, (_, k) => (k + 1) ** Math.log2(0.85)).reduce((a, b) => a + b);
  expect(times).toBeCloseTo(181.4 / 22, 2);
  expect(minutes(run)).toBeCloseTo(times * minutes(one) + 35 * 1.25, 6);
  expect(run.request.labour).toContainEqual({ operation: 'setting up the run', role: 'bench', minutes: 35, factor: 1.25 });
  const { grossMinor, netMinor } = run.answer.totals;
  expect(run.run).toEqual({
    pieces: 12,
    netEach: { amountMinor: Math.round(netMinor / 12), currency: 'EUR' },
    grossEach: { amountMinor: Math.round(grossMinor / 12), currency: 'EUR' },
  });
  expect(run.run.grossEach.amountMinor).toBeLessThan(one.answer.totals.grossMinor);
  const quote = await aSketch(app, commissionId);
  expect((await app.desk.get(`/quotes/${quote.id}`)).body.run).toEqual(run.run);
  // Somebody who knows better types their own.
  const slow = {
    overrides: { labour: [{ operation: 'all of it', role: 'bench', minutes: 60, run: { pieces: 12, learningFraction: 1 } }] },
  };
  const typed = (await app.owner.post('/estimates', { commissionId, ...slow }).expect(200)).body;
  expect(minutes(typed)).toBe(720);
});

test('the rules of the place of sale decide the tax, and how fine the whole has to be', async () => {
  const app = await startApp();
  const { pieceId, commissionId } = await aPricedPendant(app);
  const price = async () => (await app.owner.post('/estimates', { pieceId }).expect(200)).body;
  expect(await price()).toMatchObject({
    assumes: [],
    fineness: { finding: 'no_rule' },
    request: { policy: { tax: { rateFraction: 0.2 } } },
  });
  await app.owner
    .put('/place-rules/DE', { source: 'the office', taxRateFraction: 0.19, leastSolderFinenessFraction: 0.9 })
    .expect(200);
  const ruled = await price();
  expect(ruled).toMatchObject({
    assumes: ['The tax rate is that of the rules for DE'],
    fineness: { finding: 'outside', standardFraction: 0.925 },
    request: { policy: { tax: { rateFraction: 0.19, method: 'per_line' } } },
  });
  const { netMinor, taxMinor } = ruled.answer.totals;
  expect(Math.abs(taxMinor - netMinor * 0.19)).toBeLessThan(1);
  const { id } = await aSketch(app, commissionId);
  expect((await app.owner.get(`/quotes/${id}`)).body.inside.request.policy.tax.rateFraction).toBe(0.19);
});

test('one line of a list is changed by its name, and the rest stays as it was', async () => {
  const app = await startApp();
  const { pieceId, commissionId } = await aPricedPendant(app);
  const before = (await app.owner.post('/estimates', { pieceId }).expect(200)).body;
  const heats = 'heats, set up to cool';
  const overrides = {
    labour: { polishing: { minutes: 40 }, 'setting the stone': { role: 'bench', minutes: 25 }, 'photo, label, pack': null },
    metals: { 'sterling-925': { price: { amount: '1.60' } } },
  };
  const { request } = (await app.owner.post('/estimates', { pieceId, overrides }).expect(200)).body;
  type Line = { operation: string; minutes: number };
  const minutes = (lines: Line[]) => Object.fromEntries(lines.map((line) => [line.operation, line.minutes]));
  const { 'photo, label, pack': _packed, ...left } = minutes(before.request.labour);
  expect(minutes(request.labour)).toEqual({ ...left, polishing: 40, 'setting the stone': 25 });
  expect(request.metals.map(({ price }: { price: unknown }) => price)).toEqual([
    { amount: '1.60', per: 'g' },
    { amount: '46.00', per: 'ozt' },
  ]);
  // What is asked about goes by its name, comma and all.
  const slow = { labour: { [heats]: { minutes: 100 } } };
  const asked = await app.owner.post('/estimates', { pieceId, overrides: slow }).expect(422);
  expect(asked.body.errors).toMatchObject([{ pointer: `/overrides/labour/${heats}/minutes`, confirmable: true }]);
  await app.owner
    .post('/estimates', { pieceId, overrides: slow })
    .set({ confirm: `/overrides/labour/${heats}/minutes`, 'confirm-reason': 'a large piece' })
    .expect(200);
  const wrong = await app.owner.post('/estimates', { pieceId, overrides: { labour: { polishing: 40 } } }).expect(422);
  expect(wrong.body.errors[0].pointer).toMatch(/^\/overrides\/labour/);
  // In a sketch it stays with what is typed later, and null gives the line back to the book.
  const sketch = await aSketch(app, commissionId, { overrides: { labour: { polishing: { minutes: 40 } } } });
  const change = async (typed: object, seen: number) =>
    (await app.owner.patch(`/quotes/${sketch.id}`, { overrides: typed }, seen).expect(200)).body.inside;
  const added = await change({ labour: { annealing: { role: 'bench', minutes: 6 } } }, 1);
  expect(added.overrides).toEqual({ labour: { polishing: { minutes: 40 }, annealing: { role: 'bench', minutes: 6 } } });
  expect(minutes(added.request.labour)).toMatchObject({ polishing: 40, annealing: 6 });
  const back = await change({ labour: { polishing: null } }, 2);
  expect(minutes(back.request.labour)).toMatchObject({ polishing: minutes(before.request.labour)['polishing'], annealing: 6 });
});
