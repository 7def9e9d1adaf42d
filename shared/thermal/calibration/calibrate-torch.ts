import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { torchOf } from '../torch.ts';
import { runToEnd } from '../../run-to-end.ts';
import { variances } from './variances.ts';
import type { ObservedHeat, ObservedStrip, TorchCalibrationRequest } from './observation.ts';
import { chipGapS, heatTimes } from './predicted-times.ts';
import type { Factors } from './predicted-times.ts';

type FactorName = 'power' | 'loss' | 'spread';

export interface FittedFactor {
  /** By which the torch's own number is multiplied. */
  value: number;
  /** Of the value. */
  standardError: number;
  /** Whether the observations say more of it than was assumed before them. */
  toldByData: boolean;
}

/** One observed time beside what the calibrated model gives. */
export interface ComparedTime {
  of: 'heat' | 'strip';
  /** Of its list, from 1. */
  number: number;
  what: 'flux_clear' | 'flow' | 'end_of_glow' | 'chip_gap';
  observedS: number;
  predictedS: number;
}

export interface TorchCalibration {
  power: FittedFactor;
  loss: FittedFactor;
  spread: FittedFactor;
  times: ComparedTime[];
  /** What the observations cannot tell, and what would; and what does not fit them. */
  says: string[];
}

/** Standard deviations of the logarithms before anything was seen: judgement, as the presets of the torches are. */
const PRIOR_SD: Readonly<Record<FactorName, number>> = { power: 0.4, loss: 0.3, spread: 0.25 };
/** Of the logarithm of a time read at the bench; assumed. */
const NOISE_SD = { flux_clear: 0.12, flow: 0.12, end_of_glow: 0.15, chip_gap: 0.2 } as const;

/** Farther from 1 than this many prior deviations no factor is sought. */
const MOST_SDS = 3;
/** A posterior wider than this share of its prior says next to nothing. */
const TOLD_FRACTION = 0.75;
/** A time this many deviations off does not fit. */
const STRANGE_SDS = 2.5;

/** From the two ends as from the middle, so that a start at which nothing flows does not keep the fit there. */
const STARTS_SD = [-2, -1, 0, 1, 2] as const;
/** ln step of differences: less is lost in the steps of the heat model, whose times are good to half a percent. */
const DIFFERENCE = 0.05;
/** The library's own, 0.01, diverges on these times. */
const DAMPING = 1.5;
const DAMPING_UP = 11;
const MOST_STEPS = 10;
/** So many steps in a row that do not better the fit end it. */
const VAIN_STEPS = 2;
const SETTLED = 2e-3;

interface Sample {
  compared: Omit<ComparedTime, 'predictedS'>;
  noiseSd: number;
}

interface Observations {
  samples: Sample[];
  predict: (logs: readonly number[]) => number[];
}

const factorsOf = ([power = 0, loss = 0, spread = 0]: readonly number[]): Factors => ({
  powerFactor: Math.exp(power),
  lossFactor: Math.exp(loss),
  spreadFactor: Math.exp(spread),
});

const HEAT_TIMES = [
  { given: 'secondsToFluxClear', what: 'flux_clear', predicted: 'fluxClearS' },
  { given: 'secondsToFlow', what: 'flow', predicted: 'flowS' },
  { given: 'secondsToEndOfGlow', what: 'end_of_glow', predicted: 'endOfGlowS' },
] as const;

function observe(
  torch: TorchCalibrationRequest['torch'],
  heats: readonly ObservedHeat[],
  strips: readonly ObservedStrip[],
): Observations {
  const samples: Sample[] = [];
  const models: ((factors: Factors) => number[])[] = [];
  for (const [index, heat] of heats.entries()) {
    const timesOf = heatTimes(torch, heat);
    const seen = HEAT_TIMES.filter(({ given }) => heat[given] !== undefined);
    for (const { given, what } of seen) {
      const compared = { of: 'heat', number: index + 1, what, observedS: heat[given]! } as const;
      samples.push({ compared, noiseSd: NOISE_SD[what] });
    }
    models.push((factors) => {
      const times = timesOf(factors);
      return seen.map(({ predicted }) => times[predicted]);
    });
  }
  for (const [index, strip] of strips.entries()) {
    const gapOf = chipGapS(torch, strip);
    const compared = { of: 'strip', number: index + 1, what: 'chip_gap', observedS: strip.secondsBetweenChips } as const;
    samples.push({ compared, noiseSd: NOISE_SD.chip_gap });
    models.push((factors) => [gapOf(factors)]);
  }
  const known = new Map<string, number[]>();
  const predict = (logs: readonly number[]): number[] => {
    const key = logs.join();
    const times = known.get(key) ?? models.flatMap((model) => model(factorsOf(logs)));
    known.set(key, times);
    return times;
  };
  return { samples, predict };
}

/** The factors that some observations are able to tell at all. */
function told(samples: readonly Sample[]): FactorName[] {
  const has = (...kinds: ComparedTime['what'][]) => samples.some(({ compared }) => kinds.includes(compared.what));
  return [
    ...(has('flux_clear', 'flow', 'chip_gap') ? (['power'] as const) : []),
    ...(has('end_of_glow') ? (['loss'] as const) : []),
    ...(has('chip_gap') ? (['spread'] as const) : []),
  ];
}

const NAMES: readonly FactorName[] = ['power', 'loss', 'spread'];

interface Fit {
  logs: number[];
  /** Standard errors of the logarithms. */
  errors: number[];
}

/** The most likely logarithms of the free factors; a pause after every step. */
function* fit({ samples, predict }: Observations, free: readonly FactorName[]): Generator<void, Fit> {
  const full = (logs: readonly number[]) => NAMES.map((name) => logs[free.indexOf(name)] ?? 0);
  // Each observation in its own deviations, then each prior in its own: all weigh alike.
  const wanted = [...samples.map(({ compared, noiseSd }) => Math.log(compared.observedS) / noiseSd), ...free.map(() => 0)];
  const data = { x: wanted.map((_, i) => i), y: wanted };
  const model = (logs: readonly number[]): number[] => [
    ...predict(full(logs)).map((seconds, i) => Math.log(seconds) / samples[i]!.noiseSd),
    ...free.map((name, i) => logs[i]! / PRIOR_SD[name]),
  ];
  const modelAt = (logs: number[]) => {
    const values = model(logs);
    return (i: number) => values[i]!;
  };
  const cost = (logs: readonly number[]): number => model(logs).reduce((sum, value, i) => sum + (value - wanted[i]!) ** 2, 0);
  const most = free.map((name) => MOST_SDS * PRIOR_SD[name]);
  let logs = free.map(() => 0);
  for (const sds of STARTS_SD) {
    const start = free.map((name) => (name === 'power' ? sds * PRIOR_SD.power : 0));
    if (cost(start) < cost(logs)) logs = start;
    yield;
  }
  let damping = DAMPING;
  for (let step = 0, vain = 0; step < MOST_STEPS && vain < VAIN_STEPS; step++) {
    // The library goes on from a worse point too, so it is asked for one step at a time, and a step that betters nothing is not taken.
    const { parameterValues } = levenbergMarquardt(data, modelAt, {
      initialValues: logs,
      minValues: most.map((log) => -log),
      maxValues: most,
      damping,
      centralDifference: true,
      gradientDifference: DIFFERENCE,
      maxIterations: 1,
    });
    const movedBy = Math.max(...parameterValues.map((log, i) => Math.abs(log - logs[i]!)));
    if (cost(parameterValues) < cost(logs)) {
      logs = parameterValues;
      [damping, vain] = [DAMPING, 0];
      if (movedBy < SETTLED) break;
    } else {
      damping *= DAMPING_UP;
      vain++;
    }
    yield;
  }
  const slopes = free.map((_, k) => {
    const shifted = (by: number) => model(logs.map((log, i) => (i === k ? log + by : log)));
    const [up, down] = [shifted(DIFFERENCE), shifted(-DIFFERENCE)];
    return up.map((value, i) => (value - down[i]!) / (2 * DIFFERENCE));
  });
  const information = slopes.map((a) => slopes.map((b) => a.reduce((sum, value, i) => sum + value * b[i]!, 0)));
  return { logs, errors: variances(information).map(Math.sqrt) };
}

const MISSING: Readonly<Record<FactorName, string>> = {
  power: 'the power of the torch: time a heat from lighting to flow',
  loss: 'what the piece loses to the room: time one from flame off to the last of the glow, held in the air',
  spread: 'how wide the flame is: time a strip with two chips',
};

function remarks(factors: Readonly<Record<FactorName, FittedFactor>>, times: readonly ComparedTime[]): string[] {
  return [
    ...NAMES.filter((name) => !factors[name].toldByData).map((name) => `These observations cannot tell ${MISSING[name]}`),
    ...times
      .filter(({ what, observedS, predictedS }) => Math.abs(Math.log(observedS / predictedS)) > STRANGE_SDS * NOISE_SD[what])
      .map(
        ({ of, number, what, observedS, predictedS }) =>
          `The ${what.replaceAll('_', ' ')} of ${of} ${number} does not fit: ${observedS} s were seen, the model comes to ${predictedS.toFixed(1)} s`,
      ),
  ];
}

/**
 * What a studio's own observed heats say of its torch in its own hands: factors of power, of loss to the room and of the flame's
 * spread, by which every later prediction with that torch is made.
 *
 * The most likely factors (maximum a posteriori) in their logarithms: least squares of ln(observed / predicted) over the noise of
 * each time (12 % flux clear and flow, 15 % glow, 20 % chip gap, assumed) and of ln(factor) over its prior (0.4 power, 0.3 loss,
 * 0.25 spread, judgement), by Levenberg and Marquardt from the best of five powers, within three prior deviations.
 *
 * A factor is fitted only where a time can tell it: power from a heat or a strip, loss from a cooling time alone, spread from a
 * two-chip strip alone. Power and spread do the same to the times of heats, and loss next to nothing, so that fitting them there
 * would shift each toward the other. What is not fitted stays 1 with its prior as its error; the errors of the others take it as it
 * stands. Told by data: the error is at most three quarters of the prior. Without observations the priors come back.
 *
 * Standard errors are those of the logarithm, from the Jacobian at the solution, times the value.
 *
 * @returns values from 0.3 to 3.3 (power), 0.41 to 2.5 (loss), 0.47 to 2.1 (spread)
 * @throws {EngineInputError} for an observation that cannot be: a heat not in the plan, a time not over 0, flux clear after flow …
 */
export function calibrateTorch(request: TorchCalibrationRequest): TorchCalibration {
  return runToEnd(calibrateTorchSteps(request));
}

/** The same, with a pause after every step of the fit, so that a host can do other things in between. */
export function* calibrateTorchSteps({
  torch,
  observations,
  strips = [],
}: TorchCalibrationRequest): Generator<void, TorchCalibration> {
  torchOf({ torch });
  const observed = observe(torch, observations, strips);
  const free = told(observed.samples);
  const { logs, errors } = free.length > 0 ? yield* fit(observed, free) : { logs: [], errors: [] };
  const factor = (name: FactorName): FittedFactor => {
    const at = free.indexOf(name);
    if (at < 0) return { value: 1, standardError: PRIOR_SD[name], toldByData: false };
    const value = Math.exp(logs[at]!);
    return { value, standardError: value * errors[at]!, toldByData: errors[at]! <= TOLD_FRACTION * PRIOR_SD[name] };
  };
  const factors = { power: factor('power'), loss: factor('loss'), spread: factor('spread') };
  const predicted = observed.predict(NAMES.map((name) => Math.log(factors[name].value)));
  const times = observed.samples.map(({ compared }, i) => ({ ...compared, predictedS: predicted[i]! }));
  return { ...factors, times, says: remarks(factors, times) };
}
