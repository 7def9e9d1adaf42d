import fc from 'fast-check';
import { expect, test } from 'vitest';
import '../support/fixed-seed.ts';
import { aDrawer, aDrawnPiece, issueMetal, jointStates, planInUse } from '../support/at-the-bench.ts';
import { aDevice, heatInSteps, sendSteps, type DeviceStep } from '../support/bench-steps.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const at = (minute: number) => new Date(Date.parse('2031-05-05T09:00:00Z') + minute * 60_000).toISOString();

/** Two pieces at two benches, a heat of each and the timers of both hands, as two devices noted them without a network. */
async function notedOffline() {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const cut = async () => {
    const { id } = await aDrawnPiece(app);
    const { heats } = await planInUse(bench, id);
    await issueMetal(bench, id);
    return { id, heats };
  };
  const [ring, cup] = [await cut(), await cut()];
  const ringTablet = aDevice('tablet-ring');
  const cupTablet = aDevice('tablet-cup');
  const minutes = (...from: number[]) => from.map(at);
  const soldering = ringTablet(at(0), { do: 'start_time', pieceId: ring.id, operation: 'soldering' });
  const one = [
    soldering,
    ...(await heatInSteps(bench, ringTablet, { heatId: ring.heats[0]!.id, lots, times: minutes(2, 4, 5, 7, 14, 16) })),
    ringTablet(at(18), { do: 'move_bench_time', startedBy: soldering.key, from: 'running', to: 'stopped' }),
    ringTablet(at(20), { do: 'start_time', pieceId: ring.id, operation: 'filing' }),
  ];
  const two = [
    cupTablet(at(1), { do: 'start_time', pieceId: cup.id, operation: 'soldering' }),
    ...(await heatInSteps(owner, cupTablet, { heatId: cup.heats[0]!.id, lots, times: minutes(3, 6, 8, 9, 15, 18) })),
  ];
  app.clock.set(at(60));
  return { ...app, ring, cup, one, two };
}

type Offline = Awaited<ReturnType<typeof notedOffline>>;

/** The book as everybody sees it, without ids that were given on the way. */
async function book(app: TestApp, { ring, cup }: Pick<Offline, 'ring' | 'cup'>) {
  const heatsSeen = await Promise.all(
    [ring, cup].map(async ({ heats }) => {
      const { state, outcome, alightAt, endedAt, usedG, seen } = (await app.owner.get(`/heats/${heats[0]!.id}`).expect(200)).body;
      return { state, outcome, alightAt, endedAt, usedG, seen };
    }),
  );
  const { items: times } = (await app.owner.get('/bench-times').expect(200)).body;
  const { items: stock } = (await app.owner.get('/stock').expect(200)).body;
  return {
    heats: heatsSeen,
    joints: [await jointStates(app.owner, ring.id), await jointStates(app.owner, cup.id)],
    times: (times as { startedAt: string; stoppedAt: string | null; operation: string; personName: string }[])
      .map(({ startedAt, stoppedAt, operation, personName }) => [personName, operation, startedAt, stoppedAt])
      .toSorted((a, b) => String(a).localeCompare(String(b))),
    stock: (stock as { code: string; onHandG: number; heldG: number }[]).map(({ code, onHandG, heldG }) => [
      code,
      onHandG,
      heldG,
    ]),
  };
}

/** Sends what each hand noted, cut up anyhow; what was refused is sent again until nothing more is taken up. */
async function sendCutUp(app: Offline, parcels: { hand: 'one' | 'two'; steps: DeviceStep[] }[]): Promise<Map<string, number>> {
  const statuses = new Map<string, number>();
  for (let taken = -1; taken !== doneIn(statuses);) {
    taken = doneIn(statuses);
    for (const { hand, steps } of parcels) {
      const answers = await sendSteps(hand === 'one' ? app.bench : app.owner, steps, app.clock.now());
      for (const { key, status, problem } of answers) {
        statuses.set(key, status);
        // Whatever is refused is told why.
        if (status !== 200) expect(problem!.detail.length).toBeGreaterThan(10);
      }
    }
  }
  return statuses;
}

const doneIn = (statuses: ReadonlyMap<string, number>) => [...statuses.values()].filter((status) => status === 200).length;

test('in whatever order and parcels the steps of two devices arrive, and however often, the book is the same', async () => {
  const inOrder = await notedOffline();
  await sendCutUp(inOrder, [
    { hand: 'one', steps: inOrder.one },
    { hand: 'two', steps: inOrder.two },
  ]);
  const wanted = await book(inOrder, inOrder);
  expect(wanted.heats.map(({ state }) => state)).toEqual(['cleared', 'cleared']);
  expect(wanted.times).toHaveLength(3);

  const order = fc.record({
    one: fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7, 8], { minLength: 9 }),
    two: fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6], { minLength: 7 }),
    size: fc.integer({ min: 1, max: 8 }),
    twice: fc.boolean(),
  });
  await fc.assert(
    fc.asyncProperty(order, async ({ one, two, size, twice }) => {
      const app = await notedOffline();
      const parcelsOf = (hand: 'one' | 'two', places: number[]) =>
        Array.from({ length: Math.ceil(places.length / size) }, (_, index) => ({
          hand,
          steps: places.slice(index * size, (index + 1) * size).map((place) => app[hand][place]!),
        }));
      const parcels = [...parcelsOf('one', one), ...parcelsOf('two', two)].flatMap((parcel) =>
        twice ? [parcel, parcel] : [parcel],
      );
      const statuses = await sendCutUp(app, parcels);
      expect(new Set(statuses.values())).toEqual(new Set([200]));
      expect(await book(app, app)).toEqual(wanted);
      expect((await app.owner.post('/stock/audit').expect(200)).body.findings).toEqual([]);
    }),
    { numRuns: 4 },
  );
});
