import { describe, expect, test } from 'vitest';
import { bangle } from '../../../seed/larger-designs.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { Heat } from '../../../shared/design/plan.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import type { JointVerdict } from '../../../shared/thermal/verdict.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

const physics = heatModel();

/** No rule in the way of what is only tried. */
const freed = (design: Design): Design => ({
  ...design,
  joints: design.joints.map(({ solder: _solder, ...joint }) => joint as Design['joints'][number]),
  rules: { ...design.rules, before: [], grades: {} },
});

const large = { ...bench, torch: 'large' as const };

function planned(design: Design, torch = bench) {
  const answer = searchPlan({ design, solders, bench: torch }, { physics });
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  return answer;
}

/** What becomes of a joint in the last heat of these. */
function verdictOf(design: Design, heats: readonly Heat[], joint: string, torch = bench): JointVerdict | undefined {
  const made = new Set(heats.flatMap(({ joints }) => joints));
  const rest = design.joints.map(({ id }) => id).filter((id) => !made.has(id));
  const plan = { heats: [...heats, ...rest.map((id) => ({ joints: [id], solder: 'easy' }))] };
  const outcome = checkPlan({ design: freed(design), solders, bench: torch, plan }, { physics, isStopped: () => true });
  if (outcome.outcome === 'faults') throw new Error(JSON.stringify(outcome.faults));
  return outcome.check.heats[heats.length - 1]!.earlierJoints.find((each) => each.joint === joint)?.verdict;
}

describe('the line of why', () => {
  const { plan, why } = planned({ ...pendant, rules: { ...pendant.rules, grades: {} } });
  const [first, second] = plan!.heats as [Heat, Heat];

  test('is one a heat', () => {
    expect(why).toHaveLength(plan!.heats.length);
    for (const [i, { joints, solder }] of plan!.heats.entries())
      expect(why[i]!.startsWith(`Heat ${i + 1}, ${joints.join(', ')} with ${solder}: `)).toBe(true);
  });

  test('of a seam made first tells what it would do to what is made over it, and that is so', () => {
    expect(why[0]).toBe('Heat 1, wall-seam with hard: no earlier joint is in the fire; made afterwards it would run bezel');
    expect(verdictOf(pendant, [second, first], 'bezel')).toBe('runs');
  });

  test('of a heat over an earlier seam tells what comes of the other order and of a higher solder, and both are so', () => {
    expect(why[1]).toMatch(
      /: wall-seam softens, about \d+ °C short of running; the other way round bezel would run; with hard wall-seam would run$/,
    );
    expect(verdictOf(pendant, [second, first], 'bezel')).toBe('runs');
    expect(verdictOf(pendant, [first, { ...second, solder: 'hard' }], 'wall-seam')).toBe('runs');
  });

  test('of joints made together tells what making them one by one would do, whichever comes first', () => {
    const answer = planned(freed(bangle), large);
    const at = answer.why.findIndex((line) => line.includes('one after the other'));
    const told = /one after the other (\S+) would run/.exec(answer.why[at]!)!;
    const heats = answer.plan!.heats;
    const { joints, ...heat } = heats[at]!;
    for (const one of joints.slice(0, 2)) {
      const others = joints.filter((id) => id !== one);
      const split = [...heats.slice(0, at), { ...heat, joints: [one] }, { ...heat, joints: others }];
      expect(verdictOf(bangle, split, one, large)).toBe('runs');
    }
    expect(joints).toContain(told[1]);
  });

  test('of a heat with protections tells what would be without them, and that is so', () => {
    const design = { ...pendant, rules: { ...pendant.rules, maxJointsPerHeat: 1, grades: {} } };
    const protections = [{ kind: 'anti_flow' as const, maxPerHeat: 2 }];
    const answer = searchPlan({ design, solders, bench, options: { policy: 'do_not_run', protections } }, { physics });
    if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
    const at = answer.why.findIndex((line) => /without (it|them)/.test(line));
    const [, joint, words] = /without (?:it|them) (\S+) (would run|may run|would soften)/.exec(answer.why[at]!)!;
    const heats = answer.plan!.heats.slice(0, at + 1).map(({ joints, solder }) => ({ joints, solder: solder! }));
    const verdict = { 'would run': 'runs', 'may run': 'may_run', 'would soften': 'softens' }[words!];
    expect(verdictOf(pendant, heats, joint!)).toBe(verdict);
  });

  test('of an order that is free says so', () => {
    const { why: lines } = planned({ ...bangle, rules: { ...bangle.rules, maxJointsPerHeat: 1 } }, large);
    expect(lines.filter((line) => line.endsWith('the other way round is as good')).length).toBeGreaterThan(0);
  });
});
