import type { SequenceProblem } from './sequence-problem.ts';

/** Joints that the order rules tie into a ring, joints of one heat counting as one; null where there is none. */
export function orderRing({
  joints,
  after,
  together,
}: Pick<SequenceProblem, 'joints' | 'after' | 'together'>): { joints: number[]; throughGroup: boolean } | null {
  const groups = joints.map((_, j) => [...new Set([j, ...together.filter((group) => group.includes(j)).flat()])]);
  let shortest: number[] | null = null;
  for (const start of joints.keys()) {
    const ring = ringFrom(start, groups, after);
    if (ring && (!shortest || ring.length < shortest.length)) shortest = ring;
  }
  if (!shortest) return null;
  const ring = shortest;
  // Each is before the next by a rule of its own, or only through what shares its heat.
  const throughGroup = ring.some((j, i) => !after[j]!.includes(ring[(i + 1) % ring.length]!));
  return { joints: ring, throughGroup };
}

/** The shortest ring through one joint, or through what shares its heat. */
function ringFrom(start: number, groups: readonly (readonly number[])[], after: SequenceProblem['after']): number[] | null {
  const from = new Map<number, number>();
  const open = [...groups[start]!];
  for (let next = 0; next < open.length; next++) {
    const joint = open[next]!;
    for (const later of after[joint]!) {
      if (groups[start]!.includes(later)) return wayTo(joint, groups[start]!, from);
      for (const other of groups[later]!) {
        if (from.has(other)) continue;
        from.set(other, joint);
        open.push(other);
      }
    }
  }
  return null;
}

function wayTo(last: number, starts: readonly number[], from: ReadonlyMap<number, number>): number[] {
  const ring = [last];
  while (!starts.includes(ring[0]!)) ring.unshift(from.get(ring[0]!)!);
  return ring;
}
