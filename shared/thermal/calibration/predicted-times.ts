import type { Design } from '../../design/design.ts';
import { expandDesign, expandHeat } from '../../design/expand-design.ts';
import type { Bench } from '../../design/plan.ts';
import { EngineInputError } from '../../engine-input-error.ts';
import { listSolders } from '../../materials/solder.ts';
import { flowTemperatureC } from '../flow-temperature.ts';
import { positionOf } from '../grid-points.ts';
import { playHeat } from '../heat-control.ts';
import type { HeatQuestion, TemperatureHistory } from '../heat-run.ts';
import { jointProbes, layHeat, lightHeat } from '../heat-setup.ts';
import type { LaidHeat } from '../heat-setup.ts';
import { pieceWeights } from '../piece-network.ts';
import { createProbes } from '../probes.ts';
import { heatProgram } from '../simulate-heat.ts';
import { evenWeights } from '../target-weights.ts';
import { isOnOtherTorch } from '../torch.ts';
import { holdToSeconds, holdToTimes } from './observation.ts';
import type { ObservedHeat, ObservedStrip, TorchCalibrationRequest } from './observation.ts';

export type Factors = NonNullable<Bench['calibration']>;

export interface PredictedTimes {
  fluxClearS: number;
  flowS: number;
  /** After the flame is off. */
  endOfGlowS: number;
}

const FLUX_CLEAR_C = 600;
/** The last dull red that is seen in a dim room. */
const END_OF_GLOW_C = 520;
const COOLING_STEP_S = 0.25;
const LONGEST_COOLING_S = 600;
/** Nothing is shorter: logarithms of times are compared. */
const SHORTEST_S = 0.05;
/** More cells than this are not worth their time in a fit: coarser ones move a time by 2 %, a clock in the hand by 12. */
const MOST_CELLS = 250;
/** A heat that is never reached counts as longer than any, the more so the colder it settles, so that a fit finds its way out. */
const PER_MISSING_K = 0.01;

const USUAL_SUPPORT = 'brick';
const USUAL_STRIP_SUPPORT = 'air';
const USUAL_FIRST_CHIP_MM = 5;
const USUAL_CHIP_DISTANCE_MM = 15;
const CHIP = { diameterMm: 1, neckRadiusMm: 0.4 };

type Torch = TorchCalibrationRequest['torch'];

function never(timeLimitS: number, missingK: number): number {
  return timeLimitS * (1 + PER_MISSING_K * missingK);
}

/** Seconds until the hottest point of the piece, in room air and held by next to nothing, stops to glow. */
function coolingS(laid: LaidHeat, fromC: Float64Array): number {
  const { question, piece } = laid;
  const inAir = { ...laid, question: { ...question, bench: { ...question.bench, support: 'air' as const }, protections: [] } };
  const { stepper } = lightHeat(inAir, false);
  const noWater = new Float64Array(0);
  let temperaturesC: Float64Array = fromC.slice(0, piece.cellCount);
  let hottestC = Math.max(...temperaturesC);
  for (let timeS = 0; timeS < LONGEST_COOLING_S; timeS += COOLING_STEP_S) {
    if (hottestC <= END_OF_GLOW_C) return Math.max(SHORTEST_S, timeS);
    stepper.begin(temperaturesC, noWater, COOLING_STEP_S, null);
    stepper.finish();
    const after = stepper.read(1, new Float64Array(piece.cellCount));
    const afterC = Math.max(...after);
    if (afterC <= END_OF_GLOW_C) return timeS + (COOLING_STEP_S * (hottestC - END_OF_GLOW_C)) / (hottestC - afterC);
    [temperaturesC, hottestC] = [after, afterC];
  }
  return LONGEST_COOLING_S;
}

/**
 * Makes the model of one observed heat: its times as functions of the factors of power, loss and spread.
 *
 * The heat is played as a check plays it, its support at a constant loss; the flux clears at 600 °C and the solder flows at its flow
 * temperature at the coldest point of the targets. Cooling starts from the temperatures at flow and ends when the hottest point is
 * at 520 °C. A heat that stalls at the factors asked for gives a long time, longer the farther it stays from the temperature.
 *
 * @throws {EngineInputError} for a heat that is not in the plan, solders nothing or is on another torch, an unknown name or solder, or times that cannot be
 */
export function heatTimes(torch: Torch, observed: ObservedHeat): (factors: Factors) => PredictedTimes {
  const { plan, heat: number, solders = listSolders() } = observed;
  const what = `heat ${number}`;
  const planned = plan.heats[number - 1];
  if (!planned) throw new EngineInputError('heat', number, `1 to ${plan.heats.length}, one of the plan`);
  if (planned.purpose === 'anneal') throw new EngineInputError('heat', number, 'one that solders');
  if (isOnOtherTorch({ torch }, planned)) throw new EngineInputError('heat', number, 'one with the torch that is calibrated');
  const support = observed.support ?? planned.support ?? USUAL_SUPPORT;
  const solder = solders.find(({ id }) => id === planned.solder);
  if (!solder)
    throw new EngineInputError(`solder of ${what}`, planned.solder, `one of ${solders.map(({ id }) => id).join(', ')}`);
  holdToTimes(observed, what);
  const expanded = expandDesign(observed.design);
  const heat = expandHeat(planned, expanded);
  const earlier = plan.heats.slice(0, number - 1).filter(({ purpose }) => purpose !== 'anneal');
  const made = new Set([
    ...expanded.design.joints.filter((joint) => joint.made).map(({ id }) => id),
    ...earlier.flatMap(({ joints }) => joints.flatMap((id) => expanded.jointsOf(id))),
  ]);
  const question: Omit<HeatQuestion, 'bench'> = {
    design: expanded.design,
    targets: heat.joints,
    made: [...made].filter((id) => !heat.joints.includes(id)),
    solders: [solder],
    ...(heat.flame && { flame: heat.flame }),
    ...(heat.protections && { protections: heat.protections }),
  };
  const { cellCount } = layHeat({ ...question, bench: { torch, support } }).piece;
  const cellFactor = Math.max(1, Math.sqrt(cellCount / MOST_CELLS));
  return (calibration) => {
    const laid = layHeat({ ...question, bench: { torch, support, calibration } }, cellFactor);
    const lit = lightHeat(laid, false);
    const targets = laid.targets.map((joint) => jointProbes(laid.piece, [joint]));
    const weights = evenWeights(laid.fields.length, targets, (w) => heatProgram(laid, lit, w));
    const program = heatProgram(laid, lit, weights);
    const [flowC] = program.flowTemperaturesC;
    const temperatures = [FLUX_CLEAR_C, flowC!].sort((a, b) => a - b);
    const { flows, settlesC, end } = playHeat({
      ...program,
      flowTemperaturesC: temperatures,
      watched: [],
      parts: [],
      playOut: false,
    });
    const timeTo = (levelC: number): number =>
      flows[temperatures.indexOf(levelC)]?.timeS ?? never(program.timeLimitS, levelC - settlesC!);
    return {
      fluxClearS: timeTo(FLUX_CLEAR_C),
      flowS: timeTo(flowC!),
      endOfGlowS:
        observed.secondsToEndOfGlow === undefined
          ? Number.NaN
          : coolingS(laid, (flows[temperatures.indexOf(flowC!)] ?? end).temperaturesC),
    };
  };
}

/** First moment at which a history rises through a temperature, interpolated; undefined when it never does. */
function risesThroughS({ timesS, temperaturesC }: TemperatureHistory, levelC: number): number | undefined {
  const after = temperaturesC.findIndex((t) => t >= levelC);
  if (after < 0) return undefined;
  if (after === 0) return timesS[0];
  const [fromC, toC] = [temperaturesC[after - 1]!, temperaturesC[after]!];
  return timesS[after - 1]! + ((timesS[after]! - timesS[after - 1]!) * (levelC - fromC)) / (toC - fromC);
}

/**
 * Makes the model of a two-chip strip: seconds from the flow of the chip at the flame to that of the chip farther along.
 *
 * The strip is a bar; the flame points at the first chip and stays there. What lies between the two flows is decided by how wide
 * the flame is as much as by its power.
 *
 * @throws {EngineInputError} for chips that do not lie on the strip, or a time that cannot be
 */
export function chipGapS(torch: Torch, observed: ObservedStrip): (factors: Factors) => number {
  const { metal = 'sterling-925', lengthMm, widthMm, thicknessMm, liquidusC, support = USUAL_STRIP_SUPPORT } = observed;
  const { firstChipMm = USUAL_FIRST_CHIP_MM, chipDistanceMm = USUAL_CHIP_DISTANCE_MM } = observed;
  holdToSeconds(observed.secondsBetweenChips, 'secondsBetweenChips');
  if (!(firstChipMm >= 0 && firstChipMm <= lengthMm))
    throw new EngineInputError('firstChipMm', firstChipMm, `on the strip, 0 to ${lengthMm}`);
  if (!(chipDistanceMm > 0 && firstChipMm + chipDistanceMm <= lengthMm))
    throw new EngineInputError('chipDistanceMm', chipDistanceMm, `over 0 and at most ${lengthMm - firstChipMm}, on the strip`);
  const design: Design = {
    parts: [
      { id: 'strip', metal, form: { kind: 'bar', lengthMm, widthMm, thicknessMm } },
      { id: 'chip', metal, form: { kind: 'ball', diameterMm: CHIP.diameterMm } },
    ],
    joints: [
      {
        id: 'first-chip',
        kind: 'granule',
        between: [{ part: 'strip', alongMm: firstChipMm }, { part: 'chip' }],
        diameterMm: CHIP.diameterMm,
        neckRadiusMm: CHIP.neckRadiusMm,
        gapMm: 0,
      },
    ],
  };
  const question = { design, targets: ['first-chip'], made: [], solders: [{ id: 'chip', liquidusC }] };
  return (calibration) => {
    const laid = layHeat({ ...question, bench: { torch, support, calibration } });
    const { form, grid, solidusC } = laid.piece.parts[0]!;
    const chipAt = (alongMm: number) =>
      createProbes([pieceWeights(laid.piece, { part: 0, position: positionOf(form, grid, { part: 'strip', alongMm }) })]);
    const flowC = flowTemperatureC(liquidusC, solidusC);
    const program = heatProgram(laid, lightHeat(laid, false), [1]);
    const { flows, settlesC } = playHeat({
      ...program,
      targets: chipAt(firstChipMm + chipDistanceMm),
      watched: [chipAt(firstChipMm)],
      parts: [],
      flowTemperaturesC: [flowC],
      playOut: false,
    });
    const [flow] = flows;
    if (!flow) return never(program.timeLimitS, flowC - settlesC!);
    return Math.max(SHORTEST_S, flow.timeS - (risesThroughS(flow.watched[0]!.history, flowC) ?? flow.timeS));
  };
}
