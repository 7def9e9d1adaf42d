import { flowTemperatureC } from './flow-temperature.ts';
import { cellCountOf } from './form-grid.ts';
import { playHeat } from './heat-control.ts';
import type { HeatOutcome, HeatProgram } from './heat-control.ts';
import type { HeatQuestion, HeatRun, SolderRun } from './heat-run.ts';
import { jointProbes, layHeat, lightHeat } from './heat-setup.ts';
import type { LaidHeat, LitHeat } from './heat-setup.ts';
import type { Piece } from './piece-model.ts';
import { coldestProbe, createProbes, readProbe } from './probes.ts';
import type { Probes } from './probes.ts';
import { evenWeights, spreadK } from './target-weights.ts';

/** Short of power at this share of it, a heat that flows does so only just. */
const SPARE_POWER_FRACTION = 0.75;
const COARSE_TOL_K = 8;
const TIME_LIMIT_S = 240;
const HEAVY_TIME_LIMIT_S = 600;
const HEAVY_G = 100;

/** Whatever a heat on this layout shares whichever way its support and power are taken. */
export function heatProgram(laid: LaidHeat, lit: LitHeat, weights: readonly number[]): HeatProgram {
  const { piece, question, targetProbes } = laid;
  const massG = piece.parts.reduce((sum, { cellMassG, grid }) => sum + cellMassG * cellCountOf(grid), 0);
  const flows = new Set(question.solders.map(({ liquidusC }) => flowTemperatureC(liquidusC, lowestSolidusC(piece))));
  return {
    stepper: lit.stepper,
    flame: lit.flame(weights),
    targets: targetProbes,
    flowTemperaturesC: [...flows].sort((a, b) => a - b),
    watched: [
      ...earlierJoints(laid).map((joint) => jointProbes(piece, [joint])),
      ...(question.histories ? piece.parts.map(partProbes) : []),
    ],
    watchedTargets: question.histories ? targetPoints(laid) : [],
    parts: piece.parts.map(({ firstCell, grid }) => ({ firstCell, cellCount: cellCountOf(grid) })),
    pieceCellCount: piece.cellCount,
    timeLimitS: massG > HEAVY_G ? HEAVY_TIME_LIMIT_S : TIME_LIMIT_S,
    playOut: true,
  };
}

function lowestSolidusC(piece: Piece): number {
  return Math.min(...piece.parts.map(({ solidusC }) => solidusC));
}

function earlierJoints({ piece, question }: LaidHeat) {
  return piece.joints.filter(({ id }) => !question.targets.includes(id));
}

/** Every cell of a part. */
function partProbes({ firstCell, grid }: Piece['parts'][number]): Probes {
  return createProbes(Array.from({ length: cellCountOf(grid) }, (_, cell) => [{ cell: firstCell + cell, weight: 1 }]));
}

/** The points of each target by itself. */
function targetPoints({ piece, targets }: LaidHeat): Probes[] {
  return targets.map((joint) => jointProbes(piece, [joint]));
}

/**
 * The flow temperatures that are reached at three quarters of the power. Only whether they are counts, and near a stall steps are
 * small against their error whatever the tolerance, so the heat is played coarsely and unhurried by the approach; and not at all for
 * those over the temperature at which the coldest point would settle, which it rises to from below.
 */
function reachedWeakly(program: HeatProgram): ReadonlySet<number> {
  const { stepper, targets } = program;
  const flame = { ...program.flame, exchangeWPerK: program.flame.exchangeWPerK.map((h) => h * SPARE_POWER_FRACTION) };
  const settledC = stepper.settle(flame);
  const highestC = readProbe(targets, coldestProbe(targets, settledC), settledC);
  const flowTemperaturesC = program.flowTemperaturesC.filter((flowC) => flowC < highestC);
  if (flowTemperaturesC.length === 0) return new Set();
  const coarse = { tolK: COARSE_TOL_K, approachKPerS: Infinity, watched: [], watchedTargets: [], parts: [], playOut: false };
  const { flows } = playHeat({ ...program, flame, flowTemperaturesC, ...coarse });
  return new Set(flowTemperaturesC.filter((_, flow) => flows[flow]));
}

/** Some flow temperatures of a heat played on one model of the support. */
interface Played {
  flowsC: readonly number[];
  outcome: HeatOutcome;
  /** Those that are reached at three quarters of the power. */
  withSpareC: ReadonlySet<number>;
  layered: boolean;
}

function solderRun(laid: LaidHeat, flowC: number, { flowsC, outcome, withSpareC, layered }: Played): SolderRun {
  const reached = outcome.flows[flowsC.indexOf(flowC)];
  const event = reached ?? outcome.end;
  const earlier = earlierJoints(laid);
  const { histories } = laid.question;
  const short = withSpareC.has(flowC) ? 'flows' : 'only_just';
  return {
    flowC,
    flow: reached ? short : 'does_not_flow',
    settlesC: reached ? null : outcome.settlesC,
    timeToFlowS: reached ? reached.timeS : null,
    energyJ: reached ? reached.energyJ : null,
    storedJ: reached ? reached.storedJ : null,
    lostJ: reached ? reached.lostJ : null,
    ...(layered && { layered: true as const }),
    ...(reached && laid.targets.length > 1 && { targetSpreadK: spreadK(targetPoints(laid), reached.temperaturesC) }),
    joints: Object.fromEntries(earlier.map(({ id }, w) => [id, event.watched[w]!])),
    parts: Object.fromEntries(
      laid.piece.parts.map(({ id }, p) => {
        const history = histories && event.watched[earlier.length + p]!.history;
        return [id, { peakC: event.partPeaksC[p]!, ...(history && { history }) }];
      }),
    ),
    ...(histories && { targets: Object.fromEntries(laid.targets.map(({ id }, t) => [id, event.watchedTargets[t]!])) }),
  };
}

/**
 * Plays a heat so that each flow temperature is decided by the model of the support that serves it. On a support those that fail at
 * three quarters of the power are played over two layers of block at once: whatever a constant loss says of them at full power, it
 * is not believed.
 */
function play(laid: LaidHeat): Played[] {
  const lit = lightHeat(laid, false);
  const weights = evenWeights(laid.fields.length, targetPoints(laid), (w) => heatProgram(laid, lit, w));
  const program = heatProgram(laid, lit, weights);
  const toLayers = laid.supported && laid.question.layered === true;
  const withSpareC: ReadonlySet<number> = toLayers ? new Set() : reachedWeakly(program);
  const flowsC = program.flowTemperaturesC.filter((flowC) => !laid.supported || withSpareC.has(flowC));
  const plain =
    flowsC.length > 0
      ? { flowsC, outcome: playHeat({ ...program, flowTemperaturesC: flowsC }), withSpareC, layered: false }
      : null;
  const decidedC = new Set(flowsC.filter((_, flow) => !laid.supported || plain?.outcome.flows[flow]));
  const undecidedC = program.flowTemperaturesC.filter((flowC) => !decidedC.has(flowC));
  const played = plain ? [plain] : [];
  if (undecidedC.length === 0) return played;
  const layered = { ...heatProgram(laid, lightHeat(laid, true), weights), flowTemperaturesC: undecidedC };
  const outcome = playHeat(layered);
  const spareC = outcome.flows.some(Boolean) ? reachedWeakly(layered) : new Set<number>();
  return [{ flowsC: undecidedC, outcome, withSpareC: spareC, layered: laid.supported }, ...played];
}

/**
 * What one heat does to the section in the fire, for each of several solders: whether, when and with how much heat its targets flow,
 * and how hot every earlier joint and every part gets, from lighting the flame to 4 s after it is off.
 *
 * A support counts as a constant loss; where that leaves a heat only just flowing or not at all, two layers of block under each cell
 * decide instead, or everywhere if the question asks for it. *Only just*: reached, but not at three quarters of the power. Between the
 * two a time may jump by 10 %: two heats are compared on one of them.
 *
 * Numerical error at the default grid and step, against a grid and step several times finer: time ≤ 2 %, joints ≤ 5 K. Against a
 * real flame it is not validated: times are tuned to bench practice, which is what a calibration is for.
 *
 * @throws {EngineInputError} for an unknown name, targets that do not hang together, or a number outside its range
 */
export function simulateHeat(question: HeatQuestion): HeatRun {
  const laid = layHeat(question);
  const played = play(laid);
  const bySolder = question.solders.map(({ id, liquidusC }) => {
    const flowC = flowTemperatureC(liquidusC, lowestSolidusC(laid.piece));
    return [
      id,
      solderRun(
        laid,
        flowC,
        played.find(({ flowsC }) => flowsC.includes(flowC))!,
      ),
    ] as const;
  });
  return { inFire: laid.piece.parts.map(({ id }) => id), bySolder: Object.fromEntries(bySolder) };
}
