import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, planInUse, readiness } from '../support/at-the-bench.ts';
import { pendant, pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

test('nobody gets past the block for cadmium: no role, no confirmation, no reason, no field, no step that comes late', async () => {
  const app = await startApp();
  const { bench, owner, student } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { design: pendant });
  const { heats } = await planInUse(bench, id, { plan: pendantPlan });
  await bench.move(`/pieces/${id}`, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(200);
  const [first, , third] = heats;
  const sound = { from: 'looking', to: 'cleared', outcome: 'flowed', jointsSound: true };
  const work = async (path: string) => {
    await bench.move(path, await readiness(bench, path.slice('/heats/'.length), lots)).expect(200);
    await bench.move(path, { from: 'primed', to: 'alight' }).expect(200);
    await bench.move(path, { from: 'alight', to: 'cooling', seen: 'ran' }).expect(200);
    await bench.move(path, { from: 'cooling', to: 'looking' }).expect(200);
    await bench.move(path, sound).expect(200);
  };
  await work(`/heats/${first!.id}`);
  const paper = { kind: 'laboratory_analysis', reference: 'report 12', datedOn: '2031-05-04', finding: 'yes' };
  await bench.post(`/pieces/${id}/joints/wall-seam/cadmium-documents`, paper).expect(201);
  const path = `/heats/${third!.id}`;
  const ready = await readiness(owner, third!.id, lots);
  const blocked = { type: '/api/v1/problems/cadmium-blocks', jointId: 'wall-seam', cadmiumStanding: 'yes' };
  for (const person of [owner, bench]) {
    const { body } = await person.move(path, ready).expect(409);
    expect(body).toMatchObject(blocked);
  }
  await student.move(path, ready).expect(404);
  const confirmed = await owner
    .move(path, { ...ready, reason: 'I know what I do' })
    .set({ confirm: '/lotId, /cautionsRead, /to', 'confirm-reason': 'I know what I do' })
    .expect(409);
  expect(confirmed.body).toMatchObject(blocked);
  const ticked = await owner.move(path, { ...ready, cautionsRead: [...ready.cautionsRead, 'C5'] }).expect(409);
  expect(ticked.body).toMatchObject(blocked);
  await owner.move(path, { ...ready, override: true }).expect(422);
  const step = {
    do: 'move_heat',
    key: 'step-0001',
    heatId: third!.id,
    occurredAt: '2031-05-05T07:00:00Z',
    deviceId: 'tablet-1',
    deviceSeq: 1,
    ...ready,
  };
  const { body: late } = await owner.post('/bench/steps', { sentAt: '2031-05-05T08:00:00Z', steps: [step] }).expect(200);
  expect(late.answers[0]).toMatchObject({ status: 409, problem: blocked });
  expect((await owner.get(path).expect(200)).body.state).toBe('laid_out');
});
