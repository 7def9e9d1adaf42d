import type { Flame } from '../design/plan.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { cellCountOf } from './form-grid.ts';
import { cellCentre, isFlat, middleOf, positionOf } from './grid-points.ts';
import type { Position } from './grid-points.ts';
import type { WeightedAim } from './flame-field.ts';
import type { JointPoints, PartPoint } from './joint-points.ts';
import type { MetalPaths } from './metal-paths.ts';
import type { Piece, PiecePart } from './piece-model.ts';
import { partIndex } from './piece-model.ts';

/** How far into the heavier part the flame points, in spreads. Aimed at the joint of a light bail, the bail runs ahead of the plate. */
const AIM_SPREADS = 0.6;
const SWEEP_POINTS = 12;

function massG(part: PiecePart): number {
  return part.cellMassG * cellCountOf(part.grid);
}

function toward(from: Position, to: Position, stepMm: number): Position {
  const dx = to.xMm - from.xMm;
  const dy = to.yMm - from.yMm;
  const lengthMm = Math.hypot(dx, dy);
  if (lengthMm === 0) return from;
  const share = Math.min(stepMm, lengthMm) / lengthMm;
  return { xMm: from.xMm + dx * share, yMm: from.yMm + dy * share };
}

/**
 * Where the flame points for a joint when nobody says: at a closing or round joint itself (a loop: the middle of its circle);
 * otherwise beside it, by 0.6 spreads at most, on the heavier part: along a bar toward its middle, over a sheet toward its centre. A
 * closed ring or a lump has no side to move to.
 */
export function defaultAim(piece: Piece, joint: JointPoints, spreadMm: number): PartPoint {
  const [first, second] = joint.middles;
  const a = piece.parts[first.part]!;
  const b = piece.parts[second.part]!;
  const heavier = massG(b) > massG(a) ? second : first;
  if (joint.round) {
    if (joint.pairs.length === 1 || joint.closes !== null) return heavier;
    // The middle of a loop's circle lies on the sheet, not on the band.
    if (isFlat(a.grid) !== isFlat(b.grid)) return isFlat(a.grid) ? first : second;
    return heavier;
  }
  const { grid } = piece.parts[heavier.part]!;
  if (grid.shape === 'lump' || grid.closed) return heavier;
  return { part: heavier.part, position: toward(heavier.position, middleOf(grid), AIM_SPREADS * spreadMm) };
}

/** Twelve cells at even quantiles of the mass within a distance of the targets, in build order. */
function sweepAims(piece: Piece, fromTargets: Float64Array, radiusMm: number): WeightedAim[] {
  const within: { part: number; cell: number; massG: number }[] = [];
  let sumG = 0;
  piece.parts.forEach(({ grid, firstCell, cellMassG }, part) => {
    for (let cell = 0; cell < cellCountOf(grid); cell++) {
      if (fromTargets[firstCell + cell]! > radiusMm) continue;
      within.push({ part, cell, massG: cellMassG });
      sumG += cellMassG;
    }
  });
  const aims: WeightedAim[] = [];
  let passedG = 0;
  for (const { part, cell, massG } of within) {
    passedG += massG;
    while (aims.length < SWEEP_POINTS && passedG >= ((aims.length + 0.5) / SWEEP_POINTS) * sumG * (1 - 1e-12)) {
      const { grid } = piece.parts[part]!;
      const position = grid.shape === 'lump' ? { xMm: 0, yMm: 0 } : cellCentre(grid, cell);
      aims.push({ aim: { part, position }, weight: 1 / SWEEP_POINTS });
    }
  }
  return aims;
}

/**
 * The aims of a heat, one group a target to be played between: a place given, or the model's own; swept over the metal within
 * sweepMm of the targets, if that reaches any cell.
 *
 * @throws {EngineInputError} if the place given is on no part in the fire, or sweepMm is negative
 */
export function flameAims(
  piece: Piece,
  paths: MetalPaths,
  heat: { targets: readonly JointPoints[]; flame: Flame; spreadMm: number },
): WeightedAim[][] {
  const { targets, flame, spreadMm } = heat;
  const radiusMm = flame.sweepMm ?? 0;
  if (!(radiusMm >= 0)) throw new EngineInputError('sweepMm', radiusMm, '≥ 0');
  if (radiusMm > 0) {
    const aims = sweepAims(piece, paths.from(targets.flatMap(({ pairs }) => pairs.flat())).toCellsMm(), radiusMm);
    if (aims.length > 0) return [aims];
  }
  if (flame.aim) {
    const part = partIndex(piece.parts, flame.aim.part);
    const { form, grid } = piece.parts[part]!;
    return [[{ aim: { part, position: positionOf(form, grid, flame.aim) }, weight: 1 }]];
  }
  return targets.map((joint) => [{ aim: defaultAim(piece, joint, spreadMm), weight: 1 }]);
}
