import type { Design } from '../design/design.ts';
import type { Heat } from '../design/plan.ts';
import { fireOf } from './piece-graph.ts';

/** Differences named in one sentence. */
const MOST_NAMED = 2;

/**
 * What the hand does otherwise in one plan than in another: joints made together or alone, the order of heats that share a fire,
 * solders; the weightiest first, at most two.
 *
 * @param design expanded
 */
export function planDifferences(design: Design, from: readonly Heat[], to: readonly Heat[]): string[] {
  const found = [...ordersOf(design, from, to), ...groupsOf(from, to), ...soldersOf(from, to)];
  return found.slice(0, MOST_NAMED);
}

const heatAt = (heats: readonly Heat[], joint: string): number => heats.findIndex(({ joints }) => joints.includes(joint));

function ordersOf(design: Design, from: readonly Heat[], to: readonly Heat[]): string[] {
  const made = new Set(design.joints.filter((joint) => joint.made).map(({ id }) => id));
  const turned: string[] = [];
  for (const { joints } of to) {
    const fire = fireOf(design, made, joints);
    for (const joint of joints) {
      const earlier = fire.made.filter((id) => heatAt(from, id) > heatAt(from, joint));
      if (earlier.length > 0) turned.push(`${listed(earlier)} before ${joint}`);
      made.add(joint);
    }
  }
  return turned.slice(0, 1);
}

const keyOf = ({ joints }: Heat): string => joints.toSorted().join();

function groupsOf(from: readonly Heat[], to: readonly Heat[]): string[] {
  const had = new Set(from.map(keyOf));
  return to
    .filter((heat) => !had.has(keyOf(heat)))
    .toSorted((a, b) => b.joints.length - a.joints.length)
    .slice(0, 1)
    .map(({ joints }) => (joints.length > 1 ? `${listed(joints)} in one heat` : `${joints[0]} in a heat of its own`));
}

function soldersOf(from: readonly Heat[], to: readonly Heat[]): string[] {
  const bySolder = new Map<string, string[]>();
  for (const { joints, solder = '' } of to) {
    const other = joints.filter((id) => from[heatAt(from, id)]?.solder !== solder);
    if (other.length > 0) bySolder.set(solder, [...(bySolder.get(solder) ?? []), ...other]);
  }
  return [...bySolder].map(([solder, joints]) => `${listed(joints)} with ${solder}`);
}

const listed = (ids: readonly string[]): string =>
  ids.length < 2 ? `${ids[0]}` : `${ids.slice(0, -1).join(', ')} and ${ids.at(-1)}`;
