import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** Median milliseconds of some runs, after one to warm up. */
export async function medianMs(runs: number, work: () => unknown): Promise<number> {
  await work();
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const begun = performance.now();
    await work();
    times.push(performance.now() - begun);
  }
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** The same, over as many runs as fit in a share of a second: at least three, at most 201, no await between. */
export function medianMsWithin(budgetMs: number, work: () => unknown): number {
  work();
  const times: number[] = [];
  const begun = performance.now();
  while (times.length < 3 || (times.length < 201 && performance.now() - begun < budgetMs)) {
    const from = performance.now();
    work();
    times.push(performance.now() - from);
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
}

/** Heap in use once everything that nobody holds is gone, MiB. */
export function heapMiB(): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  collect();
  collect();
  return process.memoryUsage().heapUsed / 2 ** 20;
}

/** Three significant digits. */
export function round(value: number): number {
  return Number(value.toPrecision(3));
}
