import { describe, expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { PlanSearchAnswer, PlanSearchOptions, ProtectionOption } from '../../../shared/sequencing/plan-search-request.ts';
import { searchPlan, type SearchServices } from '../../../shared/sequencing/search-plan.ts';
import { judgePart } from '../../../shared/thermal/verdict.ts';
import { uncertaintyK } from '../../../shared/thermal/uncertainty.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

const physics = heatModel();
const extraEasy = { id: 'extra-easy', solidusC: 618, liquidusC: 652, silverFraction: 0.65 };
const protections: ProtectionOption[] = [
  { kind: 'flame_away' },
  { kind: 'shield', maxPerHeat: 2 },
  { kind: 'sink', maxPerHeat: 2, leastDistanceMm: 8 },
  { kind: 'anti_flow', maxPerHeat: 2 },
];

function search(
  options: PlanSearchOptions,
  design: Design = pendant,
  services: SearchServices = {},
  offered = solders,
): PlanSearchAnswer {
  const answer = searchPlan({ design, solders: offered, bench, options }, { physics, ...services });
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  return answer;
}

const withRules = (rules: Design['rules'], design = pendant): Design => ({ ...design, rules: { ...design.rules, ...rules } });
const value = ({ proof }: PlanSearchAnswer, level: string): number | null => proof.find((each) => each.level === level)!.value;

/** Plate, wall and its bezel, and a post: small enough to try every plan by hand. */
const three: Design = {
  parts: [
    pendant.parts[0]!,
    pendant.parts[1]!,
    { id: 'post', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 10, diameterMm: 1 } },
  ],
  joints: [
    pendant.joints[0]!,
    pendant.joints[1]!,
    {
      id: 'post-on',
      kind: 'post',
      diameterMm: 1,
      gapMm: 0.05,
      between: [
        { part: 'plate', xMm: 3, yMm: 3 },
        { part: 'post', alongMm: 0 },
      ],
    },
  ],
};

/** Ordered ways to split joints into heats. */
function splits(joints: string[]): string[][][] {
  if (joints.length === 0) return [[]];
  return Array.from({ length: 2 ** joints.length - 1 }, (_, i) => joints.filter((__, j) => ((i + 1) >> j) & 1)).flatMap((first) =>
    splits(joints.filter((id) => !first.includes(id))).map((rest) => [first, ...rest]),
  );
}

const partsOf = (ids: readonly string[]): Set<string> => new Set(ids.flatMap((id) => ENDS[id]!));

const touches = (id: string, parts: ReadonlySet<string>): boolean => ENDS[id]!.some((part) => parts.has(part));
const ENDS: Record<string, string[]> = { 'wall-seam': ['wall'], bezel: ['plate', 'wall'], 'post-on': ['plate', 'post'] };

/** Every plan of the three joints through the heat model, one by one: the best by level, heats, solders and ranks. */
function everyPlan(limitOf: 'solidusC' | 'liquidusC', targetK: number): number[] | null {
  const order = [...solders].sort((a, b) => b.liquidusC - a.liquidusC);
  let best: number[] | null = null;
  for (const split of splits(Object.keys(ENDS))) {
    for (let code = 0; code < order.length ** split.length; code++) {
      const chosen = split.map((_, i) => order[Math.floor(code / order.length ** i) % order.length]!);
      const slack = slackOf(split, chosen, limitOf);
      if (slack < 0) continue;
      const ranks = split.reduce((sum, joints, i) => sum + joints.length * order.indexOf(chosen[i]!), 0);
      const found = [-Math.min(targetK, Math.floor(slack / 5) * 5), split.length, new Set(chosen).size, ranks];
      if (!best || found.find((level, i) => level !== best![i])! < best[found.findIndex((level, i) => level !== best![i])]!)
        best = found;
    }
  }
  return best && [-best[0]!, ...best.slice(1)];
}

function slackOf(split: string[][], chosen: typeof solders, limitOf: 'solidusC' | 'liquidusC'): number {
  let slackK = Infinity;
  for (const [i, targets] of split.entries()) {
    const earlier = split.slice(0, i).flat();
    const fire = connectedParts(targets[0]!, [...targets, ...earlier]);
    if (!targets.every((id) => touches(id, fire))) return -1;
    const made = earlier.filter((id) => touches(id, fire));
    const run = physics.simulate({ design: three, bench, targets, made, solders }).bySolder[chosen[i]!.id]!;
    if (run.flow === 'does_not_flow') return -1;
    for (const [id, { peakC }] of Object.entries(run.parts)) {
      const limitC = id === 'wall' ? 961 : 802;
      if (judgePart({ peakC, limitC, ...(partsOf(targets).has(id) ? { targetFlowC: run.flowC } : {}) }).severity === 'problem')
        return -1;
    }
    for (const [id, { peakC }] of Object.entries(run.joints)) {
      const limitC = chosen[split.findIndex((joints) => joints.includes(id))]![limitOf];
      slackK = Math.min(slackK, limitC - peakC - uncertaintyK({ flowC: run.flowC, peakC, calibrated: false }));
    }
  }
  return slackK;
}

function connectedParts(from: string, joints: string[]): Set<string> {
  const reached = partsOf([from]);
  for (let pass = 0; pass < joints.length; pass++) {
    for (const id of joints.filter((each) => touches(each, reached))) for (const part of ENDS[id]!) reached.add(part);
  }
  return reached;
}

describe('the search on the heat model', () => {
  test.each([
    ['stay_solid', 'solidusC'],
    ['do_not_run', 'liquidusC'],
  ] as const)('agrees with every plan of three joints, %s', (policy, limitOf) => {
    const answer = search({ policy, targetMarginK: 30 }, three);
    const best = everyPlan(limitOf, 30);
    const found =
      answer.outcome === 'optimal' ? ['margin', 'heats', 'grades', 'preference'].map((level) => value(answer, level)) : null;
    expect(found).toEqual(best);
    expect(answer.outcome).toBe(best ? 'optimal' : 'infeasible');
  });

  test('gives a plan without faults or problems, with a line of why for each heat', () => {
    const answer = search({});
    const outcome = checkPlan({ design: pendant, solders, bench, plan: answer.plan! }, { physics });
    expect(outcome).toEqual({ outcome: 'checked', check: answer.check });
    expect(answer.check!.problems).toEqual([]);
    expect(answer.why).toHaveLength(answer.plan!.heats.length);
    expect(answer.proof.every(({ proven }) => proven)).toBe(true);
  });

  test('offers the plan in which joints may soften beside the one in which they stay solid', () => {
    const answer = search({}, pendant, {}, [...solders, extraEasy]);
    expect([answer.outcome, answer.policy]).toEqual(['optimal', 'stay_solid']);
    expect(
      answer.check!.heats.flatMap(({ earlierJoints }) => earlierJoints).every(({ verdict }) => verdict === 'stays_solid'),
    ).toBe(true);
    expect(answer.alternatives.filter(({ policy }) => policy === 'do_not_run')).toHaveLength(1);
  });

  test('protects earlier joints where that is allowed and needed', () => {
    const single = withRules({
      maxJointsPerHeat: 1,
      before: [
        ['bezel', 'bail-on'],
        ['wall-seam', 'bezel'],
        ['bail-seam', 'bail-on'],
      ],
    });
    const bare = search({ policy: 'do_not_run' }, single);
    const guarded = search({ policy: 'do_not_run', protections }, single);
    expect(bare.outcome).toBe('infeasible');
    expect(guarded.outcome).toBe('optimal');
    expect(value(guarded, 'protections')).toBeGreaterThan(0);
    expect(guarded.check!.problems).toEqual([]);
  });

  // Eight minutes for a heat and three for pickle and look; fifteen and three for the wall of a beaker.
  test.each([
    [10, 3, 0.4, 'medium', 660],
    [40, 30, 0.8, 'extra_large', 1080],
  ] as const)(
    'counts the minutes of a heat on a band of %d mm by its size',
    (insideDiameterMm, heightMm, thicknessMm, torch, timeS) => {
      const design: Design = {
        parts: [{ id: 'wall', metal: 'sterling-925', form: { kind: 'band', insideDiameterMm, heightMm, thicknessMm } }],
        joints: [{ id: 'seam', kind: 'seam', closes: 'wall', lengthMm: heightMm, thicknessMm, gapMm: 0.05 }],
      };
      const answer = searchPlan({ design, solders, bench: { ...bench, torch } });
      if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
      expect(answer.proof.find(({ level }) => level === 'time')).toMatchObject({ value: timeS, proven: true });
    },
  );

  test('leaves heats that are done as they are', () => {
    const keep = [{ joints: ['wall-seam'], solder: 'medium' }];
    const answer = search({ keep });
    expect(answer.plan!.heats[0]).toEqual(keep[0]);
    expect(
      answer
        .plan!.heats.slice(1)
        .flatMap(({ joints }) => joints)
        .sort(),
    ).toEqual(['bail-on', 'bail-seam', 'bezel']);
  });

  test('refuses kept heats with faults, and unknown rules, by name', () => {
    const answer = searchPlan(
      {
        design: withRules({ before: [['sun', 'bezel']] }),
        solders,
        bench,
        options: { keep: [{ joints: ['moon'], solder: 'hard' }] },
      },
      { physics },
    );
    expect(answer).toEqual({
      outcome: 'faults',
      faults: [
        { pointer: '/design/rules/before/0/0', detail: 'The rule names joint sun: there is no such joint' },
        { pointer: '/options/keep/0/joints/0', detail: 'Heat 1 names joint moon: there is no such joint' },
        { pointer: '/options/keep/0/joints', detail: 'Heat 1 makes no joint: name at least one, or mark it as an anneal' },
      ],
    });
  });

  test('ends when the host says so, or the work units are spent, and still answers a plan with its check', () => {
    const stopped = search({}, pendant, { isStopped: () => true });
    expect(stopped.stats.stoppedBy).toBe('host');
    const poor = search({ workUnits: 3000 });
    expect(poor.stats.stoppedBy).toBe('work_units');
    expect([stopped.outcome, poor.outcome]).toEqual(['feasible', 'unknown']);
    expect(stopped.proof.some(({ proven }) => proven)).toBe(false);
    expect(stopped.check!.problems).toEqual([]);
    expect(stopped.searched).toContain('The plan shown was found in a few steps, without protections');
    for (const { plan, check } of [stopped, poor]) {
      expect(plan!.heats.flatMap(({ joints }) => joints).sort()).toEqual(pendant.joints.map(({ id }) => id).sort());
      expect(check!.heats).toHaveLength(plan!.heats.length);
    }
  });
});

describe('where no plan can be', () => {
  test('the smallest set of joints that cannot be made is named, and what would help has been tried', () => {
    const options: PlanSearchOptions = { policy: 'stay_solid', protections: [{ kind: 'shield' }] };
    const answer = search(options);
    expect(answer.outcome).toBe('infeasible');
    expect(answer.conflict).toMatchObject({ joints: ['bezel', 'wall-seam'], rules: ['before wall-seam, bezel'] });
    expect(answer.plan!.heats.flatMap(({ joints }) => joints)).toHaveLength(4);
    const dropped = answer.relaxations.find(({ change }) => 'drop' in change && change.drop === 'before');
    expect(dropped).toBeDefined();
    expect(search(options, withRules({ before: [] })).outcome).toBe('optimal');
  });

  test('a ring of order rules is told as such', () => {
    const answer = search(
      {},
      withRules({
        before: [
          ['wall-seam', 'bezel'],
          ['bezel', 'bail-on'],
          ['bail-on', 'wall-seam'],
        ],
      }),
    );
    expect(answer.outcome).toBe('infeasible');
    expect(answer.conflict!.joints.toSorted()).toEqual(['bail-on', 'bezel', 'wall-seam']);
    expect(answer.conflict!.rules).toEqual(['before']);
    expect(answer.check!.heats).toHaveLength(answer.plan!.heats.length);
  });

  test('a joint that no solder suits is told with the reason of each', () => {
    const answer = search({}, pendant, {}, solders.slice(0, 1));
    expect(answer.conflict).toEqual({
      joints: ['bail-on'],
      rules: ['solders'],
      says: 'bail-on can be made with none of the solders: hard is excluded for it',
    });
  });
});
