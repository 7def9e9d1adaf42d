/** Heats already asked of the oracle, so that each is asked once in a search, and counted once. */

import { demandsOf, type Demands, type Warmed } from './heat-demands.ts';
import type { HeatAnswer, HeatOracle, Means, Section } from './heat-oracle.ts';
import { GUARDED_KINDS, type GuardCaps } from './protection-caps.ts';
import type { Component, Sections } from './sections.ts';
import type { JointLimit, SequenceProblem } from './sequence-problem.ts';

/** All that is known of one section and its targets. */
export interface HeatRecord {
  section: Section;
  component: Component;
  targets: readonly number[];
  warmed: readonly Warmed[];
  /** Means that change the whole section. */
  sectionMeans: readonly Means[];
  guarding: readonly Means[];
  runs: Map<string, HeatAnswer>;
  demands: Map<string, Demands | null>;
}

export const meansKey = (means: readonly Means[]): string => means.map(({ kind, guards }) => `${kind}:${guards}`).join('|');

export class HeatTable {
  readonly problem: SequenceProblem;
  readonly oracle: HeatOracle;
  thermalRuns = 0;
  readonly #records = new Map<string, HeatRecord>();

  constructor(problem: SequenceProblem, oracle: HeatOracle) {
    this.problem = problem;
    this.oracle = oracle;
  }

  record(component: Component, targets: readonly number[]): HeatRecord {
    const key = `${component.joints.id}:${targets.join()}`;
    let record = this.#records.get(key);
    if (!record) {
      record = this.#newRecord(component, targets);
      this.#records.set(key, record);
    }
    return record;
  }

  /** What a heat with means that change the whole section asks of all it warms; null where it cannot be done. */
  demands(record: HeatRecord, set: readonly Means[], grade: number, levelK: number): Demands | null {
    const key = `${grade}@${levelK}@${meansKey(set)}`;
    let demands = record.demands.get(key);
    if (demands === undefined) {
      const solder = this.problem.grades[grade]!.id;
      const run = (guards: number) => this.run(record, set, guards)(solder);
      demands = demandsOf(record.warmed, this.problem.grades.length, levelK, run);
      record.demands.set(key, demands);
    }
    return demands;
  }

  /** Whether the temperatures of a heat are known already. */
  isKnown(record: HeatRecord, set: readonly Means[]): boolean {
    return record.runs.has(`${meansKey(set)}#0`);
  }

  /** Temperatures with some means for the whole section, and with guards of some kinds on everything that can take them. */
  run(record: HeatRecord, set: readonly Means[], guards = 0): HeatAnswer {
    const key = `${meansKey(set)}#${guards}`;
    let run = record.runs.get(key);
    if (!run) {
      const laid = record.guarding.filter(({ kind }) => (guards & (1 << bitOf(kind))) !== 0);
      run = this.oracle.run(record.section, [...set, ...laid]);
      this.thermalRuns++;
      record.runs.set(key, run);
    }
    return run;
  }

  #newRecord(component: Component, targets: readonly number[]): HeatRecord {
    const { problem } = this;
    const idOf = (j: number): string => problem.joints[j]!.id;
    const earlier = component.joints.joints.filter((j) => !targets.includes(j));
    const section = { made: [...earlier.map(idOf), ...component.made].sort(), targets: targets.map(idOf) };
    const means = this.oracle.protect(section).filter(({ kind }) => problem.maxMeans[kind] > 0);
    const guarding = means.filter(({ reach }) => reach === 'guarded');
    const guardsOf = new Map<string, number>();
    for (const { kind, guards } of guarding) guardsOf.set(guards, (guardsOf.get(guards) ?? 0) | (1 << bitOf(kind)));
    const warm = (id: string, joint: number, isPart: boolean, limits: readonly JointLimit[]): Warmed => ({
      id,
      joint,
      isPart,
      limits,
      guards: guardsOf.get(id) ?? 0,
    });
    const warmed = [
      ...earlier.map((j) => warm(idOf(j), j, false, problem.joints[j]!.limits)),
      ...problem.made.filter(({ id }) => component.made.includes(id)).map(({ id, limit }) => warm(id, -1, false, [limit])),
      ...problem.parts
        .filter(({ id, limitC }) => limitC < Infinity && component.parts.includes(id))
        .map(({ id, limitC }) => warm(id, -1, true, [{ limitC, held: null }])),
    ];
    const sectionMeans = means.filter(({ reach }) => reach === 'section');
    return { section, component, targets, warmed, sectionMeans, guarding, runs: new Map(), demands: new Map() };
  }
}

const bitOf = (kind: Means['kind']): number => GUARDED_KINDS.indexOf(kind as (typeof GUARDED_KINDS)[number]);

/** Guards that one heat still holds beside means that change the whole section. */
export function guardCaps({ maxMeans }: SequenceProblem, set: readonly Means[]): GuardCaps {
  const left = (kind: Means['kind']): number => maxMeans[kind] - set.filter((means) => means.kind === kind).length;
  return [left('shield'), left('sink'), left('anti_flow')];
}

export interface SearchSpace {
  problem: SequenceProblem;
  table: HeatTable;
  sections: Sections;
}
