/**
 * How fast the heat model is against general-purpose solvers on the same networks at the same error, how its cost grows with cells,
 * what a whole heat of each piece of the demo studio costs, and whether memory stays flat.
 */

import { earring } from '../../../seed/designs.ts';
import type { Form } from '../../../shared/design/design.ts';
import { checkPlan } from '../../../shared/sequencing/check-plan.ts';
import type { HeatQuestion } from '../../../shared/thermal/heat-run.ts';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import type { FlameOnCells } from '../../../shared/thermal/network-stepper.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import type { ThermalNetwork } from '../../../shared/thermal/thermal-network.ts';
import { marchTo } from '../../../src/cases/heat-case-networks.ts';
import { demoHeats, lit } from '../../support/demo-heats.ts';
import { explicitReference } from '../../support/explicit-reference.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { createImplicitReference } from '../../support/implicit-reference.ts';
import { heapMiB, medianMsWithin, round } from './measure.ts';

const FLAME_S = 8;
const TOL_K = 3;
const FIRST_STEP_S = 0.05;
const EXACT_TOL_K = 1e-4;
/** From loose to strict: the first that is as near as the product is the one timed. */
const EXPLICIT_TOLS_K = [1, 0.1, 0.01, 1e-3, EXACT_TOL_K];
const CHECKS = 10_000;

interface Named {
  name: string;
  question: HeatQuestion;
}

/** A form with a grain on it, in air; the cells are those of the default grid. */
function sized(name: string, form: Form, at: object): Named {
  return {
    name,
    question: {
      design: {
        parts: [
          { id: 'base', metal: 'sterling-925', form },
          { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } },
        ],
        joints: [
          {
            id: 'on',
            kind: 'granule',
            between: [{ part: 'base', ...at }, { part: 'grain' }],
            diameterMm: 2,
            neckRadiusMm: 0.5,
            gapMm: 0,
          },
        ],
      },
      bench: { torch: { powerW: 700, spreadMm: 12, gasC: 1500 }, support: 'air' },
      targets: ['on'],
      made: [],
      solders: SOLDERS,
    },
  };
}

const bar = (cells: number): Named =>
  sized(`bar, ${cells} cells`, { kind: 'round_wire', lengthMm: 1.5 * (cells - 1), diameterMm: 2 }, { alongMm: 0.75 * cells });
const plate = (nx: number, ny: number): Named =>
  sized(`plate, ${nx * ny + 1} cells`, { kind: 'sheet', lengthMm: 2 * nx, widthMm: 2 * ny, thicknessMm: 0.8 }, {});
const BARS = [bar(50), bar(200), bar(800)];
const PLATES = [plate(7, 7), plate(17, 12), plate(34, 23)];

const apartK = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.max(...Array.from(a, (value, i) => Math.abs(value - b[i]!)));

/** Own steps, the same method on general matrices, and an explicit solver no less near; all from the network on. */
function against({ name, question }: Named) {
  const { program } = lit(question);
  const { network } = program.stepper;
  const of: { network: ThermalNetwork; flame: FlameOnCells } = { network, flame: program.flame };
  const march = () =>
    marchTo(createNetworkStepper(network), new Float64Array(network.cellCount).fill(20), FLAME_S, {
      flame: of.flame,
      tolK: TOL_K,
      firstStepS: FIRST_STEP_S,
    });
  const exact = explicitReference(of, { untilS: FLAME_S, tolK: EXACT_TOL_K }).temperaturesC;
  const errorK = apartK(march(), exact);
  const implicit = () => createImplicitReference(network, of.flame).marchTo(FLAME_S, TOL_K, FIRST_STEP_S);
  const explicit = (tolK: number) => {
    try {
      return explicitReference(of, { untilS: FLAME_S, tolK }).temperaturesC;
    } catch {
      return null;
    }
  };
  const tolK = EXPLICIT_TOLS_K.find((tol) => apartK(explicit(tol) ?? [Infinity], exact) <= errorK) ?? EXACT_TOL_K;
  const ms = medianMsWithin(300, march);
  const implicitMs = medianMsWithin(600, implicit);
  const explicitMs = medianMsWithin(600, () => explicit(tolK));
  return {
    what: name,
    cells: network.cellCount,
    'error K': round(errorK),
    ms: round(ms),
    'general implicit ms': round(implicitMs),
    'ratio implicit': round(implicitMs / ms),
    'explicit ms': round(explicitMs),
    'ratio explicit': round(explicitMs / ms),
  };
}

/** Exponent of the cost in the number of cells between the first and the last. */
function growth(rows: readonly { cells: number; ms: number }[]): number {
  const [first, last] = [rows[0]!, rows.at(-1)!];
  return round(Math.log(last.ms / first.ms) / Math.log(last.cells / first.cells));
}

function wholeHeat({ name, question }: Named) {
  const { program } = lit(question);
  const ms = medianMsWithin(500, () => simulateHeat(question));
  return { what: name, cells: program.pieceCellCount, torch: question.bench.torch, ms };
}

function memory(): { beforeMiB: number; afterMiB: number } {
  const bench = { torch: 'medium', support: 'brick' } as const;
  const heats = [
    { joints: ['loop-seam'], solder: 'hard' },
    { joints: ['loop-on', 'post-on'], solder: 'easy' },
  ];
  const check = () => checkPlan({ design: earring, solders: SOLDERS, bench, plan: { heats } });
  if (check().outcome !== 'checked') throw new Error('The plan to check has faults');
  for (let i = 0; i < CHECKS / 10; i++) check();
  const beforeMiB = heapMiB();
  for (let i = 0; i < CHECKS; i++) check();
  return { beforeMiB, afterMiB: heapMiB() };
}

export function run(): void {
  const heats = demoHeats();
  console.log(`${FLAME_S} s of steady flame on the same network, from its edges and cells on, at the same error:`);
  console.table([...BARS, ...PLATES, ...heats].map(against));
  console.log(
    'The implicit ratio is the fairer: it takes the same steps by the same method, so only the matrices differ. The explicit solver\n' +
      'is held to its many steps by the thinnest cells and joints (stability), not by the error asked of it. Goals: 5 and 20.',
  );
  const [bars, plates] = [BARS, PLATES].map((some) => some.map(wholeHeat)) as [
    ReturnType<typeof wholeHeat>[],
    ReturnType<typeof wholeHeat>[],
  ];
  const demo = heats.map(wholeHeat);
  console.log(
    `\nWhole heats for ${SOLDERS.length} solders, laid out, played at full and three quarters of the power and past flow:`,
  );
  console.table(
    [...bars, ...plates, ...demo].map((row) => ({
      ...row,
      torch: typeof row.torch === 'string' ? row.torch : 'own',
      ms: round(row.ms),
    })),
  );
  console.log(`Cost grows as cells to the power ${growth(bars)} on bars (goal: near 1), ${growth(plates)} on plates.`);
  console.log(
    `Of the demo pieces, median ${round(demo.map(({ ms }) => ms).sort((a, b) => a - b)[Math.floor(demo.length / 2)]!)} ms (goal: under 5).`,
  );
  const { beforeMiB, afterMiB } = memory();
  console.log(
    `\nHeap after ${CHECKS} plan checks over before them: ${round(afterMiB / beforeMiB)} (${round(beforeMiB)} to ${round(afterMiB)} MiB).`,
  );
}
