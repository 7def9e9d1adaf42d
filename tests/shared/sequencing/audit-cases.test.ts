import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../shared/design/plan.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheckOutcome } from '../../../shared/sequencing/plan-check-answer.ts';
import type { SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { surrogateCheckRequest, surrogatePhysics, type SurrogatePlan } from '../../support/surrogate-check.ts';

// tests/reference/sequence-cases.json: what another program found wrong in plans typed with faults, and its best single edit for each.
interface Audit {
  piece: SurrogatePiece;
  plan: SurrogatePlan;
  violations: {
    heat: number;
    kind: string;
    joint?: string;
    T?: number;
    limit?: number;
    margin?: number;
    violationsLeftAfterFix: number;
  }[];
}

const file = new URL('../../reference/sequence-cases.json', import.meta.url);
const { audits } = JSON.parse(readFileSync(file, 'utf8')) as { audits: Audit[] };

/** Every joint tied, so that softening is a problem as it is one there. */
function checked({ piece, plan }: Audit, heats?: Plan['heats']): PlanCheckOutcome {
  const request = surrogateCheckRequest(piece, plan);
  const design = { ...request.design, joints: request.design.joints.map((joint) => ({ ...joint, load: 'tied' as const })) };
  const solderNeedG = (joint: string): number => piece.joints.find(({ id }) => id === joint)!.mass / 1000;
  return checkPlan(
    { ...request, design, plan: heats ? { heats } : request.plan },
    { physics: surrogatePhysics(piece), solderNeedG, ...(heats && { isStopped: () => true }) },
  );
}

/** As they are counted there: without an uncertainty. */
function violationsIn(outcome: PlanCheckOutcome): number {
  if (outcome.outcome === 'faults') return outcome.faults.length;
  const { heats, problems } = outcome.check;
  const soft = heats.flatMap(({ earlierJoints }) => earlierJoints.filter(({ solidMarginK }) => solidMarginK < 0));
  return soft.length + problems.filter(({ rule }) => rule === 'over_limit').length;
}

interface Finding {
  heat: number | null;
  joint: string | null;
  rule: string;
  fix: Plan['heats'] | null;
  margin?: number | null;
  T?: number | null;
  limit?: number | null;
}

function findings(outcome: PlanCheckOutcome): Finding[] {
  if (outcome.outcome === 'faults')
    return outcome.faults.map(({ pointer, bestFix }) => ({
      heat: Number(/\/plan\/heats\/(\d+)/.exec(pointer)?.[1] ?? NaN) + 1 || null,
      joint: null,
      rule: pointer.endsWith('availableG') ? 'stock' : 'rule',
      fix: bestFix?.change.plan.heats.slice() ?? null,
    }));
  return outcome.check.problems.map(({ heat, joint, rule, peakC, limitC, marginK, bestFix }) => ({
    heat,
    joint,
    rule,
    T: peakC,
    limit: limitC,
    margin: marginK,
    fix: bestFix?.change.plan.heats.slice() ?? null,
  }));
}

describe.each(audits.map((audit) => [audit.piece.id, audit] as const))('the audit of %s', (_, audit) => {
  const outcome = checked(audit);
  const found = findings(outcome);

  test.each(
    audit.violations.map(
      (violation) => [`heat ${violation.heat}, ${violation.kind} ${violation.joint ?? ''}`, violation] as const,
    ),
  )('finds %s, with a fix that leaves no more wrong', (__, { heat, kind, joint, violationsLeftAfterFix }) => {
    // A plan that breaks a rule is not run through the fire; a solder there is none of, or that melts the parts, is told as such.
    const match = found.find((each) =>
      outcome.outcome === 'checked'
        ? each.heat === heat && (joint === undefined ? each.rule === 'over_limit' : each.joint === joint)
        : each.rule === 'stock' || (kind !== 'stock' && each.heat === heat),
    );
    expect(match).toBeDefined();
    expect(match!.fix).not.toBeNull();
    expect(violationsIn(checked(audit, match!.fix!))).toBeLessThanOrEqual(violationsLeftAfterFix);
  });

  test('gives temperature, limit and margin of what softens', () => {
    if (outcome.outcome === 'faults') return;
    const { heats } = outcome.check;
    for (const { heat, kind, joint, T, limit, margin } of audit.violations.filter((each) => each.kind === 'remelt')) {
      expect(kind).toBe('remelt');
      const earlier = heats[heat - 1]!.earlierJoints.find((each) => each.joint === joint)!;
      expect(earlier.peakC).toBeCloseTo(T!, 3);
      expect(earlier.solidMarginK).toBeCloseTo(margin!, 3);
      const problem = found.find((each) => each.heat === heat && each.joint === joint)!;
      expect(problem.T).toBeCloseTo(T!, 3);
      // Where it runs, the limit is the liquidus, and the solidus where it only softens.
      const grade = audit.piece.grades.find(({ solidus }) => solidus === limit)!;
      const runsAt = problem.rule === 'softens' ? grade.solidus : grade.liquidus;
      expect(problem.limit).toBeCloseTo(runsAt, 6);
      expect(problem.margin).toBeCloseTo(runsAt - T!, 3);
    }
  });
});
