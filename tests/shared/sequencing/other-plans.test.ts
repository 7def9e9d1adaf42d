import { describe, expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import { expandDesign, expandHeat } from '../../../shared/design/expand-design.ts';
import type { Heat, Plan } from '../../../shared/design/plan.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import { handForm } from '../../../shared/sequencing/hand-form.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { PlanSearchAnswer, PlanSearchOptions } from '../../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { bangle } from '../../../seed/larger-designs.ts';
import { grainRing } from '../../../seed/designs.ts';
import { bench, pendant, solders } from '../../support/pendant.ts';

const physics = heatModel();

function search(design: Design, options: PlanSearchOptions = {}, torch: 'medium' | 'large' = 'medium'): PlanSearchAnswer {
  const answer = searchPlan({ design, solders, bench: { ...bench, torch }, options }, { physics });
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  return answer;
}

function formOf(design: Design, plan: Plan): string {
  const expanded = expandDesign(design);
  return handForm(
    expanded.design,
    plan.heats.map((heat) => expandHeat(heat, expanded)),
  );
}

/** Four like posts on the corners of a plate. */
const posts: Design = {
  parts: [
    pendant.parts[0]!,
    { id: 'post', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 8, diameterMm: 1 }, count: 4 },
  ],
  joints: [
    {
      id: 'post-on',
      kind: 'post',
      diameterMm: 1,
      gapMm: 0.05,
      count: 4,
      between: [
        { part: 'plate', xMm: 5, yMm: 5 },
        { part: 'post', alongMm: 0 },
      ],
    },
  ],
  rules: { maxJointsPerHeat: 2 },
};

const solderCount = ({ heats }: Plan) => new Set(heats.map(({ solder }) => solder)).size;

describe('plans shown beside the best', () => {
  test.each([
    ['pendant', pendant, 'medium'],
    ['ring with grains', grainRing, 'large'],
    ['bangle', bangle, 'large'],
    ['four like posts', posts, 'medium'],
  ] as const)('of the %s differ in what the hand does, keep every rule, and cost and gain what they say', (_, design, torch) => {
    const bare = { ...design, joints: design.joints.map(({ solder: _solder, ...joint }) => joint) } as Design;
    const answer = search(bare, {}, torch);
    expect(answer.plan).not.toBeNull();
    const plans = [answer.plan!, ...answer.alternatives.map(({ plan }) => plan)];
    expect(new Set(plans.map((plan) => formOf(bare, plan))).size).toBe(plans.length);
    const others = answer.alternatives.filter(({ policy }) => policy === answer.policy);
    expect(others.length).toBeLessThanOrEqual(3);
    for (const { plan, tradeOff } of others) {
      const outcome = checkPlan({ design: bare, solders, bench: { ...bench, torch }, plan }, { physics });
      expect(outcome.outcome === 'checked' && outcome.check.problems).toEqual([]);
      const more = plan.heats.length - answer.plan!.heats.length;
      const told = /(\d+) heats? (more|fewer)/.exec(tradeOff);
      expect(told ? Number(told[1]) * (told[2] === 'more' ? 1 : -1) : 0, tradeOff).toBe(more);
      const fewer = /(\d+) solders? (more|fewer)/.exec(tradeOff);
      const difference = solderCount(plan) - solderCount(answer.plan!);
      expect(fewer ? Number(fewer[1]) * (fewer[2] === 'more' ? 1 : -1) : 0, tradeOff).toBe(difference);
    }
  });

  test('of the pendant offer more margin for lower solders, and higher ones for a heat', () => {
    const says = search({ ...pendant, rules: { ...pendant.rules, grades: {} } }).alternatives.map(({ tradeOff }) => tradeOff);
    expect(says.some((text) => /^Gains \d+ °C more margin; costs .*melt lower/.test(text))).toBe(true);
    expect(says.some((text) => /melt higher.*1 heat more/.test(text))).toBe(true);
  });

  test('keep the heats that are done', () => {
    const keep = [{ joints: ['wall-seam'], solder: 'hard' }];
    const { alternatives } = search(pendant, { keep });
    for (const { plan } of alternatives) expect(plan.heats[0]).toEqual(keep[0]);
  });

  test('are told with what one more joint in a heat would spare, and that is so', () => {
    const asked = { ...pendant, rules: { ...pendant.rules, maxJointsPerHeat: 2 } };
    const answer = search(asked);
    const fact = answer.worthKnowing.find((text) => text.startsWith('Nothing spares more'));
    expect(fact).toContain('with 3 instead of 2');
    const looser = search(pendant);
    expect(fact).toContain(`${answer.plan!.heats.length - looser.plan!.heats.length} heat fewer`);
  });

  // Common practice: in a hot cluster hard then easy is what holds; the liquidus and solidus are those of the solders offered.
  test('name the pairs of solders that hold in a hot cluster', () => {
    const fact = search(pendant).worthKnowing.find((text) => text.startsWith('So close'));
    expect(fact).toContain('wall-seam');
    expect(fact).toContain('only with hard then easy (by about 10 °C)');
  });
});

const form = (heats: Heat[], design = expandDesign(posts).design) => handForm(design, heats);
const heat = (solder: string, ...numbers: number[]): Heat => ({ joints: numbers.map((n) => `post-on.${n}`), solder });

describe('handForm()', () => {
  test('is the same for like joints by other names', () => {
    expect(form([heat('hard', 1, 2), heat('easy', 3, 4)])).toBe(form([heat('hard', 4, 2), heat('easy', 1, 3)]));
  });

  test('tells apart another grouping, another solder, another order and another guarded joint', () => {
    const forms = [
      form([heat('hard', 1, 2), heat('easy', 3, 4)]),
      form([heat('hard', 1), heat('easy', 2, 3, 4)]),
      form([heat('hard', 1, 2), heat('medium', 3, 4)]),
      form([heat('easy', 1, 2), heat('hard', 3, 4)]),
      form([heat('hard', 1, 2), { ...heat('easy', 3, 4), protections: [{ kind: 'shield', guards: 'post-on.1' }] }]),
    ];
    expect(new Set(forms).size).toBe(forms.length);
  });

  test('is the same for sections that do not wait for each other, in either order', () => {
    const seams: Heat[] = [
      { joints: ['wall-seam'], solder: 'hard' },
      { joints: ['bail-seam'], solder: 'hard' },
    ];
    const rest: Heat = { joints: ['bezel', 'bail-on'], solder: 'easy' };
    expect(form([...seams, rest], pendant)).toBe(form([...seams.toReversed(), rest], pendant));
    expect(form([seams[0]!, rest, seams[1]!], pendant)).not.toBe(form([...seams, rest], pendant));
  });
});
