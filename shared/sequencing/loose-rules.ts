/** The rules of a question, each with the question that is left without it. */

import type { DesignRules } from '../design/design.ts';
import { expandDesign } from '../design/expand-design.ts';
import type { DesignQuestion } from './design-problem.ts';
import { USUAL_JOINTS_PER_HEAT } from './rule-faults.ts';

export interface LooseRule {
  name: string;
  /** In words, to stand after "as long as". */
  words: string;
  key: keyof DesignRules | 'maxC' | 'availableG';
  /** As it stands in the request: of a part or a solder, its id. */
  rule: unknown;
  without: (question: DesignQuestion) => DesignQuestion;
}

/** Enough joints in one heat for any piece. */
const ANY_NUMBER = 1000;

/** Rules as they were given: one that names a counted joint is one, whatever it comes to for its copies. */
export function looseRules(question: DesignQuestion): LooseRule[] {
  const rules = question.given.rules ?? {};
  const { maxJointsPerHeat = USUAL_JOINTS_PER_HEAT, maxSpreadMm, leastSilverFraction } = rules;
  return [
    ...orderRules(rules),
    ...Object.entries(rules.grades ?? {}).map(([joint, rule]): LooseRule => ({
      name: `grades ${joint}`,
      words: `not every solder may be used for ${joint}`,
      key: 'grades',
      rule: { [joint]: rule },
      without: changing((all) => ({
        ...all,
        grades: Object.fromEntries(Object.entries(all.grades ?? {}).filter(([id]) => id !== joint)),
      })),
    })),
    {
      name: `maxJointsPerHeat ${maxJointsPerHeat}`,
      words: `at most ${maxJointsPerHeat === 1 ? 'one joint goes' : `${maxJointsPerHeat} joints go`} into one heat`,
      key: 'maxJointsPerHeat',
      rule: maxJointsPerHeat,
      without: changing((all) => ({ ...all, maxJointsPerHeat: ANY_NUMBER })),
    },
    ...(maxSpreadMm === undefined
      ? []
      : [numberRule('maxSpreadMm', maxSpreadMm, `joints over ${maxSpreadMm} mm apart are not made together`)]),
    ...(leastSilverFraction === undefined
      ? []
      : [numberRule('leastSilverFraction', leastSilverFraction, `a solder holds at least ${leastSilverFraction} silver`)]),
    ...question.design.parts.flatMap(({ id, maxC }): LooseRule[] =>
      maxC === undefined
        ? []
        : [
            {
              name: `maxC ${id}`,
              words: `${id} may not pass ${maxC} °C`,
              key: 'maxC',
              rule: id,
              without: (asked) => ({
                ...asked,
                design: { ...asked.design, parts: asked.design.parts.map((part) => unlimited(part, id)) },
              }),
            },
          ],
    ),
    ...question.solders.flatMap(({ id, availableG }): LooseRule[] =>
      availableG === undefined
        ? []
        : [
            {
              name: `availableG ${id}`,
              words: `there are ${availableG} g of ${id}`,
              key: 'availableG',
              rule: id,
              without: (asked) => ({ ...asked, solders: asked.solders.map((solder) => ample(solder, id)) }),
            },
          ],
    ),
  ];
}

function orderRules(rules: DesignRules): LooseRule[] {
  const words = {
    before: (ids: readonly string[]) => `${ids[0]} is made before ${ids[1]}`,
    sameHeat: (ids: readonly string[]) => `${ids.join(', ')} go into one heat`,
    notSameHeat: (ids: readonly string[]) => `${ids.join(', ')} are never made together`,
  };
  return (['before', 'sameHeat', 'notSameHeat'] as const).flatMap((key) =>
    (rules[key] ?? []).map((rule): LooseRule => ({
      name: `${key} ${rule.join(', ')}`,
      words: words[key](rule),
      key,
      rule,
      without: changing((all) => ({ ...all, [key]: (all[key] ?? []).filter((each) => each !== rule) })),
    })),
  );
}

function numberRule(key: 'maxSpreadMm' | 'leastSilverFraction', value: number, words: string): LooseRule {
  const without = changing((all) => {
    const { [key]: _dropped, ...rest } = all;
    return rest;
  });
  return { name: `${key} ${value}`, words, key, rule: value, without };
}

const changing =
  (change: (rules: DesignRules) => DesignRules) =>
  (question: DesignQuestion): DesignQuestion =>
    withRules(question, change(question.given.rules ?? {}));

/** @param rules as they are given, in the ids of the design before its counts are expanded */
export function withRules(question: DesignQuestion, rules: DesignRules): DesignQuestion {
  const given = { ...question.given, rules };
  const { rules: expanded } = expandDesign(given).design;
  return { ...question, given, design: { ...question.design, ...(expanded && { rules: expanded }) } };
}

function unlimited<P extends { id: string; maxC?: number }>(part: P, id: string): P {
  if (part.id !== id) return part;
  const { maxC: _limit, ...rest } = part;
  return rest as P;
}

function ample<S extends { id: string; availableG?: number }>(solder: S, id: string): S {
  if (solder.id !== id) return solder;
  const { availableG: _short, ...rest } = solder;
  return rest as S;
}
