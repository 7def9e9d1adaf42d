/** The rules of a design that a plan breaks. */

import { isAnneal, type ExpandedHeat, type Fault, type PlanToCheck } from './plan-to-check.ts';
import { GRAM_TOLERANCE } from './sequence-problem.ts';

/** Most joints in one heat where the design does not say. */
export const USUAL_JOINTS_PER_HEAT = 3;

export function ruleFaults(input: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  return [...orderFaults(input, heats), ...heatFaults(input, heats), ...solderFaults(input, heats), ...stockFaults(input, heats)];
}

function orderFaults({ given, jointsOf }: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  const faults: Fault[] = [];
  const heatOf = heatsByJoint(heats);
  const { before = [], sameHeat = [], notSameHeat = [] } = given.rules ?? {};
  for (const [i, [a, b]] of before.entries()) {
    for (const earlier of jointsOf(a)) {
      for (const later of jointsOf(b)) {
        const [at, then] = [heatOf.get(earlier), heatOf.get(later)];
        // A joint that exists already was made before all others.
        if (at === undefined || then === undefined || at < then) continue;
        faults.push({
          pointer: `/design/rules/before/${i}`,
          detail: `${earlier} comes before ${later}: the plan has them in heats ${at + 1} and ${then + 1}`,
        });
      }
    }
  }
  for (const [i, group] of sameHeat.entries()) {
    const at = new Set(group.flatMap((id) => jointsOf(id)).flatMap((id) => heatOf.get(id) ?? []));
    if (at.size > 1)
      faults.push({
        pointer: `/design/rules/sameHeat/${i}`,
        detail: `${group.join(', ')} go into one heat: the plan has them in heats ${listed(at)}`,
      });
  }
  for (const [i, group] of notSameHeat.entries()) {
    // Copies of one joint may share a heat; copies of different ones may not.
    const at = group.flatMap((id) => [...new Set(jointsOf(id).flatMap((copy) => heatOf.get(copy) ?? []))]);
    const shared = at.find((heat, k) => at.indexOf(heat) < k);
    if (shared === undefined) continue;
    const detail = `${group.join(', ')} are never made together: the plan has two of them in heat ${shared + 1}`;
    faults.push({ pointer: `/design/rules/notSameHeat/${i}`, detail });
  }
  return faults;
}

const listed = (heats: Iterable<number>): string =>
  [...heats]
    .sort((a, b) => a - b)
    .map((heat) => heat + 1)
    .join(' and ');

function heatsByJoint(heats: readonly ExpandedHeat[]): Map<string, number> {
  return new Map(heats.flatMap(({ heat, targets }, i) => (isAnneal(heat) ? [] : targets.map((id) => [id, i] as const))));
}

function heatFaults({ given, design, physics }: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  const faults: Fault[] = [];
  const { maxJointsPerHeat = USUAL_JOINTS_PER_HEAT, maxSpreadMm = Infinity } = given.rules ?? {};
  for (const [i, { heat, targets }] of heats.entries()) {
    if (isAnneal(heat)) continue;
    const pointer = `/plan/heats/${i}/joints`;
    if (targets.length > maxJointsPerHeat) {
      faults.push({ pointer, detail: `Heat ${i + 1} makes ${targets.length} joints: at most ${maxJointsPerHeat} in one heat` });
    }
    if (maxSpreadMm === Infinity) continue;
    for (const [k, a] of targets.entries()) {
      for (const b of targets.slice(k + 1)) {
        const wayMm = physics.distanceMm(design, a, b);
        if (wayMm > maxSpreadMm)
          faults.push({
            pointer,
            detail: `Joints ${a} and ${b} of heat ${i + 1} are ${wayMm.toFixed(1)} mm apart along the metal: at most ${maxSpreadMm} mm`,
          });
      }
    }
  }
  return faults;
}

/** Why a joint may not be made with a solder, by the rules of its design; null where it may. */
export function refusal(
  { given, jointsOf, solders }: Pick<PlanToCheck, 'given' | 'jointsOf' | 'solders'>,
  joint: string,
  solderId: string,
): string | null {
  const solder = solders.find(({ id }) => id === solderId);
  if (!solder) return null;
  for (const [id, { only, exclude = [] }] of Object.entries(given.rules?.grades ?? {})) {
    if (id !== joint && !jointsOf(id).includes(joint)) continue;
    if (only !== undefined && only !== solderId) return `it must have ${only}`;
    if (exclude.includes(solderId)) return `${solderId} is excluded for it`;
  }
  const { leastSilverFraction } = given.rules ?? {};
  // A solder that does not say what it holds cannot be held to it.
  if (leastSilverFraction === undefined || solder.silverFraction === undefined || solder.silverFraction >= leastSilverFraction)
    return null;
  return `${solderId} holds ${solder.silverFraction} silver; at least ${leastSilverFraction} is asked for`;
}

function solderFaults(input: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  return heats.flatMap(({ heat, targets }, i) => {
    if (isAnneal(heat) || heat.solder === undefined) return [];
    return targets.flatMap((joint) => {
      const why = refusal(input, joint, heat.solder!);
      return why === null
        ? []
        : [{ pointer: `/plan/heats/${i}/solder`, detail: `Joint ${joint} is made with ${heat.solder} in heat ${i + 1}: ${why}` }];
    });
  });
}

function stockFaults({ solders, solderNeedG }: PlanToCheck, heats: readonly ExpandedHeat[]): Fault[] {
  if (!solderNeedG) return [];
  return solders.flatMap(({ id, availableG = Infinity }, i) => {
    const joints = heats.flatMap(({ heat, targets }) => (heat.solder === id && !isAnneal(heat) ? targets : []));
    const needG = joints.reduce((sum, joint) => sum + solderNeedG(joint, id), 0);
    if (needG <= availableG + GRAM_TOLERANCE) return [];
    return [
      {
        pointer: `/solders/${i}/availableG`,
        detail: `The plan takes ${needG.toFixed(4)} g of ${id}: ${availableG} g may be used`,
      },
    ];
  });
}
