/** Names in a plan, and in the rules of its design, that stand for nothing, or for two things. */

import type { Design, DesignRules, Place } from '../design/design.ts';
import { isAnneal, type Fault, type PlanToCheck } from './plan-to-check.ts';
import { endsOf } from './piece-graph.ts';

type Named = Pick<PlanToCheck, 'given' | 'solders' | 'plan'>;

export function namingFaults(input: Named): Fault[] {
  return [...designNames(input), ...ruleNames(input), ...planNames(input)];
}

function twice(ids: readonly string[], at: (i: number) => string, word: string): Fault[] {
  return ids.flatMap((id, i) => (ids.indexOf(id) < i ? [{ pointer: at(i), detail: `${word} ${id} is given twice` }] : []));
}

/** Names within the design and the list of solders themselves. */
export function designNames({ given, solders }: Omit<Named, 'plan'>): Fault[] {
  const parts = namesOf(given.parts);
  const faults = [
    ...twice(
      given.parts.map(({ id }) => id),
      (i) => `/design/parts/${i}/id`,
      'Part',
    ),
    ...twice(
      given.joints.map(({ id }) => id),
      (i) => `/design/joints/${i}/id`,
      'Joint',
    ),
    ...twice(
      solders.map(({ id }) => id),
      (i) => `/solders/${i}/id`,
      'Solder',
    ),
  ];
  for (const [i, joint] of given.joints.entries()) {
    const where = joint.closes === undefined ? (side: number) => `between/${side}/part` : () => 'closes';
    for (const [side, id] of endsOf(joint).entries()) {
      if (joint.closes !== undefined && side > 0) continue;
      if (!parts.has(id))
        faults.push({
          pointer: `/design/joints/${i}/${where(side)}`,
          detail: `Joint ${joint.id} lies on part ${id}: there is no such part`,
        });
    }
  }
  return faults;
}

/** Every id, and every id of a copy. */
export function namesOf(items: readonly { id: string; count?: number }[]): Set<string> {
  return new Set(
    items.flatMap(({ id, count = 1 }) => [id, ...Array.from({ length: count > 1 ? count : 0 }, (_, i) => `${id}.${i + 1}`)]),
  );
}

/** Joints and solders that a rule names and that are not there. */
export function ruleNames({ given, solders }: Named): Fault[] {
  const rules = given.rules ?? {};
  const joints = namesOf(given.joints);
  const faults: Fault[] = [];
  const need = (pointer: string, id: string): void => {
    if (!joints.has(id)) faults.push({ pointer, detail: `The rule names joint ${id}: there is no such joint` });
  };
  for (const name of ['before', 'sameHeat', 'notSameHeat'] as const) {
    for (const [i, ids] of (rules[name] ?? []).entries())
      for (const [k, id] of ids.entries()) need(`/design/rules/${name}/${i}/${k}`, id);
  }
  for (const [id, { only }] of Object.entries(rules.grades ?? {})) {
    need(`/design/rules/grades/${escape(id)}`, id);
    if (only !== undefined && !solders.some((solder) => solder.id === only)) {
      faults.push({
        pointer: `/design/rules/grades/${escape(id)}/only`,
        detail: `Joint ${id} must have solder ${only}: there is no such solder`,
      });
    }
  }
  return faults;
}

const escape = (id: string): string => id.replaceAll('~', '~0').replaceAll('/', '~1');

/** Names in the heats of a plan that stand for nothing. */
export function planNames({ given, solders, plan }: Named): Fault[] {
  const faults: Fault[] = [];
  const joints = namesOf(given.joints);
  const parts = namesOf(given.parts);
  const isJoint = (id: string): boolean => joints.has(id);
  const isPart = (id: string): boolean => parts.has(id);
  for (const [i, heat] of plan.heats.entries()) {
    const at = `/plan/heats/${i}`;
    const number = i + 1;
    const miss = (pointer: string, detail: string): void => void faults.push({ pointer: `${at}/${pointer}`, detail });
    for (const [k, id] of heat.joints.entries())
      if (!isJoint(id)) miss(`joints/${k}`, `Heat ${number} names joint ${id}: there is no such joint`);
    if (heat.solder === undefined) {
      if (!isAnneal(heat)) miss('solder', `Heat ${number} has no solder: name one`);
    } else if (!solders.some(({ id }) => id === heat.solder)) {
      miss('solder', `Heat ${number} uses solder ${heat.solder}: there is no such solder`);
    }
    for (const name of ['towards', 'awayFrom'] as const) {
      const id = heat.flame?.[name];
      if (id !== undefined && !isJoint(id) && !isPart(id))
        miss(`flame/${name}`, `The flame of heat ${number} is tilted by ${id}: there is no such joint or part`);
    }
    const placed = (pointer: string, place: Place): void => {
      if (!isPart(place.part)) miss(`${pointer}/part`, `Heat ${number} names part ${place.part}: there is no such part`);
    };
    if (heat.flame?.aim) placed('flame/aim', heat.flame.aim);
    for (const [k, protection] of (heat.protections ?? []).entries()) {
      if (protection.kind === 'sink') {
        if ('joint' in protection.at) {
          if (!isJoint(protection.at.joint))
            miss(
              `protections/${k}/at/joint`,
              `A sink of heat ${number} is at joint ${protection.at.joint}: there is no such joint`,
            );
        } else placed(`protections/${k}/at`, protection.at);
      } else if (!isJoint(protection.guards) && !(protection.kind === 'shield' && isPart(protection.guards))) {
        const kinds = protection.kind === 'shield' ? 'joint or part' : 'joint';
        miss(`protections/${k}/guards`, `Heat ${number} guards ${protection.guards}: there is no such ${kinds}`);
      }
    }
  }
  return faults;
}

/** The rules that name only joints there are; the others are faults of their own. */
export function knownRules(given: Design): DesignRules {
  const joints = namesOf(given.joints);
  const { before, sameHeat, notSameHeat, grades, ...rest } = given.rules ?? {};
  const known = <T extends readonly string[]>(groups: readonly T[] | undefined): T[] =>
    (groups ?? []).filter((ids) => ids.every((id) => joints.has(id)));
  return {
    ...rest,
    before: known(before),
    sameHeat: known(sameHeat),
    notSameHeat: known(notSameHeat),
    grades: Object.fromEntries(Object.entries(grades ?? {}).filter(([id]) => joints.has(id))),
  };
}
