import type { FlameOnCells } from '../../shared/thermal/network-stepper.ts';
import type { ThermalNetwork } from '../../shared/thermal/thermal-network.ts';

const KELVIN = 273.15;

/** dT/dt of every cell under a flame that stays as it is, in the form a general-purpose solver asks for; wet packs left out. */
export function networkSlopes(net: ThermalNetwork, flame: FlameOnCells): (timeS: number, temperaturesC: number[]) => number[] {
  const count = net.cellCount;
  const ambient4 = (net.ambientC + KELVIN) ** 4;
  const conductivity = new Float64Array(count);
  return (_, t) => {
    const slopes = Array.from<number>({ length: count }).fill(0);
    for (let i = 0; i < count; i++) {
      const ti = t[i]!;
      conductivity[i] = net.conductivityWPerMmK[i]! + net.conductivityRiseWPerMmK2[i]! * (ti - 20);
      const lossWPerK = net.lossWPerK[i]! * (1 - flame.displacedFraction[i]!) + net.fixedLossWPerK[i]!;
      const absolute = ti + KELVIN;
      slopes[i] =
        flame.exchangeWPerK[i]! * (flame.gasC - ti) -
        lossWPerK * (ti - net.ambientC) -
        net.radiationWPerK4[i]! * (absolute * absolute * absolute * absolute - ambient4);
    }
    for (let e = 0; e < net.edgeFrom.length; e++) {
      const i = net.edgeFrom[e]!;
      const j = net.edgeTo[e]!;
      const flowW =
        (t[j]! - t[i]!) /
        (net.edgeFromPerMm[e]! / conductivity[i]! + net.edgeToPerMm[e]! / conductivity[j]! + net.edgeContactKPerW[e]!);
      slopes[i]! += flowW;
      slopes[j]! -= flowW;
    }
    for (let i = 0; i < count; i++) slopes[i]! /= net.capacityJPerK[i]! + net.capacityRiseJPerK2[i]! * (t[i]! - 20);
    return slopes;
  };
}
