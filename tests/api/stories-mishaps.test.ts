import { expect, test } from 'vitest';
import {
  aDrawer,
  aDrawnPiece,
  heatsOf,
  issueMetal,
  jointStates,
  planInUse,
  readiness,
  workHeat,
  workToLooking,
} from '../support/at-the-bench.ts';
import { takeThrough } from '../support/a-quote.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

/** A commission on the bench, its pendant cut and its plan of four heats in use. */
async function onTheBench(app: TestApp, commission: Record<string, unknown> = {}) {
  const { bench } = app;
  const drawer = await aDrawer(app);
  const piece = await aDrawnPiece(app, commission);
  const { heats } = await planInUse(bench, piece.id);
  await issueMetal(bench, piece.id);
  return { ...drawer, piece, heats, path: `/pieces/${piece.id}` };
}

const onHand = async (person: Person, code: string): Promise<number> => {
  const { items } = (await person.get('/stock').expect(200)).body;
  return (items as { code: string; onHandG: number }[]).find((line) => line.code === code)!.onHandG;
};

interface Plan {
  id: string;
  number: number;
  plan: { heats: { joints: string[]; solder: string }[] };
  madeJoints: { joint: string; solder: { id: string }; doubtful: boolean }[];
  check: { verdict: string };
}

async function takeIntoUse(person: Person, { id }: Plan): Promise<void> {
  await person.move(`/plans/${id}`, { from: 'draft', to: 'checked' }).expect(200);
  await person.move(`/plans/${id}`, { from: 'checked', to: 'in_use' }).expect(200);
}

test('the third heat reflows the wall: what is sound stays, what moved is made again, and what it cost is counted', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { piece, heats, lots, path } = await onTheBench(app);
  await workHeat(bench, heats[0]!.id, lots);
  await workHeat(bench, heats[1]!.id, lots);
  const before = await onHand(owner, 'medium');
  await workToLooking(bench, heats[2]!.id, lots);
  // Ten seconds at the bench: what, which joint; the cause comes later.
  const incident = { kind: 'reflow', jointId: 'wall-seam', movedJoints: ['wall-seam'] };
  const spoilt = { from: 'looking', to: 'spoilt', outcome: 'earlier_joint_moved', incident, usedG: 0.03 };
  await bench.move(`/heats/${heats[2]!.id}`, spoilt).expect(200);
  expect(await onHand(owner, 'medium')).toBeCloseTo(before - 0.03, 6);
  expect((await bench.get(path)).body.state).toBe('hurt');
  expect((await bench.get(`/heats/${heats[3]!.id}`)).body).toMatchObject({ state: 'on_hold' });
  expect(await jointStates(bench, piece.id)).toEqual({
    'wall-seam': 'moved',
    'bail-seam': expect.stringMatching(/sound|doubtful/),
    bezel: 'sound',
    'bail-on': 'open',
  });
  // No heat of the old plan is lit any more, and of it only what is to be planned anew is offered as the next.
  await bench.move(`/heats/${heats[3]!.id}`, { from: 'on_hold', to: 'laid_out' }).expect(409);
  const toBePlannedAnew = { id: heats[2]!.id, state: 'spoilt' };
  expect((await bench.get('/bench/now')).body).toMatchObject({
    heat: toBePlannedAnew,
    choices: [{ heatId: toBePlannedAnew.id, state: 'spoilt' }],
  });

  const again = (await bench.post(`${path}/plans`, { search: { targetMarginK: 0, policy: 'do_not_run' } }).expect(201))
    .body as Plan;
  expect(again.plan.heats.flatMap(({ joints }) => joints).toSorted()).toEqual(['bail-on', 'wall-seam']);
  expect(again.madeJoints.map(({ joint, solder }) => [joint, solder.id])).toEqual([
    ['bail-seam', 'hard'],
    ['bezel', 'medium'],
  ]);
  await takeIntoUse(bench, again);
  expect((await bench.get(path)).body.state).toBe('soldering');
  expect((await bench.get(`/heats/${heats[3]!.id}`)).body.state).toBe('skipped');
  const next = await heatsOf(bench, again.id);
  expect(next[0]!.number).toBe(`${piece.number} H5`);
  expect((await bench.get('/bench/now')).body.heat.id).toBe(next[0]!.id);
  for (const heat of next) await workHeat(bench, heat.id, lots);
  expect(new Set(Object.values(await jointStates(bench, piece.id)))).toEqual(new Set(['sound']));
  await bench.move(path, { from: 'soldering', to: 'built' }).expect(200);

  // Closed with its cause and its cost; the history keeps both solders that ran on the wall.
  const [noted] = (await bench.get(`/incidents?pieceId=${piece.id}`).expect(200)).body.items;
  expect(noted).toMatchObject({ kind: 'reflow', state: 'seen', solderUsedG: 0.03, heatId: heats[2]!.id });
  const at = `/incidents/${noted.id}`;
  await bench.move(at, { from: 'seen', to: 'explained', likelyCause: 'no_protection' }).expect(200);
  await bench.move(at, { from: 'explained', to: 'put_right', how: 'made again in two heats', minutesLost: 45 }).expect(200);
  const { solderHistory } = (await bench.get(path)).body;
  const onWall = solderHistory.filter(({ joint }: { joint: string }) => joint === 'wall-seam');
  expect(onWall.map(({ heat }: { heat: string }) => heat)).toEqual(['H1', expect.stringMatching(/^H[56]$/)]);
  expect((await owner.post('/stock/audit').expect(200)).body.findings).toEqual([]);
});

test('the solder runs out mid-piece: the work waits in the book until the order is in, and then goes on', async () => {
  const app = await startApp();
  const { bench, desk, owner } = app;
  const { piece, heats, lots, products, path } = await onTheBench(app, { kind: 'own_stock', clientId: null });
  const commission = `/commissions/${piece.commissionId}`;
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed', 'on_bench']);
  await desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201);
  await workHeat(bench, heats[0]!.id, lots);
  await workHeat(bench, heats[1]!.id, lots);
  // The last of the medium went into another hand's work.
  await bench
    .post('/stock-movements', { kind: 'scrap', lotId: lots['medium'], quantityG: 5.02, reason: 'a class used it' })
    .expect(201);
  const medium = `/heats/${heats[2]!.id}`;
  const short = (await bench.move(medium, await readiness(bench, heats[2]!.id, lots)).expect(409)).body;
  expect(short.type).toBe('/api/v1/problems/solder-lot-short');
  interface Way {
    says: string;
    path: string;
    body: object;
  }
  const ways = short.waysOn as Way[];
  const way = (words: string) => ways.find(({ says }) => says.startsWith(words))!;
  const take = (person: Person, { path: to, body }: Way) =>
    person.post(to.replace('/api/v1', ''), body).set('idempotency-key', `way-${to.replaceAll('/', '-')}`.slice(0, 100));
  const order = (await take(owner, way('Order')).expect(201)).body;
  await owner.move(`/supplier-orders/${order.id}`, { from: 'to_order', to: 'sent' }).expect(200);
  const wait = (await bench.move(medium, await readiness(bench, heats[2]!.id, lots)).expect(409)).body.waysOn as Way[];
  const rest = wait.find(({ says }) => says.startsWith('Wait for it'))!;
  expect(rest.says).toContain(order.number);
  await take(bench, rest).expect(200);
  expect((await bench.get(commission)).body).toMatchObject({ state: 'resting', waitingFor: 'solder' });
  expect((await bench.get(medium)).body.state).toBe('laid_out');
  expect(await jointStates(bench, piece.id)).toMatchObject({ 'wall-seam': 'sound', 'bail-seam': 'sound', bezel: 'open' });

  // It comes: a lot with its mark, and the work goes on where it stood.
  const lines = [{ lineId: order.lines[0].id, quantityG: 5, markOnMetal: 'MM' }];
  await bench.post(`/supplier-orders/${order.id}/deliveries`, { receivedOn: '2031-05-05', lines }).expect(201);
  const [lot] = (await bench.get(`/solder-lots?productId=${products['medium']}&state=sealed`).expect(200)).body.items;
  await bench.move(commission, { from: 'resting', to: 'on_bench' }).expect(200);
  const now = (await bench.get(`/bench/now?heatId=${heats[2]!.id}`).expect(200)).body.heat;
  expect(now.lots.filter(({ isEnough }: { isEnough: boolean }) => isEnough)).toMatchObject([{ id: lot.id, markOnMetal: 'MM' }]);
  const withNew = { ...lots, medium: lot.id as string };
  await workHeat(bench, heats[2]!.id, withNew);
  await workHeat(bench, heats[3]!.id, withNew);
  const history = (await bench.get(path)).body.solderHistory as { joint: string; lot: string }[];
  expect(history.find(({ joint }) => joint === 'bezel')!.lot).toBe(lot.number);
  expect((await owner.post('/stock/audit').expect(200)).body.findings).toEqual([]);
});
