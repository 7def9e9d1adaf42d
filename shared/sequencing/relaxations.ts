import type { DesignQuestion } from './design-problem.ts';
import { canBeMade, withRules } from './explain-infeasible.ts';
import { MEANS_KINDS } from './heat-oracle.ts';
import type { ProtectionOption, Relaxation } from './plan-search-request.ts';
import { removableRules } from './removable-rules.ts';
import { USUAL_JOINTS_PER_HEAT } from './rule-faults.ts';

/**
 * What would let a plan be: one thing at a time let go, and the whole piece searched again for a plan at level 0. Only what was tried
 * and does is given; a list cut short by the purse is no shorter for any other reason.
 */
export function* relaxations(question: DesignQuestion, purse: { workUnits: number }): Generator<void, Relaxation[]> {
  const found: Relaxation[] = [];
  for (const [relaxation, looser] of candidates(question)) {
    if (purse.workUnits <= 0) break;
    if (yield* canBeMade(looser, purse)) found.push(relaxation);
  }
  return found;
}

function candidates(question: DesignQuestion): [Relaxation, DesignQuestion][] {
  const { design, solders, policy, protections } = question;
  const rules = design.rules ?? {};
  const list: [Relaxation, DesignQuestion][] = [];
  if (policy === 'stay_solid') {
    list.push([
      { change: { policy: 'do_not_run' }, says: 'Let earlier joints soften, as long as none runs' },
      { ...question, policy: 'do_not_run' },
    ]);
  }
  const open = design.joints.filter(({ made }) => !made).length;
  const { maxJointsPerHeat = USUAL_JOINTS_PER_HEAT } = rules;
  if (maxJointsPerHeat < open) {
    const more = withRules(question, { ...rules, maxJointsPerHeat: maxJointsPerHeat + 1 });
    list.push([
      { change: { maxJointsPerHeat: maxJointsPerHeat + 1 }, says: `Allow ${maxJointsPerHeat + 1} joints in one heat` },
      more,
    ]);
  }
  for (const { name, key, rule, without } of removableRules(rules)) {
    if (key !== 'maxJointsPerHeat')
      list.push([{ change: { drop: key, rule }, says: `Let go of the rule ${name}` }, withRules(question, without(rules))]);
  }
  for (const { id, availableG } of solders) {
    if (availableG === undefined) continue;
    const ample = solders.map((solder) => {
      if (solder.id !== id) return solder;
      const { availableG: _short, ...rest } = solder;
      return rest;
    });
    list.push([
      { change: { availableG: null, solder: id }, says: `Have more than ${availableG} g of ${id}` },
      { ...question, solders: ample },
    ]);
  }
  const missing = MEANS_KINDS.filter((kind) => !protections.some((each) => each.kind === kind));
  if (missing.length > 0) {
    const every: ProtectionOption[] = [...protections, ...missing.map((kind) => ({ kind }))];
    list.push([
      { change: { protections: every }, says: `Allow ${missing.map((kind) => kind.replace('_', ' ')).join(', ')}` },
      { ...question, protections: every },
    ]);
  }
  return list;
}
