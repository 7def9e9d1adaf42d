/** Names in a plan, and in the rules of its design, that stand for nothing, or for two things. */

import { escapePointer, idsOf, pieceFaults, ruleNameFaults, type DesignFault } from '../design/design-faults.ts';
import type { Design, DesignRules, Place } from '../design/design.ts';
import { isAnneal, type Fault, type PlanToCheck } from './plan-to-check.ts';

type Named = Pick<PlanToCheck, 'given' | 'solders' | 'plan'>;

export function namingFaults(input: Named): Fault[] {
  return [...designNames(input), ...ruleNames(input), ...planNames(input)];
}

/** What is wrong with the parts and joints of a design, and with the list of solders. */
export function designNames({ given, solders }: Omit<Named, 'plan'>): Fault[] {
  const ids = solders.map(({ id }) => id);
  const twice = ids.flatMap((id, i) =>
    ids.indexOf(id) < i ? [{ pointer: `/solders/${i}/id`, detail: `Solder ${id} is given twice` }] : [],
  );
  return [...pieceFaults(given).map(inDesign), ...twice];
}

const inDesign = ({ pointer, detail }: DesignFault): Fault => ({ pointer: `/design${pointer}`, detail });

/** Every id, and every id of a copy. */
export function namesOf(items: readonly { id: string; count?: number }[]): Set<string> {
  return new Set(items.flatMap(idsOf));
}

/** Joints and solders that a rule names and that are not there. */
export function ruleNames({ given, solders }: Named): Fault[] {
  const missing = Object.entries(given.rules?.grades ?? {}).flatMap(([id, { only }]) =>
    only === undefined || solders.some((solder) => solder.id === only)
      ? []
      : [
          {
            pointer: `/design/rules/grades/${escapePointer(id)}/only`,
            detail: `Joint ${id} must have solder ${only}: there is no such solder`,
          },
        ],
  );
  return [...ruleNameFaults(given).map(inDesign), ...missing];
}

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
