import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { pendant } from '../../seed/designs.ts';
import { plans } from '../../src/platform/db/tables.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { SOLDERS } from '../support/heated-pieces.ts';
import { startApp } from '../support/start-app.ts';

const heats = [
  { joints: ['wall-seam'], solder: 'hard' },
  { joints: ['bail-seam'], solder: 'hard' },
  { joints: ['bezel'], solder: 'medium' },
  {
    joints: ['bail-on'],
    solder: 'easy',
    flame: { tiltDeg: 45, awayFrom: 'bezel' },
    protections: [
      { kind: 'sink', sink: 'tweezers', at: { joint: 'bezel' } },
      { kind: 'anti_flow', guards: 'bezel' },
    ],
  },
];
const request = { design: pendant, solders: SOLDERS, bench: { torch: 'medium', support: 'brick' }, plan: { heats } };

interface Checked {
  verdict: string;
  heats: { flow: string; timeToFlowS: number | null; energyJ: number; storedJ: number; lostJ: number }[];
  problems: { heat: number; rule: string; helps: { change: { becomes: object }; flow: string; timeToFlowS: number }[] }[];
}

test('POST plan-check tells of a heat that does not flow what would help, each to be put into the plan as it is', async () => {
  const { owner } = await startApp();
  const stuck = { ...request, bench: { torch: 'micro', support: 'hard_brick' } };
  const { body } = await owner.post('/calculations/plan-check', stuck).expect(200);
  const { problems } = body as Checked;
  const found = problems.filter(({ rule }) => rule === 'does_not_flow');
  expect(found.map(({ heat }) => heat)).toContain(4);
  for (const { heat, helps } of found) {
    expect(helps.length).toBeGreaterThan(0);
    const [{ change, flow, timeToFlowS }] = helps as [(typeof helps)[number]];
    const mended = { ...stuck, plan: { heats: heats.map((each, i) => (i === heat - 1 ? change.becomes : each)) } };
    const again = await owner.post('/calculations/plan-check', mended).expect(200);
    expect(again.body.heats[heat - 1]).toMatchObject({ flow, timeToFlowS });
  }
  const fixed = await owner
    .post('/calculations/plan-check', { ...stuck, plan: body.problems[0].bestFix.change.plan })
    .expect(200);
  expect(fixed.body.problems).toHaveLength(body.problems[0].bestFix.problemsLeft);
});

test('POST plan-check tells where the heat went, and what each protection costs in time', async () => {
  const { owner } = await startApp();
  const { body } = await owner.post('/calculations/plan-check', request).expect(200);
  for (const { energyJ, storedJ, lostJ } of (body as Checked).heats)
    expect(Math.abs(energyJ - storedJ - lostJ)).toBeLessThan(0.005 * energyJ);
  expect(body.heats[3].protectionCosts).toMatchObject([
    { protection: heats[3]!.protections![0] },
    { protection: heats[3]!.protections![1], extraS: 0 },
    { flame: heats[3]!.flame },
  ]);
  expect(body.heats[3].protectionCosts[0].extraS).toBeGreaterThan(0);
  expect(body.heats[0]).not.toHaveProperty('protectionCosts');
  expect(body.heats[3].parts.find(({ part }: { part: string }) => part === 'bail').aheadK).toBeGreaterThan(20);
});

test('a heat takes a torch and a support of its own, and refuses others than there are', async () => {
  const { owner } = await startApp();
  const own = heats.map((heat, i) => (i === 3 ? { ...heat, torch: 'large', support: 'charcoal' } : heat));
  const calibration = { powerFactor: 1.1, lossFactor: 1, spreadFactor: 1 };
  const { body } = await owner
    .post('/calculations/plan-check', { ...request, bench: { ...request.bench, calibration }, plan: { heats: own } })
    .expect(200);
  expect(body.heats[3]).toMatchObject({ torch: { powerW: 500 }, support: 'charcoal', calibrated: false });
  expect(body.heats[2]).toMatchObject({ support: 'brick', calibrated: true });
  expect(body.assumptions.uncalibratedHeats).toEqual([4]);
  const odd = heats.map((heat, i) => (i === 3 ? { ...heat, torch: 'dragon', support: 'feathers' } : heat));
  const refused = await owner.post('/calculations/plan-check', { ...request, plan: { heats: odd } }).expect(422);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
    '/plan/heats/3/torch',
    '/plan/heats/3/support',
  ]);
});

test('the bench sees which torch and support a heat is to be done with, where they are not its own', async () => {
  const app = await startApp();
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const own = { ...heats[3]!, torch: 'large', support: 'charcoal' };
  const hung = { ...heats[0]!, support: 'air' };
  const { heats: laidOut } = await planInUse(app.bench, piece.id, { plan: { heats: [hung, ...heats.slice(1, 3), own] } });
  const seen = (await app.bench.get(`/heats/${laidOut[3]!.id}`).expect(200)).body;
  expect(seen).toMatchObject({ torch: 'large', support: 'charcoal' });
  expect(seen.expected).toMatchObject({ torch: { powerW: 500 }, support: 'charcoal', calibrated: false });
  expect(seen.expected.protectionCosts).toHaveLength(3);
  expect((await app.bench.get(`/heats/${laidOut[2]!.id}`).expect(200)).body).toMatchObject({ torch: null, support: null });
  // C21 is of boards and charcoal.
  const cautionsOf = async (at: number): Promise<string[]> => {
    const { body } = await app.bench.get(`/heats/${laidOut[at]!.id}`).expect(200);
    return body.cautions.map(({ id }: { id: string }) => id);
  };
  expect(await cautionsOf(0)).not.toContain('C21');
  expect(await cautionsOf(1)).toContain('C21');
});

test('a plan that was checked before all this was told is still shown', async () => {
  const app = await startApp();
  await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const { plan, heats: laidOut } = await planInUse(app.bench, piece.id, { plan: { heats } });
  const { body, checkResult } = app.db.select().from(plans).where(eq(plans.id, plan.id)).get()!;
  const before = structuredClone(checkResult!) as unknown as { heats: Record<string, unknown>[]; assumptions: object };
  for (const heat of before.heats) {
    for (const name of ['torch', 'support', 'calibrated', 'storedJ', 'lostJ', 'protectionCosts']) delete heat[name];
    for (const part of heat['parts'] as { aheadK?: number }[]) delete part.aheadK;
  }
  Reflect.deleteProperty(before.assumptions, 'uncalibratedHeats');
  app.db
    .update(plans)
    .set({ checkResult: before as unknown as typeof checkResult })
    .where(eq(plans.id, plan.id))
    .run();
  const shown = (await app.bench.get(`/plans/${plan.id}`).expect(200)).body;
  expect(shown.plan).toEqual(body);
  // What has to be guessed first is told with it, and never kept.
  expect(shown.check).toEqual({ ...before, heats: before.heats.map((heat) => ({ ...heat, guessFirst: [] })) });
  await app.bench.get(`/heats/${laidOut[3]!.id}`).expect(200);
});
