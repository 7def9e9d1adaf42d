import type { Support } from '../design/plan.ts';
import type { FormGrid } from './form-grid.ts';
import { weightsAt } from './grid-points.ts';
import type { ContactPoints, JointPoints, PartPoint } from './joint-points.ts';
import type { Piece, PiecePart } from './piece-model.ts';
import { BACKING_MM, BLOCKS, LAYER_MM } from './support.ts';
import { createNetworkBuilder } from './thermal-network.ts';
import type { NetworkBuilder } from './thermal-network.ts';

/** A made joint, and a target from the start: bridged by solder (1e6 W/m²K). A cold gap there moves differences by ≤ 1.2 K. */
const JOINT_W_PER_MM2K = 1;
/** @source CODATA 2022, W/mm²K⁴ */
const STEFAN_BOLTZMANN_W_PER_MM2K4 = 5.670374419e-14;

/** Cells of the support that the flame strikes: those under a cell of the piece. */
export interface BlockCell {
  cell: number;
  under: number;
  /** Contact area times the share of the flame that strikes the block. */
  flameAreaMm2: number;
}

export interface PieceNetwork {
  builder: NetworkBuilder;
  blockCells: readonly BlockCell[];
}

/** Cells of the whole piece, with weights, at a point of one part. */
export function pieceWeights(piece: Piece, { part, position }: PartPoint): { cell: number; weight: number }[] {
  const { grid, firstCell } = piece.parts[part]!;
  return weightsAt(grid, position).map(({ cell, weight }) => ({ cell: firstCell + cell, weight }));
}

/**
 * Free convection in room air at bright heat: h = 11 + 0.031/D (a lump 11 + 0.10/D) W/m²K, D in m.
 *
 * @source fitted to Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1049 and 1323, within about 16 % for 0.5–20 mm
 */
function airLossWPerMm2K(grid: FormGrid): number {
  return (11 + (grid.shape === 'lump' ? 100 : 31) / grid.lossDiameterMm) / 1e6;
}

function addCells(builder: NetworkBuilder, part: PiecePart, lossFactor: number, contactFraction: number): void {
  const { grid, metal, cellMassG, surfacesMm2 } = part;
  const airWPerMm2K = airLossWPerMm2K(grid) * lossFactor;
  const radiation = metal.emissivityFraction * STEFAN_BOLTZMANN_W_PER_MM2K4 * lossFactor;
  for (const surfaceMm2 of surfacesMm2) {
    const freeMm2 = surfaceMm2 * (1 - contactFraction);
    builder.addCell({
      capacityJPerK: (cellMassG * metal.specificHeatJPerKgK.at20C) / 1000,
      capacityRiseJPerK2: (cellMassG * metal.specificHeatJPerKgK.perK) / 1000,
      conductivityWPerMmK: metal.conductivityWPerMK.at20C / 1000,
      conductivityRiseWPerMmK2: metal.conductivityWPerMK.perK / 1000,
      lossWPerK: airWPerMm2K * freeMm2,
      radiationWPerK4: radiation * freeMm2,
    });
  }
}

/** Half a cell each side, along and across; across the seam of a closed part too, through the solder of its joints. */
function addConduction(builder: NetworkBuilder, part: PiecePart, seams: readonly JointPoints[]): void {
  const { grid, firstCell } = part;
  if (grid.shape === 'lump') return;
  const { nx, ny } = grid;
  const dx = grid.lengthMm / nx;
  const dy = grid.heightMm / ny;
  const alongPerMm = dx / 2 / (grid.shape === 'line' ? grid.sectionMm2 : grid.thicknessMm * dy);
  const acrossPerMm = dy / 2 / (grid.thicknessMm * dx);
  const solderMm2 = seams.reduce((sum, { areaMm2 }) => sum + areaMm2, 0) / ny;
  const solderKPerW = seams.length > 0 ? 1 / (JOINT_W_PER_MM2K * solderMm2) : 0;
  for (let y = 0; y < ny; y++) {
    const row = firstCell + y * nx;
    for (let x = 0; x + 1 < nx; x++) builder.addEdge(row + x, row + x + 1, { fromPerMm: alongPerMm, toPerMm: alongPerMm });
    if (grid.closed)
      builder.addEdge(row + nx - 1, row, { fromPerMm: alongPerMm, toPerMm: alongPerMm, contactKPerW: solderKPerW });
    if (y + 1 === ny) continue;
    for (let x = 0; x < nx; x++) builder.addEdge(row + x, row + nx + x, { fromPerMm: acrossPerMm, toPerMm: acrossPerMm });
  }
}

function addJoint(builder: NetworkBuilder, piece: Piece, joint: JointPoints): void {
  if (joint.closes !== null) return;
  const conductanceWPerK = (JOINT_W_PER_MM2K * joint.areaMm2) / joint.pairs.length;
  for (const between of joint.pairs) addTouch(builder, piece, { between, conductanceWPerK });
}

function addTouch(builder: NetworkBuilder, piece: Piece, { between: [a, b], conductanceWPerK }: ContactPoints): void {
  const far = pieceWeights(piece, b);
  for (const { cell: i, weight } of pieceWeights(piece, a)) {
    for (const other of far) builder.addConductance(i, other.cell, conductanceWPerK * weight * other.weight);
  }
}

/** Two layers of block behind the contact of each cell, in series to the room. */
function addBlockLayers(builder: NetworkBuilder, piece: Piece, support: Exclude<Support, 'air'>): BlockCell[] {
  const { conductivityWPerMmK: k, heatCapacityJPerMm3K, gapWPerMm2K, flameFraction } = BLOCKS[support];
  const [upperMm, lowerMm] = LAYER_MM;
  const blockCells: BlockCell[] = [];
  for (const { firstCell, surfacesMm2, contactFraction } of piece.parts) {
    if (contactFraction === 0) continue;
    surfacesMm2.forEach((surfaceMm2, cell) => {
      const contactMm2 = surfaceMm2 * contactFraction;
      const upper = builder.addCell({ capacityJPerK: heatCapacityJPerMm3K * contactMm2 * upperMm });
      const lower = builder.addCell({ capacityJPerK: heatCapacityJPerMm3K * contactMm2 * lowerMm });
      builder.addConductance(firstCell + cell, upper, contactMm2 / (1 / gapWPerMm2K + upperMm / 2 / k));
      builder.addConductance(upper, lower, contactMm2 / ((upperMm + lowerMm) / 2 / k));
      builder.addFixedLoss(lower, (contactMm2 * k) / (lowerMm / 2 + BACKING_MM));
      blockCells.push({ cell: upper, under: firstCell + cell, flameAreaMm2: contactMm2 * flameFraction });
    });
  }
  return blockCells;
}

/**
 * The network of a piece on its support: its cells first, in the order of its parts.
 *
 * Loss areas are what does not lie on the support. The contact loses at a constant hEff, or, when layered, into two layers of block.
 *
 * @param lossFactor calibration of convection and radiation; a block is calibrated by neither
 */
export function buildPieceNetwork(piece: Piece, on: { support: Support; layered: boolean; lossFactor: number }): PieceNetwork {
  const builder = createNetworkBuilder();
  const { support } = on;
  for (const part of piece.parts) addCells(builder, part, on.lossFactor, support === 'air' ? 0 : part.contactFraction);
  piece.parts.forEach((part, index) =>
    addConduction(
      builder,
      part,
      piece.joints.filter(({ closes }) => closes === index),
    ),
  );
  for (const joint of piece.joints) addJoint(builder, piece, joint);
  for (const contact of piece.contacts) addTouch(builder, piece, contact);
  if (support === 'air') return { builder, blockCells: [] };
  if (on.layered) return { builder, blockCells: addBlockLayers(builder, piece, support) };
  for (const { firstCell, surfacesMm2, contactFraction } of piece.parts) {
    surfacesMm2.forEach((surfaceMm2, cell) =>
      builder.addFixedLoss(firstCell + cell, BLOCKS[support].lossWPerMm2K * surfaceMm2 * contactFraction),
    );
  }
  return { builder, blockCells: [] };
}
