/** What is wrong with a plan before any metal is warmed: every fault, each with where it is. */

import { namesOf, planNames } from './naming-faults.ts';
import type { Heat } from '../design/plan.ts';
import { endsOf } from '../design/joint-ends.ts';
import { fireOf, type Fire } from './piece-graph.ts';
import { expandHeats, isAnneal, madeBefore, type ExpandedHeat, type Fault, type PlanToCheck } from './plan-to-check.ts';
import { ruleFaults } from './rule-faults.ts';

const WAY_OUT =
  'Only a supplier’s sheet or a laboratory analysis can clear it; else decline the work, use a cold method, or send it to a shop licensed and equipped for it';

/** Every structural fault; an empty list: the plan can be run through the heat model. */
export function planFaults(input: PlanToCheck): Fault[] {
  const unknown = planNames(input);
  const joints = namesOf(input.given.joints);
  // What an unknown name would make of the rest is guesswork, so the other tests run on what is known.
  const plan = { heats: input.plan.heats.map((heat) => ({ ...heat, joints: heat.joints.filter((id) => joints.has(id)) })) };
  const known = { ...input, plan };
  const heats = expandHeats(known);
  return [...unknown, ...onceFaults(known, heats), ...fireFaults(known, heats), ...ruleFaults(known, heats)];
}

/** Every joint that is not there yet is made in one heat. */
function onceFaults({ design }: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  const faults: Fault[] = [];
  const heatOf = new Map<string, number>();
  const existing = new Set(madeBefore(design));
  for (const [i, { heat, targets }] of heats.entries()) {
    const pointer = `/plan/heats/${i}/joints`;
    if (isAnneal(heat)) {
      for (const id of targets) {
        if (!existing.has(id) && !heatOf.has(id))
          faults.push({ pointer, detail: `Joint ${id} is annealed in heat ${i + 1}: it is not made before it` });
      }
      continue;
    }
    if (heat.joints.length === 0)
      faults.push({ pointer, detail: `Heat ${i + 1} makes no joint: name at least one, or mark it as an anneal` });
    for (const id of targets) {
      if (existing.has(id)) faults.push({ pointer, detail: `Joint ${id} is in heat ${i + 1}: it exists already` });
      else if (heatOf.has(id))
        faults.push({ pointer, detail: `Joint ${id} is in heat ${i + 1}: heat ${heatOf.get(id)! + 1} has made it` });
      else heatOf.set(id, i);
    }
  }
  for (const { id } of design.joints) {
    if (!existing.has(id) && !heatOf.has(id)) faults.push({ pointer: '/plan/heats', detail: `Joint ${id} is in no heat` });
  }
  return faults;
}

/** What lies in the fire of each heat: one section, no cadmium, no hollow form without a vent. */
function fireFaults(input: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  const faults: Fault[] = [];
  const { design, solders } = input;
  const made = new Set(madeBefore(design));
  const closedBy = new Map<string, number | null>();
  for (const part of design.parts) {
    if (part.hollow?.ventMm !== 0) continue;
    if (design.joints.every((joint) => !endsOf(joint).includes(part.id) || joint.made)) closedBy.set(part.id, null);
  }
  for (const [i, { heat, targets }] of heats.entries()) {
    const pointer = `/plan/heats/${i}`;
    const number = i + 1;
    const fire = fireOf(design, made, targets);
    for (const id of fire.apart) {
      faults.push({
        pointer: `${pointer}/joints`,
        detail: `Joint ${id} in heat ${number} does not hang together with ${targets[0]}: a heat is one section`,
      });
    }
    for (const id of fire.made) {
      const existing = design.joints.find((joint) => joint.id === id)!.made;
      const standing =
        existing && (existing.cadmiumStanding ?? (existing.solder === 'unknown' ? 'unknown' : existing.solder.cadmiumStanding));
      if (standing === 'yes' || standing === 'unknown') {
        faults.push({
          pointer: `${pointer}/joints`,
          detail: `Joint ${id} would be in the fire of heat ${number}: its cadmium standing is ${standing}; do not heat it. ${WAY_OUT}`,
        });
      }
    }
    faults.push(...misplacedGuards(input, heat, fire, pointer, number));
    const standing = solders.find(({ id }) => id === heat.solder)?.cadmiumStanding;
    if (standing === 'yes' || standing === 'unknown') {
      faults.push({
        pointer: `${pointer}/solder`,
        detail: `Solder ${heat.solder} of heat ${number} cannot be used: its cadmium standing is ${standing}`,
      });
    }
    for (const id of fire.parts) {
      const by = closedBy.get(id);
      if (by === undefined) continue;
      const since =
        by === null ? 'has no open vent' : `was closed in heat ${by + 1}, and closing the last vent is the last heat of all`;
      faults.push({ pointer, detail: `Hollow part ${id} would be in the fire of heat ${number}: it ${since}` });
    }
    if (!isAnneal(heat)) for (const id of targets) made.add(id);
    for (const part of design.parts) {
      if (part.hollow?.ventMm !== 0 || closedBy.has(part.id)) continue;
      if (design.joints.every((joint) => !endsOf(joint).includes(part.id) || made.has(joint.id))) closedBy.set(part.id, i);
    }
  }
  return faults;
}

/** Protections and tilts that mean something which is not in the fire, and anti-flow on what is to flow. */
function misplacedGuards(
  { given, jointsOf, partsOf }: PlanToCheck,
  heat: Heat,
  fire: Fire,
  pointer: string,
  number: number,
): Fault[] {
  const [joints, parts] = [namesOf(given.joints), namesOf(given.parts)];
  const inFire = (id: string): boolean =>
    (joints.has(id) && jointsOf(id).some((copy) => fire.made.includes(copy) || fire.targets.includes(copy))) ||
    (parts.has(id) && partsOf(id).some((copy) => fire.parts.includes(copy)));
  const meant: [string, string | undefined][] = [
    ['flame/towards', heat.flame?.towards],
    ['flame/awayFrom', heat.flame?.awayFrom],
    ['flame/aim/part', heat.flame?.aim?.part],
  ];
  for (const [k, protection] of (heat.protections ?? []).entries()) {
    if (protection.kind !== 'sink') meant.push([`protections/${k}/guards`, protection.guards]);
    else if ('joint' in protection.at) meant.push([`protections/${k}/at/joint`, protection.at.joint]);
    else meant.push([`protections/${k}/at/part`, protection.at.part]);
  }
  const wet = (heat.protections ?? []).flatMap((protection, k) => {
    if (protection.kind !== 'anti_flow' || isAnneal(heat) || !joints.has(protection.guards)) return [];
    if (!jointsOf(protection.guards).some((copy) => fire.targets.includes(copy))) return [];
    const detail = `Anti-flow is on ${protection.guards} in heat ${number}: it is to flow in this heat`;
    return [{ pointer: `${pointer}/protections/${k}/guards`, detail }];
  });
  const cold = meant.flatMap(([at, id]) => {
    if (id === undefined || (!joints.has(id) && !parts.has(id)) || inFire(id)) return [];
    return [{ pointer: `${pointer}/${at}`, detail: `Heat ${number} means ${id}: it is not in the fire of that heat` }];
  });
  return [...wet, ...cold];
}
