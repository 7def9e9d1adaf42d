import { expect, test } from 'vitest';
import { incidents } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import { putPiece } from '../support/a-piece.ts';
import { aPricedPendant } from '../support/a-quote.ts';
import { putCommission, putQuote, putTime } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const policy = { ratesPerHour: { bench: '24.00', desk: '24.00' } };
const FILING = 'filing and emery';

/** A finished commission with one operation, guessed and taken. */
async function finished(
  app: TestApp,
  guessed: number,
  taken: number,
  { operation = FILING, state = 'given' } = {},
): Promise<string> {
  const commission = await putCommission(app, { state: 'handed_over' });
  putQuote(
    app,
    commission.id,
    anEstimateRequest({ labour: [{ operation, role: 'bench', minutes: guessed, factor: 1.25 }], policy }),
  );
  const piece = putPiece(app, commission, { state });
  putTime(app, { pieceId: piece.id, minutes: taken, state: 'agreed', operation });
  return piece.id;
}

// The studio's worked example: seven filings.
const FILINGS: [number, number][] = [
  [45, 58],
  [60, 66],
  [30, 41],
  [130, 150],
  [90, 88],
  [40, 62],
  [75, 96],
];

interface Offer {
  operation: string;
  personId: string | null;
  factor: number;
  pieces: number;
  prior: number;
  priorFrom: string;
  says: string;
  records: { estimateMinutes: number; actualMinutes: number }[];
  inUse: { factor: number } | null;
}

const offersOf = async ({ owner }: TestApp): Promise<Offer[]> =>
  (await owner.get('/learned-factors/offers').expect(200)).body.items;

test('a factor is offered with what it comes from, accepted by the owner, and used by prices made from then on', async () => {
  const app = await startApp();
  const { owner, desk } = app;
  for (const [guessed, taken] of FILINGS) await finished(app, guessed, taken);
  // Not finished, not agreed or never guessed: not learned from.
  await finished(app, 10, 90, { state: 'finishing' });
  await finished(app, 10, 90, { operation: 'singing' }).then((pieceId) =>
    putTime(app, { pieceId, minutes: 5, operation: 'humming' }),
  );
  const offers = await offersOf(app);
  expect(offers.map(({ operation }) => operation)).toEqual([FILING, 'singing']);
  const [filing] = offers;
  expect(filing).toMatchObject({
    personId: null,
    pieces: 7,
    prior: 1.25,
    priorFrom: 'a new studio',
    says: `six times out of seven ${FILING} took longer than planned, usually by a quarter`,
    inUse: null,
  });
  expect(filing!.factor).toBeCloseTo(1.267413, 6);
  expect(filing!.records.map(({ estimateMinutes, actualMinutes }) => [estimateMinutes, actualMinutes])).toEqual(FILINGS);

  const { pieceId } = await aPricedPendant(app);
  const factorOf = async () => {
    const { request } = (await owner.post('/estimates', { pieceId }).expect(200)).body;
    return request.labour.find(({ operation }: { operation: string }) => operation === FILING).factor;
  };
  expect(await factorOf()).toBe(1.25);
  const stale = await owner.post('/learned-factors', { operation: FILING, factor: 1.3 }).expect(409);
  expect(stale.body).toMatchObject({ type: '/api/v1/problems/moved-on', factor: filing!.factor });
  const kept = await owner.post('/learned-factors', { operation: FILING, factor: filing!.factor }).expect(201);
  expect(kept.body).toMatchObject({
    operation: FILING,
    pieces: 7,
    acceptedBy: app.actors.owner.personId,
    records: { length: 7 },
  });
  expect(await factorOf()).toBeCloseTo(1.267413, 6);
  expect((await offersOf(app))[0]!.inUse).toMatchObject({ factor: filing!.factor });
  expect((await owner.get(`/learned-factors?operation=${encodeURIComponent(FILING)}`).expect(200)).body.items).toHaveLength(1);
  expect((await owner.get(`/journal?thingId=${kept.body.id}`)).body.items).toMatchObject([{ what: 'learned-factor' }]);
  await owner.post('/learned-factors', { operation: 'weaving', factor: 1 }).expect(422);
  await desk.get('/learned-factors/offers').expect(403);
});

test('what an incident took is put aside, and a forgotten timer hardly counts', async () => {
  const app = await startApp();
  for (const [guessed, taken] of FILINGS.slice(1)) await finished(app, guessed, taken);
  const pieceId = await finished(app, 45, 58 + 30);
  const at = app.clock.now();
  app.db
    .insert(incidents)
    .values({
      id: newId(at),
      pieceId,
      kind: 'pit',
      state: 'put_right',
      minutesLost: 30,
      seenBy: app.actors.bench.personId,
      seenAt: at.toISOString(),
      createdAt: at.toISOString(),
    })
    .run();
  expect((await offersOf(app))[0]!.factor).toBeCloseTo(1.267413, 6);
  await finished(app, 50, 740);
  expect((await offersOf(app))[0]!.factor).toBeCloseTo(1.271081, 6);
});

test('a person with eight records is offered their own factor, and a family with five the prior of its operations', async () => {
  const app = await startApp();
  for (const [guessed, taken] of [...FILINGS, [50, 64] as [number, number]]) await finished(app, guessed, taken);
  await finished(app, 30, 60, { operation: 'polishing' });
  const offers = await offersOf(app);
  expect(offers.map(({ operation, personId }) => [operation, personId === null])).toEqual([
    [FILING, true],
    [FILING, false],
    ['polishing', true],
  ]);
  expect(offers[1]!.factor).toBe(offers[0]!.factor);
  expect(offers[2]).toMatchObject({ priorFrom: 'other finishing, 8 records', prior: offers[0]!.factor });
  // One record counts a sixth, its family the rest: 2^(1/6) · prior^(5/6).
  expect(offers[2]!.factor).toBeCloseTo(2 ** (1 / 6) * offers[0]!.factor ** (5 / 6), 10);
});
