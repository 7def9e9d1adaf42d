import type { SearchSpace } from './heat-table.ts';

/** What a search may still spend; shared by all its steps. */
export interface Allowance {
  options: number;
  /** Work units at which it stops. */
  limit: number;
}

/** Thrown through the search when its allowance is spent; caught by the level that called it. */
export class AllowanceSpent extends Error {}

/** Options looked at, ways to protect among them, last heats laid out, and the heats simulated at what each costs. */
export function workUnits(allowance: Allowance, { table, sections }: Pick<SearchSpace, 'table' | 'sections'>): number {
  return allowance.options + sections.laidOut + table.thermalRuns * table.oracle.workUnitsPerRun;
}
