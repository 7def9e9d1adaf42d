/** The ways in which one heat can be done at a margin level: solder, protections, and what each leaves possible for earlier joints. */

import { MEANS_KINDS, type HeatTemperatures, type Means, type Reached, type Technique } from './heat-oracle.ts';
import type { HeatRecord, HeatTable } from './heat-table.ts';
import { bitsOf, MARGIN_TOLERANCE_K, type JointLimit } from './sequence-problem.ts';

export interface HeatOption {
  grade: number;
  /** Number of protections. */
  protections: number;
  technique: Technique;
  /** By joint: mask of the grades with which it stands this heat, where it was made earlier. */
  stands: readonly number[];
}

interface Partial {
  technique: Means[];
  used: readonly number[];
  stands: readonly number[];
}

/** One way to treat one earlier joint or limited part. */
interface Choice {
  means: Means[];
  used: readonly number[];
  /** Grades with which an earlier joint stands it; all bits or none for what has a limit of its own. */
  mask: number;
}

/** Kelvin that are left up to a limit, with or without anti-flow; −Infinity where anti-flow does not hold so long. */
export function marginK(limit: JointLimit, reached: Reached, held: boolean): number {
  if (!held) return limit.limitC - reached.peakC - reached.uncertaintyK;
  if (!limit.held) return Number.NEGATIVE_INFINITY;
  if (reached.secondsAbove(limit.held.secondsOverC) > limit.held.budgetS) return Number.NEGATIVE_INFINITY;
  return limit.held.limitC - reached.peakC - reached.uncertaintyK;
}

const ALL = -1;

const total = (used: readonly number[]): number => used.reduce((sum, count) => sum + count, 0);
const usedBy = (means: readonly Means[]): number[] =>
  MEANS_KINDS.map((kind) => means.filter((each) => each.kind === kind).length);
const plus = (a: readonly number[], b: readonly number[]): number[] => a.map((count, i) => count + b[i]!);
const noMore = (a: readonly number[], b: readonly number[]): boolean => a.every((count, i) => count <= b[i]!);
const covers = (a: number, b: number): boolean => (a & b) === b;

/** Every subset of at most `most` elements, smaller ones first, in the order given. */
export function subsetsUpTo<T>(items: readonly T[], most: number): T[][] {
  const bySize: T[][][] = [[[]]];
  for (let size = 1; size <= Math.min(most, items.length); size++) bySize.push([]);
  const grow = (from: number, chosen: T[]): void => {
    for (let i = from; i < items.length; i++) {
      if (chosen.length + 1 >= bySize.length) return;
      const next = [...chosen, items[i]!];
      bySize[next.length]!.push(next);
      grow(i + 1, next);
    }
  };
  grow(0, []);
  return bySize.flat();
}

/** Drops every element that another one beats or equals; of two equals the earlier stays. */
export function undominated<T>(items: readonly T[], beats: (a: T, b: T) => boolean): T[] {
  const kept: T[] = [];
  for (const item of items) {
    if (kept.some((other) => beats(other, item))) continue;
    for (let i = kept.length - 1; i >= 0; i--) if (beats(item, kept[i]!)) kept.splice(i, 1);
    kept.push(item);
  }
  return kept;
}

/**
 * The options of one heat at a level: every solder that can be used there, with at most `mostProtections` protections, fewest first. An
 * option is left out when another of the same solder takes no more protections and leaves every earlier joint at least as free.
 * @param levelK margin that every earlier joint and limited part keeps beyond its uncertainty; −Infinity: whatever happens
 */
export function heatOptions(table: HeatTable, record: HeatRecord, levelK: number, mostProtections: number): HeatOption[] {
  const { problem } = table;
  const caps = MEANS_KINDS.map((kind) => problem.maxMeans[kind]);
  const sectionMeans = record.means.filter(({ reach }) => reach === 'section');
  const together = Math.min(table.oracle.sectionMeansTogether, mostProtections);
  const sets = subsetsUpTo(sectionMeans, together).filter((set) => noMore(usedBy(set), caps));
  const earlier = bitsOf(record.component.joints & ~record.targets);
  const options: HeatOption[] = [];
  for (const grade of problem.grades.keys()) {
    if (!bitsOf(record.targets).every((j) => (problem.joints[j]!.allowed & (1 << grade)) !== 0)) continue;
    const ofGrade: HeatOption[] = [];
    if (!withinReach(table, record, grade, levelK)) continue;
    let freeAt = Infinity;
    for (const set of sets) {
      // Whatever takes more protections than an option that leaves every earlier joint free is beaten by it: not simulated.
      if (set.length >= freeAt) break;
      for (const { technique, stands } of optionsWith(table, record, grade, levelK, { set, caps, mostProtections })) {
        ofGrade.push({ grade, protections: technique.length, technique, stands });
        if (earlier.every((j) => covers(stands[j]!, problem.joints[j]!.allowed))) freeAt = Math.min(freeAt, technique.length);
      }
    }
    options.push(
      ...undominated(
        ofGrade,
        (a, b) => a.protections <= b.protections && a.stands.every((mask, j) => covers(mask, b.stands[j]!)),
      ),
    );
  }
  return options.sort((a, b) => a.protections - b.protections || a.grade - b.grade);
}

const highestC = ({ limitC, held }: JointLimit): number => Math.max(limitC, held?.limitC ?? limitC);

/** False when not even the oracle's bound lets some earlier joint or part stand this heat. */
function withinReach(table: HeatTable, record: HeatRecord, grade: number, levelK: number): boolean {
  const { problem, oracle } = table;
  const solder = problem.grades[grade]!.id;
  const fits = (id: string, limitC: number): boolean =>
    limitC - oracle.bound(record.section, solder, id) >= levelK - MARGIN_TOLERANCE_K;
  return (
    bitsOf(record.component.joints & ~record.targets).every((j) =>
      problem.joints[j]!.limits.some((limit) => fits(problem.joints[j]!.id, highestC(limit))),
    ) &&
    problem.made.every(({ id, limit }) => !record.component.made.includes(id) || fits(id, highestC(limit))) &&
    problem.parts.every(({ id, limitC }) => !record.component.parts.includes(id) || fits(id, limitC))
  );
}

interface Frame {
  set: readonly Means[];
  caps: readonly number[];
  mostProtections: number;
}

function optionsWith(table: HeatTable, record: HeatRecord, grade: number, levelK: number, frame: Frame): Partial[] {
  const { problem } = table;
  const solder = problem.grades[grade]!.id;
  const plain = table.run(record, frame.set)[solder];
  if (!plain) return [];
  if (levelK > Number.NEGATIVE_INFINITY && !plain.possible) return [];
  let partials: Partial[] = [{ technique: [...frame.set], used: usedBy(frame.set), stands: problem.joints.map(() => ALL) }];
  const widen = (choices: readonly Choice[], joint: number): void => {
    const next: Partial[] = [];
    for (const partial of partials) {
      for (const { means, used, mask } of choices) {
        table.combinations++;
        const sum = plus(partial.used, used);
        if (!noMore(sum, frame.caps) || total(sum) > frame.mostProtections) continue;
        const stands = joint < 0 ? partial.stands : partial.stands.map((each, j) => (j === joint ? mask : each));
        next.push({ technique: [...partial.technique, ...means], used: sum, stands });
      }
    }
    partials = undominated(next, (a, b) => noMore(a.used, b.used) && a.stands.every((mask, j) => covers(mask, b.stands[j]!)));
  };
  const reachedWith = (means: readonly Means[]): HeatTemperatures => table.run(record, [...frame.set, ...means])[solder]!;
  const choose = (id: string, maskOf: (temperatures: HeatTemperatures, held: boolean) => number): Choice[] =>
    guardedChoices(record, id, frame.mostProtections, reachedWith, maskOf);
  for (const part of problem.parts) {
    if (part.limitC === Infinity || !record.component.parts.includes(part.id)) continue;
    const limit = { limitC: part.limitC, held: null };
    widen(
      choose(part.id, ({ parts }, held) => (keeps(limit, parts[part.id]!, held, levelK) ? ALL : 0)),
      -1,
    );
  }
  for (const { id, limit } of problem.made) {
    if (!record.component.made.includes(id)) continue;
    widen(
      choose(id, ({ joints }, held) => (keeps(limit, joints[id]!, held, levelK) ? ALL : 0)),
      -1,
    );
  }
  for (const j of bitsOf(record.component.joints & ~record.targets)) {
    const { id, limits } = problem.joints[j]!;
    const maskOf = ({ joints }: HeatTemperatures, held: boolean): number =>
      limits.reduce((mask, limit, g) => (keeps(limit, joints[id]!, held, levelK) ? mask | (1 << g) : mask), 0);
    widen(choose(id, maskOf), j);
  }
  return partials;
}

function keeps(limit: JointLimit, reached: Reached, held: boolean, levelK: number): boolean {
  return levelK === Number.NEGATIVE_INFINITY || marginK(limit, reached, held) >= levelK - MARGIN_TOLERANCE_K;
}

/** Ways to treat one of them that leave it standing with some grade. */
function guardedChoices(
  record: HeatRecord,
  id: string,
  most: number,
  reachedWith: (means: readonly Means[]) => HeatTemperatures,
  maskOf: (temperatures: HeatTemperatures, held: boolean) => number,
): Choice[] {
  const own = record.means.filter(({ reach, guards }) => reach === 'guarded' && guards === id);
  const choices: Choice[] = [];
  for (const means of subsetsUpTo(own, most)) {
    const held = means.some(({ kind }) => kind === 'anti_flow');
    const mask = maskOf(reachedWith(means), held) | (held ? maskOf(reachedWith(means), false) : 0);
    if (mask !== 0) choices.push({ means, used: usedBy(means), mask });
  }
  return undominated(choices, (a, b) => noMore(a.used, b.used) && covers(a.mask, b.mask));
}
