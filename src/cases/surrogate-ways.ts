/** Shortest ways along the arms of a piece of the sequencing cases, through the joints that are there. */

import type { Section } from '../../shared/sequencing/heat-oracle.ts';

/** Ways from the nearest target to a joint and to the centre of a part; Infinity where there is none. mm */
export interface Ways {
  toJoint: (id: string) => number;
  toPart: (id: string) => number;
}

/** A joint between two parts, each with the length of the arm to its centre. */
interface ArmedJoint {
  id: string;
  a: string;
  b: string;
  la: number;
  lb: number;
}

interface Arm {
  joint: number;
  part: number;
  mm: number;
}

/** Answers for any section of a piece. */
export function nearestWays({
  joints,
  parts,
}: {
  joints: readonly ArmedJoint[];
  parts: readonly { id: string }[];
}): (section: Section) => Ways {
  const jointAt = new Map(joints.map(({ id }, i) => [id, i]));
  const partAt = new Map(parts.map(({ id }, i) => [id, i]));
  const arms = joints.map(({ a, b, la, lb }, joint): Arm[] => [
    { joint, part: partAt.get(a)!, mm: la },
    { joint, part: partAt.get(b)!, mm: lb },
  ]);
  const onPart = parts.map((_, part) => arms.flat().filter((arm) => arm.part === part));
  return ({ made, targets }) => {
    const isThere = new Uint8Array(joints.length);
    for (const id of made) isThere[jointAt.get(id)!] = 1;
    const toJoint = new Float64Array(joints.length).fill(Infinity);
    const toPart = new Float64Array(parts.length).fill(Infinity);
    const open: number[] = [];
    for (const id of targets) {
      const joint = jointAt.get(id)!;
      isThere[joint] = 1;
      toJoint[joint] = 0;
      open.push(joint);
    }
    for (let next = 0; next < open.length; next++) {
      for (const out of arms[open[next]!]!) {
        const atPart = toJoint[out.joint]! + out.mm;
        if (!(atPart < toPart[out.part]!)) continue;
        toPart[out.part] = atPart;
        for (const onward of onPart[out.part]!) {
          const way = atPart + onward.mm;
          if (isThere[onward.joint] === 0 || !(way < toJoint[onward.joint]!)) continue;
          toJoint[onward.joint] = way;
          open.push(onward.joint);
        }
      }
    }
    return { toJoint: (id) => toJoint[jointAt.get(id)!]!, toPart: (id) => toPart[partAt.get(id)!]! };
  };
}

/** The way between two joints of the whole piece. */
export function distanceMm(joints: readonly ArmedJoint[], from: string): (to: string) => number {
  const parts = [...new Set(joints.flatMap(({ a, b }) => [a, b]))].map((id) => ({ id }));
  return nearestWays({ joints, parts })({ made: joints.map(({ id }) => id), targets: [from] }).toJoint;
}
