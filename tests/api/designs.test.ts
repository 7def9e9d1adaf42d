import { expect, test } from 'vitest';
import { links } from '../../seed/larger-designs.ts';
import { aDrawer, aDrawnPiece, issueMetal, jointStates, planInUse, readiness, workHeat } from '../support/at-the-bench.ts';
import { pendant, pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

const thicker = {
  ...pendant,
  parts: pendant.parts.map((part) =>
    part.id === 'plate' ? { ...part, form: { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 1.02 } } : part,
  ),
};

test('PUT design keeps versions, and what was typed in another unit', async () => {
  const app = await startApp();
  const { bench, student } = app;
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}/design`;
  const first = await bench.get(path).expect(200).expect('etag', '"1"');
  expect(first.body).toMatchObject({
    number: 1,
    parts: pendant.parts,
    joints: pendant.joints,
    rules: pendant.rules,
    entered: {},
  });
  const entered = { '/parts/0/form/thicknessMm': '18 ga' };
  expect((await bench.put(path, { ...thicker, entered }).expect(428)).body.type).toBe('/api/v1/problems/if-match-missing');
  const second = await bench
    .put(path, { ...thicker, entered }, 1)
    .expect(200)
    .expect('etag', '"2"');
  expect(second.body).toMatchObject({ number: 2, entered });
  expect((await bench.put(path, pendant, 1).expect(412)).body).toMatchObject({ type: '/api/v1/problems/stale', version: 2 });
  await student.put(path, pendant, 2).expect(403);
  expect((await bench.get(path)).body).toEqual(second.body);
});

test('a design comes back with what merely touches, so that it can be sent again as it came', async () => {
  const app = await startApp();
  const { id } = await aDrawnPiece(app, { design: links });
  const { contacts } = (await app.bench.get(`/pieces/${id}/design`).expect(200)).body;
  expect(contacts).toEqual(links.contacts);
});

test('PUT design tells every fault at once, of shape and of sense', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aDrawnPiece(app);
  const wrong = {
    parts: [
      { id: 'plate', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 } },
      { id: 'plate', metal: 'moonmetal', form: { kind: 'ball', diameterMm: 2 } },
      { id: 'tube', metal: 'sterling-925', form: { kind: 'tube', lengthMm: 5, outsideDiameterMm: 4, insideDiameterMm: 5 } },
    ],
    joints: [
      { id: 'a', kind: 'post', between: [{ part: 'plate' }, { part: 'nothing' }], diameterMm: 1, gapMm: 0.05 },
      { id: 'b', kind: 'post', between: [{ part: 'plate' }, { part: 'tube' }], diameterMm: 1, gapMm: 0.05 },
    ],
    rules: {
      before: [
        ['a', 'b'],
        ['b', 'a'],
      ],
      sameHeat: [['a', 'c']],
    },
  };
  const refused = await bench.put(`/pieces/${id}/design`, wrong, 1).expect(422);
  const errors = refused.body.errors as { pointer: string; detail: string }[];
  expect(errors.map(({ pointer }) => pointer)).toEqual([
    '/parts/1/metal',
    '/parts/1/id',
    '/parts/2/form',
    '/joints/0/between/1/part',
    '/rules/sameHeat/0/1',
    '/rules/before',
  ]);
  expect(errors.at(-1)!.detail).toBe('a before b before a: the order runs in a circle');
  for (const hostile of [[], null, { parts: 'none' }, { ...pendant, parts: [{ id: 'x', metal: 7, form: { kind: 'cube' } }] }]) {
    const answer = await bench.put(`/pieces/${id}/design`, hostile as object, 1);
    expect(answer.status).toBe(422);
  }
  expect((await bench.get(`/pieces/${id}/design`)).body.number).toBe(1);
});

test('an 18 for a thickness is refused with the gauge it may have been, and a thin gap is asked about once', async () => {
  const app = await startApp();
  const { bench } = app;
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}/design`;
  const [plate, ...parts] = pendant.parts;
  const asked = { ...pendant, parts: [{ ...plate!, form: { ...plate!.form, thicknessMm: 18 } }, ...parts] };
  const refused = await bench.put(path, asked, 1).expect(422);
  expect(refused.body.errors).toEqual([
    expect.objectContaining({ pointer: '/parts/0/form/thicknessMm', confirmable: true, perhaps: expect.closeTo(1.024, 2) }),
  ]);
  await bench.put(path, asked, 1).set('confirm', '/parts/0/form/thicknessMm').set('confirm-reason', 'a paperweight').expect(200);
  // What is kept already is not asked about again.
  await bench.put(path, { ...asked, rules: {} }, 2).expect(200);
});

test('a changed design makes its plans stale, and after the first flame it stands', async () => {
  const app = await startApp();
  const { bench } = app;
  const { lots } = await aDrawer(app);
  const { id } = await aDrawnPiece(app);
  const path = `/pieces/${id}/design`;
  const { plan, heats } = await planInUse(bench, id);
  const draft = (await bench.post(`/pieces/${id}/plans`, { plan: pendantPlan }).expect(201)).body;
  await issueMetal(bench, id);
  await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(200);
  expect((await bench.put(path, thicker, 1).expect(409)).body.detail).toContain('H1 is primed');
  await bench.move(`/heats/${heats[0]!.id}`, { from: 'primed', to: 'laid_out' }).expect(200);
  await bench.put(path, thicker, 1).expect(200);

  expect((await bench.get(`/plans/${plan.id}`)).body).toMatchObject({ isCurrent: false, designNumber: 1 });
  const stale = await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(409);
  expect(stale.body.missing).toEqual(['the design has changed since its plan: plan again']);
  expect((await bench.move(`/plans/${draft.id}`, { from: 'draft', to: 'checked' }).expect(409)).body.missing[0]).toContain(
    'plan again',
  );
  // A draft follows the design when it is checked again.
  const again = await bench.post(`/plans/${draft.id}/check`).expect(200);
  expect(again.body).toMatchObject({ isCurrent: true, designNumber: 2 });
  await bench.move(`/plans/${draft.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await bench.move(`/plans/${draft.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  const [first] = (await bench.get(`/heats?planId=${draft.id}`)).body.items.toReversed();
  await workHeat(bench, first.id, lots);
  const refused = await bench.put(path, pendant, 2).expect(409);
  expect(refused.body).toMatchObject({ type: '/api/v1/problems/condition-not-met', detail: expect.stringContaining('alight') });
});

test('counted joints are kept copy by copy, and a joint that exists comes sound, or doubtful where its solder is unknown', async () => {
  const app = await startApp();
  const { bench } = app;
  const grains = {
    parts: [
      { id: 'plate', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 20, thicknessMm: 1 } },
      { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 }, count: 3 },
      { id: 'pin', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 12, diameterMm: 0.9 } },
    ],
    joints: [
      {
        id: 'set',
        kind: 'granule',
        count: 3,
        between: [{ part: 'plate', xMm: 5, yMm: 0 }, { part: 'grain' }],
        diameterMm: 2,
        neckRadiusMm: 0.4,
        gapMm: 0.05,
      },
      {
        id: 'pinned',
        kind: 'post',
        between: [
          { part: 'plate', xMm: -5, yMm: 0 },
          { part: 'pin', alongMm: 0 },
        ],
        diameterMm: 0.9,
        gapMm: 0.05,
        made: { solder: 'unknown' },
      },
    ],
  };
  const { id } = await aDrawnPiece(app, { kind: 'repair', design: grains });
  expect(await jointStates(bench, id)).toEqual({ pinned: 'doubtful', 'set.1': 'open', 'set.2': 'open', 'set.3': 'open' });
  const said = structuredClone(grains);
  Object.assign(said.joints[1]!, { made: { solder: 'unknown', cadmiumStanding: 'no' } });
  const refused = await bench.put(`/pieces/${id}/design`, said, 1).expect(422);
  expect(refused.body.errors[0]).toMatchObject({ pointer: '/joints/1/made/cadmiumStanding', given: 'no' });
});
