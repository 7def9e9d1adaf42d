import { EngineInputError } from '../engine-input-error.ts';
import type { FlameOnCells, NetworkStepper } from './network-stepper.ts';
import { coldestC as coldestOf, coldestProbe, hottestC, readProbe } from './probes.ts';
import type { Probes } from './probes.ts';
import type { TemperatureHistory } from './heat-run.ts';
import { storedJ } from './thermal-network.ts';

/** How a heat is played. */
export interface HeatProgram {
  stepper: NetworkStepper;
  flame: FlameOnCells;
  /** Every point of the targets; the coldest decides. */
  targets: Probes;
  /** Rising. */
  flowTemperaturesC: readonly number[];
  /** Points of each watched joint; the hottest is kept. */
  watched: readonly Probes[];
  /** Points of each target by itself; the coldest is kept. */
  watchedTargets?: readonly Probes[];
  /** Cells of each part: its peak is kept. */
  parts: readonly { firstCell: number; cellCount: number }[];
  /** Cells of the piece, the first ones; the flame's heat into the others, its block, is not counted. */
  pieceCellCount: number;
  timeLimitS: number;
  /** Whether to play on past each flow temperature: reaction, hold and cooling. */
  playOut: boolean;
  tolK?: number;
  /** Fastest rise of the target past 600 °C; Infinity: unhurried by no hand. */
  approachKPerS?: number;
}

/** What one flow temperature came to, at it and after it. */
export interface FlowEvent {
  timeS: number;
  /** Flame heat into the piece. */
  energyJ: number;
  /** What of it the piece holds, by its temperatures. */
  storedJ: number;
  /** What has left it for room, block, sinks and water; less what hot charcoal gives back. With storedJ: energyJ, but for the steps. */
  lostJ: number;
  /** At the moment of flow, over all cells. */
  temperaturesC: Float64Array;
  watched: { peakC: number; history: TemperatureHistory }[];
  watchedTargets: TemperatureHistory[];
  partPeaksC: number[];
}

export interface HeatOutcome {
  /** By flow temperature; undefined where the coldest target point never reached it. */
  flows: (FlowEvent | undefined)[];
  /** The coldest target point where the heat stalled; null when all were reached. */
  settlesC: number | null;
  /** All that was seen up to the end of the heating. */
  end: FlowEvent;
}

const DEFAULT_TOL_K = 3;
const FIRST_STEP_S = 0.05;
const LONGEST_STEP_S = 2;
const SHORTEST_STEP_S = 1e-3;
const APPROACH_FROM_C = 600;
const APPROACH_K_PER_S = 40;
/** A hand does not take the flame off altogether while the metal still has to warm. */
const LEAST_FLAME_FRACTION = 0.02;
/** One scale holds for a whole step: steps as long as their error allows are 3 % fast on a small loop, these 0.5 %. */
const HELD_BACK_STEP_S = 0.125;
/** A hundred times what a heat of sound sizes takes. */
const MOST_STEPS = 20_000;
const STALL_K_PER_S = 0.15;
const STALL_S = 12;
const PHASES = [
  { control: 'approach', lengthS: 0.5, stepS: 0.25 },
  { control: 'hold', lengthS: 2, stepS: 0.5 },
  { control: 'off', lengthS: 4, stepS: 1 },
] as const;

interface State {
  temperaturesC: Float64Array;
  waterJ: Float64Array;
  timeS: number;
  energyJ: number;
  /** To everything but wet packs. */
  lostJ: number;
  lostW: number;
  dtS: number;
  /** Probe that leads the approach past 600 °C; −1 before. */
  lead: number;
  /** Whether the last step drew the flame back. */
  heldBack: boolean;
}

/** Record of the watched joints and parts along a run; a branch starts from a copy. */
class Sight {
  readonly timesS: number[];
  readonly hottestC: number[][];
  readonly coldestC: number[][];
  readonly partPeaksC: number[];
  readonly #program: HeatProgram;

  constructor(program: HeatProgram, from?: Sight) {
    this.#program = program;
    this.timesS = from ? [...from.timesS] : [];
    this.hottestC = from ? from.hottestC.map((some) => [...some]) : program.watched.map(() => []);
    this.coldestC = from ? from.coldestC.map((some) => [...some]) : (program.watchedTargets ?? []).map(() => []);
    this.partPeaksC = from ? [...from.partPeaksC] : program.parts.map(() => -Infinity);
  }

  see(timeS: number, temperaturesC: Float64Array): void {
    const { watched, watchedTargets = [], parts } = this.#program;
    this.timesS.push(timeS);
    for (let w = 0; w < watched.length; w++) this.hottestC[w]!.push(hottestC(watched[w]!, temperaturesC));
    for (let w = 0; w < watchedTargets.length; w++) this.coldestC[w]!.push(coldestOf(watchedTargets[w]!, temperaturesC));
    for (let p = 0; p < parts.length; p++) {
      const { firstCell, cellCount } = parts[p]!;
      let peak = this.partPeaksC[p]!;
      for (let i = firstCell; i < firstCell + cellCount; i++) if (temperaturesC[i]! > peak) peak = temperaturesC[i]!;
      this.partPeaksC[p] = peak;
    }
  }

  report(at: State): FlowEvent {
    const { stepper, pieceCellCount } = this.#program;
    const { timeS, energyJ } = at;
    const waterLostJ = stepper.network.wetPacks.reduce((sum, { waterJ }, pack) => sum + waterJ - at.waterJ[pack]!, 0);
    const heat = { energyJ, storedJ: storedJ(stepper.network, at.temperaturesC, pieceCellCount), lostJ: at.lostJ + waterLostJ };
    const timesS = Float64Array.from(this.timesS);
    const watched = this.hottestC.map((some) => {
      const temperaturesC = Float64Array.from(some);
      return { peakC: temperaturesC.reduce((a, b) => Math.max(a, b), -Infinity), history: { timesS, temperaturesC } };
    });
    const watchedTargets = this.coldestC.map((some) => ({ timesS, temperaturesC: Float64Array.from(some) }));
    return { timeS, ...heat, temperaturesC: at.temperaturesC, watched, watchedTargets, partPeaksC: [...this.partPeaksC] };
  }
}

type Control = (typeof PHASES)[number]['control'];

/**
 * Plays one heat from room temperature through every flow temperature, and past each of them on a branch of its own.
 *
 * Control depends on temperature alone, so one run serves every solder. Past 600 °C at the coldest target point, that point leads and
 * the flame is drawn back so that it rises at 40 K/s at most; after flow 0.5 s of reaction, 2 s held, 4 s of cooling. A heat that rises
 * by less than 0.15 K/s for 12 s, or takes longer than its limit, has stalled.
 *
 * Steps are ROS2 with tol 3 K: 0.05 s at first, 2 s at most, taken again where the error passes 1.5·tol.
 */
export function playHeat(program: HeatProgram): HeatOutcome {
  const { stepper, flame, targets, flowTemperaturesC } = program;
  const tolK = program.tolK ?? DEFAULT_TOL_K;
  const approachKPerS = program.approachKPerS ?? APPROACH_K_PER_S;
  const { cellCount, ambientC, wetPacks } = stepper.network;
  const scratch = new Float64Array(cellCount);
  let steps = 0;
  const heatW = (temperaturesC: Float64Array) => stepper.flameHeatW(temperaturesC, program.pieceCellCount);

  function steer(state: State, control: Control, dtS: number, flowC: number): void {
    if (control === 'off') return;
    if (control === 'hold') {
      const coldest = coldestProbe(targets, state.temperaturesC);
      const wantedKPerS = (flowC - readProbe(targets, coldest, state.temperaturesC)) / dtS;
      const flameKPerS = readProbe(targets, coldest, stepper.flameSlopes());
      const scale = 1 + (wantedKPerS - readProbe(targets, coldest, stepper.firstSlopes)) / flameKPerS;
      stepper.scaleFlame(Math.max(0, Math.min(1, scale)));
      return;
    }
    state.heldBack = false;
    if (state.lead < 0) return;
    const rateKPerS = readProbe(targets, state.lead, stepper.firstSlopes);
    if (rateKPerS <= approachKPerS) return;
    state.heldBack = true;
    const flameKPerS = readProbe(targets, state.lead, stepper.flameSlopes());
    stepper.scaleFlame(Math.max(LEAST_FLAME_FRACTION, 1 - (rateKPerS - approachKPerS) / flameKPerS));
  }

  /** Takes one accepted step, at most longestS, and leaves it in the stepper to be read; returns its length. */
  function attempt(state: State, control: Control, longestS: number, flowC: number): number {
    const flameOnCells = control === 'off' ? null : flame;
    let dtS = Math.min(state.dtS, longestS, control === 'approach' && state.heldBack ? HELD_BACK_STEP_S : LONGEST_STEP_S);
    for (let pack = 0; pack < wetPacks.length; pack++) {
      // A pack that boils dry within the step ends it there.
      const heatW = stepper.packHeatW(pack, state.temperaturesC);
      if (state.waterJ[pack]! > 0 && heatW * dtS > state.waterJ[pack]!)
        dtS = Math.max(SHORTEST_STEP_S, state.waterJ[pack]! / heatW);
    }
    for (;;) {
      if (++steps > MOST_STEPS)
        throw new EngineInputError('steps of the heat', steps, 'fewer: a size or power is out of proportion');
      stepper.begin(state.temperaturesC, state.waterJ, dtS, flameOnCells);
      steer(state, control, dtS, flowC);
      const errorK = stepper.finish();
      const factor = 0.9 * Math.sqrt(tolK / Math.max(errorK, 1e-12));
      if (errorK > 1.5 * tolK && dtS >= SHORTEST_STEP_S) {
        dtS *= Math.max(0.25, factor);
        continue;
      }
      state.dtS = Math.min(LONGEST_STEP_S, dtS * Math.max(0.4, Math.min(2, factor)));
      return dtS;
    }
  }

  /** The state at a fraction of the step in the stepper, heats left as they were: after flow nobody asks for them. */
  function movedOn(state: State, dtS: number, fraction: number): State {
    const temperaturesC = stepper.read(fraction, new Float64Array(cellCount));
    const waterJ = state.waterJ.map((left, pack) => {
      const packW = (stepper.packHeatW(pack, state.temperaturesC) + stepper.packHeatW(pack, temperaturesC)) / 2;
      return left - fraction * dtS * packW < 1e-6 ? 0 : left - fraction * dtS * packW;
    });
    return { ...state, temperaturesC, waterJ, timeS: state.timeS + fraction * dtS };
  }

  /** The same with its heats. */
  function stateAt(state: State, dtS: number, fraction: number): State {
    const after = movedOn(state, dtS, fraction);
    const partS = after.timeS - state.timeS;
    const lostW = stepper.lostHeatW(after.temperaturesC, program.pieceCellCount);
    after.energyJ += (partS * (heatW(state.temperaturesC) + heatW(after.temperaturesC))) / 2;
    after.lostJ += (partS * (state.lostW + lostW)) / 2;
    after.lostW = lostW;
    return after;
  }

  const coldestC = (temperaturesC: Float64Array) => coldestOf(targets, temperaturesC);

  /** Fraction of the step at which the coldest target point crosses a temperature that lies between its ends (Illinois). */
  function crossing(fromC: number, toC: number, levelC: number): number {
    let [low, high, lowK, highK] = [0, 1, fromC - levelC, toC - levelC];
    for (let round = 0; round < 30 && high - low > 1e-9; round++) {
      const at = low - (lowK * (high - low)) / (highK - lowK);
      const atK = coldestC(stepper.read(at, scratch)) - levelC;
      if (Math.abs(atK) < 1e-6) return at;
      if (atK > 0) {
        [high, highK] = [at, atK];
        lowK /= 2;
      } else {
        [low, lowK] = [at, atK];
        highK /= 2;
      }
    }
    return high;
  }

  function playOut(from: State, seen: Sight, flowC: number): Sight {
    const sight = new Sight(program, seen);
    let state = { ...from };
    sight.see(state.timeS, state.temperaturesC);
    for (const { control, lengthS, stepS } of PHASES) {
      for (let leftS = lengthS; leftS > 1e-9;) {
        const dtS = attempt(state, control, Math.min(stepS, leftS), flowC);
        state = movedOn(state, dtS, 1);
        sight.see(state.timeS, state.temperaturesC);
        leftS -= dtS;
      }
    }
    return sight;
  }

  let state: State = {
    temperaturesC: new Float64Array(cellCount).fill(ambientC),
    waterJ: Float64Array.from(wetPacks, ({ waterJ }) => waterJ),
    timeS: 0,
    energyJ: 0,
    lostJ: 0,
    lostW: 0,
    dtS: FIRST_STEP_S,
    lead: -1,
    heldBack: false,
  };
  const sight = new Sight(program);
  sight.see(0, state.temperaturesC);
  const flows: (FlowEvent | undefined)[] = flowTemperaturesC.map(() => undefined);
  let next = 0;
  let slowS = 0;
  while (next < flows.length) {
    const beforeC = coldestC(state.temperaturesC);
    const dtS = attempt(state, 'approach', Math.max(SHORTEST_STEP_S, program.timeLimitS - state.timeS), 0);
    let after = stateAt(state, dtS, 1);
    let afterC = coldestC(after.temperaturesC);
    if (approachKPerS < Infinity && state.lead < 0 && beforeC < APPROACH_FROM_C && afterC > APPROACH_FROM_C) {
      after = stateAt(state, dtS, crossing(beforeC, afterC, APPROACH_FROM_C));
      afterC = APPROACH_FROM_C;
      after.lead = coldestProbe(targets, after.temperaturesC);
      after.dtS = Math.min(after.dtS, FIRST_STEP_S);
    }
    // Every moment of flow within the step is read before a branch takes the stepper on.
    const reached: { flow: number; at: State }[] = [];
    for (; next < flows.length && afterC >= flowTemperaturesC[next]!; next++) {
      reached.push({ flow: next, at: stateAt(state, dtS, crossing(beforeC, afterC, flowTemperaturesC[next]!)) });
    }
    for (const { flow, at } of reached) {
      const branch = program.playOut ? playOut(at, sight, flowTemperaturesC[flow]!) : sight;
      flows[flow] = branch.report(at);
    }
    slowS = (afterC - beforeC) / (after.timeS - state.timeS) < STALL_K_PER_S ? slowS + after.timeS - state.timeS : 0;
    state = after;
    sight.see(state.timeS, state.temperaturesC);
    if (slowS >= STALL_S || state.timeS >= program.timeLimitS - 1e-9) break;
  }
  return { flows, settlesC: next < flows.length ? coldestC(state.temperaturesC) : null, end: sight.report(state) };
}
