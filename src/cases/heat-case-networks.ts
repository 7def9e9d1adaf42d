/** Closed forms and explicit networks, stepped by the integrator of the heats. */

import { createNetworkStepper } from '../../shared/thermal/network-stepper.ts';
import type { FlameOnCells, NetworkStepper } from '../../shared/thermal/network-stepper.ts';
import { createNetworkBuilder } from '../../shared/thermal/thermal-network.ts';
import type { Cell, NetworkBuilder } from '../../shared/thermal/thermal-network.ts';

/** A source in W as a flame so hot that the cell's own temperature does not matter: 1e9 °C, an error of one in a million. */
const SOURCE_C = 1e9;
const TOL_K = 0.01;

/** Steps a network from even or given temperatures to a time, its error held under tolK a step. */
export function marchTo(
  stepper: NetworkStepper,
  from: Float64Array,
  untilS: number,
  { flame = null, tolK = TOL_K, firstStepS = 1e-3 }: { flame?: FlameOnCells | null; tolK?: number; firstStepS?: number } = {},
): Float64Array {
  let temperaturesC = from;
  let dtS = firstStepS;
  for (let leftS = untilS; leftS > 1e-12 * untilS;) {
    const stepS = Math.min(dtS, leftS);
    stepper.begin(temperaturesC, new Float64Array(0), stepS, flame);
    const factor = 0.9 * Math.sqrt(tolK / Math.max(stepper.finish(), 1e-12));
    dtS = stepS * Math.max(0.25, Math.min(2, factor));
    if (factor < 0.7) continue;
    temperaturesC = stepper.read(1, new Float64Array(from.length));
    leftS -= stepS;
  }
  return temperaturesC;
}

function sources(powersW: Float64Array): FlameOnCells {
  return { gasC: SOURCE_C, exchangeWPerK: powersW.map((w) => w / SOURCE_C), displacedFraction: new Float64Array(powersW.length) };
}

function settle(
  builder: NetworkBuilder,
  ambientC: number,
  powersW: readonly number[],
  untilS: number,
  startC = ambientC,
): Float64Array {
  const stepper = createNetworkStepper(builder.build(ambientC));
  return marchTo(stepper, new Float64Array(powersW.length).fill(startC), untilS, { flame: sources(Float64Array.from(powersW)) });
}

/** Linear between cell centres; the half cells at the ends by the slope of the last two. */
function between(values: Float64Array, u: number): number {
  const i = Math.max(0, Math.min(values.length - 2, Math.floor(u - 0.5)));
  return values[i]! + (u - 0.5 - i) * (values[i + 1]! - values[i]!);
}

export interface ClosedFormCase {
  id: string;
  expect?: number | number[];
  expect_K?: number;
  expectRise?: number[];
  [key: string]: unknown;
}

const CELLS = 800;
/** Long after the slowest of these settles. */
const STEADY_S = 1e5;

type Numbers = Record<string, number>;

function rodSteady({ k, d, h, Tamb }: Numbers, lengthM: number, powersW: number[], isRing: boolean): Float64Array {
  const builder = createNetworkBuilder();
  const dx = lengthM / CELLS;
  const areaM2 = (Math.PI / 4) * d! ** 2;
  // Half a cell over its area, 1/mm; the capacity does not matter once it is steady.
  const halfPerMm = dx / 2 / areaM2 / 1000;
  for (let i = 0; i < CELLS; i++) {
    builder.addCell({ capacityJPerK: 1e-3, conductivityWPerMmK: k! / 1000, fixedLossWPerK: h! * Math.PI * d! * dx });
    if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: halfPerMm, toPerMm: halfPerMm });
  }
  if (isRing) builder.addEdge(CELLS - 1, 0, { fromPerMm: halfPerMm, toPerMm: halfPerMm });
  return settle(builder, Tamb!, powersW, STEADY_S);
}

function fin(of: Numbers & { at_x: number[] }): number[] {
  const powersW = Array.from({ length: CELLS }, (_, i) => (i === 0 ? of['Q_base']! : 0));
  const values = rodSteady(of, of['L']!, powersW, false);
  return of.at_x.map((x) => between(values, (x / of['L']!) * CELLS));
}

function ring(of: Numbers & { at_s: number[] }): number[] {
  // The point source lies on the seam between the first and the last cell.
  const powersW = Array.from({ length: CELLS }, (_, i) => (i === 0 || i === CELLS - 1 ? of['Q_point']! / 2 : 0));
  const values = rodSteady(of, of['circumference']!, powersW, true);
  return of.at_s.map((s) => between(values, (s / of['circumference']!) * CELLS));
}

/** Deep enough that the end stays cold: ten diffusion lengths. */
function semiInfinite(of: Numbers & { at_x: number[] }): number[] {
  const { k, rho, c, q, t } = of as Numbers;
  const depthM = 10 * Math.sqrt(((k! / (rho! * c!)) * t!) / Math.PI) * 2;
  const dx = depthM / CELLS;
  const builder = createNetworkBuilder();
  for (let i = 0; i < CELLS; i++) {
    builder.addCell({ capacityJPerK: rho! * c! * dx, conductivityWPerMmK: k! / 1000 });
    if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: dx / 2 / 1000, toPerMm: dx / 2 / 1000 });
  }
  const values = settle(
    builder,
    0,
    Array.from({ length: CELLS }, (_, i) => (i === 0 ? q! : 0)),
    t!,
  );
  return of.at_x.map((x) => between(values, x / dx));
}

function plate(of: Numbers & { centre: number[]; at: number[][] }): number[] {
  const { w, h_, t, k, h_bothFaces: h, Q, sigma, Tamb } = of as Numbers;
  const [nx, ny] = [60, 40];
  const [dx, dy] = [w! / nx, h_! / ny];
  const builder = createNetworkBuilder();
  const powers: number[] = [];
  for (let y = 0; y < ny; y++) {
    for (let x = 0; x < nx; x++) {
      builder.addCell({ capacityJPerK: 1e-3, conductivityWPerMmK: k! / 1000, fixedLossWPerK: 2 * h! * dx * dy });
      const squareM2 = ((x + 0.5) * dx - of.centre[0]!) ** 2 + ((y + 0.5) * dy - of.centre[1]!) ** 2;
      powers.push(Math.exp(-squareM2 / (2 * sigma! ** 2)));
      const i = y * nx + x;
      if (x > 0) builder.addEdge(i - 1, i, { fromPerMm: dx / 2 / (t! * dy) / 1000, toPerMm: dx / 2 / (t! * dy) / 1000 });
      if (y > 0) builder.addEdge(i - nx, i, { fromPerMm: dy / 2 / (t! * dx) / 1000, toPerMm: dy / 2 / (t! * dx) / 1000 });
    }
  }
  const sum = powers.reduce((a, b) => a + b, 0);
  const values = settle(
    builder,
    Tamb ?? 20,
    powers.map((p) => (p / sum) * Q!),
    STEADY_S,
  );
  const row = (y: number, u: number) => between(values.subarray(y * nx, (y + 1) * nx), u);
  return of.at.map(([x, y]) => {
    const column = Float64Array.from({ length: ny }, (_, j) => row(j, x! / dx));
    return between(column, y! / dy);
  });
}

function lump(of: Numbers): number[] {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: of['C']!, fixedLossWPerK: of['G']! });
  return [...settle(builder, of['Tamb']!, [of['Q']!], of['t']!, of['T0'])];
}

function radiation(of: Numbers): number[] {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: of['C']!, radiationWPerK4: of['epsSigmaA']! });
  return [settle(builder, -273.15, [0], of['t']!, of['T0_K']! - 273.15)[0]! + 273.15];
}

function twoLumps(of: Numbers): number[] {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: of['C1']! });
  builder.addCell({ capacityJPerK: of['C2']! });
  builder.addConductance(0, 1, of['G']!);
  return [...settle(builder, of['T0']!, [of['Q_on_1']!, 0], of['t']!)];
}

/** The values that a closed form expects, told apart by what the case gives. Throws for one it does not know. */
export function solveClosedForm(of: ClosedFormCase): number[] {
  if ('epsSigmaA' in of) return radiation(of as unknown as Numbers);
  if ('Q_base' in of) return fin(of as unknown as Parameters<typeof fin>[0]);
  if ('Q_point' in of) return ring(of as unknown as Parameters<typeof ring>[0]);
  if ('Q_on_1' in of) return twoLumps(of as unknown as Numbers);
  if ('sigma' in of) return plate(of as unknown as Parameters<typeof plate>[0]);
  if ('rho' in of) return semiInfinite(of as unknown as Parameters<typeof semiInfinite>[0]);
  if ('G' in of) return lump(of as unknown as Numbers);
  throw new Error(`No closed form for case ${of.id}: its keys are ${Object.keys(of).join(', ')}`);
}

export interface NetworkCase {
  id: string;
  Tamb: number;
  Tg: number;
  nodes: Record<string, number>[];
  edges: { i: number; j: number; ri?: number; rj?: number; Rc?: number; G?: number }[];
  T_at: Record<string, number[]>;
  T0?: number;
}

/** Temperatures of every node at the times of the case. */
export function solveNetwork({ Tamb, Tg, nodes, edges, T_at, T0 = Tamb }: NetworkCase): Record<string, number[]> {
  const builder = createNetworkBuilder();
  for (const { m, C, c0, c1, k0, k1, hA = 0, rA = 0 } of nodes) {
    const cell: Cell = {
      capacityJPerK: C ?? m! * c0!,
      capacityRiseJPerK2: C === undefined ? m! * c1! : 0,
      lossWPerK: hA,
      radiationWPerK4: rA,
    };
    if (k0 !== undefined) Object.assign(cell, { conductivityWPerMmK: k0 / 1000, conductivityRiseWPerMmK2: (k1 ?? 0) / 1000 });
    builder.addCell(cell);
  }
  for (const { i, j, ri = 0, rj = 0, Rc = 0, G } of edges) {
    if (G === undefined) builder.addEdge(i, j, { fromPerMm: ri / 1000, toPerMm: rj / 1000, contactKPerW: Rc });
    else builder.addConductance(i, j, G);
  }
  const stepper = createNetworkStepper(builder.build(Tamb));
  const flame = {
    gasC: Tg,
    exchangeWPerK: Float64Array.from(nodes, ({ HA }) => HA ?? 0),
    displacedFraction: new Float64Array(nodes.length),
  };
  const start = new Float64Array(nodes.length).fill(T0);
  return Object.fromEntries(Object.keys(T_at).map((time) => [time, [...marchTo(stepper, start, Number(time), { flame })]]));
}
