import { EngineInputError } from '../engine-input-error.ts';

/**
 * Cells of metal and what passes heat between them. Properties are linear in temperature about 20 °C.
 *
 * C(T)·dT/dt = flame − loss·(T − Tₐ) − fixedLoss·(T − Tₐ) − radiation·(T⁴ − Tₐ⁴, absolute) + Σ G·(Tⱼ − T) − boiling
 * with 1/G = rᵢ/k(Tᵢ) + rⱼ/k(Tⱼ) + contact.
 */
export interface ThermalNetwork {
  cellCount: number;
  ambientC: number;
  capacityJPerK: Float64Array;
  /** Rise of the capacity with temperature, J/K a K. */
  capacityRiseJPerK2: Float64Array;
  conductivityWPerMmK: Float64Array;
  conductivityRiseWPerMmK2: Float64Array;
  /** To the room air, which flame gas displaces. */
  lossWPerK: Float64Array;
  /** To what the flame does not displace: block, jaws. */
  fixedLossWPerK: Float64Array;
  radiationWPerK4: Float64Array;
  edgeFrom: Int32Array;
  edgeTo: Int32Array;
  /** So many edges, the first ones, run through metal and conduct by its temperature; the others by their contact alone. */
  metalEdgeCount: number;
  /** Half-cell length over area on either side. */
  edgeFromPerMm: Float64Array;
  edgeToPerMm: Float64Array;
  edgeContactKPerW: Float64Array;
  wetPacks: readonly WetPack[];
}

/** Takes conductance·max(0, T − 100 °C) from its cells until its water has boiled away. */
export interface WetPack {
  cells: Int32Array;
  conductancesWPerK: Float64Array;
  waterJ: number;
}

/** Heat that the first so many cells hold above the room, J: Σ ∫ C(T) dT, C linear in T about 20 °C. */
export function storedJ(network: ThermalNetwork, temperaturesC: Float64Array, cellCount: number): number {
  const { ambientC, capacityJPerK, capacityRiseJPerK2 } = network;
  let heat = 0;
  for (let i = 0; i < cellCount; i++) {
    const t = temperaturesC[i]!;
    heat += (capacityJPerK[i]! + capacityRiseJPerK2[i]! * ((t + ambientC) / 2 - 20)) * (t - ambientC);
  }
  return heat;
}

export interface Cell {
  capacityJPerK: number;
  capacityRiseJPerK2?: number;
  conductivityWPerMmK?: number;
  conductivityRiseWPerMmK2?: number;
  lossWPerK?: number;
  fixedLossWPerK?: number;
  radiationWPerK4?: number;
}

export interface NetworkBuilder {
  /** Adds a cell and returns its index. */
  addCell(cell: Cell): number;
  /** Conduction within metal, each side with its own half-cell; contact in series. */
  addEdge(from: number, to: number, path: { fromPerMm: number; toPerMm: number; contactKPerW?: number }): void;
  /** A plain conductance; several between the same two cells add up. One from a cell to itself carries nothing and is left out. */
  addConductance(from: number, to: number, conductanceWPerK: number): void;
  addFixedLoss(cell: number, lossWPerK: number): void;
  addWetPack(pack: WetPack): void;
  build(ambientC: number): ThermalNetwork;
}

/** Collects a network cell by cell. Throws EngineInputError for a capacity that is not positive or a negative exchange. */
export function createNetworkBuilder(): NetworkBuilder {
  const cells: Cell[] = [];
  const edges: { from: number; to: number; fromPerMm: number; toPerMm: number; contactKPerW: number }[] = [];
  const conductances = new Map<number, { from: number; to: number; conductanceWPerK: number }>();
  const wetPacks: WetPack[] = [];
  const column = (read: (cell: Cell) => number | undefined) => Float64Array.from(cells, (cell) => read(cell) ?? 0);

  return {
    addCell(cell) {
      if (!(cell.capacityJPerK > 0 && cell.capacityJPerK < Infinity))
        throw new EngineInputError('capacityJPerK', cell.capacityJPerK, '> 0');
      return cells.push({ ...cell }) - 1;
    },
    addEdge(from, to, { fromPerMm, toPerMm, contactKPerW = 0 }) {
      if (from === to) return;
      if (!(fromPerMm >= 0 && toPerMm >= 0 && contactKPerW >= 0 && fromPerMm + toPerMm + contactKPerW > 0)) {
        throw new EngineInputError('resistance of an edge', fromPerMm + toPerMm + contactKPerW, '> 0');
      }
      edges.push({ from, to, fromPerMm, toPerMm, contactKPerW });
    },
    addConductance(from, to, conductanceWPerK) {
      if (!(conductanceWPerK >= 0 && conductanceWPerK < Infinity))
        throw new EngineInputError('conductanceWPerK', conductanceWPerK, '≥ 0');
      if (from === to || conductanceWPerK === 0) return;
      const key = Math.min(from, to) * 2 ** 26 + Math.max(from, to);
      const edge = conductances.get(key);
      if (edge) edge.conductanceWPerK += conductanceWPerK;
      else conductances.set(key, { from, to, conductanceWPerK });
    },
    addFixedLoss(cell, lossWPerK) {
      cells[cell]!.fixedLossWPerK = (cells[cell]!.fixedLossWPerK ?? 0) + lossWPerK;
    },
    addWetPack(pack) {
      wetPacks.push(pack);
    },
    build(ambientC) {
      const all = [
        ...edges,
        ...[...conductances.values()].map(({ from, to, conductanceWPerK }) => ({
          from,
          to,
          fromPerMm: 0,
          toPerMm: 0,
          contactKPerW: 1 / conductanceWPerK,
        })),
      ];
      return {
        cellCount: cells.length,
        ambientC,
        capacityJPerK: column((cell) => cell.capacityJPerK),
        capacityRiseJPerK2: column((cell) => cell.capacityRiseJPerK2),
        // A cell joined by plain conductances alone needs no conductivity; 1 keeps r/k = 0 finite.
        conductivityWPerMmK: column((cell) => cell.conductivityWPerMmK ?? 1),
        conductivityRiseWPerMmK2: column((cell) => cell.conductivityRiseWPerMmK2),
        lossWPerK: column((cell) => cell.lossWPerK),
        fixedLossWPerK: column((cell) => cell.fixedLossWPerK),
        radiationWPerK4: column((cell) => cell.radiationWPerK4),
        edgeFrom: Int32Array.from(all, (edge) => edge.from),
        edgeTo: Int32Array.from(all, (edge) => edge.to),
        metalEdgeCount: edges.length,
        edgeFromPerMm: Float64Array.from(all, (edge) => edge.fromPerMm),
        edgeToPerMm: Float64Array.from(all, (edge) => edge.toPerMm),
        edgeContactKPerW: Float64Array.from(all, (edge) => edge.contactKPerW),
        wetPacks,
      };
    },
  };
}
