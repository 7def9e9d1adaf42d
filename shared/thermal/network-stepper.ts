import { factorLdl, planLdl, solveLdl } from './sparse-ldl.ts';
import type { ThermalNetwork } from './thermal-network.ts';

/** What a flame does to each cell: exchange·(gas − T) into it, and the share of the room air it displaces. */
export interface FlameOnCells {
  gasC: number;
  exchangeWPerK: Float64Array;
  displacedFraction: Float64Array;
}

/** One attempted step: begin, perhaps scale the flame, then finish; read() gives any moment of it. */
export interface NetworkStepper {
  network: ThermalNetwork;
  /** Slope k₁ of the step's first stage under the full flame (after scaleFlame: under the scaled one), K/s. */
  firstSlopes: Float64Array;
  begin(temperaturesC: Float64Array, waterJ: Float64Array, dtS: number, flame: FlameOnCells | null): void;
  /** Slopes of the flame alone, K/s: what would be lost with the flame off. */
  flameSlopes(): Float64Array;
  /** Plays the flame at this share of its power for the step. Displacement stays. */
  scaleFlame(scaleFraction: number): void;
  /** Completes the step and returns its error estimate in K. */
  finish(): number;
  /** Temperatures at a fraction of the finished step, second order throughout. */
  read(fraction: number, into: Float64Array): Float64Array;
  /** Where everything settles in a flame that stays for ever; for a network without wet packs. */
  settle(flame: FlameOnCells): Float64Array;
  /** Heat from the flame into the first so many cells at these temperatures, under the scale of the step, W. */
  flameHeatW(temperaturesC: Float64Array, cellCount: number): number;
  /** Heat out of the first so many cells at these temperatures, to room, block and sinks, wet packs apart, W. */
  lostHeatW(temperaturesC: Float64Array, cellCount: number): number;
  /** Heat into each wet pack at these temperatures, W. */
  packHeatW(pack: number, temperaturesC: Float64Array): number;
}

const GAMMA = 1 - Math.SQRT1_2;
const ABSOLUTE_ZERO_C = -273.15;
const BOILING_C = 100;
/** A step so long that nothing of the heat capacities is left in W: its first stage is then Newton's step to the steady state. */
const ENDLESS_S = 1e9;
const SETTLED_K = 0.1;
const MOST_ROUNDS = 30;

/**
 * Steps a network with ROS2, γ = 1 − 1/√2: second order and L-stable for any W that is near the Jacobian.
 *
 * W = C/(γ·dt) + K + diag(losses + flame + 4·radiation·T³);
 * W·k₁ = F(T)/(γ·dt); T₁ = T + dt·k₁; W·k₂ = [C/C(T₁)·F(T₁) − 2·C·k₁]/(γ·dt); T⁺ = T + dt·(1.5·k₁ + 0.5·k₂);
 * error estimate dt/2·max|k₁ + k₂|. Between the ends: T + dt·(b₁·k₁ + b₂·(k₂ + 2·k₁)), b₂ = (θ²/2 − γθ)/(1 − 2γ), b₁ = θ − b₂.
 *
 * @source Verwer, Spee, Blom & Hundsdorfer, SIAM J. Sci. Comput. 20 (1999) 1456–1480, eq. 2.2 (method and its W-property)
 */
export function createNetworkStepper(network: ThermalNetwork): NetworkStepper {
  const { cellCount: n, ambientC, edgeFrom, edgeTo, wetPacks } = network;
  const edgeCount = edgeFrom.length;
  const plan = planLdl(n, edgeFrom, edgeTo);
  const values = new Float64Array(plan.valueCount);
  const work = new Float64Array(n);
  const inverseK = new Float64Array(n);
  const conductances = new Float64Array(edgeCount);
  const capacity = new Float64Array(n);
  const k1 = new Float64Array(n);
  const k2 = new Float64Array(n);
  const kFlame = new Float64Array(n);
  const middle = new Float64Array(n);
  const ambient4 = (ambientC - ABSOLUTE_ZERO_C) ** 4;
  let start: Float64Array = new Float64Array(n);
  let packIsWet: boolean[] = [];
  let dt = 0;
  let flame: FlameOnCells | null = null;
  let scale = 1;
  let flameSolved = false;

  const { metalEdgeCount, edgeFromPerMm, edgeToPerMm, edgeContactKPerW } = network;
  for (let e = metalEdgeCount; e < edgeCount; e++) conductances[e] = 1 / edgeContactKPerW[e]!;
  let metalCellCount = 0;
  for (let e = 0; e < metalEdgeCount; e++) metalCellCount = Math.max(metalCellCount, edgeFrom[e]! + 1, edgeTo[e]! + 1);

  function conduct(temperaturesC: Float64Array): void {
    const { conductivityWPerMmK, conductivityRiseWPerMmK2 } = network;
    for (let i = 0; i < metalCellCount; i++)
      inverseK[i] = 1 / (conductivityWPerMmK[i]! + conductivityRiseWPerMmK2[i]! * (temperaturesC[i]! - 20));
    for (let e = 0; e < metalEdgeCount; e++) {
      const fromKPerW = edgeFromPerMm[e]! * inverseK[edgeFrom[e]!]!;
      const toKPerW = edgeToPerMm[e]! * inverseK[edgeTo[e]!]!;
      conductances[e] = 1 / (fromKPerW + toKPerW + edgeContactKPerW[e]!);
    }
  }

  /** Net heat into each cell, W. */
  function heatInto(temperaturesC: Float64Array, into: Float64Array): void {
    const { lossWPerK, fixedLossWPerK, radiationWPerK4 } = network;
    for (let i = 0; i < n; i++) {
      const t = temperaturesC[i]!;
      const absolute = t - ABSOLUTE_ZERO_C;
      const square = absolute * absolute;
      let heat = -radiationWPerK4[i]! * (square * square - ambient4);
      if (flame) {
        heat += scale * flame.exchangeWPerK[i]! * (flame.gasC - t);
        heat -= (lossWPerK[i]! * (1 - flame.displacedFraction[i]!) + fixedLossWPerK[i]!) * (t - ambientC);
      } else heat -= (lossWPerK[i]! + fixedLossWPerK[i]!) * (t - ambientC);
      into[i] = heat;
    }
    for (let e = 0; e < edgeCount; e++) {
      const i = edgeFrom[e]!;
      const j = edgeTo[e]!;
      const flow = conductances[e]! * (temperaturesC[j]! - temperaturesC[i]!);
      into[i]! += flow;
      into[j]! -= flow;
    }
    wetPacks.forEach(({ cells, conductancesWPerK }, pack) => {
      if (!packIsWet[pack]) return;
      cells.forEach((cell, c) => (into[cell]! -= conductancesWPerK[c]! * Math.max(0, temperaturesC[cell]! - BOILING_C)));
    });
  }

  function assemble(): void {
    const { lossWPerK, fixedLossWPerK, radiationWPerK4, capacityJPerK, capacityRiseJPerK2 } = network;
    const { positions, edgeSlots } = plan;
    const perStep = 1 / (GAMMA * dt);
    values.fill(0);
    for (let i = 0; i < n; i++) {
      const t = start[i]!;
      const absolute = t - ABSOLUTE_ZERO_C;
      const c = capacityJPerK[i]! + capacityRiseJPerK2[i]! * (t - 20);
      capacity[i] = c;
      let diagonal = c * perStep + fixedLossWPerK[i]! + 4 * radiationWPerK4[i]! * absolute * absolute * absolute;
      if (flame) diagonal += lossWPerK[i]! * (1 - flame.displacedFraction[i]!) + flame.exchangeWPerK[i]!;
      else diagonal += lossWPerK[i]!;
      values[positions[i]!] = diagonal;
    }
    for (let e = 0; e < edgeCount; e++) {
      const g = conductances[e]!;
      values[positions[edgeFrom[e]!]!]! += g;
      values[positions[edgeTo[e]!]!]! += g;
      values[edgeSlots[e]!]! -= g;
    }
    wetPacks.forEach(({ cells, conductancesWPerK }, pack) => {
      if (!packIsWet[pack]) return;
      cells.forEach((cell, c) => {
        if (start[cell]! > BOILING_C) values[positions[cell]!]! += conductancesWPerK[c]!;
      });
    });
    factorLdl(plan, values);
  }

  function flameSlopes(): Float64Array {
    if (flameSolved) return kFlame;
    kFlame.fill(0);
    if (flame) {
      const perStep = 1 / (GAMMA * dt);
      for (let i = 0; i < n; i++) kFlame[i] = flame.exchangeWPerK[i]! * (flame.gasC - start[i]!) * perStep;
      solveLdl(plan, values, kFlame, work);
    }
    flameSolved = true;
    return kFlame;
  }

  function begin(temperaturesC: Float64Array, waterJ: Float64Array, dtS: number, flameOnCells: FlameOnCells | null): void {
    start = temperaturesC;
    packIsWet = wetPacks.map((_, pack) => waterJ[pack]! > 0);
    dt = dtS;
    flame = flameOnCells;
    scale = 1;
    flameSolved = false;
    conduct(start);
    assemble();
    heatInto(start, k1);
    const perStep = 1 / (GAMMA * dt);
    for (let i = 0; i < n; i++) k1[i]! *= perStep;
    solveLdl(plan, values, k1, work);
  }

  return {
    network,
    firstSlopes: k1,
    begin,
    settle(flameOnCells) {
      const settledC = new Float64Array(n).fill(ambientC);
      const noWater = new Float64Array(wetPacks.length);
      for (let round = 0; round < MOST_ROUNDS; round++) {
        begin(settledC, noWater, ENDLESS_S, flameOnCells);
        let largestK = 0;
        for (let i = 0; i < n; i++) {
          const changeK = GAMMA * ENDLESS_S * k1[i]!;
          settledC[i]! += changeK;
          largestK = Math.max(largestK, Math.abs(changeK));
        }
        if (largestK < SETTLED_K) break;
      }
      return settledC;
    },
    flameSlopes,
    scaleFlame(scaleFraction) {
      const off = scale - scaleFraction;
      const slopes = flameSlopes();
      for (let i = 0; i < n; i++) k1[i]! -= off * slopes[i]!;
      scale = scaleFraction;
    },
    finish() {
      const { capacityJPerK, capacityRiseJPerK2 } = network;
      for (let i = 0; i < n; i++) middle[i] = start[i]! + dt * k1[i]!;
      conduct(middle);
      heatInto(middle, k2);
      const perStep = 1 / (GAMMA * dt);
      for (let i = 0; i < n; i++) {
        const ratio = capacity[i]! / (capacityJPerK[i]! + capacityRiseJPerK2[i]! * (middle[i]! - 20));
        k2[i] = (ratio * k2[i]! - 2 * capacity[i]! * k1[i]!) * perStep;
      }
      solveLdl(plan, values, k2, work);
      let largest = 0;
      for (let i = 0; i < n; i++) largest = Math.max(largest, Math.abs(k1[i]! + k2[i]!));
      return (dt / 2) * largest;
    },
    read(fraction, into) {
      const b2 = (fraction * fraction * 0.5 - GAMMA * fraction) / (1 - 2 * GAMMA);
      const first = dt * (fraction + b2);
      const second = dt * b2;
      for (let i = 0; i < n; i++) into[i] = start[i]! + first * k1[i]! + second * k2[i]!;
      return into;
    },
    flameHeatW(temperaturesC, cellCount) {
      if (!flame) return 0;
      let heat = 0;
      for (let i = 0; i < cellCount; i++) heat += flame.exchangeWPerK[i]! * (flame.gasC - temperaturesC[i]!);
      return scale * heat;
    },
    lostHeatW(temperaturesC, cellCount) {
      const { lossWPerK, fixedLossWPerK, radiationWPerK4 } = network;
      let heat = 0;
      for (let i = 0; i < cellCount; i++) {
        const t = temperaturesC[i]!;
        const absolute = t - ABSOLUTE_ZERO_C;
        const square = absolute * absolute;
        const airWPerK = flame ? lossWPerK[i]! * (1 - flame.displacedFraction[i]!) : lossWPerK[i]!;
        heat += (airWPerK + fixedLossWPerK[i]!) * (t - ambientC) + radiationWPerK4[i]! * (square * square - ambient4);
      }
      // Only plain conductances lead out of the metal.
      const firstWayOut = cellCount < n ? metalEdgeCount : edgeCount;
      for (let e = firstWayOut; e < edgeCount; e++) {
        const i = edgeFrom[e]!;
        const j = edgeTo[e]!;
        const outward = Number(i < cellCount) - Number(j < cellCount);
        if (outward !== 0) heat += outward * conductances[e]! * (temperaturesC[i]! - temperaturesC[j]!);
      }
      return heat;
    },
    packHeatW(pack, temperaturesC) {
      if (!packIsWet[pack]) return 0;
      const { cells, conductancesWPerK } = wetPacks[pack]!;
      return cells.reduce((heat, cell, c) => heat + conductancesWPerK[c]! * Math.max(0, temperaturesC[cell]! - BOILING_C), 0);
    },
  };
}
