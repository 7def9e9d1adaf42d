import { expect, test } from 'vitest';
import { pendant } from '../../seed/designs.ts';
import { heatsOf, readiness, workHeat, workToLooking, type Heat } from '../support/at-the-bench.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const GRADES = [
  { code: 'hard-sheet', gradeWord: 'hard', solidusC: 740, liquidusC: 788, silverFraction: 0.75, densityGPerCm3: 9.97, mark: 'H' },
  {
    code: 'medium-sheet',
    gradeWord: 'medium',
    solidusC: 691,
    liquidusC: 738,
    silverFraction: 0.7,
    densityGPerCm3: 9.7,
    mark: 'M',
  },
  { code: 'easy-sheet', gradeWord: 'easy', solidusC: 671, liquidusC: 718, silverFraction: 0.65, densityGPerCm3: 9.5, mark: 'E' },
];

interface StockLine {
  code: string;
  onHandG: number;
  heldG: number;
  freeG: number;
}

/** Prices typed, solder in the drawer. */
async function aStudio({ owner }: TestApp): Promise<Record<string, string>> {
  const finePrice = { perG: '1.05', typedAt: '2031-05-05T07:00:00Z', source: 'the Monday letter' };
  const metalPrices = { 'sterling-925': { amount: '1.42', per: 'g' }, 'fine-silver-999': { amount: '1.78', per: 'g' } };
  await owner
    .patch('/settings', { finePrice, metalPrices, tax: { rateFraction: 0.2 }, bench: { torch: 'medium' } }, 0)
    .expect(200);
  const lots: Record<string, string> = {};
  for (const { mark, ...grade } of GRADES) {
    const product = await addProduct(owner, { ...grade, name: grade.code, form: 'sheet' });
    lots[grade.code] = (await receiveLot(owner, product.id, { quantityG: 10, markOnMetal: mark })).id;
  }
  return lots;
}

const stockOf = async ({ desk }: TestApp): Promise<Record<string, StockLine>> => {
  const { body } = await desk.get('/stock').expect(200);
  return Object.fromEntries((body.items as StockLine[]).map((line) => [line.code, line]));
};

test('one commission from the wish to the last payment, with a heat that reflows', async () => {
  const app = await startApp();
  const { owner, desk, bench, clock } = app;
  const lots = await aStudio(app);

  // The wish.
  const client = (await desk.post('/clients', { name: 'Millrace', email: 'millrace@example.org' }).expect(201)).body;
  const wish = {
    title: 'Marsh Lantern pendant',
    kind: 'one_off',
    clientId: client.id,
    wish: 'for a green cabochon',
    dueOn: '2031-06-20',
    placeOfSale: 'DE',
  };
  const commission = (await desk.post('/commissions', wish).expect(201)).body;
  expect(commission).toMatchObject({ number: 'C31-001', state: 'asked', clientName: 'Millrace' });
  const at = `/commissions/${commission.id}`;
  await desk.move(at, { from: 'asked', to: 'shaping' }).expect(200);
  expect((await owner.get(at)).body.state).toBe('shaping');

  // The design, and a plan by hand that the check finds fault with.
  const piece = (
    await bench.post('/pieces', { commissionId: commission.id, title: 'Pendant', metal: 'sterling-925' }).expect(201)
  ).body;
  expect(piece.number).toBe('C31-001.1');
  const onPiece = `/pieces/${piece.id}`;
  await bench.put(`${onPiece}/design`, pendant).expect(200).expect('etag', '"1"');
  expect((await desk.get(onPiece)).body.computedG).toBeGreaterThan(5);
  const byHand = {
    heats: [
      ['wall-seam', 'hard-sheet'],
      ['bail-seam', 'hard-sheet'],
      ['bezel', 'medium-sheet'],
      ['bail-on', 'easy-sheet'],
    ].map(([joint, solder]) => ({ joints: [joint], solder })),
  };
  const first = (await bench.post(`${onPiece}/plans`, { plan: byHand }).expect(201)).body;
  expect(first.check.verdict).toBe('problem');
  expect(first.check.problems[0]).toMatchObject({ heat: 4, joint: 'bezel', rule: 'may_run' });
  expect(first.check.problems[0].bestFix.problemsLeft).toBe(0);

  // A better plan is found, proven, and says why.
  const found = (
    await bench.post(`${onPiece}/plans`, { search: { protections: [{ kind: 'flame_away' }, { kind: 'anti_flow' }] } }).expect(201)
  ).body;
  expect(found).toMatchObject({ number: 2, origin: 'found', state: 'draft', search: { outcome: 'optimal' } });
  expect(found.check.problems).toEqual([]);
  expect(found.search.why).toHaveLength(found.plan.heats.length);
  expect((await owner.get(`/plans/${found.id}`)).body.plan).toEqual(found.plan);

  // The price: one quote, inside for the owner, outside for the desk.
  const quote = (await owner.post('/quotes', { commissionId: commission.id }).expect(201)).body;
  expect(quote.gross.amountMinor).toBe(quote.net.amountMinor + quote.tax.amountMinor);
  expect(quote.inside.answer.totals.grossMinor).toBe(quote.gross.amountMinor);
  await owner.move(`/quotes/${quote.id}`, { from: 'sketch', to: 'sent' }).expect(200);
  expect((await desk.get(`/quotes/${quote.id}`)).body).toMatchObject({ state: 'sent', gross: quote.gross, inside: null });
  await owner.move(at, { from: 'shaping', to: 'offered' }).expect(200);
  await desk.move(`/quotes/${quote.id}`, { from: 'sent', to: 'accepted' }).expect(200);
  const early = await desk.move(at, { from: 'offered', to: 'agreed' }).expect(409);
  expect(early.body.type).toBe('/api/v1/problems/condition-not-met');
  const deposit = {
    commissionId: commission.id,
    kind: 'deposit',
    amount: quote.deposit,
    how: 'transfer',
    receivedOn: '2031-05-05',
  };
  await desk.post('/payments', deposit).set('idempotency-key', 'deposit-c31-001').expect(201);
  await desk.post('/payments', deposit).set('idempotency-key', 'deposit-c31-001').expect(201);
  expect((await desk.get(`/payments?commissionId=${commission.id}`)).body.items).toHaveLength(1);

  // Agreed: the solder is held, a tenth more than the plan needs.
  expect((await stockOf(app))['medium-sheet']).toMatchObject({ onHandG: 10, heldG: 0, freeG: 10 });
  await desk.move(at, { from: 'offered', to: 'agreed' }).expect(200);
  const held = (await stockOf(app))['medium-sheet']!;
  expect(held.heldG).toBeGreaterThan(0.01);
  expect(held.freeG).toBeCloseTo(10 - held.heldG, 6);

  // On the bench: the plan in use, metal issued, time running.
  await bench.move(`/plans/${found.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await bench.move(`/plans/${found.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  await bench.move(at, { from: 'agreed', to: 'on_bench' }).expect(200);
  await bench.move(onPiece, { from: 'drawn', to: 'cut', metalIssuedG: 8.2 }).expect(200);
  const timer = (await bench.post('/bench-times', { pieceId: piece.id, operation: 'soldering' }).expect(201)).body;
  const heats = await heatsOf(bench, found.id);
  expect(heats.map(({ number }) => number)).toEqual(heats.map((_, i) => `C31-001.1 H${i + 1}`));
  const onHand = (await stockOf(app))['hard-sheet']!.onHandG;
  await workHeat(bench, heats[0]!.id, lots);
  expect((await owner.get(onPiece)).body).toMatchObject({ state: 'soldering', whereabouts: 'bench' });
  expect((await stockOf(app))['hard-sheet']!.onHandG).toBeLessThan(onHand);

  // The second heat reflows an earlier joint: the piece is hurt, an incident is open.
  const moved = (heats[0] as Heat).joints[0]!;
  await workToLooking(bench, heats[1]!.id, lots);
  clock.advance({ minutes: 50 });
  const incident = { kind: 'reflow', jointId: moved, movedJoints: [moved], note: 'the wall opened at the seam' };
  await bench
    .move(`/heats/${heats[1]!.id}`, { from: 'looking', to: 'spoilt', outcome: 'earlier_joint_moved', incident }, clock.now())
    .expect(200);
  const hurt = (await owner.get(onPiece)).body;
  expect(hurt.state).toBe('hurt');
  expect(hurt.joints.find(({ joint }: { joint: string }) => joint === moved).state).toBe('moved');
  const open = (await owner.get(`/incidents?pieceId=${piece.id}`)).body.items;
  expect(open).toMatchObject([{ kind: 'reflow', state: 'seen', jointId: moved }]);

  // Planned again from what is truly made; the rest is worked to the end.
  const again = (
    await bench
      .post(`${onPiece}/plans`, { search: { targetMarginK: 0, protections: [{ kind: 'anti_flow', maxPerHeat: 2 }] } })
      .expect(201)
  ).body;
  expect(again.number).toBe(3);
  expect(again.plan.heats.flatMap(({ joints }: { joints: string[] }) => joints)).toEqual([moved]);
  await bench.move(`/plans/${again.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await bench.move(`/plans/${again.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  expect((await owner.get(`/plans/${found.id}`)).body.state).toBe('replaced');
  for (const heat of await heatsOf(bench, again.id)) await workHeat(bench, heat.id, lots);
  expect((await owner.get(onPiece)).body.joints.map(({ state }: { state: string }) => state)).toEqual([
    'sound',
    'sound',
    'sound',
    'sound',
  ]);
  await bench.move(onPiece, { from: 'soldering', to: 'built' }).expect(200);
  clock.advance({ minutes: 40 });
  const stopped = await bench.move(`/bench-times/${timer.id}`, { from: 'running', to: 'stopped' }, clock.now()).expect(200);
  expect(stopped.body.minutes).toBe(90);

  // Finished, looked over, weighed, paid, handed over.
  await bench.move(onPiece, { from: 'built', to: 'finishing' }).expect(200);
  await owner
    .move(onPiece, { from: 'finishing', to: 'checked', lookedOver: ['joints', 'surface', 'edges', 'sizes', 'fittings'] })
    .expect(200);
  await owner
    .move(onPiece, { from: 'checked', to: 'ready', weighedG: hurt.computedG, photoTaken: true, labelled: true })
    .expect(200);
  await owner.move(at, { from: 'on_bench', to: 'made' }).expect(200);
  await desk.move(at, { from: 'made', to: 'handed_over' }).expect(409);
  const balance = (await desk.get(at)).body.account.balance;
  await desk
    .post('/payments', { commissionId: commission.id, kind: 'balance', amount: balance, how: 'cash', receivedOn: '2031-05-05' })
    .expect(201);
  await desk.move(at, { from: 'made', to: 'handed_over' }).expect(200);
  await desk.move(onPiece, { from: 'ready', to: 'given' }).expect(200);
  expect((await owner.get(at)).body).toMatchObject({ state: 'handed_over', account: { balance: { amountMinor: 0 } } });

  // The books afterwards: nothing held, the ledger adds up, the reports know what it took.
  for (const line of Object.values(await stockOf(app))) expect(line.heldG).toBe(0);
  expect((await owner.post('/stock/audit').expect(200)).body.findings).toEqual([]);
  const report = (await owner.get('/reports/quote-against-actual?from=2031-05-01&to=2031-05-31').expect(200)).body;
  expect(report.rows).toHaveLength(1);
  expect(JSON.stringify(report.rows[0])).toContain('C31-001');
  const csv = await owner
    .get('/reports/solder-use?from=2031-05-01&to=2031-05-31&format=csv')
    .expect(200)
    .expect('content-type', /^text\/csv/);
  expect(csv.text).toContain('hard-sheet');
  await owner.get('/reports/bench-load').expect(200);
  await owner.get('/reorder-list?all=true').expect(200);
  const lines = (await owner.get(`/journal?thingId=${piece.id}&limit=200`)).body.items as { what: string; person: string }[];
  expect(lines.length).toBeGreaterThan(8);
  expect(new Set(lines.map(({ person }) => person))).toEqual(new Set(['Basalt', 'Flint', 'Tamarisk']));
});

test('a heat is not primed without what it needs', async () => {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const lots = await aStudio(app);
  const client = (await desk.post('/clients', { name: 'Harbour', phone: '+4915112345678' })).body;
  const commission = (await desk.post('/commissions', { title: 'Pendant', kind: 'one_off', clientId: client.id }).expect(201))
    .body;
  const piece = (await bench.post('/pieces', { commissionId: commission.id, title: 'Pendant', metal: 'sterling-925' })).body;
  await bench.put(`/pieces/${piece.id}/design`, pendant).expect(200);
  const plan = (await bench.post(`/pieces/${piece.id}/plans`, { search: {} }).expect(201)).body;
  for (const [from, to] of [
    ['draft', 'checked'],
    ['checked', 'in_use'],
  ] as const)
    await bench.move(`/plans/${plan.id}`, { from, to }).expect(200);
  await owner.move(`/pieces/${piece.id}`, { from: 'drawn', to: 'cut', metalIssuedG: 8 }).expect(200);
  const [heat] = await heatsOf(bench, plan.id);
  const ready = await readiness(bench, heat!.id, lots);
  const refused = await bench.move(`/heats/${heat!.id}`, { ...ready, fluxOn: false, cautionsRead: [] }).expect(409);
  expect(refused.body.type).toBe('/api/v1/problems/condition-not-met');
  expect(JSON.stringify(refused.body)).toMatch(/flux/);
  expect((await bench.get(`/heats/${heat!.id}`)).body.state).toBe('laid_out');
  await bench.move(`/heats/${heat!.id}`, ready).expect(200);
  // What is sent twice with one key is done once.
  const move = { from: 'primed', to: 'alight', occurredAt: '2031-05-05T08:00:00Z', deviceId: 'tablet-1', deviceSeq: 1 };
  const send = () => bench.post(`/heats/${heat!.id}/moves`, move).set('idempotency-key', 'light-heat-1');
  const once = await send().expect(200);
  expect((await send().expect(200)).body).toEqual(once.body);
  expect((await bench.post(`/heats/${heat!.id}/moves`, move).set('idempotency-key', 'light-heat-2').expect(409)).body.type).toBe(
    '/api/v1/problems/moved-on',
  );
});
