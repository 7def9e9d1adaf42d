/**
 * Whether U, the uncertainty shown beside every margin, is as wide as our own assumptions about flame, metal and hand make it: seeded
 * draws of heats on the pieces of the demo studio. It tests U against these assumptions, not against fires.
 */

import { flameAims } from '../../../shared/thermal/flame-aim.ts';
import { flameField, flameOnNetwork } from '../../../shared/thermal/flame-field.ts';
import { playHeat } from '../../../shared/thermal/heat-control.ts';
import type { HeatProgram } from '../../../shared/thermal/heat-control.ts';
import type { HeatQuestion } from '../../../shared/thermal/heat-run.ts';
import { layHeat, lightHeat } from '../../../shared/thermal/heat-setup.ts';
import { jointDistances } from '../../../shared/thermal/joint-distance.ts';
import { createMetalPaths } from '../../../shared/thermal/metal-paths.ts';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import { heatProgram } from '../../../shared/thermal/simulate-heat.ts';
import { torchOf } from '../../../shared/thermal/torch.ts';
import { uncertaintyK } from '../../../shared/thermal/uncertainty.ts';
import { DEMO_DESIGNS, heatOf } from '../../support/demo-heats.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { randomFrom } from '../../support/random-piece.ts';
import { round } from './measure.ts';

const SEED = 20;
const DRAWS = 200;
/** A heat of a larger piece takes longer than a draw may. */
const MOST_CELLS = 600;
const SOLDER = 'medium';

/**
 * Relative standard deviations of what is not known (logarithmic), and absolute ones of what the hand does. Power, spread, air loss and
 * emissivity are the assumptions of the design; the others are judged here. Left out: how the flame's skirt is shaped, how joints and
 * block touch, and whatever the equations leave out.
 */
interface Spreads {
  powerFraction: number;
  spreadFraction: number;
  airLossFraction: number;
  emissivityFraction: number;
  /** Share of a bar's surface that takes flame. */
  barFlameFraction: number;
  conductivityFraction: number;
  blockLossFraction: number;
  /** How far beside its place the flame points, in spreads of the flame. */
  aimSpreads: number;
  /** When the hand sees the solder run. */
  flowK: number;
}

const UNCALIBRATED: Spreads = {
  powerFraction: 0.3,
  spreadFraction: 0.25,
  airLossFraction: 0.3,
  emissivityFraction: 0.35,
  barFlameFraction: 0.2,
  conductivityFraction: 0.1,
  blockLossFraction: 0.5,
  aimSpreads: 0.3,
  flowK: 5,
};
/** Fitted to some heats of this torch and person: power, losses and spread are known to about what such fits leave. */
const CALIBRATED: Spreads = {
  ...UNCALIBRATED,
  powerFraction: 0.1,
  spreadFraction: 0.1,
  airLossFraction: 0.15,
  emissivityFraction: 0.15,
  barFlameFraction: 0.1,
};

/** Normal numbers by Box and Muller. */
function normals(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

function scale(values: Float64Array, by: number): void {
  for (let i = 0; i < values.length; i++) values[i]! *= by;
}

/** The same heat as one bench may have it: the equations as they are, the constants drawn. */
function drawnProgram(question: HeatQuestion, spreads: Spreads, normal: () => number): HeatProgram {
  const factor = (fraction: number) => Math.exp(fraction * normal());
  const known = torchOf(question.bench);
  const torch = {
    powerW: known.powerW * factor(spreads.powerFraction),
    spreadMm: known.spreadMm * factor(spreads.spreadFraction),
    gasC: known.gasC,
  };
  const laid = layHeat({ ...question, bench: { ...question.bench, torch } });
  const { piece, targets } = laid;
  const paths = createMetalPaths(
    piece.parts.map(({ grid }) => grid),
    piece.joints,
    piece.contacts,
  );
  // The spread that aims are counted in moves the aim, 0.6 of it into the heavier part, and nothing else.
  const aimedMm = torch.spreadMm * Math.max(0, 1 + (spreads.aimSpreads / 0.6) * normal());
  const aims = flameAims(piece, paths, { targets, flame: question.flame ?? {}, spreadMm: aimedMm }).flat();
  const { stepper } = lightHeat(laid, false);
  const { network } = stepper;
  const [air, radiation, block, conduction, bar] = [
    factor(spreads.airLossFraction),
    factor(spreads.emissivityFraction),
    factor(spreads.blockLossFraction),
    factor(spreads.conductivityFraction),
    factor(spreads.barFlameFraction),
  ];
  scale(network.lossWPerK, air);
  scale(network.radiationWPerK4, radiation);
  scale(network.fixedLossWPerK, block);
  scale(network.conductivityWPerMmK, conduction);
  const flame = flameOnNetwork(flameField(paths, aims, torch, null), { ...laid, blockCells: [], cellCount: network.cellCount });
  for (const { grid, firstCell, surfacesMm2 } of piece.parts) {
    if (grid.shape !== 'plate') scale(flame.exchangeWPerK.subarray(firstCell, firstCell + surfacesMm2.length), bar);
  }
  const program = heatProgram(laid, { stepper: createNetworkStepper(network), flame: () => flame }, [1]);
  const flowK = spreads.flowK * normal();
  return { ...program, flame, flowTemperaturesC: program.flowTemperaturesC.map((flowC) => flowC + flowK) };
}

interface Sample {
  /** Along the metal, from the target. */
  awayMm: number;
  /** How much cooler than the target it is predicted to peak. */
  fallK: number;
  /** How much hotter than predicted it peaked in a draw. */
  overK: number;
}

interface Drawn {
  samples: Sample[];
  heats: number;
  draws: number;
  reached: number;
}

function draw(spreads: Spreads): Drawn {
  const normal = normals(randomFrom(SEED));
  const drawn: Drawn = { samples: [], heats: 0, draws: 0, reached: 0 };
  for (const design of Object.values(DEMO_DESIGNS)) {
    const distanceMm = jointDistances(design);
    for (const { id: target } of design.joints) {
      const question = heatOf(design, target, { solders: SOLDERS.filter(({ id }) => id === SOLDER) });
      const nominal = drawnProgram(question, spreads, () => 0);
      const [predicted] = playHeat(nominal).flows;
      const earlier = layHeat(question).piece.joints.filter(({ id }) => id !== target);
      if (!predicted || earlier.length === 0 || nominal.pieceCellCount > MOST_CELLS) continue;
      drawn.heats += 1;
      for (let i = 0; i < DRAWS; i++) {
        drawn.draws += 1;
        const [event] = playHeat(drawnProgram(question, spreads, normal)).flows;
        if (!event) continue;
        drawn.reached += 1;
        earlier.forEach(({ id }, w) => {
          const peakC = predicted.watched[w]!.peakC;
          drawn.samples.push({
            awayMm: distanceMm(target, id),
            fallK: nominal.flowTemperaturesC[0]! - peakC,
            overK: event.watched[w]!.peakC - peakC,
          });
        });
      }
    }
  }
  return drawn;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

const uOf = ({ fallK }: Sample, calibrated: boolean): number => uncertaintyK({ flowC: fallK, peakC: 0, calibrated });

/** The growth of U that would have held this draw: U = √(15² + (κ·fall)²). */
function growthNeeded({ fallK, overK }: Sample): number {
  if (overK <= 15) return 0;
  return fallK > 0 ? Math.sqrt(overK ** 2 - 15 ** 2) / fallK : Infinity;
}

function row(what: string, samples: readonly Sample[], calibrated: boolean) {
  const share = (holds: (sample: Sample) => boolean) => round((100 * samples.filter(holds).length) / samples.length);
  const over = samples.map(({ overK }) => overK);
  const meanK = over.reduce((sum, k) => sum + k, 0) / over.length;
  return {
    what,
    samples: samples.length,
    'fall K': round(
      quantile(
        samples.map(({ fallK }) => fallK),
        0.5,
      ),
    ),
    'U K': round(
      quantile(
        samples.map((sample) => uOf(sample, calibrated)),
        0.5,
      ),
    ),
    'sd K': round(Math.sqrt(over.reduce((sum, k) => sum + (k - meanK) ** 2, 0) / over.length)),
    '5 % hotter by K': round(quantile(over, 0.95)),
    'at most U hotter %': share((sample) => sample.overK <= uOf(sample, calibrated)),
    'within U either way %': share((sample) => Math.abs(sample.overK) <= uOf(sample, calibrated)),
    'κ for 95 %': round(quantile(samples.map(growthNeeded), 0.95)),
  };
}

const BY_DISTANCE: [string, number, number][] = [
  ['up to 5 mm', 0, 5],
  ['5 to 10 mm', 5, 10],
  ['10 to 20 mm', 10, 20],
  ['over 20 mm', 20, Infinity],
];
const BY_FALL: [string, number, number][] = [
  ['hotter than the target', -Infinity, 0],
  ['0 to 15 K cooler', 0, 15],
  ['15 to 40 K cooler', 15, 40],
  ['40 to 100 K cooler', 40, 100],
  ['over 100 K cooler', 100, Infinity],
];

function show(title: string, spreads: Spreads, calibrated: boolean): void {
  const { samples, heats, draws, reached } = draw(spreads);
  console.log(`\n${title}: ${heats} heats, ${draws} draws, ${round((100 * reached) / draws)} % reached flow and count.`);
  const among = (of: (sample: Sample) => number, [what, from, to]: [string, number, number]) => {
    const some = samples.filter((sample) => of(sample) >= from && of(sample) < to);
    return some.length > 0 ? [row(what, some, calibrated)] : [];
  };
  console.table([
    row('all', samples, calibrated),
    ...BY_DISTANCE.flatMap((band) => among(({ awayMm }) => awayMm, band)),
    ...BY_FALL.flatMap((band) => among(({ fallK }) => fallK, band)),
  ]);
}

export function run(): void {
  console.log(
    'This tests U against our own assumptions, listed below, not against fires. U is meant to hold 95 % of what runs hotter.',
  );
  console.table({ 'without a calibration': UNCALIBRATED, 'with one': CALIBRATED });
  show('Without a calibration', UNCALIBRATED, false);
  show('With a calibration of torch and person', CALIBRATED, true);
}
