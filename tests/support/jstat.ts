import { createRequire } from 'node:module';

/** What of jstat, a library of statistics, is compared with; the package has no types of its own. */
interface Statistics {
  median(values: readonly number[]): number;
  normal: { inv(share: number, mean: number, deviation: number): number };
  lognormal: { inv(share: number, mean: number, deviation: number): number };
  beta: { inv(share: number, alpha: number, beta: number): number };
}

export const { jStat: jstat } = createRequire(import.meta.url)('jstat') as { jStat: Statistics };
