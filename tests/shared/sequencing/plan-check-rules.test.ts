import { expect, test } from 'vitest';
import type { Design, Joint, Part } from '../../../shared/design/design.ts';
import type { Heat } from '../../../shared/design/plan.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import { heatModelOracle } from '../../../shared/sequencing/heat-model-oracle.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { grainedWire } from '../../support/heated-pieces.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

function outcomeOf(design: Design, heats: Heat[], own: Partial<typeof bench> = {}) {
  return checkPlan({ design, solders, bench: { ...bench, ...own }, plan: { heats } });
}

function checkOf(...asked: Parameters<typeof outcomeOf>) {
  const outcome = outcomeOf(...asked);
  if (outcome.outcome === 'faults') throw new Error(JSON.stringify(outcome.faults));
  return outcome.check;
}

const withPart = (id: string, change: Partial<Part>): Design => ({
  ...pendant,
  parts: pendant.parts.map((part) => (part.id === id ? { ...part, ...change } : part)),
});
const withJoint = (id: string, change: Partial<Joint>): Design => ({
  ...pendant,
  joints: pendant.joints.map((joint) => (joint.id === id ? ({ ...joint, ...change } as Joint) : joint)),
});
const heat = (joints: string[], solder: string): Heat => ({ joints, solder });
const heats = [heat(['wall-seam'], 'hard'), heat(['bail-seam'], 'hard'), heat(['bezel'], 'medium'), heat(['bail-on'], 'easy')];
const earlier = (check: ReturnType<typeof checkOf>, joint: string) =>
  check.heats.at(-1)!.earlierJoints.find((each) => each.joint === joint)!;

// T = min(788 + 10, max(788 + 5, S − 5)): 961 for fine silver alone, 802 with sterling beside it, 779 with a casting.
test('a heat is brought to flow by the lowest solidus of all that is in its fire', () => {
  const seamed = [heat(['wall-seam'], 'easy'), heat(['bail-seam'], 'easy'), heat(['bezel'], 'hard'), heat(['bail-on'], 'easy')];
  expect(checkOf(pendant, heats).heats[0]!.flowC).toBe(798);
  expect(checkOf(pendant, seamed).heats[2]!.flowC).toBe(797);
  expect(checkOf(withPart('plate', { cast: true }), seamed).heats[2]!.flowC).toBe(793);
});

const ring = (cast: boolean): Design => ({
  parts: [
    { id: 'ring', metal: 'sterling-925', form: { kind: 'band', insideDiameterMm: 17, heightMm: 4, thicknessMm: 1.6 }, cast },
  ],
  joints: [{ id: 'seam', kind: 'seam', closes: 'ring', lengthMm: 4, thicknessMm: 1.6, gapMm: 0.05 }],
});

test('hard solder on a sterling ring is the trade’s normal, on a cast one a problem', () => {
  const wrought = checkOf(ring(false), [heat(['seam'], 'hard')]);
  expect(wrought.verdict).toBe('clear_to_heat');
  expect(wrought.heats[0]!.parts[0]).toMatchObject({ limitC: 802, verdict: 'near_limit', severity: 'note' });
  const cast = checkOf(ring(true), [heat(['seam'], 'hard')]);
  expect(cast.heats[0]!.parts[0]).toMatchObject({ limitC: 779, verdict: 'over_limit', severity: 'problem' });
  expect(cast.problems).toMatchObject([{ heat: 1, joint: null, part: 'ring', rule: 'over_limit' }]);
});

test('a limit of the part’s own is none to come near to, not even at the target', () => {
  // Easy is brought to 728 °C, within 10 K under it; the plate comes out a little hotter.
  const check = checkOf(withPart('plate', { maxC: 735 }), heats);
  expect(check.heats.at(-1)!.parts.find(({ part }) => part === 'plate')).toMatchObject({ limitC: 735, verdict: 'over_limit' });
  expect(check.heats.at(-1)!.cautions).toContain('C10');
  expect(check.problems.some(({ heat, part, rule }) => heat === 4 && part === 'plate' && rule === 'over_limit')).toBe(true);
});

test.each([
  ['none', 'note'],
  ['own_weight', 'caution'],
  ['sprung', 'problem'],
  ['tied', 'problem'],
] as const)('a joint that softens under load %s is a %s', (load, severity) => {
  const plan = [...heats.slice(0, 2), heat(['bezel'], 'hard'), heat(['bail-on'], 'medium')];
  const check = checkOf(withJoint('bezel', { load }), plan);
  expect(earlier(check, 'bezel')).toMatchObject({ verdict: 'softens', severity });
  expect(check.problems.some(({ joint, rule }) => joint === 'bezel' && rule === 'softens')).toBe(severity === 'problem');
});

test('anti-flow holds what would run, within its seconds and 40 K over the liquidus', () => {
  const guarded: Heat = { ...heat(['bail-on'], 'easy'), protections: [{ kind: 'anti_flow', guards: 'bezel' }] };
  const held = checkOf(pendant, [...heats.slice(0, 3), guarded]);
  expect(earlier(held, 'bezel')).toMatchObject({ verdict: 'held', severity: 'caution' });
  expect(held.verdict).toBe('caution');
  const short = checkOf(pendant, [...heats.slice(0, 3), guarded], { antiFlowBudgetS: 1 });
  expect(earlier(short, 'bezel').verdict).toBe('may_run');
});

test('an existing joint of unknown solder is taken to melt at 618 °C, once it is known to hold no cadmium', () => {
  const seam: Joint['made'] = { solder: solders[0]! };
  const repaired = (bezel: Joint['made']): Design => ({
    ...pendant,
    joints: pendant.joints.map((joint) => {
      const made = { 'wall-seam': seam, bezel }[joint.id];
      return made ? { ...joint, made } : joint;
    }),
  });
  const plan = [heats[1]!, heats[3]!];
  expect(outcomeOf(repaired({ solder: 'unknown' }), plan)).toMatchObject({
    outcome: 'faults',
    faults: [{ pointer: '/plan/heats/1/joints', detail: expect.stringContaining('cadmium standing is unknown') as unknown }],
  });
  const check = checkOf(repaired({ solder: 'unknown', cadmiumStanding: 'no' }), plan);
  const { peakC, solidMarginK, verdict } = earlier(check, 'bezel');
  expect(solidMarginK).toBeCloseTo(618 - peakC, 9);
  expect(verdict).toBe('runs');
  expect(check.assumptions.assumedSolder).toEqual([{ joint: 'bezel', solidusC: 618, liquidusC: 618 }]);
});

test('the closing of a last vent is told at its heat, and may come last', () => {
  const hollow = withPart('bail', { hollow: { ventMm: 0 } });
  expect(checkOf(hollow, heats).heats.map(({ cautions }) => cautions.includes('C9'))).toEqual([false, false, false, true]);
});

test('flowing only just is a caution, and a fix that leaves none is put before one that does', () => {
  const shielded: Heat = { ...heats[3]!, protections: [{ kind: 'shield', guards: 'bezel' }] };
  const check = checkOf(pendant, [...heats.slice(0, 3), shielded]);
  expect(check.heats[3]!.flow).toBe('only_just');
  expect(check.verdict).toBe('caution');
  const { bestFix } = checkOf(pendant, heats).problems[0]!;
  expect(checkOf(pendant, [...bestFix!.change.plan.heats]).verdict).toBe('clear_to_heat');
});

test('heatModel() gives a solder of a heat with one target the same answer, asked alone or beside others', () => {
  const question = { design: pendant, bench, targets: ['bail-on'], made: ['wall-seam', 'bezel', 'bail-seam'] };
  const { simulate } = heatModel();
  const alone = solders.map((solder) => simulate({ ...question, solders: [solder] }).bySolder[solder.id]);
  const together = simulateHeat({ ...question, solders });
  expect(alone).toEqual(solders.map(({ id }) => together.bySolder[id]));
  expect(simulate({ ...question, solders })).toEqual(together);
});

test('heatModel() knows a heat again when its design comes as another object, and not when a size differs', () => {
  const { simulate } = heatModel();
  const run = (design: Design) =>
    simulate({ design, bench, targets: ['bail-seam'], made: [], solders: solders.slice(0, 1) }).bySolder[solders[0]!.id];
  const first = run(pendant);
  expect(run(structuredClone(pendant))).toBe(first);
  const thinner = withPart('bail', { form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1 } });
  expect(run(thinner)!.timeToFlowS).toBeLessThan(first!.timeToFlowS!);
});

function guardedWith(leastDistanceMm: number) {
  const protections = [{ kind: 'shield', leastDistanceMm }, { kind: 'anti_flow' }] as const;
  const oracle = heatModelOracle({ design: pendant, solders, bench, protections, physics: heatModel() });
  return oracle.protect({ made: ['bezel', 'bail-seam'], targets: ['bail-on'] }).map(({ kind, guards }) => `${kind} ${guards}`);
}

test('no joint nearer than an option allows is guarded', () => {
  expect(guardedWith(0)).toEqual(['shield bezel', 'shield bail-seam', 'anti_flow bezel', 'anti_flow bail-seam']);
  // The bezel's circle, of 10.35 mm about (15, 8), comes within 6.9 mm of the bail at (15, 20); the bail's own seam is nearer.
  expect(guardedWith(6)).toEqual(['shield bezel', 'anti_flow bezel', 'anti_flow bail-seam']);
  expect(guardedWith(7)).toEqual(['anti_flow bezel', 'anti_flow bail-seam']);
});

test('faults of the parts themselves are told all at once, beside those of the plan', () => {
  const design = { ...withPart('plate', { metal: 'unobtainium' }), joints: [...pendant.joints, pendant.joints[0]!] };
  const parts = design.parts.map((part) =>
    part.id === 'bail' ? { ...part, form: { kind: 'wire_ring', insideDiameterMm: -4, diameterMm: 1.2 } as const } : part,
  );
  const outcome = outcomeOf({ ...design, parts }, [heat(['wall-seam'], 'tin')]);
  expect(outcome.outcome === 'faults' && outcome.faults.map(({ pointer }) => pointer)).toEqual([
    '/design/joints/4/id',
    '/design/parts/0/metal',
    '/design/parts/2/form',
    '/plan/heats/0/solder',
  ]);
});

test('targets that no play of the flame brings together are told, as a caution', () => {
  const piece = grainedWire({ a: 50, b: 58 });
  const together = checkOf(piece, [heat(['a', 'b'], 'easy')]);
  expect(together.heats[0]!.targetSpreadK).toBeLessThan(10);
  expect(together.heats[0]!.says ?? 'Flows only just').toMatch(/^Flows only just/);
  // Aimed beyond one of them, the flame is not the model's to share out.
  const aside = { ...heat(['a', 'b'], 'easy'), flame: { aim: { part: 'wire', alongMm: 44 } } };
  const { heats, verdict } = checkOf(piece, [aside]);
  expect(heats[0]!.targetSpreadK).toBeGreaterThan(10);
  expect(heats[0]!.says).toMatch(/^No way was found to play the flame so that all flow together: .* another is \d+ °C hotter$/);
  expect(verdict).toBe('caution');
  expect(checkOf(piece, [heat(['a'], 'easy'), heat(['b'], 'easy')]).heats.map(({ targetSpreadK }) => targetSpreadK)).toEqual([
    null,
    null,
  ]);
});
