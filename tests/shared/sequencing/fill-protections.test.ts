import { describe, expect, test } from 'vitest';
import type { Heat } from '../../../shared/design/plan.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { ProtectionOption } from '../../../shared/sequencing/plan-search-request.ts';
import { brooch } from '../../../seed/larger-designs.ts';
import { bench, pendant, pendantPlan, solders } from '../../support/pendant.ts';

const physics = heatModel();

function checked(heats: readonly Heat[], fill?: readonly ProtectionOption[], design = pendant, torch = bench) {
  const request = { design, solders, bench: torch, plan: { heats }, ...(fill && { fill }) };
  const outcome = checkPlan(request, { physics });
  if (outcome.outcome === 'faults') throw new Error(JSON.stringify(outcome.faults));
  return outcome.check;
}

const bare: Heat[] = pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder: solder! }));
const every: ProtectionOption[] = [{ kind: 'anti_flow' }, { kind: 'shield' }, { kind: 'flame_away' }, { kind: 'sink' }];

describe('protections that were not typed', () => {
  test('are filled in, no more than needed: without any one of them there is a problem', () => {
    expect(checked(bare).problems).toHaveLength(1);
    const { filled, problems } = checked(bare, every);
    expect(problems).toEqual([]);
    expect(filled!.added).toBe(1);
    expect(filled!.says).toBe('1 protection added to heat 4, the fewest that keep earlier joints from running there');
    expect(filled!.plan.heats.slice(0, 3)).toEqual(bare.slice(0, 3));
    const { joints, solder } = filled!.plan.heats[3]!;
    expect({ joints, solder }).toEqual(bare[3]);
  });

  // Joints one by one, so that only protections can spare them.
  test('are as many as trying none, one and two by hand comes to', () => {
    const design = {
      ...brooch,
      joints: brooch.joints.map(({ solder: _solder, pieces: _pieces, ...joint }) => joint as (typeof brooch.joints)[number]),
    };
    const large = { ...bench, torch: 'large' as const };
    const heats: Heat[] = [
      { joints: ['wall-seam'], solder: 'hard' },
      { joints: ['bezel'], solder: 'medium' },
      { joints: ['hinge-on', 'catch-on'], solder: 'easy' },
    ];
    const fill: ProtectionOption[] = [{ kind: 'anti_flow', maxPerHeat: 2 }, { kind: 'shield' }];
    const { filled, problems } = checked(heats, fill, design, large);
    expect(problems).toEqual([]);
    const guarded = ['wall-seam', 'bezel'];
    const kinds = ['anti_flow', 'shield'] as const;
    const single = kinds.flatMap((kind) => guarded.map((guards) => ({ kind, guards })));
    const holds = (protections: Heat['protections']) =>
      checked([...heats.slice(0, 2), { ...heats[2]!, ...(protections && { protections }) }], undefined, design, large).problems
        .length === 0;
    const least = holds(undefined) ? 0 : single.some((one) => holds([one])) ? 1 : 2;
    expect(filled!.added).toBe(least);
  });

  test('are not filled in where a heat has some of its own, or does no harm', () => {
    const own: Heat = { ...bare[3]!, protections: [{ kind: 'shield', guards: 'wall' }] };
    const { filled } = checked([...bare.slice(0, 3), own], every);
    expect(filled).toMatchObject({ added: 0, says: 'No protection was added', plan: { heats: [...bare.slice(0, 3), own] } });
    expect(checked(bare).filled).toBeUndefined();
  });

  test('where none do, the heat stays as it is, and its problems are told', () => {
    const hot: Heat[] = [...bare.slice(0, 2), { joints: ['bezel'], solder: 'easy' }, { joints: ['bail-on'], solder: 'medium' }];
    const { filled, problems } = checked(hot, [{ kind: 'flame_away' }]);
    expect(filled!.plan.heats[3]).toEqual(hot[3]);
    expect(problems.length).toBeGreaterThan(0);
  });
});
