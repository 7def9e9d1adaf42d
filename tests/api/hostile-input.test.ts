import fc from 'fast-check';
import { expect, test } from 'vitest';
import { aSmallStudio, bookOf } from '../support/a-small-studio.ts';
import { apiDocument, operationsOf, type Operation } from '../support/api-document.ts';
import { holdAnswer } from '../support/hold-answer.ts';
import { hostileCalls, sendAsItIs } from '../support/hostile-calls.ts';
import { noneUnderWay } from '../support/plan-searches.ts';
import { rawClient } from '../support/raw-request.ts';
import { soundBodies } from '../support/sound-bodies.ts';

const SEED = 20310505;
const RUNS = 40;
/** Fewer where one call computes for long (passwords are hashed slowly, plans are searched), more where a sound one is rare. */
const OTHER_RUNS: Readonly<Record<string, number>> = {
  'POST /heats/:id/moves': 150,
  'POST /calculations/plan-search': 10,
  'POST /calculations/torch-calibration': 15,
  'POST /calibrations': 15,
  'POST /pieces/:id/plans': 25,
  'POST /plan-searches': 15,
  'POST /people': 30,
  'PATCH /people/:id': 30,
  'POST /sessions': 15,
};

/** There is an owner already; ten tries a minute may sign in; joints are left alone while a heat is under way; one count at a time. */
const SELDOM_TAKEN = new Set([
  'POST /people/first-owner',
  'POST /sessions',
  'POST /pieces/:id/joints/:jointId/moves',
  'POST /plan-searches/:id/moves',
  'POST /stocktakes',
  // No month of the small studio is closed, and nothing has been learned yet.
  'POST /bench-times/:id/corrections',
  'POST /learned-factors',
  // Nothing in the small studio is made or ready yet.
  'GET /documents/payment-receipts/:id',
  'GET /documents/collection-notices/:id',
  'GET /documents/care-cards/:id',
]);

const ROOMS = {
  calculations: ['calculations', 'metals', 'solder-grades', 'problems', 'health'],
  people: ['people', 'sessions', 'tokens', 'clients', 'settings', 'journal'],
  bench: ['pieces', 'plans', 'heats', 'incidents', 'cautions'],
  papers: ['commissions', 'quotes', 'estimates', 'payments', 'bench-times', 'reports'],
  torches: ['torches', 'calibrations'],
  clients: ['documents', 'private-links', 'client-messages'],
  searches: ['plan-searches'],
  marking: ['place-rules', 'hallmark-packets'],
  stock: ['solder-products', 'solder-lots', 'stock-movements', 'stock', 'reorder-list'],
  counting: ['stocktakes', 'pickle-baths', 'scrap-jars', 'scrap-returns'],
  time: ['bench', 'benches', 'absences', 'due-dates', 'month-locks', 'learned-factors'],
  buying: ['suppliers', 'supplier-orders', 'metal-products', 'metal-lots', 'metal-movements'],
};

test.each(Object.entries(ROOMS))(
  'nothing that is sent to %s is answered 5xx, undeclared or half-saved',
  async (_room, things) => {
    const studio = await aSmallStudio();
    const document = await apiDocument(studio.owner);
    const bodies = await soundBodies(studio);
    const send = sendAsItIs(rawClient(studio.baseUrl));
    const book = bookOf(studio);
    const types = new Set<string>();
    const operations = operationsOf(document)
      .filter(({ path }) => things.includes(path.split('/')[1]!))
      .sort((a, b) => heatsFirst(a) - heatsFirst(b));
    for (const operation of operations) {
      let taken = 0;
      const numRuns = OTHER_RUNS[operation.route] ?? RUNS;
      const calls = hostileCalls(operation, { studio, document, bodies });
      const property = fc.asyncProperty(calls, async (asked) => {
        // What is under way writes lines of its own.
        await noneUnderWay(studio);
        const before = book();
        const answer = await send(asked);
        const type = holdAnswer(operation, asked, answer);
        if (type === undefined) {
          taken++;
          return;
        }
        types.add(type);
        expect(book(), `${operation.route} refused ${JSON.stringify(asked).slice(0, 2000)}, and wrote`).toBe(before);
      });
      await fc.assert(property, { seed: SEED, numRuns, endOnFailure: true });
      // Fuzz that is always refused at the door proves nothing of what is behind it.
      if (!SELDOM_TAKEN.has(operation.route)) expect([operation.route, taken > 0]).toEqual([operation.route, true]);
    }
    expect(types.size).toBeGreaterThan(2);
    for (const type of types) {
      const explained = await studio.stranger.get(type.replace('/api/v1', '')).expect(200);
      expect(explained.body).toMatchObject({ type, meaning: expect.stringMatching(/.{30}/) });
    }
  },
);

test('every route is in one of the rooms', async () => {
  const { owner } = await aSmallStudio();
  const operations = operationsOf(await apiDocument(owner));
  expect(operations.length).toBeGreaterThan(60);
  const rooms = Object.values(ROOMS).flat();
  expect(new Set(rooms).size).toBe(rooms.length);
  expect(operations.map(({ path }) => path.split('/')[1]!).filter((thing) => !rooms.includes(thing))).toEqual([]);
});

/** Once a piece is put away, its heats can no longer be worked. */
function heatsFirst({ path }: Operation): number {
  return path.startsWith('/heats') ? 0 : 1;
}
