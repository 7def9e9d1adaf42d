import { expect, test } from 'vitest';
import {
  CLEARED,
  aCutPiece,
  aDrawer,
  aDrawnPiece,
  issueMetal,
  jointStates,
  planInUse,
  readiness,
  workToLooking,
} from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { receiveLot } from '../support/stock.ts';

/** With the path of its first heat. */
async function cutPiece(app: TestApp) {
  const made = await aCutPiece(app);
  return { ...made, path: `/heats/${made.heats[0]!.id}` };
}

test('a heat says what to do, with what, what to expect and what to mind', async () => {
  const app = await startApp();
  const { heats } = await cutPiece(app);
  const heat = (await app.bench.get(`/heats/${heats[3]!.id}`).expect(200).expect('etag', '"1"')).body;
  expect(heat).toMatchObject({
    joints: ['bail-on'],
    partsInFire: ['plate', 'wall', 'bail'],
    product: { code: 'easy', solidusC: 671, liquidusC: 718 },
    lot: null,
    flame: { tiltDeg: 45, awayFrom: 'bezel' },
    expected: { flow: 'flows', timeToFlowS: expect.any(Number) },
    allowedMoves: ['primed', 'skipped'],
  });
  expect(heat.protections).toHaveLength(3);
  expect(heat.placed).toEqual([{ joint: 'bail-on', placedG: heat.plannedG, chips: 1 }]);
  expect(heat.expected.earlierJoints.map(({ joint }: { joint: string }) => joint).sort()).toEqual([
    'bail-seam',
    'bezel',
    'wall-seam',
  ]);
  const ids = heat.cautions.map(({ id }: { id: string }) => id);
  // Tweezers are steel; nothing here is hollow or shy of heat.
  expect(ids).toEqual(expect.arrayContaining(['C1', 'C2', 'C12', 'C14']));
  expect(ids).not.toEqual(expect.arrayContaining(['C8']));
});

test('a heat is primed only when all is ready, and what is missing is told at once', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots, piece, heats, path } = await cutPiece(app);
  const bare = await bench.move(path, { from: 'laid_out', to: 'primed' }).expect(409);
  expect(bare.body.type).toBe('/api/v1/problems/condition-not-met');
  expect(bare.body.missing).toEqual([
    expect.stringContaining('jointFitted'),
    expect.stringContaining('fluxOn'),
    // The plan has no protections in this heat.
    expect.stringMatching(/read the cautions C1, C2, .*C20/),
    expect.stringContaining('lotId'),
  ]);
  const wrongLot = { ...(await readiness(bench, heats[0]!.id, lots)), lotId: lots['easy'] };
  expect((await bench.move(path, wrongLot).expect(409)).body.detail).toContain('this heat asks for hard wire');
  const early = await bench.move(`/heats/${heats[2]!.id}`, await readiness(bench, heats[2]!.id, lots)).expect(409);
  expect(early.body.missing).toEqual(['joint wall-seam is open: the plan has it made before']);
  const shielded = await bench.move(`/heats/${heats[3]!.id}`, { from: 'laid_out', to: 'primed' }).expect(409);
  expect(shielded.body.missing).toContain('the protections are not in place (protectionsPlaced)');
  expect((await bench.get(`/pieces/${piece.id}`)).body.state).toBe('cut');

  const primed = await bench.move(path, await readiness(bench, heats[0]!.id, lots)).expect(200);
  expect(primed.body).toMatchObject({
    state: 'primed',
    lot: { id: lots['hard'], markOnMetal: 'H' },
    readiness: { fluxOn: true },
  });
  expect(await jointStates(bench, piece.id)).toMatchObject({ 'wall-seam': 'placed' });
  expect((await bench.get(`/pieces/${piece.id}`)).body.state).toBe('soldering');
  const back = await bench.move(path, { from: 'primed', to: 'laid_out' }).expect(200);
  expect(back.body).toMatchObject({ state: 'laid_out', lot: null, readiness: null });
  expect(await jointStates(bench, piece.id)).toMatchObject({ 'wall-seam': 'open' });
});

test('cautions read once a day or once a person are not asked for again, those for every heat are', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots, heats, path } = await cutPiece(app);
  await bench.move(path, await readiness(bench, heats[0]!.id, lots)).expect(200);
  const due = async () => {
    const { cautions } = (await bench.get(`/heats/${heats[1]!.id}`).expect(200)).body;
    return (cautions as { id: string; due: boolean }[]).filter((caution) => caution.due).map(({ id }) => id);
  };
  expect(await due()).toEqual(['C3', 'C12']);
  app.clock.advance({ days: 1 });
  expect(await due()).toEqual(expect.arrayContaining(['C1', 'C2', 'C3', 'C11', 'C12', 'C20']));
  expect(await due()).not.toEqual(expect.arrayContaining(['C4']));
});

test('one flame burns at a bench at a time, and a false start goes back to primed', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots, heats, path } = await cutPiece(app);
  const other = `/heats/${heats[1]!.id}`;
  await bench.move(path, await readiness(bench, heats[0]!.id, lots)).expect(200);
  await bench.move(other, await readiness(bench, heats[1]!.id, lots)).expect(200);
  const lit = await bench.move(path, { from: 'primed', to: 'alight' }, '2031-05-05T08:00:00Z').expect(200);
  // Kept to the millisecond, so that moments compare as text.
  expect(lit.body.alightAt).toBe('2031-05-05T08:00:00.000Z');
  for (const person of [bench, owner]) {
    const refused = await person.move(other, { from: 'primed', to: 'alight' }).expect(409);
    expect(refused.body.missing).toEqual([expect.stringMatching(/H1 is alight/)]);
  }
  await bench.move(path, { from: 'alight', to: 'primed' }).expect(409);
  const back = await bench.move(path, { from: 'alight', to: 'primed', nothingFlowed: true }).expect(200);
  expect(back.body).toMatchObject({ state: 'primed', alightAt: null });
  await bench.move(other, { from: 'primed', to: 'alight' }).expect(200);
  const unsaid = await bench.move(other, { from: 'alight', to: 'cooling' }).expect(409);
  expect(unsaid.body.missing).toEqual(['say in a word what was seen (seen)']);
  await bench.move(other, { from: 'alight', to: 'cooling', seen: 'bright' }).expect(200);
  const iron = await bench.move(other, { from: 'cooling', to: 'in_pickle', blackHeat: false, ironOff: false }).expect(409);
  expect(iron.body.missing).toEqual([expect.stringContaining('wait for black heat'), 'take the iron off (ironOff)']);
});

test('cadmium in the lot or in doubt blocks the heat for everyone, at priming and again at lighting', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots, products, heats, path } = await cutPiece(app);
  const doubtful = await receiveLot(owner, products['hard']!, { cadmiumStanding: 'unknown' });
  const ready = await readiness(bench, heats[0]!.id, lots);
  for (const person of [bench, owner]) {
    const blocked = await person.move(path, { ...ready, lotId: doubtful.id }).expect(409);
    expect(blocked.body.type).toBe('/api/v1/problems/cadmium-blocks');
  }
  await bench.move(path, ready).expect(200);
  const held = { from: 'sealed', to: 'held_back', reason: 'the packet does not say', cadmiumStanding: 'unknown' };
  await bench.move(`/solder-lots/${lots['hard']}`, held).expect(200);
  expect((await bench.move(path, { from: 'primed', to: 'alight' }).expect(409)).body.type).toBe(
    '/api/v1/problems/cadmium-blocks',
  );
  expect((await bench.get(path)).body.state).toBe('primed');
});

test('a lot that holds too little is refused, with the lots that hold enough', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots, products, heats, path } = await cutPiece(app);
  const full = await receiveLot(owner, products['hard']!, { quantityG: 2 });
  const ready = await readiness(bench, heats[0]!.id, lots);
  await bench
    .post('/stock-movements', { kind: 'use', lotId: lots['hard'], quantityG: 5.02, reason: 'a trial on scrap' })
    .expect(201);
  const refused = await bench.move(path, ready).expect(409);
  expect(refused.body).toMatchObject({ type: '/api/v1/problems/solder-lot-short', offers: [{ lotId: full.id, onHandG: 2 }] });
});

test('a step whose state no longer holds is told what holds, and a step sent twice counts once', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots, piece, heats, path } = await cutPiece(app);
  await workToLooking(bench, heats[0]!.id, lots);
  const stale = await bench.move(path, { from: 'alight', to: 'cooling', seen: 'bright' }).expect(409);
  expect(stale.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'looking', allowed: ['cleared', 'spoilt'] });
  const step = { occurredAt: '2031-05-05T08:00:00Z', deviceId: 'tablet-1', deviceSeq: 9000, ...CLEARED };
  const send = () => bench.post(`${path}/moves`, step).set('idempotency-key', 'clear-the-seam');
  const once = (await send().expect(200)).body;
  const twice = (await send().expect(200)).body;
  expect(twice).toEqual(once);
  await bench
    .post(`${path}/moves`, { ...step, usedG: 0.5 })
    .set('idempotency-key', 'clear-the-seam')
    .expect(422);
  const uses = (await owner.get('/stock-movements')).body.items.filter(({ kind }: { kind: string }) => kind === 'use');
  expect(uses).toHaveLength(1);
  expect((await bench.get(`/pieces/${piece.id}`)).body.solderHistory).toHaveLength(1);
  await bench.post(`${path}/moves`, step).expect(422);
});

test('a student lights no heat without a tutor’s yes to it', async () => {
  const app = await startApp();
  const { student, bench, owner } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const draft = (await student.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201)).body;
  expect(draft).toMatchObject({ byStudent: true, signedBy: null, allowedMoves: ['checked'] });
  const path = `/plans/${draft.id}`;
  await student.move(path, { from: 'draft', to: 'checked' }).expect(200);
  const unsigned = await bench.move(path, { from: 'checked', to: 'in_use' }).expect(409);
  expect(unsigned.body.missing).toEqual([expect.stringContaining('a tutor signs it first')]);
  await bench.move(path, { from: 'checked', to: 'signed' }).expect(403);
  await owner.move(path, { from: 'checked', to: 'signed' }).expect(200);
  await student.move(path, { from: 'signed', to: 'in_use' }).expect(403);
  await bench.move(path, { from: 'signed', to: 'in_use' }).expect(200);
  await issueMetal(bench, piece.id);
  const heats = (await student.get(`/heats?planId=${draft.id}`)).body.items;
  await owner.post(`/heats/${heats[3].id}/tutors-yes`, { studentId: app.actors.student.personId, yes: true }).expect(200);
  await workToLooking(student, heats[3].id, lots);
  await student.move(`/heats/${heats[3].id}`, CLEARED).expect(200);

  // Of another heat nobody said so.
  const next = await student.move(`/heats/${heats[2].id}`, await readiness(student, heats[2].id, lots)).expect(409);
  expect(next.body.missing).toEqual([expect.stringContaining('tutor’s yes')]);
  const other = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const { heats: notTheirs } = await planInUse(bench, other.id);
  await issueMetal(bench, other.id);
  const refused = await student.move(`/heats/${notTheirs[0]!.id}`, await readiness(student, notTheirs[0]!.id, lots)).expect(409);
  expect(refused.body.missing).toEqual([expect.stringContaining('tutor’s yes')]);
});
