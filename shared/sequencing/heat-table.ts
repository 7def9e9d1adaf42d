/** Heats already asked of the oracle, so that each is asked once in a search, and counted once. */

import type { HeatOracle, HeatTemperatures, Means, Section, Technique } from './heat-oracle.ts';
import { bitsOf, type SequenceProblem } from './sequence-problem.ts';
import type { Component } from './sections.ts';

/** All that is known of one section and its targets. */
export interface HeatRecord {
  section: Section;
  component: Component;
  targets: number;
  means: readonly Means[];
  runs: Map<string, Readonly<Record<string, HeatTemperatures>>>;
}

export const meansKey = ({ kind, guards }: Means): string => `${kind}:${guards}`;

export class HeatTable {
  readonly problem: SequenceProblem;
  readonly oracle: HeatOracle;
  thermalRuns = 0;
  /** Ways to combine protections that have been looked at. */
  combinations = 0;
  readonly #records = new Map<string, HeatRecord>();

  constructor(problem: SequenceProblem, oracle: HeatOracle) {
    this.problem = problem;
    this.oracle = oracle;
  }

  record(component: Component, targets: number): HeatRecord {
    const key = `${component.joints}:${targets}`;
    let record = this.#records.get(key);
    if (!record) {
      const ids = (mask: number): string[] => bitsOf(mask).map((j) => this.problem.joints[j]!.id);
      const section = { made: [...ids(component.joints & ~targets), ...component.made].sort(), targets: ids(targets) };
      const means = this.oracle.protect(section).filter(({ kind }) => this.problem.maxMeans[kind] > 0);
      record = { section, component, targets, means, runs: new Map() };
      this.#records.set(key, record);
    }
    return record;
  }

  run(record: HeatRecord, technique: Technique): Readonly<Record<string, HeatTemperatures>> {
    // Anti-flow does not change a temperature.
    const thermal = technique.filter(({ kind }) => kind !== 'anti_flow');
    const key = thermal.map(meansKey).sort().join('|');
    let run = record.runs.get(key);
    if (!run) {
      run = this.oracle.run(record.section, thermal);
      this.thermalRuns++;
      record.runs.set(key, run);
    }
    return run;
  }
}
