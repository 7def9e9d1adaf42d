import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { aPricedPendant, typePrices } from '../support/a-quote.ts';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { pendant, pendantPlan } from '../support/pendant.ts';
import { startApp } from '../support/start-app.ts';

interface Line {
  group: string;
  label: string;
  amountMinor: number;
}

const amountOf = (lines: Line[], label: string) => lines.find((line) => line.label === label)?.amountMinor;

test('POST /estimates makes its request from design, plan, settings and stock', async () => {
  const app = await startApp();
  const { pieceId } = await aPricedPendant(app);
  const made = await app.owner.post('/estimates', { pieceId }).expect(200);
  const { request, answer } = made.body;
  expect(request.metals).toEqual([
    { id: 'sterling-925', densityGPerCm3: 10.36, fineness: 0.925, price: { amount: '1.42', per: 'g' } },
    { id: 'fine-silver-999', densityGPerCm3: 10.49, fineness: 0.999, price: { amount: '46.00', per: 'ozt' } },
  ]);
  expect(request.solders.map(({ id, price }: { id: string; price: unknown }) => [id, price])).toEqual([
    ['hard', { amount: '1.85', per: 'g' }],
    ['medium', { amount: '1.85', per: 'g' }],
    ['easy', { amount: '1.85', per: 'g' }],
  ]);
  // Every target is brought 10 K over the liquidus of its solder, but stays 5 K under the solidus of sterling, 802 °C.
  expect(request.heats).toEqual([
    { joints: ['wall-seam'], parts: ['wall'], peakC: 798 },
    { joints: ['bail-seam'], parts: ['bail'], peakC: 797 },
    { joints: ['bezel'], parts: ['plate', 'wall'], peakC: 748 },
    { joints: ['bail-on'], parts: ['plate', 'wall', 'bail'], peakC: 728 },
  ]);
  expect(request.labour).toContainEqual({ operation: 'heats, set up to cool', role: 'bench', minutes: 32, factor: 1.25 });
  expect(request.policy).toMatchObject({ finePricePerG: '1.05', profit: { marginFraction: 0.4 }, depositFraction: 0.5 });

  // Plate 30 × 20 × 0.8 mm and a ring of 1.2 mm wire, 4 mm inside, of 10.36 g/cm³, issued at 1.35 of net: 5.250 g, 7.09 + …
  const sterlingG = (30 * 20 * 0.8 + (Math.PI / 4) * 1.2 ** 2 * Math.PI * 5.2) * 0.01036;
  expect(amountOf(answer.lines, 'metal sterling-925')).toBe(Math.round(sterlingG * 1.35 * 142));
  const fineG = Math.PI * 10.35 * 3 * 0.35 * 0.01049;
  expect(amountOf(answer.lines, 'metal fine-silver-999')).toBe(Math.round(((fineG * 1.35) / 31.1034768) * 4600));
  const { netMinor, taxMinor, grossMinor, profitMinor } = answer.totals;
  expect(netMinor + taxMinor).toBe(grossMinor);
  expect(made.body.profit.marginFraction).toBeCloseTo(profitMinor / netMinor, 4);
  expect(made.body.profit.markupFraction).toBeCloseTo(profitMinor / (netMinor - profitMinor), 4);
  expect(made.body.assumes).toEqual([]);

  // What it was made from is itself a request, with the same answer.
  const again = await app.owner.post('/calculations/estimate', request).expect(200);
  expect(again.body).toEqual(answer);
  expect((await app.owner.get('/quotes').expect(200)).body.items).toEqual([]);
});

test('POST /estimates takes every number by hand: a whole request gives the amounts of the worked quote', async () => {
  const { owner, desk } = await startApp();
  const file = readFileSync(new URL('../reference/estimate-cases.json', import.meta.url), 'utf8');
  const [pendantCase] = (JSON.parse(file) as { cases: { request: object; expected: { lines: Line[]; totals: object } }[] }).cases;
  const commission = await aCommission(desk);
  const answered = await owner.post('/estimates', { commissionId: commission.id, overrides: pendantCase!.request }).expect(200);
  expect(answered.body.answer.lines).toEqual(pendantCase!.expected.lines);
  expect(answered.body.answer.totals).toEqual(pendantCase!.expected.totals);
});

test('POST /estimates names every price that is missing, all at once', async () => {
  const app = await startApp();
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const foreign = { id: 'no-product', solidusC: 740, liquidusC: 788 };
  const heats = pendantPlan.heats.map((heat) => ({ ...heat, solder: 'no-product' }));
  await app.bench.put(`/pieces/${piece.id}/design`, { ...pendant, rules: {} }, 1).expect(200);
  await app.bench.post(`/pieces/${piece.id}/plans`, { plan: { heats }, solders: [foreign] }).expect(201);
  const refused = await app.owner.post('/estimates', { pieceId: piece.id }).expect(409);
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    missing: ['fine silver', 'metal sterling-925', 'metal fine-silver-999', 'solder no-product'],
  });
  await typePrices(app);
  const left = await app.owner.post('/estimates', { pieceId: piece.id }).expect(409);
  expect(left.body.missing).toEqual(['solder no-product']);
});

test('POST /estimates says which design and plan are missing', async () => {
  const app = await startApp();
  await typePrices(app);
  await aDrawer(app);
  const { id: commissionId, number } = await aCommission(app.desk);
  const missing = async () => (await app.owner.post('/estimates', { commissionId }).expect(409)).body.missing;
  expect(await missing()).toEqual(['there is no piece yet']);
  const piece = (await app.bench.post('/pieces', { commissionId, title: 'Pendant', metal: 'sterling-925' }).expect(201)).body;
  expect(await missing()).toEqual([`${number}.1 has no design`]);
  await app.bench.put(`/pieces/${piece.id}/design`, pendant).expect(200);
  expect(await missing()).toEqual([`${number}.1 has no plan`]);
  await app.bench.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201);
  await app.owner.post('/estimates', { commissionId }).expect(200);
  // A joint drawn since is in no heat.
  const more = { ...pendant.joints[2], id: 'second-ring', closes: 'ring' };
  const ring = { ...pendant.parts[2], id: 'ring' };
  await app.bench
    .put(`/pieces/${piece.id}/design`, { ...pendant, parts: [...pendant.parts, ring], joints: [...pendant.joints, more] }, 1)
    .expect(200);
  expect(await missing()).toEqual([`the plan of ${number}.1, version 1, does not make second-ring`]);
});

const margin = (marginFraction: number) => ({ policy: { profit: { marginFraction } } });
const polish = (minutes: number) => ({ labour: [{ operation: 'polishing', role: 'bench', minutes }] });

test('POST /estimates holds what is typed to shape and fences, and nothing else', async () => {
  const app = await startApp();
  const { pieceId } = await aPricedPendant(app);
  const send = (overrides: object) => app.owner.post('/estimates', { pieceId, overrides });
  const refused = async (overrides: object) =>
    (await send(overrides).expect(422)).body.errors.map(
      ({ pointer, confirmable = false }: { pointer: string; confirmable?: boolean }) => [pointer, confirmable],
    );
  expect(await refused(margin(1.2))).toEqual([['/overrides/policy/profit/marginFraction', false]]);
  expect(await refused(margin(0.1))).toEqual([['/overrides/policy/profit/marginFraction', true]]);
  await send(margin(0.1)).set({ confirm: '/overrides/policy/profit/marginFraction', 'confirm-reason': 'a friend' }).expect(200);
  expect(await refused({ colour: 'red' })).toEqual([['/overrides/colour', false]]);
  expect(await refused({ gas: { powerW: '1500' } })).toEqual([['/overrides/gas/powerW', false]]);
  // What is wrong in shape hides nothing that is out of bounds.
  expect(await refused({ gas: { powerW: '1500' }, ...margin(1.2) })).toEqual([
    ['/overrides/gas/powerW', false],
    ['/overrides/policy/profit/marginFraction', false],
  ]);
  expect(await refused({ policy: { finePricePerG: '1.50' } })).toEqual([['/overrides/policy/finePricePerG', true]]);
  expect(await refused({ policy: { finePricePerG: '200' } })).toEqual([['/overrides/policy/finePricePerG', false]]);
  expect(await refused({ policy: { finePricePerG: '0' } })).toEqual([['/overrides/policy/finePricePerG', false]]);
  expect(await refused(polish(91))).toEqual([['/overrides/labour/0/minutes', true]]);
  expect(await refused(polish(8.9))).toEqual([['/overrides/labour/0/minutes', true]]);
  expect(await refused({ currency: null })).toEqual([['/overrides/currency', false]]);
  const unknown = await send({
    design: { parts: [{ id: 'a', metal: 'gold', form: { kind: 'ball', diameterMm: 2 } }], joints: [] },
  });
  expect(unknown.status).toBe(422);
  const sent = await send({ heats: [{ joints: ['nothing'], parts: ['nothing'], peakC: 700 }] });
  expect(sent.status).toBe(422);
  // A markup takes the place of the margin.
  const markedUp = await send({ policy: { profit: { markupFraction: 1 } }, labour: polish(30).labour }).expect(200);
  expect(markedUp.body.request.policy.profit).toEqual({ markupFraction: 1 });
  expect(markedUp.body.request.labour).toEqual(polish(30).labour);
});

test('POST /estimates takes pieces that are not drawn yet to be like the last one', async () => {
  const app = await startApp();
  const { commissionId, pieceId } = await aPricedPendant(app, { quantity: 3 });
  const one = (await app.owner.post('/estimates', { pieceId }).expect(200)).body;
  const three = (await app.owner.post('/estimates', { commissionId }).expect(200)).body;
  expect(three.assumes).toEqual(['2 pieces that are not drawn yet are taken to be like C31-001.1']);
  expect(three.request.design.parts.map(({ id }: { id: string }) => id)).toContain('p3.bail');
  expect(three.request.heats).toHaveLength(12);
  const minutes = (body: typeof one) =>
    body.request.labour.reduce((sum: number, line: { minutes: number }) => sum + line.minutes, 0);
  expect(minutes(three)).toBeCloseTo(3 * minutes(one), 6);
  const placed = (body: typeof one) =>
    body.answer.steps.find(({ key }: { key: string }) => key.endsWith('sterling-925.net')).value;
  expect(placed(three)).toBeCloseTo(3 * placed(one), 6);
});

test('POST /estimates charges no metal for parts that came with the piece', async () => {
  const app = await startApp();
  await typePrices(app);
  await aDrawer(app);
  const seam = { solder: { id: 'hard', solidusC: 740, liquidusC: 788 }, cadmiumStanding: 'no' };
  const joints = pendant.joints.map((joint) =>
    joint.id === 'wall-seam' || joint.id === 'bezel' ? { ...joint, made: seam } : joint,
  );
  const piece = await aDrawnPiece(app, { kind: 'repair', design: { ...pendant, joints, rules: {} } });
  await app.bench
    .post(`/pieces/${piece.id}/plans`, {
      plan: {
        heats: [
          { joints: ['bail-seam'], solder: 'medium' },
          { joints: ['bail-on'], solder: 'easy' },
        ],
      },
    })
    .expect(201);
  const { answer } = (await app.owner.post('/estimates', { pieceId: piece.id }).expect(200)).body;
  const bailG = (Math.PI / 4) * 1.2 ** 2 * Math.PI * 5.2 * 0.01036;
  expect(amountOf(answer.lines, 'metal sterling-925')).toBe(Math.round(bailG * 1.35 * 142));
  expect(amountOf(answer.lines, 'metal sterling-925, there already')).toBe(0);
  expect(answer.lines.filter(({ group }: Line) => group === 'solder').map(({ label }: Line) => label)).toEqual([
    'solder medium',
    'solder easy',
  ]);
});

test('POST /estimates is for the owner, of one thing that is there', async () => {
  const { owner, desk, bench } = await startApp();
  const nowhere = '01890a5d-ac96-774b-bcce-b302099a8057';
  await desk.post('/estimates', { pieceId: nowhere }).expect(403);
  await bench.post('/estimates', { pieceId: nowhere }).expect(403);
  await owner.post('/estimates', { pieceId: nowhere }).expect(404);
  await owner.post('/estimates', { commissionId: nowhere }).expect(404);
  await owner.post('/estimates', {}).expect(422);
  await owner.post('/estimates', { pieceId: nowhere, commissionId: nowhere }).expect(422);
  await owner.post('/estimates', { pieceId: nowhere, overrides: 'cheaper' }).expect(422);
  // As deep as a body can be, which nothing may recurse into.
  const deep = `{"pieceId":"${nowhere}","overrides":${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}}`;
  const refused = await owner.post('/estimates').set('content-type', 'application/json').send(deep).expect(422);
  expect(refused.body.errors).toMatchObject([{ pointer: '/overrides' }]);
});

test('POST /estimates prices 5000 parts at once, and refuses more', async () => {
  const app = await startApp();
  await typePrices(app);
  const grain = { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 1.5 } };
  const { id: pieceId, commissionId } = await aDrawnPiece(app, { design: { parts: [{ ...grain, count: 10 }], joints: [] } });
  const asking = async (quantity: number) => {
    const { version } = (await app.owner.get(`/commissions/${commissionId}`).expect(200)).body;
    await app.owner
      .patch(`/commissions/${commissionId}`, { quantity }, version)
      .set({ confirm: '/quantity', 'confirm-reason': 'a large order' })
      .expect(200);
    return app.owner.post('/estimates', { commissionId });
  };
  expect((await asking(500).then((answer) => answer.body)).request.design.parts).toHaveLength(5000);
  await app.bench.put(`/pieces/${pieceId}/design`, { parts: [{ ...grain, count: 11 }], joints: [] }, 1).expect(200);
  const { status, body } = await asking(455);
  expect([status, body.type]).toEqual([409, '/api/v1/problems/condition-not-met']);
  expect(body.detail).toContain('more than 5000 parts');
  expect((await asking(454)).status).toBe(200);
});
