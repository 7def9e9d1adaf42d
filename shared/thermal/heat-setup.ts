import type { Flame, Protection, SinkPlace } from '../design/plan.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { flameAims } from './flame-aim.ts';
import { flameField, flameOnNetwork, mixFields } from './flame-field.ts';
import type { FlameField, Tilt } from './flame-field.ts';
import { USUAL_CELLS } from './form-grid.ts';
import { isFlat, middleOf, positionOf } from './grid-points.ts';
import type { HeatQuestion } from './heat-run.ts';
import type { JointPoints, PartPoint } from './joint-points.ts';
import { createMetalPaths } from './metal-paths.ts';
import type { MetalPaths } from './metal-paths.ts';
import { createNetworkStepper } from './network-stepper.ts';
import type { FlameOnCells, NetworkStepper } from './network-stepper.ts';
import { buildPiece, partIndex } from './piece-model.ts';
import type { Piece } from './piece-model.ts';
import { buildPieceNetwork, pieceWeights } from './piece-network.ts';
import { createProbes } from './probes.ts';
import type { Probes } from './probes.ts';
import { addSink } from './sink.ts';
import { torchOf } from './torch.ts';

const ROOM_C = 20;
/** Cells longer than this share of a flame's spread put a joint up to 20 K wrong. */
const CELLS_PER_SPREAD = 4;
/** What a shield lets through; judgement. */
const SHIELD_FACTOR = 0.15;
const STEEPEST_TILT_DEG = 80;

/** A section laid out for a heat: everything that does not depend on how the support is modelled. */
export interface LaidHeat {
  question: HeatQuestion;
  piece: Piece;
  targets: readonly JointPoints[];
  targetProbes: Probes;
  /** One a target that the flame is played on. */
  fields: readonly FlameField[];
  shieldFactors: Float64Array;
  gasC: number;
  supported: boolean;
}

/** A network to step, and the flame on it. */
export interface LitHeat {
  stepper: NetworkStepper;
  flame(weights: readonly number[]): FlameOnCells;
}

function presentJoint(piece: Piece, id: string): JointPoints | undefined {
  return piece.joints.find((joint) => joint.id === id);
}

/** One point to stand for a joint: of a loop the middle of its circle, on the sheet. */
function middlePoint(piece: Piece, { middles }: JointPoints): PartPoint {
  return middles.find(({ part }) => isFlat(piece.parts[part]!.grid)) ?? middles[0];
}

/** A joint, or else a part, as points: all of a joint's, or the middle of a part. */
function guarded(piece: Piece, id: string): { joint: JointPoints } | { part: number } {
  const joint = presentJoint(piece, id);
  return joint ? { joint } : { part: partIndex(piece.parts, id) };
}

/** Which way the flame of a heat leans; null upright. */
export function tiltOf(piece: Piece, flame: Flame): Tilt | null {
  const { tiltDeg = 0, towards, awayFrom } = flame;
  if (!(tiltDeg >= 0 && tiltDeg <= STEEPEST_TILT_DEG))
    throw new EngineInputError('tiltDeg', tiltDeg, `0 to ${STEEPEST_TILT_DEG}`);
  const id = towards ?? awayFrom;
  if (tiltDeg === 0 || id === undefined) return null;
  const found = guarded(piece, id);
  const point =
    'joint' in found ? middlePoint(piece, found.joint) : { part: found.part, position: middleOf(piece.parts[found.part]!.grid) };
  return { angleDeg: towards === undefined ? -tiltDeg : tiltDeg, point };
}

/**
 * What shields leave of the flame on each cell, 0.15 behind one. Guarding a part, a shield covers its cells; guarding a joint, it
 * stands half-way, and covers all that is nearer, along the metal, to that joint than to any target.
 */
function shieldFactors(
  piece: Piece,
  paths: MetalPaths,
  targets: readonly JointPoints[],
  protections: readonly Protection[],
): Float64Array {
  const factors = new Float64Array(piece.cellCount).fill(1);
  for (const protection of protections) {
    if (protection.kind !== 'shield') continue;
    const found = guarded(piece, protection.guards);
    if ('part' in found) {
      const { firstCell, surfacesMm2 } = piece.parts[found.part]!;
      factors.fill(SHIELD_FACTOR, firstCell, firstCell + surfacesMm2.length);
      continue;
    }
    const fromTargets = paths.from(targets.flatMap(({ pairs }) => pairs.flat())).toCellsMm();
    const fromGuarded = paths.from(found.joint.pairs.flat()).toCellsMm();
    for (let i = 0; i < factors.length; i++) if (fromGuarded[i]! < fromTargets[i]!) factors[i] = SHIELD_FACTOR;
  }
  return factors;
}

function sinkCells(piece: Piece, at: SinkPlace): { cell: number; weight: number }[] {
  if (!('joint' in at)) {
    const part = partIndex(piece.parts, at.part);
    const { form, grid } = piece.parts[part]!;
    return pieceWeights(piece, { part, position: positionOf(form, grid, at) });
  }
  const joint = presentJoint(piece, at.joint);
  if (!joint) throw new EngineInputError('sink at joint', at.joint, 'a joint in the fire');
  // Held at its middle, by both sides alike.
  return joint.middles.flatMap((middle) => pieceWeights(piece, middle).map(({ cell, weight }) => ({ cell, weight: weight / 2 })));
}

/**
 * Cuts the section into cells and works out what the flame does to each.
 *
 * @param cellFactor longest cells as a multiple of the default, 1.5 mm of a bar and 2 mm of a plate: below 1 to see an answer converge
 * @throws {EngineInputError} for a name or number that the piece or the model does not have
 */
export function layHeat(question: HeatQuestion, cellFactor = 1): LaidHeat {
  const { design, bench, flame = {}, protections = [] } = question;
  const torch = torchOf(bench);
  const finestMm = torch.spreadMm / CELLS_PER_SPREAD;
  const piece = buildPiece(design, question, {
    barMm: cellFactor * Math.min(USUAL_CELLS.barMm, finestMm),
    plateMm: cellFactor * Math.min(USUAL_CELLS.plateMm, finestMm),
  });
  const paths = createMetalPaths(
    piece.parts.map(({ grid }) => grid),
    piece.joints,
    piece.contacts,
  );
  const targets = piece.joints.filter(({ id }) => question.targets.includes(id));
  const tilt = tiltOf(piece, flame);
  const groups = flameAims(piece, paths, { targets, flame, spreadMm: torch.spreadMm });
  return {
    question,
    piece,
    targets,
    targetProbes: jointProbes(piece, targets),
    fields: groups.map((aims) => flameField(paths, aims, torch, tilt)),
    shieldFactors: shieldFactors(piece, paths, targets, protections),
    gasC: torch.gasC,
    supported: bench.support !== 'air' && piece.parts.some(({ contactFraction }) => contactFraction > 0),
  };
}

/** Every point of some joints, both sides. */
export function jointProbes(piece: Piece, joints: readonly JointPoints[]): Probes {
  return createProbes(joints.flatMap(({ pairs }) => pairs.flat()).map((point) => pieceWeights(piece, point)));
}

/** The network of a laid heat, its support at a constant loss or in two layers, its sinks in place. */
export function lightHeat(laid: LaidHeat, layered: boolean): LitHeat {
  const { piece, question, fields } = laid;
  const lossFactor = question.bench.calibration?.lossFactor ?? 1;
  if (!(lossFactor > 0 && lossFactor < Infinity)) throw new EngineInputError('lossFactor', lossFactor, '> 0');
  const { builder, blockCells } = buildPieceNetwork(piece, { support: question.bench.support, layered, lossFactor });
  for (const protection of question.protections ?? []) {
    if (protection.kind === 'sink') addSink(builder, protection.sink, sinkCells(piece, protection.at));
  }
  const network = builder.build(ROOM_C);
  return {
    stepper: createNetworkStepper(network),
    flame: (weights) =>
      flameOnNetwork(fields.length === 1 ? fields[0]! : mixFields(fields, weights), {
        ...laid,
        blockCells,
        cellCount: network.cellCount,
      }),
  };
}
