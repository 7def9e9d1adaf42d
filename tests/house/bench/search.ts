/**
 * The search for a plan: pieces of every kind and size under the surrogate law, beside general-purpose solvers where those come to an
 * end; the same with the heat model; and how often a plan that is called clear would not be, over what is assumed of flame and hand.
 * `SIZES=4,8 npm run bench search` for some sizes alone.
 */

import process from 'node:process';
import type { Design } from '../../../shared/design/design.ts';
import { playHeat } from '../../../shared/thermal/heat-control.ts';
import { layHeat } from '../../../shared/thermal/heat-setup.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import { searchLevels, type SearchStep } from '../../../shared/sequencing/search-levels.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import { surrogateOracle, surrogateProblem, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { DEMO_DESIGNS } from '../../support/demo-heats.ts';
import { heatedPiece, HEATED_KINDS } from '../../support/heated-kinds.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { randomFrom } from '../../support/random-piece.ts';
import { sequenceProgram } from '../../support/sequence-milp.ts';
import { PIECE_KINDS, sizedPiece } from '../../support/sized-piece.ts';
import { byHighs, byYalps } from '../../support/solve-program.ts';
import { medianMsWithin, round } from './measure.ts';
import { drawnProgram, MOST_CELLS, normals, UNCALIBRATED } from './uncertainty-draws.ts';

const SIZES = (process.env['SIZES'] ?? '4,8,12,16,24,40,80').split(',').map(Number);
const SEEDS = [1, 2, 3];
const WORK_UNITS = 2_000_000;
/** A general-purpose solver is given up after this. */
const SOLVER_S = 20;
const DRAWS = 100;

type Proofs = NonNullable<SearchStep['proof']>;
const told = (proof: Proofs): string =>
  proof.map(({ value, bound, proven }) => (proven ? `${value}` : `${value}(${bound})`)).join(' ');

function surrogateRow(piece: SurrogatePiece): Record<string, unknown> {
  const begun = performance.now();
  const limits = { workUnits: WORK_UNITS, stopAt: 'time', preferHigherGrades: false } as const;
  const search = searchLevels(surrogateProblem(piece), surrogateOracle(piece), limits);
  let firstMs: number | null = null;
  let step = search.next();
  for (; !step.done; step = search.next()) if (step.value.proof) firstMs ??= performance.now() - begun;
  const { outcome, proof, workUnits, thermalRuns } = step.value;
  const ms = performance.now() - begun;
  return {
    piece: piece.id,
    'at most a heat': piece.maxJointsPerHeat,
    'first plan ms': round(firstMs ?? (outcome === 'unknown' ? Infinity : ms)),
    'end ms': round(ms),
    'heats asked': thermalRuns,
    'work units': workUnits,
    outcome,
    'margin, protections, heats, solders, rank, seconds (bound)': told(proof),
  };
}

/** The fewest protections at a level, which is what the program can say: the whole objective for the search, one joint a heat. */
function solverRows(): Record<string, unknown>[] {
  return SIZES.filter((count) => count <= 8).flatMap((count) =>
    (['chain', 'tree', 'star'] as const).map((kind) => {
      const piece = { ...sizedPiece(kind, count, 3), maxJointsPerHeat: 1, margin: { min: 30, cap: 30, step: 5 } };
      const own = solveCase(piece, WORK_UNITS);
      const ownMs = medianMsWithin(500, () => solveCase(piece, WORK_UNITS));
      const timed = (solve: typeof byHighs): [number, string] => {
        const begun = performance.now();
        const found = solve(sequenceProgram(piece, 30), SOLVER_S);
        const ms = performance.now() - begun;
        if (found === undefined) return [ms, `> ${round(ms)} (${round(ms / ownMs)} ×)`];
        const agrees = found === (own.feasible ? own.protections : null) ? '' : ', DIFFERS';
        return [ms, `${round(ms)} (${round(ms / ownMs)} ×)${agrees}`];
      };
      const [highs, yalps] = [timed(byHighs), timed(byYalps)];
      return {
        piece: piece.id,
        protections: own.protections,
        'search ms': round(ownMs),
        'HiGHS ms': highs[1],
        'YALPS ms': yalps[1],
      };
    }),
  );
}

function heatModelRow(name: string, design: Design): Record<string, unknown> {
  const begun = performance.now();
  const bench = { torch: 'large', support: 'brick' } as const;
  const answer = searchPlan(
    { design, solders: SOLDERS, bench, options: { policy: 'do_not_run', timeMs: 30_000 } },
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

/** Draws of whole plans, each heat with its own flame and hand, one joint a heat and no protections. */
function robustRows(): Record<string, unknown>[] {
  const rows: Record<string, unknown>[] = [];
  const physics = heatModel();
  for (const [name, whole] of Object.entries(DEMO_DESIGNS)) {
    const design: Design = { ...whole, rules: { ...whole.rules, maxJointsPerHeat: 1, sameHeat: [] } };
    for (const policy of ['stay_solid', 'do_not_run'] as const) {
      const bench = { torch: 'large', support: 'brick' } as const;
      const answer = searchPlan({ design, solders: SOLDERS, bench, options: { policy, targetMarginK: 0 } }, { physics });
      if (answer.outcome !== 'optimal' && answer.outcome !== 'feasible') continue;
      const normal = normals(randomFrom(7));
      const solderOf = new Map(answer.plan!.heats.flatMap(({ joints, solder }) => joints.map((id) => [id, solder!] as const)));
      const heats = answer.plan!.heats.map(({ joints, solder }, i) => ({
        design,
        bench,
        targets: joints,
        made: answer.plan!.heats.slice(0, i).flatMap((heat) => heat.joints),
        solders: SOLDERS.filter(({ id }) => id === solder),
      }));
      if (heats.some((heat) => layHeat(heat).piece.cellCount > MOST_CELLS || heat.targets.length > 1)) continue;
      let [clear, counted] = [0, 0];
      for (let draw = 0; draw < DRAWS; draw++) {
        let leastK = Infinity;
        let flows = true;
        for (const heat of heats) {
          const [event] = playHeat(drawnProgram(heat, UNCALIBRATED, normal)).flows;
          flows &&= event !== undefined;
          const earlier = layHeat(heat).piece.joints.filter(({ id }) => !heat.targets.includes(id));
          for (const [w, { id }] of earlier.entries()) {
            const { solidusC, liquidusC } = SOLDERS.find((solder) => solder.id === solderOf.get(id))!;
            if (event) leastK = Math.min(leastK, (policy === 'stay_solid' ? solidusC : liquidusC) - event.watched[w]!.peakC);
          }
        }
        if (!flows) continue;
        counted++;
        if (leastK >= 0) clear++;
      }
      const shareClear = counted > 0 ? round((100 * (counted - clear)) / counted) : null;
      rows.push({ piece: name, policy, heats: heats.length, 'draws that flow': counted, 'not clear after all %': shareClear });
    }
  }
  return rows;
}

export function run(): void {
  console.log(
    'Under the surrogate law of the sequencing cases. A bound in brackets: what could still be better is no better than that.',
  );
  console.table(
    SIZES.flatMap((count) => PIECE_KINDS.flatMap((kind) => SEEDS.map((seed) => surrogateRow(sizedPiece(kind, count, seed))))),
  );
  if (SIZES.some((count) => count <= 8)) {
    console.log(
      `\nBeside integer programs of the same pieces, built and solved, given up after ${SOLVER_S} s: the search answers all levels.`,
    );
    console.table(solverRows());
  }
  console.log('\nWith the heat model.');
  const heated = SIZES.filter((count) => count <= 12).flatMap((count) =>
    HEATED_KINDS.map((kind) => heatModelRow(`${kind} of ${count}`, heatedPiece(kind, count))),
  );
  console.table([...Object.entries(DEMO_DESIGNS).map(([name, design]) => heatModelRow(name, design)), ...heated]);
  console.log(
    '\nPlans called clear (margin level 0 or more), drawn over what is assumed without a calibration: it tests U, not fires.',
  );
  console.table(robustRows());
}
