import * as mathjs from 'mathjs';
import type { Matrix } from 'mathjs';
import type { FlameOnCells } from '../../shared/thermal/network-stepper.ts';
import type { ThermalNetwork } from '../../shared/thermal/thermal-network.ts';
import { networkSlopes } from './network-slopes.ts';

const GAMMA = 1 - Math.SQRT1_2;
const KELVIN = 273.15;

/** Minimum degree on A + Aᵀ, the ordering that suits a symmetric matrix; a diagonal this strong is never pivoted away from. */
const ORDER = 1;
const PIVOT = 1e-3;

const { lusolve, slu } = mathjs;
// Exported, but missing from the library's own types.
const { SparseMatrix } = mathjs as unknown as {
  SparseMatrix: new (data: { values: number[]; index: number[]; ptr: number[]; size: [number, number] }) => Matrix;
};

interface Csc {
  index: number[];
  ptr: number[];
  /** Where the diagonal of each cell, and both entries of each edge, lie among the values. */
  diagonal: Int32Array;
  upper: Int32Array;
  lower: Int32Array;
}

function compress({ cellCount, edgeFrom, edgeTo }: ThermalNetwork): Csc {
  const columns = Array.from({ length: cellCount }, (_, i) => new Set([i]));
  edgeFrom.forEach((i, e) => {
    columns[i]!.add(edgeTo[e]!);
    columns[edgeTo[e]!]!.add(i);
  });
  const index: number[] = [];
  const ptr = [0];
  const places: Map<number, number>[] = [];
  for (const column of columns) {
    const place = new Map<number, number>();
    for (const row of [...column].sort((a, b) => a - b)) place.set(row, index.push(row) - 1);
    places.push(place);
    ptr.push(index.length);
  }
  return {
    index,
    ptr,
    diagonal: Int32Array.from(places, (place, i) => place.get(i)!),
    upper: Int32Array.from(edgeFrom, (i, e) => places[edgeTo[e]!]!.get(i)!),
    lower: Int32Array.from(edgeFrom, (i, e) => places[i]!.get(edgeTo[e]!)!),
  };
}

/**
 * W = C/(γ·dt) + K + diag(losses + flame + 4·radiation·T³) of a network and the solution of W·x = b, by a general-purpose matrix
 * library: sparse LU of mathjs.
 */
export function createImplicitReference(network: ThermalNetwork, flame: FlameOnCells) {
  const { cellCount, edgeFrom, edgeTo } = network;
  const { index, ptr, diagonal, upper, lower } = compress(network);
  const k = (i: number, t: ArrayLike<number>) =>
    network.conductivityWPerMmK[i]! + network.conductivityRiseWPerMmK2[i]! * (t[i]! - 20);
  const capacity = (i: number, t: ArrayLike<number>) => network.capacityJPerK[i]! + network.capacityRiseJPerK2[i]! * (t[i]! - 20);
  const slopes = networkSlopes(network, flame);

  function matrix(t: ArrayLike<number>, dtS: number): Matrix {
    const values = Array.from<number>({ length: index.length }).fill(0);
    for (let i = 0; i < cellCount; i++) {
      values[diagonal[i]!] =
        capacity(i, t) / (GAMMA * dtS) +
        network.lossWPerK[i]! * (1 - flame.displacedFraction[i]!) +
        network.fixedLossWPerK[i]! +
        flame.exchangeWPerK[i]! +
        4 * network.radiationWPerK4[i]! * (t[i]! + KELVIN) ** 3;
    }
    for (let e = 0; e < edgeFrom.length; e++) {
      const i = edgeFrom[e]!;
      const j = edgeTo[e]!;
      const conductance =
        1 / (network.edgeFromPerMm[e]! / k(i, t) + network.edgeToPerMm[e]! / k(j, t) + network.edgeContactKPerW[e]!);
      values[diagonal[i]!]! += conductance;
      values[diagonal[j]!]! += conductance;
      values[upper[e]!]! -= conductance;
      values[lower[e]!]! -= conductance;
    }
    return new SparseMatrix({ values, index, ptr, size: [cellCount, cellCount] });
  }

  /** Heat into each cell, W, over γ·dt. */
  const side = (t: number[], dtS: number) => slopes(0, t).map((slope, i) => (slope * capacity(i, t)) / (GAMMA * dtS));

  const factored = (t: number[], dtS: number) => {
    const factors = slu(matrix(t, dtS), ORDER, PIVOT);
    return (b: number[]) => lusolve(factors, b).toArray().flat() as number[];
  };

  return {
    /** The first stage of a step, W·k₁ = F/(γ·dt), K/s. */
    firstSlopes: (t: number[], dtS: number): number[] => factored(t, dtS)(side(t, dtS)),
    /** The product's own method, ROS2 with error control, on the library's matrices. */
    marchTo(untilS: number, tolK: number, firstStepS: number): { temperaturesC: number[]; steps: number } {
      let t = Array.from<number>({ length: cellCount }).fill(network.ambientC);
      let dtS = firstStepS;
      let steps = 0;
      for (let leftS = untilS; leftS > 1e-12 * untilS;) {
        const stepS = Math.min(dtS, leftS);
        const solve = factored(t, stepS);
        const start = t;
        const k1 = solve(side(start, stepS));
        const middle = start.map((ti, i) => ti + stepS * k1[i]!);
        const k2 = solve(
          slopes(0, middle).map((slope, i) => {
            const c = capacity(i, start);
            return (c * slope - 2 * c * k1[i]!) / (GAMMA * stepS);
          }),
        );
        const errorK = (stepS / 2) * Math.max(...k1.map((slope, i) => Math.abs(slope + k2[i]!)));
        const factor = 0.9 * Math.sqrt(tolK / Math.max(errorK, 1e-12));
        dtS = stepS * Math.max(0.25, Math.min(2, factor));
        steps += 1;
        if (factor < 0.7) continue;
        t = start.map((ti, i) => ti + stepS * (1.5 * k1[i]! + 0.5 * k2[i]!));
        leftS -= stepS;
      }
      return { temperaturesC: t, steps };
    },
  };
}
