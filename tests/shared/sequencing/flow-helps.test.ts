import { expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import type { Bench, Heat, Plan } from '../../../shared/design/plan.ts';
import { checkPlan, type PlanServices } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheck, PlanProblem } from '../../../shared/sequencing/plan-check-answer.ts';
import { grainedWire } from '../../support/heated-pieces.ts';
import { pendant, pendantPlan, solders } from '../../support/pendant.ts';

interface Case {
  design: Design;
  bench: Bench;
  plan: Plan;
}

function checkOf({ design, bench, plan }: Case, services: PlanServices = {}): PlanCheck {
  const outcome = checkPlan({ design, bench, plan, solders }, services);
  if (outcome.outcome === 'faults') throw new Error(JSON.stringify(outcome.faults));
  return outcome.check;
}

const stuckIn = ({ problems }: PlanCheck): PlanProblem[] => problems.filter(({ rule }) => rule === 'does_not_flow');
const torchesFor = ({ helps }: PlanProblem): unknown[] => helps.map(({ change }) => 'torch' in change && change.torch);
const kindsOf = ({ helps }: PlanProblem): string[] => helps.map(({ change }) => change.kind);

/** A grain in the middle of a wire, one beside it made before. */
const wireHeat = (torch: Bench['torch'], heat: Partial<Heat>): Case => ({
  design: grainedWire({ target: 50, other: 62 }),
  bench: { torch, support: 'brick' },
  plan: {
    heats: [
      { joints: ['other'], solder: 'hard' },
      { joints: ['target'], solder: 'medium', ...heat },
    ],
  },
});

const stuckPendant: Case = { design: pendant, bench: { torch: 'micro', support: 'hard_brick' }, plan: pendantPlan };
const tweezersBeside = wireHeat('micro', {
  protections: [{ kind: 'sink', sink: 'tweezers', at: { part: 'wire', alongMm: 51 } }],
});
const aimedAside = wireHeat('small', { flame: { aim: { part: 'wire', alongMm: 95 } } });
/** Nearly a kilogram in the middle of which a grain is to be joined. */
const ingot: Case = {
  design: {
    parts: [
      { id: 'bar', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 300, widthMm: 25, thicknessMm: 12 } },
      { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } },
    ],
    joints: [
      {
        id: 'grain-on',
        kind: 'granule',
        between: [{ part: 'bar', alongMm: 150 }, { part: 'grain' }],
        diameterMm: 2,
        neckRadiusMm: 0.5,
        gapMm: 0,
      },
    ],
  },
  bench: { torch: 'medium', support: 'brick' },
  plan: { heats: [{ joints: ['grain-on'], solder: 'easy' }] },
};
/** Two strips joined along their length. */
const longSeam: Case = {
  design: {
    parts: ['a', 'b'].map((id) => ({
      id,
      metal: 'sterling-925',
      form: { kind: 'sheet', lengthMm: 80, widthMm: 10, thicknessMm: 0.8 },
    })),
    joints: [
      {
        id: 'seam',
        kind: 'seam',
        lengthMm: 80,
        thicknessMm: 0.8,
        gapMm: 0.05,
        between: [
          { part: 'a', xMm: 40, yMm: 10 },
          { part: 'b', xMm: 40, yMm: 0 },
        ],
      },
    ],
  },
  bench: { torch: 'small', support: 'charcoal' },
  plan: { heats: [{ joints: ['seam'], solder: 'easy' }] },
};

test.each([
  ['a weak torch on hard brick', stuckPendant],
  ['tweezers beside the target', tweezersBeside],
  ['a flame aimed aside', aimedAside],
  ['a long seam', longSeam],
])('%s: each help, put into the plan, does what it says', (_, stuck) => {
  const problems = stuckIn(checkOf(stuck));
  expect(problems.length).toBeGreaterThan(0);
  for (const { heat, helps, nothingHelps } of problems) {
    expect(helps.length).toBeGreaterThan(0);
    expect(nothingHelps).toBeNull();
    for (const { change, flow, timeToFlowS, says } of helps) {
      const heats = stuck.plan.heats.map((each, i) => (i === heat - 1 ? change.becomes : each));
      const checked = checkOf({ ...stuck, plan: { heats } });
      expect(checked.heats[heat - 1]).toMatchObject({ flow, timeToFlowS });
      expect(says).toContain(`in about ${Math.round(timeToFlowS)} s`);
    }
  }
});

test('the best fix of a heat that does not flow is a plan in which it does, and may be posted as it is', () => {
  for (const stuck of [stuckPendant, tweezersBeside, aimedAside, longSeam]) {
    for (const { heat, bestFix } of stuckIn(checkOf(stuck))) {
      const mended = checkOf({ ...stuck, plan: bestFix!.change.plan });
      expect(mended.problems).toHaveLength(bestFix!.problemsLeft);
      expect(stuckIn(mended).map((problem) => problem.heat)).not.toContain(heat);
    }
  }
});

test('where several heats do not flow, one torch or support may mend them all', () => {
  const [first, second] = stuckIn(checkOf(stuckPendant));
  expect([first!.heat, second!.heat]).toEqual([3, 4]);
  expect(first!.bestFix).toMatchObject({ change: { kind: 'bench', heats: [3, 4] }, problemsLeft: 0 });
});

// Common bench practice, no source: a sink at the joint steals its heat; farther off it does not.
test('for tweezers beside the target it is tried to move them, to take them away, and a more powerful torch, in that order', () => {
  const [problem] = stuckIn(checkOf(tweezersBeside));
  expect([...new Set(kindsOf(problem!))]).toEqual(['sink', 'unprotect', 'bench']);
  expect(problem!.helps[0]!.change).toMatchObject({ to: { joint: 'other' } });
  expect(problem!.helps[0]!.says).toMatch(/^With the tweezers at other, 11 mm farther away: flows/);
  expect(problem!.helps[1]!.change).toMatchObject({ to: { part: 'wire', alongMm: 1 } });
});

test('for a flame aimed aside it is tried to aim it at the joint; what would run an earlier joint comes last and says so', () => {
  const [problem] = stuckIn(checkOf(aimedAside));
  expect(problem!.helps[0]!.change).toMatchObject({ kind: 'flame', flame: null });
  const last = problem!.helps.at(-1)!;
  expect(last.change).toMatchObject({ kind: 'bench', torch: 'extra_large' });
  expect(last.says).toMatch(/, but other: Predicted to run/);
});

test('along a long seam the flame is played', () => {
  const [problem] = stuckIn(checkOf(longSeam));
  expect(problem!.helps[0]!.change).toMatchObject({ kind: 'flame', flame: { sweepMm: 5 } });
});

test('two things are tried together only where no single one helps', () => {
  const clamped: Plan = {
    heats: pendantPlan.heats.map((heat) =>
      heat.protections
        ? { ...heat, protections: [{ kind: 'sink', sink: 'heavy_clamp', at: { joint: 'bail-seam' } } as const] }
        : heat,
    ),
  };
  const [bezel, bail] = stuckIn(checkOf({ design: pendant, bench: { torch: 'micro', support: 'air' }, plan: clamped }));
  expect(kindsOf(bezel!)).not.toContain('together');
  expect(new Set(kindsOf(bail!))).toEqual(new Set(['together']));
  expect(bail!.helps[0]!.change).toMatchObject({
    kind: 'together',
    edits: [{ kind: 'unprotect' }, { kind: 'bench', support: 'charcoal' }],
    becomes: { support: 'charcoal' },
  });
  expect(bail!.helps[0]!.change.becomes.protections).toBeUndefined();
});

test('the hot point is offered for small work alone', () => {
  expect(torchesFor(stuckIn(checkOf(tweezersBeside))[0]!)).toContain('hot_point');
  const [seam] = stuckIn(checkOf({ ...longSeam, bench: { torch: 'micro', support: 'brick' } }));
  expect(torchesFor(seam!)).toContain('large');
  expect(torchesFor(seam!)).not.toContain('hot_point');
});

test('where all is in vain, it is said, with the highest temperature that was come to', () => {
  const check = checkOf(ingot);
  const [problem] = stuckIn(check);
  expect(problem).toMatchObject({ helps: [], bestFix: null });
  const settledC = Number(/settles at about (\d+) °C$/.exec(problem!.nothingHelps!)![1]);
  expect(settledC).toBeGreaterThan(check.heats[0]!.settlesC!);
  expect(settledC).toBeLessThan(check.heats[0]!.flowC!);
  expect(check.fixesCutShort).toBe(false);
});

test('stopped before all is tried, it is not claimed that nothing helps', () => {
  for (const most of [0, 3]) {
    let asked = 0;
    const check = checkOf(ingot, { isStopped: () => asked++ >= most });
    expect(check.fixesCutShort).toBe(true);
    expect(stuckIn(check)[0]).toMatchObject({ helps: [], nothingHelps: null });
  }
});

test('other problems have no helps', () => {
  const bare = { heats: pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder: solder! })) };
  const { problems } = checkOf({ design: pendant, bench: { torch: 'medium', support: 'brick' }, plan: bare });
  expect(problems.length).toBeGreaterThan(0);
  for (const problem of problems) expect(problem).toMatchObject({ helps: [], nothingHelps: null });
});
