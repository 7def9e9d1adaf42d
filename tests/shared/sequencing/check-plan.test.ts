import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import type { Plan } from '../../../shared/design/plan.ts';
import { checkPlan, type PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import { surrogateCheckRequest, surrogatePhysics, type SurrogatePlan } from '../../support/surrogate-check.ts';
import { flowC, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { bench, pendant, pendantPlan, solders } from '../../support/pendant.ts';

const request: PlanCheckRequest = { design: pendant, solders, bench, plan: pendantPlan };

function faultsOf(changes: Partial<PlanCheckRequest>, needG?: (joint: string, solder: string) => number): string[] {
  const outcome = checkPlan({ ...request, ...changes }, needG ? { solderNeedG: needG } : {});
  if (outcome.outcome === 'checked') return [];
  return outcome.faults.map(({ pointer, detail }) => `${pointer}: ${detail}`);
}

function checkOf(changes: Partial<PlanCheckRequest> = {}) {
  const outcome = checkPlan({ ...request, ...changes });
  if (outcome.outcome === 'faults') throw new Error(JSON.stringify(outcome.faults));
  return outcome.check;
}

const bare: Plan = { heats: pendantPlan.heats.map(({ joints, solder }) => ({ joints, solder: solder! })) };
const withHeats = (change: (heats: Plan['heats']) => Plan['heats']): Plan => ({ heats: change(bare.heats) });
const withRules = (rules: Design['rules']): Design => ({ ...pendant, rules: { ...pendant.rules, ...rules } });

describe('a fault of structure is named', () => {
  test('for a joint in no heat, and for one made twice', () => {
    expect(faultsOf({ plan: withHeats((heats) => [...heats.slice(0, 3), { joints: ['bezel'], solder: 'easy' }]) })).toEqual([
      '/plan/heats/3/joints: Joint bezel is in heat 4: heat 3 has made it',
      '/plan/heats: Joint bail-on is in no heat',
    ]);
  });

  test('for joints that do not hang together', () => {
    const plan = withHeats((heats) => [{ joints: ['wall-seam', 'bail-seam'], solder: 'hard' }, ...heats.slice(2)]);
    expect(faultsOf({ plan })).toEqual([
      '/plan/heats/0/joints: Joint bail-seam in heat 1 does not hang together with wall-seam: a heat is one section',
    ]);
  });

  test('for every unknown name at once', () => {
    const plan = withHeats((heats) => [
      { ...heats[0]!, solder: 'tin' },
      { ...heats[1]!, flame: { awayFrom: 'moon' } },
      {
        ...heats[2]!,
        protections: [
          { kind: 'shield', guards: 'sun' },
          { kind: 'sink', sink: 'tweezers', at: { joint: 'star' } },
        ],
      },
      { ...heats[3]!, joints: ['bail-on', 'comet'] },
    ]);
    expect(faultsOf({ plan }).map((fault) => fault.split(':')[0])).toEqual([
      '/plan/heats/0/solder',
      '/plan/heats/1/flame/awayFrom',
      '/plan/heats/2/protections/0/guards',
      '/plan/heats/2/protections/1/at/joint',
      '/plan/heats/3/joints/1',
    ]);
  });

  test('for anti-flow on what is to flow, and for a guard that is not in the fire', () => {
    const plan = withHeats((heats) => [
      heats[0]!,
      {
        ...heats[1]!,
        protections: [
          { kind: 'anti_flow', guards: 'bail-seam' },
          { kind: 'shield', guards: 'wall' },
        ],
      },
      ...heats.slice(2),
    ]);
    expect(faultsOf({ plan })).toEqual([
      '/plan/heats/1/protections/0/guards: Anti-flow is on bail-seam in heat 2: it is to flow in this heat',
      '/plan/heats/1/protections/1/guards: Heat 2 means wall: it is not in the fire of that heat',
    ]);
  });

  test.each([
    [
      { before: [['bezel', 'wall-seam']] as const },
      '/design/rules/before/0: bezel comes before wall-seam: the plan has them in heats 3 and 1',
    ],
    [
      { sameHeat: [['bezel', 'bail-on']] },
      '/design/rules/sameHeat/0: bezel, bail-on go into one heat: the plan has them in heats 3 and 4',
    ],
    [
      { grades: { bezel: { only: 'hard' } } },
      '/plan/heats/2/solder: Joint bezel is made with medium in heat 3: it must have hard',
    ],
    [
      { grades: { 'bail-on': { exclude: ['easy'] } } },
      '/plan/heats/3/solder: Joint bail-on is made with easy in heat 4: easy is excluded for it',
    ],
  ])('for a broken rule %j', (rules, fault) => {
    expect(faultsOf({ design: withRules(rules), plan: bare })).toEqual([fault]);
  });

  test('for joints that must not share a heat, too many of them, and too far apart', () => {
    const plan: Plan = { heats: [bare.heats[0]!, { joints: ['bezel', 'bail-seam', 'bail-on'], solder: 'medium' }] };
    const faults = faultsOf({
      plan,
      design: withRules({ notSameHeat: [['bezel', 'bail-on']], maxJointsPerHeat: 2, maxSpreadMm: 3 }),
    });
    expect(faults[0]).toBe(
      '/design/rules/notSameHeat/0: bezel, bail-on are never made together: the plan has two of them in heat 2',
    );
    expect(faults[1]).toBe('/plan/heats/1/joints: Heat 2 makes 3 joints: at most 2 in one heat');
    expect(faults.slice(2).join()).toMatch(
      /Joints bezel and bail-on of heat 2 are \d+\.\d mm apart along the metal: at most 3 mm/,
    );
  });

  test('for more solder than there is', () => {
    expect(faultsOf({ plan: bare }, (_, solder) => (solder === 'hard' ? 2.6 : 0))).toEqual([
      '/solders/0/availableG: The plan takes 5.2000 g of hard: 5 g may be used',
    ]);
    expect(faultsOf({ plan: bare }, () => 2.5)).toEqual([]);
  });

  test('for a solder that holds too little silver, but not for one that does not say', () => {
    const said = solders.map((solder) => (solder.id === 'easy' ? { ...solder, silverFraction: 0.6 } : solder));
    expect(faultsOf({ solders: said, plan: bare })).toEqual([
      '/plan/heats/3/solder: Joint bail-on is made with easy in heat 4: easy holds 0.6 silver; at least 0.65 is asked for',
    ]);
    expect(faultsOf({ plan: bare })).toEqual([]);
  });

  test('for cadmium, in a solder or in a joint that exists', () => {
    const cadmium = solders.map((solder) => (solder.id === 'easy' ? { ...solder, cadmiumStanding: 'unknown' as const } : solder));
    expect(faultsOf({ solders: cadmium, plan: bare })).toEqual([
      '/plan/heats/3/solder: Solder easy of heat 4 cannot be used: its cadmium standing is unknown',
    ]);
    const old = {
      ...pendant,
      joints: pendant.joints.map((joint) =>
        joint.id === 'wall-seam' ? { ...joint, made: { solder: solders[0]!, cadmiumStanding: 'yes' as const } } : joint,
      ),
    };
    const faults = faultsOf({ design: old, plan: withHeats((heats) => heats.slice(1)) });
    expect(faults).toHaveLength(2);
    expect(faults[0]).toBe(
      '/plan/heats/1/joints: Joint wall-seam would be in the fire of heat 2: its cadmium standing is yes; do not heat it. Only a supplier’s sheet or a laboratory analysis can clear it; else decline the work, use a cold method, or send it to a shop licensed and equipped for it',
    );
  });

  test('for a heat after a hollow form has been closed', () => {
    const hollow = {
      ...pendant,
      parts: pendant.parts.map((part) => (part.id === 'wall' ? { ...part, hollow: { ventMm: 0 } } : part)),
    };
    expect(faultsOf({ design: hollow, plan: bare })).toEqual([
      '/plan/heats/3: Hollow part wall would be in the fire of heat 4: it was closed in heat 3, and closing the last vent is the last heat of all',
    ]);
    const vented = {
      ...pendant,
      parts: pendant.parts.map((part) => (part.id === 'wall' ? { ...part, hollow: { ventMm: 1 } } : part)),
    };
    expect(checkOf({ design: vented, plan: bare }).heats[3]!.cautions).toEqual(['C1', 'C2', 'C8']);
  });
});

describe('a plan without faults', () => {
  test('is run heat by heat, in sections', () => {
    const { heats } = checkOf();
    expect(heats.map(({ heat, inFire }) => [heat, ...inFire])).toEqual([
      [1, 'wall'],
      [2, 'bail'],
      [3, 'plate', 'wall'],
      [4, 'plate', 'wall', 'bail'],
    ]);
    expect(heats[3]!.earlierJoints.map(({ joint }) => joint).sort()).toEqual(['bail-seam', 'bezel', 'wall-seam']);
    for (const { earlierJoints } of heats) {
      for (const { joint, peakC, solidMarginK, runMarginK } of earlierJoints) {
        const { solidusC, liquidusC } = solders.find(({ id }) => id === (joint === 'bezel' ? 'medium' : 'hard'))!;
        expect(solidMarginK).toBeCloseTo(solidusC - peakC, 9);
        expect(runMarginK).toBeCloseTo(liquidusC - peakC, 9);
      }
    }
  });

  test('has the best of its small edits beside each problem, and that edit holds what it says', () => {
    const { verdict, problems } = checkOf({ plan: bare });
    expect(verdict).toBe('problem');
    for (const { bestFix } of problems) {
      expect(bestFix).not.toBeNull();
      expect(checkOf({ plan: bestFix!.change.plan }).problems).toHaveLength(bestFix!.problemsLeft);
      expect(bestFix!.problemsLeft).toBeLessThan(problems.length);
    }
  });

  test('may name all copies of a joint by the one it was entered with', () => {
    const grains: Design = {
      parts: [pendant.parts[0]!, { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 1.5 }, count: 3 }],
      joints: [
        {
          id: 'grain-on',
          kind: 'granule',
          diameterMm: 1.5,
          neckRadiusMm: 0.4,
          gapMm: 0.02,
          count: 3,
          between: [{ part: 'plate', xMm: 15, yMm: 10 }, { part: 'grain' }],
        },
      ],
    };
    const { heats } = checkOf({ design: grains, plan: { heats: [{ joints: ['grain-on'], solder: 'easy' }] } });
    expect(heats[0]!.joints).toEqual(['grain-on.1', 'grain-on.2', 'grain-on.3']);
  });

  test('says what it rests on', () => {
    const { assumptions } = checkOf();
    expect(assumptions.torch).toEqual({ powerW: 250, spreadMm: 10, gasC: 1500 });
    expect(assumptions.deferral).toContain('try it on scrap');
    expect(assumptions.leavesOut.length).toBeGreaterThan(3);
  });
});

// The violations found by another program in plans typed with faults, under the surrogate law.
interface Audit {
  piece: SurrogatePiece;
  plan: SurrogatePlan;
  violations: {
    heat: number;
    kind: 'remelt' | 'stock' | 'grade-not-allowed';
    joint?: string;
    T?: number;
    limit?: number;
    margin?: number;
  }[];
}
const file = new URL('../../reference/sequence-cases.json', import.meta.url);
const { audits } = JSON.parse(readFileSync(file, 'utf8')) as { audits: Audit[] };
const structural = ({ violations }: Audit): boolean => violations.some(({ kind }) => kind !== 'remelt');

const key = (each: { heat: number; joint?: string | undefined }): string => `${each.heat} ${each.joint}`;

describe('an audited plan', () => {
  test('comes in both kinds', () => {
    expect(audits.filter(structural).length).toBe(4);
    expect(audits.length).toBe(6);
  });

  test.each(audits.filter((audit) => !structural(audit)).map((audit) => [audit.piece.id, audit] as const))(
    'of %s melts the same joints by as much',
    (_, { piece, plan, violations }) => {
      const outcome = checkPlan(surrogateCheckRequest(piece, plan), { physics: surrogatePhysics(piece) });
      const check = outcome.outcome === 'checked' ? outcome.check : null;
      const found = check!.heats.flatMap(({ heat, earlierJoints }) =>
        earlierJoints
          .filter(({ solidMarginK }) => solidMarginK < 0)
          .map(({ joint, peakC, solidMarginK }) => ({ heat, joint, T: peakC.toFixed(3), margin: solidMarginK.toFixed(3) })),
      );
      const expected = violations.map(({ heat, joint, T, margin }) => ({
        heat,
        joint,
        T: T!.toFixed(3),
        margin: margin!.toFixed(3),
      }));
      expect(found.sort((a, b) => (key(a) < key(b) ? -1 : 1))).toEqual(expected.sort((a, b) => (key(a) < key(b) ? -1 : 1)));
    },
  );

  test.each(audits.filter(structural).map((audit) => [audit.piece.id, audit] as const))(
    'of %s is refused for the same heats',
    (_, { piece, plan, violations }) => {
      const needG = (joint: string): number => piece.joints.find(({ id }) => id === joint)!.mass / 1000;
      const outcome = checkPlan(surrogateCheckRequest(piece, plan), { physics: surrogatePhysics(piece), solderNeedG: needG });
      const pointers = outcome.outcome === 'faults' ? outcome.faults.map(({ pointer }) => pointer) : [];
      // Refused there for want of solder, or for a solder that flows above the part's own metal: here those are other findings.
      const byRule = ({ heat }: { heat: number }): boolean => {
        const grade = piece.grades.find(({ id }) => id === plan[heat - 1]!.grade)!;
        return (
          flowC(piece, grade) <= Math.min(...piece.parts.map(({ baseSolidus }) => baseSolidus)) && piece.stock[grade.id] !== 0
        );
      };
      const grades = violations.filter(({ kind }) => kind === 'grade-not-allowed').filter(byRule);
      for (const { heat } of grades) expect(pointers).toContain(`/plan/heats/${heat - 1}/solder`);
      const short = violations.some(({ kind }) => kind === 'stock');
      expect(pointers.some((pointer) => pointer.endsWith('availableG'))).toBe(short);
    },
  );
});

test('checkPlan() says when it was told to stop trying fixes, and then offers none', () => {
  const whole = checkPlan({ ...request, plan: bare });
  const stopped = checkPlan({ ...request, plan: bare }, { isStopped: () => true });
  if (whole.outcome !== 'checked' || stopped.outcome !== 'checked') throw new Error('the plan has faults');
  expect(whole.check.problems.length).toBeGreaterThan(0);
  expect(whole.check.fixesCutShort).toBe(false);
  expect(stopped.check.fixesCutShort).toBe(true);
  expect(stopped.check.problems).toEqual(whole.check.problems.map((problem) => ({ ...problem, bestFix: null })));
});
