/** What a maker may give up, buy or do otherwise so that a piece can be made, each at a price. */

import type { Joint } from '../design/design.ts';
import type { DesignQuestion } from './design-problem.ts';
import { PRICE, type Loosening } from './loosening.ts';
import { benchesFor, otherSolders, protectionsFor } from './loosenings-at-hand.ts';
import { looseRules, withRules, type LooseRule } from './loose-rules.ts';
import { USUAL_JOINTS_PER_HEAT } from './rule-faults.ts';

export function looseningsOf(question: DesignQuestion): Loosening[] {
  return [
    ...protectionsFor(question),
    ...benchesFor(question),
    ...moreJoints(question),
    ...looseRules(question).flatMap(ruleLetGo),
    ...softer(question),
    ...otherSolders(question),
    ...ofParts(question),
    ...ofJoints(question),
  ];
}

function moreJoints({ design, given }: DesignQuestion): Loosening[] {
  const open = design.joints.filter(({ made }) => !made).length;
  const { maxJointsPerHeat: most = USUAL_JOINTS_PER_HEAT } = given.rules ?? {};
  return [1, 2].flatMap((more): Loosening[] => {
    const maxJointsPerHeat = most + more;
    if (maxJointsPerHeat > open) return [];
    return [
      {
        kind: 'maxJointsPerHeat',
        price: more === 1 ? PRICE.oneMoreJoint : PRICE.twoMoreJoints,
        change: { maxJointsPerHeat },
        says: `Allow ${maxJointsPerHeat} joints in one heat`,
        loosen: (question) => withRules(question, { ...question.given.rules, maxJointsPerHeat }),
      },
    ];
  });
}

function ruleLetGo({ name, key, rule, without }: LooseRule): Loosening[] {
  const letGo = (price: number, says = `Let go of the rule ${name}`): Loosening[] => [
    { kind: name, price, change: { drop: key, rule }, says, loosen: without },
  ];
  switch (key) {
    case 'before':
      return letGo(PRICE.order);
    case 'sameHeat':
    case 'notSameHeat':
      return letGo(PRICE.group);
    case 'grades':
      return letGo(PRICE.solderRule);
    case 'maxSpreadMm':
      return letGo(PRICE.spread);
    case 'leastSilverFraction':
      return letGo(PRICE.fineness);
    case 'maxC':
      return letGo(
        PRICE.limit,
        `Fit ${String(rule)} after all soldering, or keep its heat off it in a way that is not reckoned here`,
      );
    case 'availableG':
      return [
        {
          kind: name,
          price: PRICE.stock,
          change: { availableG: null, solder: String(rule) },
          says: `Have more ${String(rule)} than there is`,
          loosen: without,
        },
      ];
    case 'maxJointsPerHeat':
      return [];
  }
}

function softer({ policy }: DesignQuestion): Loosening[] {
  if (policy !== 'stay_solid') return [];
  return [
    {
      kind: 'policy',
      price: PRICE.soften,
      change: { policy: 'do_not_run' },
      says: 'Let earlier joints soften, as long as none runs',
      loosen: (question) => ({ ...question, policy: 'do_not_run' }),
    },
  ];
}

function ofParts({ design }: DesignQuestion): Loosening[] {
  return design.parts.flatMap(({ id, hollow }): Loosening[] =>
    hollow?.ventMm === 0
      ? [
          {
            kind: `vent ${id}`,
            price: PRICE.vent,
            change: { ventMm: 1, part: id },
            says: `Drill a vent in ${id}`,
            loosen: (question) => ({
              ...question,
              design: {
                ...question.design,
                parts: question.design.parts.map((part) => (part.id === id ? { ...part, hollow: { ventMm: 1 } } : part)),
              },
            }),
          },
        ]
      : [],
  );
}

/** Joints that may be riveted or screwed instead; a seam, a bezel or a grain may not. */
const COLD_KINDS: ReadonlySet<Joint['kind']> = new Set(['lap', 'tee', 'post', 'butt']);

const withJoints = (question: DesignQuestion, change: (joint: Joint) => Joint[]): DesignQuestion => ({
  ...question,
  design: { ...question.design, joints: question.design.joints.flatMap(change) },
});

function ofJoints({ design, policy }: DesignQuestion): Loosening[] {
  return design.joints.flatMap(({ id, kind, load = 'none', made }): Loosening[] => {
    const own = (change: (joint: Joint) => Joint[]) => (question: DesignQuestion) =>
      withJoints(question, (joint) => (joint.id === id ? change(joint) : [joint]));
    const found: Loosening[] = [];
    if (load !== 'none' && policy === 'do_not_run')
      found.push({
        kind: `load ${id}`,
        price: PRICE.unloaded,
        change: { load: 'none', joint: id },
        says: `Prop ${id}, so that nothing pulls on it while it is hot`,
        loosen: own((joint) => [{ ...joint, load: 'none' }]),
      });
    if (made) {
      found.push({
        kind: `remake ${id}`,
        price: PRICE.madeAgain,
        change: { remake: id },
        says: `Take ${id} apart and make it anew`,
        loosen: own(({ made: _made, ...joint }) => [joint]),
      });
    } else if (COLD_KINDS.has(kind)) {
      found.push({
        kind: `cold ${id}`,
        price: PRICE.cold,
        change: { cold: id },
        says: `Join ${id} cold, by a rivet or a screw`,
        loosen: own(() => []),
      });
    }
    return found;
  });
}
