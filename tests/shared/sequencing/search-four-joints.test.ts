import { expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { PlanSearchAnswer, ProtectionOption } from '../../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { everyCheckedPlan, isBetter, type CheckedPiece, type Comes } from '../../support/every-checked-plan.ts';
import { heatedPiece } from '../../support/heated-kinds.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

const large = { torch: 'large', support: 'brick' } as const;
const LEVELS = ['margin', 'protections', 'heats', 'grades', 'preference'];
const TARGET_K = 30;

const ruled = (design: Design, before: [string, string][]): Design => ({ ...design, rules: { maxJointsPerHeat: 1, before } });
const inward: [string, string][] = [
  ['joint-00', 'joint-01'],
  ['joint-03', 'joint-02'],
];

/** Posts one by one, one of them under a spring, on a plate. */
function sprungPosts(): Design {
  const design = heatedPiece('posts', 4);
  return ruled({ ...design, joints: design.joints.map((joint, i) => (i === 1 ? { ...joint, load: 'sprung' } : joint)) }, []);
}

const bare: Record<string, CheckedPiece> = {
  'the pendant': { design: pendant, solders, bench },
  'bars end to end, one by one': { design: ruled(heatedPiece('wires', 4), []), solders, bench: large },
  'posts on a plate, one sprung': { design: sprungPosts(), solders: solders.slice(1), bench: large },
};

const guarded: Record<string, CheckedPiece> = {
  'the pendant, from its walls outward': {
    design: ruled(pendant, [
      ['wall-seam', 'bezel'],
      ['bezel', 'bail-on'],
      ['bail-seam', 'bail-on'],
    ]),
    solders: [solders[0]!, solders[2]!],
    bench,
  },
  'bars from both ends inward': { design: ruled(heatedPiece('wires', 4), inward), solders: solders.slice(0, 2), bench: large },
};

const PROTECTIONS: ProtectionOption[] = [
  { kind: 'flame_away' },
  { kind: 'shield' },
  { kind: 'sink', leastDistanceMm: 0 },
  { kind: 'anti_flow' },
];

/** Null where it is proven that there is no plan. */
function found({ outcome, proof }: PlanSearchAnswer): Comes | null {
  if (outcome === 'infeasible') return null;
  expect(outcome).toBe('optimal');
  const values = LEVELS.map((level) => proof.find((each) => each.level === level)!.value!);
  return [-values[0]!, ...values.slice(1)];
}

test.each(Object.entries(bare))('the search comes to the best of all plans that the check lets pass: %s', (_, piece) => {
  const physics = heatModel();
  const best = everyCheckedPlan(piece, { targetK: TARGET_K, mostGuards: 0, physics });
  expect(best.checked).toBeGreaterThan(200);
  for (const policy of ['stay_solid', 'do_not_run'] as const) {
    const answer = searchPlan({ ...piece, options: { policy, targetMarginK: TARGET_K } }, { physics });
    if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
    expect(found(answer), policy).toEqual(best[policy]);
  }
});

test.each(Object.entries(guarded))('with protections it is at least as good as any plan with one: %s', (_, piece) => {
  const physics = heatModel();
  const best = everyCheckedPlan(piece, { targetK: TARGET_K, mostGuards: 1, physics });
  expect(best.do_not_run![1]).toBe(1);
  const options = { policy: 'do_not_run', targetMarginK: TARGET_K, protections: PROTECTIONS } as const;
  const answer = searchPlan({ ...piece, options }, { physics });
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  const values = found(answer);
  expect(isBetter(best.do_not_run!, values), `${best.do_not_run!.join(' ')} beside ${values?.join(' ')}`).toBe(false);
});
