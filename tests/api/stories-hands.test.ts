import { expect, test } from 'vitest';
import { pendant } from '../../seed/designs.ts';
import { aDrawer, aDrawnPiece, heatsOf, workHeat } from '../support/at-the-bench.ts';
import { typePrices } from '../support/a-quote.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

test('two people at one plan: the later is told heat by heat in what the two differ, and nothing is lost', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const draft = (await bench.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201)).body;
  const path = `/plans/${draft.id}`;
  const [wall, bail, bezel, last] = pendantPlan.heats;
  // Both have read version 1. One puts the bail's seam first; the other makes the bezel with easy solder and leaves the flame upright.
  const theirs = { plan: { heats: [bail, wall, bezel, last] } };
  const yours = { plan: { heats: [wall, bail, { ...bezel, solder: 'easy' }, { joints: ['bail-on'], solder: 'easy' }] } };
  await owner.put(path, theirs).expect(428);
  const written = (await owner.put(path, theirs, 1).expect(200).expect('etag', '"2"')).body;
  expect(written).toMatchObject({ version: 2, origin: 'by_hand', state: 'draft' });
  expect(written.check.heats[0].joints).toEqual(['bail-seam']);

  const late = await bench
    .put(path, yours, 1)
    .expect(412)
    .expect('content-type', /^application\/problem\+json/);
  expect(late.body).toMatchObject({ type: '/api/v1/problems/stale', version: 2, changedBy: 'Flint', theirs: written.plan });
  expect(late.body.difference.map(({ fields, says }: { fields: string[]; says: string }) => [fields, says])).toEqual([
    [['heat'], 'wall-seam: heat 1 in yours, 2 in theirs'],
    [['heat'], 'bail-seam: heat 2 in yours, 1 in theirs'],
    [['solder'], 'bezel: easy in yours, medium in theirs'],
    [['flame', 'protections'], 'bail-on: another flame; another set of protections'],
  ]);
  expect(late.body.difference[2]).toMatchObject({ yours: { heat: 3, solder: 'easy' }, theirs: { heat: 3, solder: 'medium' } });
  expect((await bench.get(path)).body.plan).toEqual(written.plan);

  // What the later wrote is in the answer, ready to be kept beside or written over.
  interface Way {
    says: string;
    path: string;
    body: object;
    headers?: Record<string, string>;
  }
  const [beside, over] = late.body.waysOn as Way[];
  const kept = (await bench.post(beside!.path.replace('/api/v1', ''), beside!.body).expect(201)).body;
  expect(kept).toMatchObject({ number: 2, state: 'draft' });
  const put = await bench.put(over!.path.replace('/api/v1', ''), over!.body).set(over!.headers!).expect(200);
  expect(put.body.plan).toEqual(kept.plan);
  expect(put.body.version).toBe(3);

  // Once it is checked it never changes.
  await bench.move(path, { from: 'draft', to: 'checked' }).expect(200);
  expect((await bench.put(path, yours, 4).expect(409)).body.missing[0]).toContain('it never changes after draft');
});

test('a plan that students have guessed is not written over', async () => {
  const app = await startApp();
  const { bench, student } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const draft = (await student.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201)).body;
  const own = (await student.put(`/plans/${draft.id}`, { plan: pendantPlan }, 1).expect(200)).body;
  expect(own.check.heats[2]).toMatchObject({ earlierJoints: [], guessFirst: ['wall-seam'] });
  const guesses = [{ joint: 'wall-seam', guess: 'solid' }];
  await student.post(`/plans/${draft.id}/guesses`, { heat: 3, guesses }).expect(201);
  for (const person of [student, bench])
    expect((await person.put(`/plans/${draft.id}`, { plan: pendantPlan }, 2).expect(409)).body.missing[0]).toContain(
      'students have guessed',
    );
});

test('one person alone does the whole job, from the wish to the money', async () => {
  const app = await startApp();
  const { owner, clock } = app;
  const { lots } = await aDrawer(app);
  await typePrices(app);
  const made = async (path: string, body: object) => (await owner.post(path, body).expect(201)).body;
  const client = await made('/clients', { name: 'Harbour', email: 'harbour@example.org' });
  const wish = {
    title: 'Pendant',
    kind: 'one_off',
    clientId: client.id,
    wish: 'as the last one',
    dueOn: '2031-06-20',
    placeOfSale: 'DE',
  };
  const commission = await made('/commissions', wish);
  const at = `/commissions/${commission.id}`;
  const go = (path: string, body: { from: string; to: string; [more: string]: unknown }) =>
    owner.move(path, body, clock.now()).expect(200);
  await go(at, { from: 'asked', to: 'shaping' });
  const piece = await made('/pieces', { commissionId: commission.id, title: 'Pendant', metal: 'sterling-925' });
  const onPiece = `/pieces/${piece.id}`;
  // The demo's pendant names no grades of the drawer.
  const joints = pendant.joints.map(({ solder: _solder, pieces: _pieces, ...joint }) => joint);
  await owner.put(`${onPiece}/design`, { ...pendant, joints }).expect(200);
  const plan = await made(`${onPiece}/plans`, { plan: pendantPlan });
  const quote = await made('/quotes', { commissionId: commission.id });
  await go(`/quotes/${quote.id}`, { from: 'sketch', to: 'sent' });
  await go(at, { from: 'shaping', to: 'offered' });
  await go(`/quotes/${quote.id}`, { from: 'sent', to: 'accepted' });
  await made('/payments', { commissionId: commission.id, kind: 'deposit', amount: quote.deposit, how: 'cash' });
  await go(at, { from: 'offered', to: 'agreed' });
  await go(`/plans/${plan.id}`, { from: 'draft', to: 'checked' });
  await go(`/plans/${plan.id}`, { from: 'checked', to: 'in_use' });
  await go(at, { from: 'agreed', to: 'on_bench' });
  await go(onPiece, { from: 'drawn', to: 'cut', metalIssuedG: 8 });
  const timer = await made('/bench-times', { pieceId: piece.id, operation: 'soldering' });
  for (const heat of await heatsOf(owner, plan.id)) await workHeat(owner, heat.id, lots);
  clock.advance({ minutes: 80 });
  await go(`/bench-times/${timer.id}`, { from: 'running', to: 'stopped' });
  await go(onPiece, { from: 'soldering', to: 'built' });
  await go(onPiece, { from: 'built', to: 'finishing' });
  // Where another hand works here too, the maker's own eyes are not enough; alone they have to be.
  const lookedOver = ['joints', 'surface', 'edges', 'sizes', 'fittings'];
  const own = await owner.move(onPiece, { from: 'finishing', to: 'checked', lookedOver }, clock.now()).expect(409);
  expect(own.body.missing).toEqual([expect.stringContaining('let another hand look it over')]);
  const { items: people } = (await owner.get('/people').expect(200)).body;
  const { id, version } = people.find(({ name }: { name: string }) => name === 'Basalt');
  await owner.patch(`/people/${id}`, { active: false }, version).expect(200);
  await go(onPiece, { from: 'finishing', to: 'checked', lookedOver });
  const { computedG } = (await owner.get(onPiece)).body;
  await go(onPiece, { from: 'checked', to: 'ready', weighedG: computedG, photoTaken: true, labelled: true });
  await go(at, { from: 'on_bench', to: 'made' });
  const { balance } = (await owner.get(at)).body.account;
  await made('/payments', { commissionId: commission.id, kind: 'balance', amount: balance, how: 'transfer' });
  await go(at, { from: 'made', to: 'handed_over' });
  await go(onPiece, { from: 'ready', to: 'given' });
  expect((await owner.get(at)).body).toMatchObject({ state: 'handed_over', account: { balance: { amountMinor: 0 } } });
  const lines = (await owner.get(`/journal?thingId=${piece.id}&limit=200`)).body.items as { person: string }[];
  expect(new Set(lines.map(({ person }) => person))).toEqual(new Set(['Flint']));
});
