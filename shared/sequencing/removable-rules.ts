/** The rules of a design, each with the rules that are left without it. */

import type { DesignRules } from '../design/design.ts';
import { USUAL_JOINTS_PER_HEAT } from './rule-faults.ts';

export interface RemovableRule {
  name: string;
  key: keyof DesignRules;
  /** As it stands in the design. */
  rule: unknown;
  without: (rules: DesignRules) => DesignRules;
}

/** Enough joints in one heat for any piece. */
const ANY_NUMBER = 1000;

const withoutKey =
  (key: 'maxSpreadMm' | 'leastSilverFraction') =>
  (all: DesignRules): DesignRules => {
    const { [key]: _dropped, ...rest } = all;
    return rest;
  };

/** @param rules of an expanded design */
export function removableRules(rules: DesignRules): RemovableRule[] {
  const removable: RemovableRule[] = [];
  for (const key of ['before', 'sameHeat', 'notSameHeat'] as const) {
    for (const rule of rules[key] ?? []) {
      removable.push({
        name: `${key} ${rule.join(', ')}`,
        key,
        rule,
        without: (all) => ({ ...all, [key]: (all[key] ?? []).filter((each) => each !== rule) }),
      });
    }
  }
  for (const [joint, rule] of Object.entries(rules.grades ?? {})) {
    const without = (all: DesignRules): DesignRules => ({
      ...all,
      grades: Object.fromEntries(Object.entries(all.grades ?? {}).filter(([id]) => id !== joint)),
    });
    removable.push({ name: `grades ${joint}`, key: 'grades', rule: { [joint]: rule }, without });
  }
  const { maxJointsPerHeat = USUAL_JOINTS_PER_HEAT, maxSpreadMm, leastSilverFraction } = rules;
  removable.push({
    name: `maxJointsPerHeat ${maxJointsPerHeat}`,
    key: 'maxJointsPerHeat',
    rule: maxJointsPerHeat,
    without: (all) => ({ ...all, maxJointsPerHeat: ANY_NUMBER }),
  });
  if (maxSpreadMm !== undefined)
    removable.push({
      name: `maxSpreadMm ${maxSpreadMm}`,
      key: 'maxSpreadMm',
      rule: maxSpreadMm,
      without: withoutKey('maxSpreadMm'),
    });
  if (leastSilverFraction !== undefined) {
    removable.push({
      name: `leastSilverFraction ${leastSilverFraction}`,
      key: 'leastSilverFraction',
      rule: leastSilverFraction,
      without: withoutKey('leastSilverFraction'),
    });
  }
  return removable;
}
