import { describe, expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { PlanSearchRequest, RelaxationChange } from '../../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

const physics = heatModel();

function searched(request: PlanSearchRequest) {
  const answer = searchPlan(request, { physics });
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  return answer;
}

/** The request as a reader of the change would write it. */
function changed(request: PlanSearchRequest, change: RelaxationChange): PlanSearchRequest {
  const { design, options = {} } = request;
  const ruled = (rules: Design['rules']) => ({ ...request, design: { ...design, rules: { ...design.rules, ...rules } } });
  if ('together' in change) return change.together.reduce(changed, request);
  if ('maxJointsPerHeat' in change) return ruled({ maxJointsPerHeat: change.maxJointsPerHeat });
  if ('protections' in change) return { ...request, options: { ...options, protections: change.protections } };
  if ('policy' in change) return { ...request, options: { ...options, policy: change.policy } };
  if ('support' in change || 'torch' in change) return { ...request, bench: { ...request.bench, ...change } };
  if ('availableG' in change)
    return {
      ...request,
      solders: request.solders.map(({ availableG, ...solder }) =>
        solder.id === change.solder || availableG === undefined ? solder : { ...solder, availableG },
      ),
    };
  if ('solder' in change) return { ...request, solders: [...request.solders, change.solder] };
  if ('load' in change)
    return {
      ...request,
      design: {
        ...design,
        joints: design.joints.map((joint) => (joint.id === change.joint ? { ...joint, load: 'none' as const } : joint)),
      },
    };
  if ('cold' in change) {
    const before = (design.rules?.before ?? []).filter((pair) => !pair.includes(change.cold));
    const joints = design.joints.filter(({ id }) => id !== change.cold);
    return { ...request, design: { ...design, joints, rules: { ...design.rules, before } } };
  }
  if ('remake' in change)
    return {
      ...request,
      design: {
        ...design,
        joints: design.joints.map((joint) => {
          const { made: _made, ...open } = joint;
          return joint.id === change.remake ? open : joint;
        }),
      },
    };
  if (!('drop' in change)) throw new Error(JSON.stringify(change));
  if (change.drop === 'before')
    return ruled({ before: design.rules!.before!.filter((rule) => JSON.stringify(rule) !== JSON.stringify(change.rule)) });
  if (change.drop === 'maxC')
    return {
      ...request,
      design: {
        ...design,
        parts: design.parts.map(({ maxC, ...part }) =>
          part.id === change.rule || maxC === undefined ? part : { ...part, maxC },
        ),
      },
    };
  throw new Error(JSON.stringify(change));
}

describe('what would let a piece be made', () => {
  test.each<[string, PlanSearchRequest, RegExp, string]>([
    [
      'a pendant made joint by joint',
      {
        design: {
          ...pendant,
          rules: {
            before: [
              ['wall-seam', 'bezel'],
              ['bezel', 'bail-on'],
              ['bail-seam', 'bail-on'],
            ],
            maxJointsPerHeat: 1,
          },
        },
        solders,
        bench,
      },
      /^No order of bail-on, bezel.*, as long as .*at most one joint goes into one heat$/,
      'Allow a shield',
    ],
    [
      'a pendant whose order rules go round in a ring',
      {
        design: {
          ...pendant,
          rules: {
            before: [
              ['wall-seam', 'bezel'],
              ['bezel', 'bail-on'],
              ['bail-on', 'wall-seam'],
            ],
          },
        },
        solders,
        bench,
      },
      /^The order rules go round in a ring: bail-on before wall-seam before bezel before bail-on$/,
      'Allow a shield, and let go of the rule before wall-seam, bezel',
    ],
    [
      'a post under a small torch',
      {
        design: {
          parts: [
            pendant.parts[0]!,
            { id: 'post', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 10, diameterMm: 1 } },
          ],
          joints: [
            {
              id: 'post-on',
              kind: 'post',
              diameterMm: 1,
              gapMm: 0.05,
              between: [
                { part: 'plate', xMm: 15, yMm: 10 },
                { part: 'post', alongMm: 0 },
              ],
            },
          ],
        },
        solders,
        bench: { ...bench, torch: { powerW: 40, spreadMm: 4, gasC: 1500 } },
      },
      /^post-on cannot be made even as the first of all, with any solder\. .*does not flow with this torch/,
      'Work on charcoal, which takes less heat',
    ],
    [
      'a pendant with an old seam of unknown solder',
      {
        design: {
          ...pendant,
          joints: pendant.joints.map((joint) =>
            joint.id === 'wall-seam' ? { ...joint, made: { solder: 'unknown', cadmiumStanding: 'no' } } : joint,
          ),
        },
        solders,
        bench,
      },
      /^bezel cannot be made even as the first of all.*wall-seam: Predicted to run/,
      'Take wall-seam apart and make it anew',
    ],
  ])('%s is told, the cheapest first, and each way does', (_, request, because, first) => {
    const answer = searched(request);
    expect(answer.outcome).toBe('infeasible');
    expect(answer.conflict!.says).toMatch(because);
    expect(answer.relaxations[0]!.says).toBe(first);
    for (const { change, says } of answer.relaxations) {
      const looser = changed(request, change);
      expect(['optimal', 'feasible'], says).toContain(
        searched({ ...looser, options: { ...looser.options, policy: looser.options?.policy ?? answer.policy, stopAt: 'margin' } })
          .outcome,
      );
    }
  });

  test('a part that may not grow hot is told with its limit', () => {
    const design = { ...pendant, parts: pendant.parts.map((part) => (part.id === 'wall' ? { ...part, maxC: 300 } : part)) };
    const { conflict, relaxations } = searched({ design, solders, bench });
    expect(conflict!.says).toContain('wall may reach 300 °C');
    expect(relaxations.map(({ change }) => change)).toContainEqual({ drop: 'maxC', rule: 'wall' });
  });
});
