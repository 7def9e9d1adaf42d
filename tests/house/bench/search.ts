/**
 * The search for a plan: pieces of every kind and size under the surrogate law, beside general-purpose solvers where those come to an
 * end; and the same with the heat model. How often a plan that is called clear would not be: `npm run bench uncertainty`.
 * `SIZES=4,8 npm run bench search` for some sizes alone.
 */

import process from 'node:process';
import type { Design } from '../../../shared/design/design.ts';
import { searchLevels, type SearchStep } from '../../../shared/sequencing/search-levels.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import { surrogateOracle, surrogateProblem, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { DEMO_DESIGNS } from '../../support/demo-heats.ts';
import { heatedPiece, HEATED_KINDS } from '../../support/heated-kinds.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { sequenceProgram } from '../../support/sequence-milp.ts';
import { PIECE_KINDS, sizedPiece } from '../../support/sized-piece.ts';
import { startZ3 } from '../../support/solve-by-z3.ts';
import { byHighs, byYalps } from '../../support/solve-program.ts';
import { medianMsWithin, round } from './measure.ts';

const SIZES = (process.env['SIZES'] ?? '4,8,12,16,24,40,80').split(',').map(Number);
const SEEDS = [1, 2, 3];
const WORK_UNITS = 2_000_000;
/** A piece is left with what has been found after so much processor time, so that all of it ends in minutes. */
const PIECE_MS = 6000;
const LARGE_PIECE_MS = 4000;
const HEATED_MS = 10_000;
const STEPS_A_LOOK = 32;
/** A general-purpose solver is given up after this. */
const SOLVER_S = 5;
/** Open joints up to which pieces are searched with the heat model. */
const MOST_HEATED = 12;

type Proofs = NonNullable<SearchStep['proof']>;
const told = (proof: Proofs): string =>
  proof.map(({ value, bound, proven }) => (proven ? `${value}` : `${value}(${bound})`)).join(' ');

/** Of all threads of this process since then: it does not count what else the machine does. */
const processorMs = (since: NodeJS.CpuUsage): number => process.cpuUsage(since).user / 1000;

function surrogateRow(piece: SurrogatePiece): Record<string, unknown> {
  const begun = process.cpuUsage();
  const mostMs = piece.joints.length > 24 ? LARGE_PIECE_MS : PIECE_MS;
  let asked = 0;
  const stopped = (): 'time' | null => (asked++ % STEPS_A_LOOK === 0 && processorMs(begun) > mostMs ? 'time' : null);
  const limits = { workUnits: WORK_UNITS, stopAt: 'time', preferHigherGrades: false, stopped } as const;
  const search = searchLevels(surrogateProblem(piece), surrogateOracle(piece), limits);
  let firstMs: number | null = null;
  let step = search.next();
  for (; !step.done; step = search.next()) if (step.value.proof && firstMs === null) firstMs = processorMs(begun);
  const { outcome, proof, stoppedBy, workUnits, thermalRuns } = step.value;
  const ms = processorMs(begun);
  return {
    piece: piece.id,
    'at most a heat': piece.maxJointsPerHeat,
    'first plan ms': proof[0]!.value === null ? null : round(firstMs ?? ms),
    'end ms': round(ms),
    'heats asked': thermalRuns,
    'work units': workUnits,
    outcome: stoppedBy ? `${outcome}, ${stoppedBy}` : outcome,
    'margin, protections, heats, solders, rank, seconds (bound)': told(proof),
  };
}

/**
 * The fewest protections at a level, which is what the programs can say: the whole objective for the search, one joint a heat. The
 * building of a program counts, the loading of a solver does not.
 */
async function solverRows(): Promise<Record<string, unknown>[]> {
  const z3 = await startZ3();
  const solvers = { HiGHS: byHighs, YALPS: byYalps, z3: z3.fewest };
  const rows: Record<string, unknown>[] = [];
  for (const count of SIZES.filter((each) => each <= 8)) {
    for (const kind of ['chain', 'tree', 'star'] as const) {
      const piece = { ...sizedPiece(kind, count, 3), maxJointsPerHeat: 1, margin: { min: 30, cap: 30, step: 5 } };
      const own = solveCase(piece, WORK_UNITS);
      const ownMs = medianMsWithin(500, () => solveCase(piece, WORK_UNITS));
      const row: Record<string, unknown> = { piece: piece.id, protections: own.protections, 'search ms': round(ownMs) };
      let fastestMs = Infinity;
      for (const [name, solve] of Object.entries(solvers)) {
        const begun = performance.now();
        const found = await solve(sequenceProgram(piece, 30), SOLVER_S);
        const ms = performance.now() - begun;
        const agrees = found === undefined || found === (own.feasible ? own.protections : null);
        row[`${name} ms`] = found === undefined ? `gave up at ${round(ms)}` : `${round(ms)}${agrees ? '' : ', DIFFERS'}`;
        if (found !== undefined) fastestMs = Math.min(fastestMs, ms);
      }
      row['faster by'] = fastestMs < Infinity ? `${round(fastestMs / ownMs)} ×` : `> ${round((1000 * SOLVER_S) / ownMs)} ×`;
      rows.push(row);
    }
  }
  await z3.close();
  return rows;
}

function heatModelRow(name: string, design: Design): Record<string, unknown> {
  const begun = performance.now();
  const bench = { torch: 'large', support: 'brick' } as const;
  const answer = searchPlan(
    { design, solders: SOLDERS, bench, options: { policy: 'do_not_run', timeMs: HEATED_MS } },
    clockFrom(begun),
  );
  if (answer.outcome === 'faults') throw new Error(JSON.stringify(answer.faults));
  return {
    piece: name,
    ms: round(performance.now() - begun),
    'heats simulated': answer.stats.thermalRuns,
    outcome: answer.outcome,
    'stopped by': answer.stats.stoppedBy ?? '',
    'margin, protections, heats, solders, rank, seconds (bound)': told(answer.proof),
  };
}

const clockFrom = (begun: number) => ({ elapsedMs: () => performance.now() - begun });

export async function run(): Promise<void> {
  console.log(
    'Under the surrogate law of the sequencing cases, in processor time. A bound in brackets: what could still be better is no better than that.',
  );
  console.table(
    SIZES.flatMap((count) => PIECE_KINDS.flatMap((kind) => SEEDS.map((seed) => surrogateRow(sizedPiece(kind, count, seed))))),
  );
  if (SIZES.some((count) => count <= 8)) {
    console.log(
      `\nBeside programs of the same pieces, built and solved, given up after ${SOLVER_S} s, which answer protections alone: the search answers all levels.`,
    );
    console.table(await solverRows());
  }
  if (SIZES.every((count) => count > MOST_HEATED)) return;
  console.log('\nWith the heat model.');
  const heated = SIZES.filter((count) => count <= MOST_HEATED).flatMap((count) =>
    HEATED_KINDS.map((kind) => heatModelRow(`${kind} of ${count}`, heatedPiece(kind, count))),
  );
  console.table([...Object.entries(DEMO_DESIGNS).map(([name, design]) => heatModelRow(name, design)), ...heated]);
}
