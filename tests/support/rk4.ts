import type { FlameOnCells } from '../../shared/thermal/network-stepper.ts';
import type { ThermalNetwork } from '../../shared/thermal/thermal-network.ts';

const KELVIN = 273.15;

/** The equations of a thermal network once more, written out plainly: slopes in K/s, and heat from the flame in W. */
export function slopes(
  net: ThermalNetwork,
  flame: FlameOnCells | null,
  scale: number,
  t: readonly number[],
  wet = true,
): number[] {
  const heat = t.map((ti, i) => {
    const displaced = flame ? flame.displacedFraction[i]! : 0;
    const radiated = net.radiationWPerK4[i]! * ((ti + KELVIN) ** 4 - (net.ambientC + KELVIN) ** 4);
    const convected = (net.lossWPerK[i]! * (1 - displaced) + net.fixedLossWPerK[i]!) * (ti - net.ambientC);
    const flamed = flame ? scale * flame.exchangeWPerK[i]! * (flame.gasC - ti) : 0;
    return flamed - convected - radiated;
  });
  const k = (i: number) => net.conductivityWPerMmK[i]! + net.conductivityRiseWPerMmK2[i]! * (t[i]! - 20);
  for (let e = 0; e < net.edgeFrom.length; e++) {
    const [i, j] = [net.edgeFrom[e]!, net.edgeTo[e]!];
    const resistance = net.edgeFromPerMm[e]! / k(i) + net.edgeToPerMm[e]! / k(j) + net.edgeContactKPerW[e]!;
    const flow = (t[j]! - t[i]!) / resistance;
    heat[i]! += flow;
    heat[j]! -= flow;
  }
  for (const pack of wet ? net.wetPacks : []) {
    pack.cells.forEach((cell, c) => (heat[cell]! -= pack.conductancesWPerK[c]! * Math.max(0, t[cell]! - 100)));
  }
  return heat.map((q, i) => q / (net.capacityJPerK[i]! + net.capacityRiseJPerK2[i]! * (t[i]! - 20)));
}

/** Classical Runge–Kutta with a fixed small step; stops when told to. scaleOf sees the full-flame slopes. */
export function rk4(
  net: ThermalNetwork,
  from: readonly number[],
  {
    flame,
    dtS,
    scaleOf,
    stop,
  }: {
    flame: FlameOnCells | null;
    dtS: number;
    scaleOf?: (t: number[], full: number[]) => number;
    stop: (t: number[], timeS: number) => boolean;
  },
): { timeS: number; temperaturesC: number[] } {
  let t = [...from];
  let timeS = 0;
  while (!stop(t, timeS)) {
    const full = slopes(net, flame, 1, t);
    const scale = scaleOf ? scaleOf(t, full) : 1;
    const f = (x: number[]) => slopes(net, flame, scale, x);
    const at = (slope: number[], h: number) => t.map((ti, i) => ti + h * slope[i]!);
    const a = f(t);
    const b = f(at(a, dtS / 2));
    const c = f(at(b, dtS / 2));
    const d = f(at(c, dtS));
    t = t.map((ti, i) => ti + (dtS / 6) * (a[i]! + 2 * b[i]! + 2 * c[i]! + d[i]!));
    timeS += dtS;
  }
  return { timeS, temperaturesC: t };
}
