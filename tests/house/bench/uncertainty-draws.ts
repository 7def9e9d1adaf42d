/** Seeded draws of heats over what is assumed of flame, metal and hand, on the pieces of the demo studio. */

import { flameAims } from '../../../shared/thermal/flame-aim.ts';
import { flameField, flameOnNetwork } from '../../../shared/thermal/flame-field.ts';
import { playHeat } from '../../../shared/thermal/heat-control.ts';
import type { HeatProgram } from '../../../shared/thermal/heat-control.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { Flame, Protection } from '../../../shared/design/plan.ts';
import type { HeatQuestion } from '../../../shared/thermal/heat-run.ts';
import { layHeat, lightHeat, tiltOf } from '../../../shared/thermal/heat-setup.ts';
import { jointDistances } from '../../../shared/thermal/joint-distance.ts';
import { createMetalPaths } from '../../../shared/thermal/metal-paths.ts';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import { heatProgram } from '../../../shared/thermal/simulate-heat.ts';
import { torchOf } from '../../../shared/thermal/torch.ts';
import { DEMO_DESIGNS, heatOf } from '../../support/demo-heats.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { randomFrom } from '../../support/random-piece.ts';

const SEED = 20;
/** Nearer to the target than this, tweezers are not used: they keep it from flowing. */
const LEAST_SINK_MM = 8;
/** A heat of a larger piece takes longer than a draw may. */
export const MOST_CELLS = 600;
const SOLDER = 'medium';

/**
 * Relative standard deviations of what is not known (logarithmic), and absolute ones of what the hand does. Power, spread, air loss and
 * emissivity are the assumptions of the design; the others are judged here. Left out: how the flame's skirt is shaped, how joints and
 * block touch, and whatever the equations leave out.
 */
export interface Spreads {
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
  sinkContactFraction: number;
  shieldFraction: number;
  tiltDeg: number;
}

export const UNCALIBRATED: Spreads = {
  powerFraction: 0.3,
  spreadFraction: 0.25,
  airLossFraction: 0.3,
  emissivityFraction: 0.35,
  barFlameFraction: 0.2,
  conductivityFraction: 0.1,
  blockLossFraction: 0.5,
  aimSpreads: 0.3,
  flowK: 5,
  sinkContactFraction: 0.5,
  shieldFraction: 0.5,
  tiltDeg: 10,
};
/** Fitted to some heats of this torch and person: power, losses and spread are known to about what such fits leave. */
export const CALIBRATED: Spreads = {
  ...UNCALIBRATED,
  powerFraction: 0.1,
  spreadFraction: 0.1,
  airLossFraction: 0.15,
  emissivityFraction: 0.15,
  barFlameFraction: 0.1,
};

/** Normal numbers by Box and Muller. */
export function normals(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

function scale(values: Float64Array, by: number): void {
  for (let i = 0; i < values.length; i++) values[i]! *= by;
}

/** The same heat as one bench may have it: the equations as they are, the constants drawn. */
export function drawnProgram(question: HeatQuestion, spreads: Spreads, normal: () => number): HeatProgram {
  const factor = (fraction: number) => Math.exp(fraction * normal());
  const known = torchOf(question.bench);
  const torch = {
    powerW: known.powerW * factor(spreads.powerFraction),
    spreadMm: known.spreadMm * factor(spreads.spreadFraction),
    gasC: known.gasC,
  };
  const laid = layHeat({ ...question, bench: { ...question.bench, torch } });
  const { piece, targets } = laid;
  const tilt = tiltOf(piece, question.flame ?? {});
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
  const [contact, shield, tiltedDeg] = [
    factor(spreads.sinkContactFraction),
    factor(spreads.shieldFraction),
    spreads.tiltDeg * normal(),
  ];
  scale(network.lossWPerK, air);
  scale(network.radiationWPerK4, radiation);
  scale(network.fixedLossWPerK, block);
  scale(network.conductivityWPerMmK, conduction);
  // Beyond the piece there are the cells of sinks alone, each held by its contact.
  network.edgeTo.forEach((cell, edge) => {
    if (cell >= piece.cellCount !== network.edgeFrom[edge]! >= piece.cellCount) network.edgeContactKPerW[edge]! /= contact;
  });
  const shieldFactors = laid.shieldFactors.map((each) => (each < 1 ? Math.min(1, each * shield) : each));
  const drawnTilt = tilt && { ...tilt, angleDeg: tilt.angleDeg + tiltedDeg };
  const flame = flameOnNetwork(flameField(paths, aims, torch, drawnTilt), {
    ...laid,
    shieldFactors,
    blockCells: [],
    cellCount: network.cellCount,
  });
  for (const { grid, firstCell, surfacesMm2 } of piece.parts) {
    if (grid.shape !== 'plate') scale(flame.exchangeWPerK.subarray(firstCell, firstCell + surfacesMm2.length), bar);
  }
  const program = heatProgram(laid, { stepper: createNetworkStepper(network), flame: () => flame }, [1]);
  const flowK = spreads.flowK * normal();
  return { ...program, flame, flowTemperaturesC: program.flowTemperaturesC.map((flowC) => flowC + flowK) };
}

export interface Sample {
  protectedBy: Way;
  /** Along the metal, from the target. */
  awayMm: number;
  /** How much cooler than the target it is predicted to peak. */
  fallK: number;
  /** How much hotter than predicted it peaked in a draw. */
  overK: number;
}

export interface Drawn {
  samples: Sample[];
  heats: number;
  draws: number;
  reached: number;
}

/** What is done for an earlier joint in a heat. */
export type Way = 'nothing' | 'tweezers' | 'shield' | 'tilt';

const protections: Readonly<Record<Way, (joint: string) => { flame?: Flame; protections?: readonly Protection[] }>> = {
  nothing: () => ({}),
  tweezers: (joint) => ({ protections: [{ kind: 'sink', sink: 'tweezers', at: { joint } }] }),
  shield: (guards) => ({ protections: [{ kind: 'shield', guards }] }),
  tilt: (awayFrom) => ({ flame: { tiltDeg: 45, awayFrom } }),
};

export function draw(spreads: Spreads, ways: readonly Way[], drawsEach: number): Drawn {
  const normal = normals(randomFrom(SEED));
  const drawn: Drawn = { samples: [], heats: 0, draws: 0, reached: 0 };
  for (const design of Object.values(DEMO_DESIGNS)) {
    for (const { id: target } of design.joints) {
      const others = design.joints.map(({ id }) => id).filter((id) => id !== target);
      for (const way of ways) {
        // Without protection every earlier joint of the heat is looked at, with one only the joint it is for.
        if (way === 'nothing') drawHeat(drawn, { design, target, way, seen: others, spreads, drawsEach, normal });
        else for (const joint of others) drawHeat(drawn, { design, target, way, seen: [joint], spreads, drawsEach, normal });
      }
    }
  }
  return drawn;
}

interface HeatDrawn {
  design: Design;
  target: string;
  way: Way;
  seen: readonly string[];
  spreads: Spreads;
  drawsEach: number;
  normal: () => number;
}

function drawHeat(drawn: Drawn, { design, target, way, seen, spreads, drawsEach, normal }: HeatDrawn): void {
  const distanceMm = jointDistances(design);
  if (way === 'tweezers' && !(distanceMm(target, seen[0]!) >= LEAST_SINK_MM)) return;
  const bare = heatOf(design, target, { solders: SOLDERS.filter(({ id }) => id === SOLDER) });
  const earlier = layHeat(bare).piece.joints.filter(({ id }) => id !== target);
  if (!earlier.some(({ id }) => seen.includes(id))) return;
  const question = { ...bare, ...protections[way](seen[0]!) };
  const nominal = drawnProgram(question, spreads, () => 0);
  if (nominal.pieceCellCount > MOST_CELLS) return;
  const [predicted] = playHeat(nominal).flows;
  if (!predicted) return;
  drawn.heats += 1;
  for (let i = 0; i < drawsEach; i++) {
    drawn.draws += 1;
    const [event] = playHeat(drawnProgram(question, spreads, normal)).flows;
    if (!event) continue;
    drawn.reached += 1;
    earlier.forEach(({ id }, w) => {
      if (!seen.includes(id)) return;
      const peakC = predicted.watched[w]!.peakC;
      drawn.samples.push({
        protectedBy: way,
        awayMm: distanceMm(target, id),
        fallK: nominal.flowTemperaturesC[0]! - peakC,
        overK: event.watched[w]!.peakC - peakC,
      });
    });
  }
}
