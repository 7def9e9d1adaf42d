import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, jointStates, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp } from '../support/start-app.ts';

/** An old brooch: its pin holds by a solder nobody knows, and a loop is to be added. */
const brooch = {
  parts: [
    { id: 'plate', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 40, widthMm: 25, thicknessMm: 1 } },
    { id: 'pin', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 12, diameterMm: 0.9 } },
    { id: 'loop', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 } },
  ],
  joints: [
    {
      id: 'pinned',
      kind: 'post',
      between: [
        { part: 'plate', xMm: 5, yMm: 5 },
        { part: 'pin', alongMm: 0 },
      ],
      diameterMm: 0.9,
      gapMm: 0.05,
      made: { solder: 'unknown' },
    },
    {
      id: 'loop-on',
      kind: 'tee',
      between: [
        { part: 'plate', xMm: 35, yMm: 25 },
        { part: 'loop', alongMm: 0 },
      ],
      lengthMm: 1.2,
      thicknessMm: 1.2,
      gapMm: 0.05,
    },
  ],
};
const plan = { heats: [{ joints: ['loop-on'], solder: 'easy' }] };
const paper = { kind: 'laboratory_analysis', reference: 'report 88 in the red folder', datedOn: '2031-05-04' };

test('a joint of unknown solder is in no fire until a document says that it holds no cadmium', async () => {
  const app = await startApp();
  const { bench, desk } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app, { kind: 'repair', design: brooch });
  const refused = await bench.post(`/pieces/${id}/plans`, { plan }).expect(422);
  expect(refused.body.errors[0].detail).toContain('cadmium standing is unknown');
  const found = await bench.post(`/pieces/${id}/plans`, { search: {} }).expect(409);
  expect(found.body).toMatchObject({ type: '/api/v1/problems/cadmium-blocks', jointId: 'pinned', cadmiumStanding: 'unknown' });
  expect(found.body.detail).toContain('decline the work');

  const documents = `/pieces/${id}/joints/pinned/cadmium-documents`;
  await desk.post(documents, { ...paper, finding: 'no' }).expect(403);
  await bench.post(documents, { ...paper, kind: 'bench_test', finding: 'no' }).expect(422);
  const early = await bench.post(documents, { ...paper, datedOn: '2032-05-04', finding: 'no' }).expect(422);
  expect(early.body.errors).toMatchObject([{ pointer: '/datedOn', given: '2032-05-04' }]);
  const settled = await bench.post(documents, { ...paper, finding: 'no' }).expect(201);
  expect(settled.body).toMatchObject({
    cadmiumStanding: 'no',
    cadmiumDocument: { ...paper, personId: expect.any(String) },
    state: 'doubtful',
  });

  const { heats } = await planInUse(bench, id, { plan });
  await bench.move(`/pieces/${id}`, { from: 'drawn', to: 'cut' }).expect(200);
  // A newer document blocks again, also a heat that was laid out.
  await bench.post(documents, { ...paper, finding: 'yes' }).expect(201);
  const ready = await readiness(bench, heats[0]!.id, lots);
  const blocked = await bench.move(`/heats/${heats[0]!.id}`, ready).expect(409);
  expect(blocked.body).toMatchObject({ type: '/api/v1/problems/cadmium-blocks', cadmiumStanding: 'yes' });
  const shown = (await bench.get(`/heats/${heats[0]!.id}`)).body.cautions as { id: string; tick: string; due: boolean }[];
  expect(shown.find(({ id: caution }) => caution === 'C5')).toMatchObject({ tick: 'blocks', due: false });
  await bench.post(documents, { ...paper, finding: 'no' }).expect(201);
  const again = await readiness(bench, heats[0]!.id, lots);
  const untested = await bench.move(`/heats/${heats[0]!.id}`, again).expect(409);
  expect(untested.body.missing).toEqual([expect.stringContaining('nobody knows the solder of pinned')]);
  const tests = 'scraped bright, no grey smear';
  await bench.move(`/heats/${heats[0]!.id}`, { ...again, unknownSolder: { tests, clientsYes: false } }).expect(409);
  const primed = await bench.move(`/heats/${heats[0]!.id}`, { ...again, unknownSolder: { tests, clientsYes: true } }).expect(200);
  expect(primed.body.readiness.unknownSolder).toEqual({ tests, clientsYes: true });
});

test('a repair is cut without metal of ours, and comes as a made piece when every joint exists', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { id } = await aDrawnPiece(app, { kind: 'repair', design: brooch });
  const path = `/pieces/${id}`;
  const open = await bench.move(path, { from: 'drawn', to: 'built' }).expect(409);
  expect(open.body.missing).toEqual(['joint loop-on is open']);
  await bench.put(`${path}/design`, { ...brooch, joints: brooch.joints.slice(0, 1) }, 1).expect(200);
  await bench.move(path, { from: 'drawn', to: 'built' }).expect(200);
  expect(await jointStates(owner, id)).toEqual({ pinned: 'doubtful' });
  const unopened = { from: 'doubtful', to: 'sound', lookedAt: true };
  await bench.move(`${path}/joints/pinned`, unopened).expect(200);
  const opened = await bench.move(`${path}/joints/pinned`, { from: 'sound', to: 'open', reason: 'the pin is bent' }).expect(409);
  expect(opened.body.missing).toEqual([expect.stringContaining('past soldering')]);
  await bench.move(`${path}/joints/none`, unopened).expect(404);
  const other = await aDrawnPiece(app);
  const refused = await bench.move(`/pieces/${other.id}`, { from: 'drawn', to: 'built' }).expect(409);
  expect(refused.body.missing).toEqual(['only a repair comes as a made piece']);
});
