import type { OwnTorch } from '../design/plan.ts';
import type { PartPoint } from './joint-points.ts';
import type { MetalPaths } from './metal-paths.ts';
import type { FlameOnCells } from './network-stepper.ts';
import type { BlockCell } from './piece-network.ts';
import type { Piece } from './piece-model.ts';

// All judgement: those of bars and of displaced air were set until times looked right to bench practice.
/** Share of the flame's heat in its wide skirt, which has twice the Gaussian's spread. */
const PLUME_FRACTION = 0.35;
const PLUME_SPREADS = 2;
/** Share of the room air that flame gas replaces in the middle of the flame. */
const DISPLACED_FRACTION = 0.8;
const COLD_PLATE_C = 20;
/** Of a surface, that the flame strikes. */
const PLATE_SHARE = 0.5;
const BAR_SHARE = 0.7;
const BAR_REFERENCE_MM = 4;
/** What is left of the flame where no block throws it back. */
const IN_AIR_FRACTION = 0.8;

/** From the vertical, toward a point (away from it when negative). */
export interface Tilt {
  angleDeg: number;
  point: PartPoint;
}

export interface WeightedAim {
  aim: PartPoint;
  weight: number;
}

/** Per cell of the piece: heat exchange a unit of area with the gas, and nearness to the flame, 0–1. */
export interface FlameField {
  exchangeWPerMm2K: Float64Array;
  nearness: Float64Array;
}

/**
 * The field of a flame over the cells, mean of its aims by their weights.
 *
 * h(d, φ) = (1 − f)·P/(2πσ²·ΔT₀)·exp(−d²/2σ²) + f·P/(2πL²·ΔT₀)·exp(−d/L)·(1 + sin θ·cos φ), L = 2σ, f = 0.35, ΔT₀ = gas − 20 °C;
 * cos φ from the three distances along the metal, so no coordinates are needed: (a² + b² − e²)/(2ab), 0 where a or b is 0.
 *
 * @returns h in W/mm²K, > 0, and max(exp(−d²/2σ²), exp(−d/L))
 */
export function flameField(paths: MetalPaths, aims: readonly WeightedAim[], torch: OwnTorch, tilt: Tilt | null): FlameField {
  const { powerW, spreadMm, gasC } = torch;
  const plumeMm = PLUME_SPREADS * spreadMm;
  const riseK = gasC - COLD_PLATE_C;
  const core = ((1 - PLUME_FRACTION) * powerW) / (2 * Math.PI * spreadMm ** 2 * riseK);
  const skirt = (PLUME_FRACTION * powerW) / (2 * Math.PI * plumeMm ** 2 * riseK);
  const sine = tilt ? Math.sin((tilt.angleDeg * Math.PI) / 180) : 0;
  const fromPoint = tilt ? paths.from([tilt.point]) : null;
  const pointToCells = fromPoint?.toCellsMm();
  const weightSum = aims.reduce((sum, { weight }) => sum + weight, 0);
  let field: FlameField | null = null;
  for (const { aim, weight } of aims) {
    const share = weight / weightSum;
    const distances = paths.from([aim]).toCellsMm();
    field ??= { exchangeWPerMm2K: new Float64Array(distances.length), nearness: new Float64Array(distances.length) };
    const b = fromPoint ? fromPoint.toMm(aim) : 0;
    for (let i = 0; i < distances.length; i++) {
      const d = distances[i]!;
      const gaussian = Math.exp(-(d * d) / (2 * spreadMm ** 2));
      const plume = Math.exp(-d / plumeMm);
      let lean = 1;
      if (pointToCells && d > 0 && b > 0) {
        const cosine = (d * d + b * b - pointToCells[i]! ** 2) / (2 * d * b);
        lean += sine * Math.max(-1, Math.min(1, cosine));
      }
      field.exchangeWPerMm2K[i]! += share * (core * gaussian + skirt * plume * lean);
      field.nearness[i]! += share * Math.max(gaussian, plume);
    }
  }
  return field!;
}

/** Weighted mean of fields. */
export function mixFields(fields: readonly FlameField[], weights: readonly number[]): FlameField {
  const sum = weights.reduce((a, b) => a + b, 0);
  const mean = (read: (field: FlameField) => Float64Array) =>
    read(fields[0]!).map((_, i) => fields.reduce((total, field, f) => total + (weights[f]! / sum) * read(field)[i]!, 0));
  return { exchangeWPerMm2K: mean((field) => field.exchangeWPerMm2K), nearness: mean((field) => field.nearness) };
}

/**
 * What a field does to the cells of a network: H = h·A·shield, A half the surface of a plate, and 0.7·√(4 mm/D) (0.8–2.2) of that
 * of a bar or lump; all of it at 0.8 when nothing lies on a support. Flame gas takes 0.8 × nearness off the loss to room air.
 *
 * @param cellCount of the network, block and sinks included
 * @param shieldFactors per cell of the piece, 1 in the open
 */
export function flameOnNetwork(
  field: FlameField,
  on: {
    piece: Piece;
    blockCells: readonly BlockCell[];
    cellCount: number;
    gasC: number;
    shieldFactors: Float64Array;
    supported: boolean;
  },
): FlameOnCells {
  const exchangeWPerK = new Float64Array(on.cellCount);
  const displacedFraction = new Float64Array(on.cellCount);
  const efficiency = on.supported ? 1 : IN_AIR_FRACTION;
  for (const { grid, firstCell, surfacesMm2 } of on.piece.parts) {
    const slenderness = Math.max(0.8, Math.min(2.2, Math.sqrt(BAR_REFERENCE_MM / grid.lossDiameterMm)));
    const share = grid.shape === 'plate' ? PLATE_SHARE : BAR_SHARE * slenderness;
    surfacesMm2.forEach((surfaceMm2, c) => {
      const cell = firstCell + c;
      exchangeWPerK[cell] = field.exchangeWPerMm2K[cell]! * share * surfaceMm2 * on.shieldFactors[cell]! * efficiency;
      displacedFraction[cell] = DISPLACED_FRACTION * field.nearness[cell]!;
    });
  }
  for (const { cell, under, flameAreaMm2 } of on.blockCells) {
    exchangeWPerK[cell] = field.exchangeWPerMm2K[under]! * flameAreaMm2 * on.shieldFactors[under]!;
  }
  return { gasC: on.gasC, exchangeWPerK, displacedFraction };
}
