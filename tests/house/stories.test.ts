import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { grainRing, pendant } from '../../seed/designs.ts';
import { brooch } from '../../seed/larger-designs.ts';
import type { Design } from '../../shared/design/design.ts';
import type { Bench, Heat } from '../../shared/design/plan.ts';
import { checkPlan } from '../../shared/sequencing/check-plan.ts';
import { heatModel } from '../../shared/sequencing/heat-physics.ts';
import type { ProtectionOption } from '../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../shared/sequencing/search-plan.ts';
import { SOLDERS } from '../support/heated-pieces.ts';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const section = /## Three pieces, planned\n([\s\S]*?)\n## /.exec(readme)![1]!.replaceAll('\n', ' ');

interface Story {
  name: string;
  design: Design;
  bench: Bench;
  /** What a hand would do first. */
  byHand: Heat[];
  protections: ProtectionOption[];
}

const on = (torch: 'medium' | 'large'): Bench => ({ torch, support: 'brick' });

const STORIES: Story[] = [
  {
    name: 'Pendant',
    design: pendant,
    bench: on('medium'),
    byHand: [
      { joints: ['wall-seam'], solder: 'hard' },
      { joints: ['bail-seam'], solder: 'hard' },
      { joints: ['bezel'], solder: 'medium' },
      { joints: ['bail-on'], solder: 'easy' },
    ],
    protections: [],
  },
  {
    name: 'Ring',
    design: grainRing,
    bench: on('large'),
    byHand: [
      { joints: ['band-seam'], solder: 'hard' },
      { joints: ['wall-seam'], solder: 'hard' },
      { joints: ['cup-base'], solder: 'medium' },
      { joints: ['seat'], solder: 'medium' },
      { joints: ['left-grain-on'], solder: 'easy' },
      { joints: ['right-grain-on'], solder: 'easy' },
    ],
    protections: [],
  },
  {
    name: 'Brooch',
    design: brooch,
    bench: on('large'),
    byHand: [
      { joints: ['wall-seam'], solder: 'hard' },
      { joints: ['bezel'], solder: 'medium' },
      { joints: ['hinge-on', 'catch-on'], solder: 'easy' },
    ],
    protections: [{ kind: 'anti_flow' }],
  },
];

const lower = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);
const told = (heats: readonly Heat[]): string => heats.map(({ joints, solder }) => `${joints.join(', ')} ${solder}`).join(' · ');

describe('the stories in README are what the program says today', () => {
  test('and name the solders they are told with', () => {
    for (const { id, solidusC, liquidusC } of SOLDERS) expect(section).toContain(`${id} ${solidusC} to ${liquidusC} °C`);
  });

  test.each(STORIES)('of the $name', ({ name, design: whole, bench, byHand, protections }) => {
    const story = section.split('**').find((_, i, all) => all[i - 1]?.startsWith(name))!;
    const joints = whole.joints.map(({ solder: _solder, pieces: _pieces, ...joint }) => joint as Design['joints'][number]);
    const design = { ...whole, joints };
    const physics = heatModel();
    const asked = { design, solders: SOLDERS, bench };

    const outcome = checkPlan({ ...asked, plan: { heats: byHand } }, { physics });
    if (outcome.outcome === 'faults') throw new Error(JSON.stringify(outcome.faults));
    const { problems } = outcome.check;
    expect(story).toContain(`By hand, ${byHand.length} heats: ${told(byHand)}.`);
    const [first] = problems;
    expect(story).toContain(
      `${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}: in heat ${first!.heat}, ${lower(first!.says)}`,
    );
    const best = problems.toSorted((a, b) => a.bestFix!.problemsLeft - b.bestFix!.problemsLeft)[0]!;
    expect(story).toContain(`The best single cure: ${lower(best.bestFix!.says)}.`);

    const answer = searchPlan({ ...asked, options: { protections } }, { physics });
    if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
    expect(answer.outcome).toBe('optimal');
    expect(answer.check!.problems).toEqual([]);
    const value = (level: string) => answer.proof.find((each) => each.level === level)!.value;
    expect(story).toContain(`Found and proven best, ${value('heats')} heats: ${told(answer.plan!.heats)}`);
    expect(story).toContain(`${value('protections') || 'no'} ${value('protections') === 1 ? 'protection' : 'protections'}`);
    const [, why] = /^Heat \d+, [^:]*: (.*)$/.exec(answer.why.at(-1)!)!;
    expect(story).toContain(`Why: ${why}.`);
  });
});
