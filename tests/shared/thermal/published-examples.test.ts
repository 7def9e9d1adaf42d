import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import type { FlameOnCells } from '../../../shared/thermal/network-stepper.ts';
import { buildPiece } from '../../../shared/thermal/piece-model.ts';
import { buildPieceNetwork } from '../../../shared/thermal/piece-network.ts';
import { createNetworkBuilder } from '../../../shared/thermal/thermal-network.ts';
import type { ThermalNetwork } from '../../../shared/thermal/thermal-network.ts';
import { marchTo } from '../../../src/cases/heat-case-networks.ts';

interface Example {
  id: string;
  reference: string;
  inputs: Record<string, number>;
  outputs: Record<string, number>;
}
const file = new URL('../../reference/thermal-examples.json', import.meta.url);
const { examples } = JSON.parse(readFileSync(file, 'utf8')) as { examples: Example[] };

function example(id: string): Example {
  const found = examples.find((one) => one.id === id);
  if (!found) throw new Error(`No example ${id}`);
  return found;
}

test('every example names its reference and is worked below', () => {
  expect(examples.map(({ id }) => id)).toEqual(['F1', 'F3-copper', 'S2', 'R1', 'Q1', 'E1']);
  for (const { reference } of examples) expect(reference).toMatch(/Incropera|Carslaw/);
});

const noFlame = (cells: number): FlameOnCells => ({
  gasC: 1e9,
  exchangeWPerK: new Float64Array(cells),
  displacedFraction: new Float64Array(cells),
});

/** A rod of even cells, its first end held at a temperature, the other insulated; heat into it once steady, W, and its cells. */
function steadyRod({ D_m: d, k, h, Tb_C: baseC, Tinf_C: roomC }: Record<string, number>, lengthM: number, cells: number) {
  const builder = createNetworkBuilder();
  const dx = lengthM / cells;
  const halfPerMm = dx / 2 / ((Math.PI / 4) * d! ** 2) / 1000;
  for (let i = 0; i < cells; i++) {
    builder.addCell({ capacityJPerK: 1e-4, conductivityWPerMmK: k! / 1000, fixedLossWPerK: h! * Math.PI * d! * dx });
    if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: halfPerMm, toPerMm: halfPerMm });
  }
  const base = builder.addCell({ capacityJPerK: 1e12, conductivityWPerMmK: k! / 1000 });
  builder.addEdge(0, base, { fromPerMm: halfPerMm, toPerMm: 0 });
  const start = new Float64Array(cells + 1).fill(roomC!);
  start[base] = baseC!;
  const valuesC = marchTo(createNetworkStepper(builder.build(roomC!)), start, 1e5);
  return { valuesC, heatW: ((baseC! - valuesC[0]!) * k!) / 1000 / halfPerMm };
}

test('a pin fin takes the heat of Incropera eq. 3.81, by the efficiency of eq. 3.95', () => {
  const { inputs, outputs } = example('F1');
  const { heatW } = steadyRod(inputs, inputs['L_m']!, 200);
  expect(heatW).toBeCloseTo(outputs['q']!, 3);
  // All of it at the temperature of its base: h·π·D·L·θ.
  const idealW = inputs['h']! * Math.PI * inputs['D_m']! * inputs['L_m']! * (inputs['Tb_C']! - inputs['Tinf_C']!);
  expect(heatW / idealW).toBeCloseTo(outputs['eta']!, 4);
});

test('a copper rod without end takes the 8.3 W of Incropera example 3.9, as good as all of it in 2.65/m', () => {
  const { inputs, outputs } = example('F3-copper');
  const endless = steadyRod(inputs, 5 * outputs['L_inf']!, 1500);
  expect(endless.heatW).toBeCloseTo(outputs['q']!, 2);
  expect(steadyRod(inputs, outputs['L_inf']!, 300).heatW / endless.heatW).toBeCloseTo(0.99, 2);
});

/** Layers of 1 m² under a constant flux from their top, and their rise at times and depths. */
function heatedLayers(
  k: number,
  rhoC: number,
  { depthM, cells, fluxW, untilS }: Record<'depthM' | 'cells' | 'fluxW' | 'untilS', number>,
) {
  const builder = createNetworkBuilder();
  const dx = depthM / cells;
  for (let i = 0; i < cells; i++) {
    builder.addCell({ capacityJPerK: rhoC * dx, conductivityWPerMmK: k / 1000 });
    if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: dx / 2000, toPerMm: dx / 2000 });
  }
  const flame = noFlame(cells);
  flame.exchangeWPerK[0] = fluxW / flame.gasC;
  return marchTo(createNetworkStepper(builder.build(0)), new Float64Array(cells), untilS, { flame });
}

test('a thick brick under a constant flux warms in depth as Incropera eq. 5.62 says', () => {
  const { inputs, outputs } = example('S2');
  const { k, rho, c, q_W_m2, t_s } = inputs as Record<'k' | 'rho' | 'c' | 'q_W_m2' | 't_s', number>;
  // 40 mm: thirteen diffusion lengths, so that the end stays cold.
  const rises = heatedLayers(k, rho * c, { depthM: 0.04, cells: 800, fluxW: q_W_m2, untilS: t_s });
  const at = (depthM: number) => (rises[depthM / 5e-5 - 1]! + rises[depthM / 5e-5]!) / 2;
  expect(rises[0]! + (rises[0]! - rises[1]!) / 2).toBeCloseTo(outputs['dT_surface']!, 1);
  expect(at(0.001)).toBeCloseTo(outputs['dT_1mm']!, 1);
  expect(at(0.005)).toBeCloseTo(outputs['dT_5mm']!, 1);
  expect(rises.at(-1)).toBeLessThan(1e-3);
});

test('a rod heated at one end stores what its mean rise says', () => {
  const { inputs, outputs } = example('R1');
  const { k, rho, c, L_m, q_W_m2, t_s } = inputs as Record<'k' | 'rho' | 'c' | 'L_m' | 'q_W_m2' | 't_s', number>;
  const rises = heatedLayers(k, rho * c, { depthM: L_m, cells: 200, fluxW: q_W_m2, untilS: t_s });
  expect(rises.reduce((sum, rise) => sum + rise, 0) / rises.length).toBeCloseTo(outputs['dT_mean']!, 3);
});

const ball = (metal: object | string) =>
  buildPieceNetwork(
    buildPiece(
      {
        parts: [
          { id: 'ball', metal: metal as string, form: { kind: 'ball', diameterMm: 10 } },
          { id: 'other', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 10 } },
        ],
        joints: [
          {
            id: 'on',
            kind: 'granule',
            between: [{ part: 'ball' }, { part: 'other' }],
            diameterMm: 10,
            neckRadiusMm: 1,
            gapMm: 0,
          },
        ],
      },
      { targets: ['on'], made: [] },
      { barMm: 1.5, plateMm: 2 },
    ),
    { support: 'air', layered: false, lossFactor: 1 },
  ).builder;

/** Only radiation left: by itself, the first cell cools by that alone. */
function radiating(network: ThermalNetwork): ThermalNetwork {
  network.lossWPerK.fill(0);
  network.edgeContactKPerW.fill(1e12);
  return network;
}

test('a hot surface radiates the flux of Incropera eq. 1.7, linearised as eq. 1.9 has it', () => {
  const { inputs, outputs } = example('Q1');
  const { T_K, Ts_K, eps } = inputs as Record<'T_K' | 'Ts_K' | 'eps', number>;
  const metal = {
    densityGPerCm3: 10,
    solidusC: 800,
    liquidusC: 900,
    conductivityWPerMK: 300,
    specificHeatJPerGK: 0.25,
    emissivityFraction: eps,
  };
  const network = radiating(ball(metal).build(Ts_K - 273.15));
  const stepper = createNetworkStepper(network);
  // So short a step that its slope is that of its start.
  stepper.begin(Float64Array.of(T_K - 273.15, T_K - 273.15), new Float64Array(0), 1e-6, null);
  const areaM2 = Math.PI * 0.01 ** 2;
  const fluxWPerM2 = (-stepper.firstSlopes[0]! * network.capacityJPerK[0]!) / areaM2;
  expect(fluxWPerM2 / outputs['q']!).toBeCloseTo(1, 6);
  expect(fluxWPerM2 / (T_K - Ts_K)).toBeCloseTo(outputs['h_r']!, 4);
  expect(network.radiationWPerK4[0]! * T_K ** 4).toBeCloseTo(eps * outputs['E_1000K']! * areaM2, 6);
});

test('sterling stores the heat that the tables of its metals say, within 2.5 %', () => {
  const { inputs, outputs } = example('E1');
  const network = ball('sterling-925').build(20);
  const massG = 10.36 * (Math.PI / 6);
  const storedJ = (kelvin: number) => {
    const riseK = kelvin - 293.15;
    return network.capacityJPerK[0]! * riseK + (network.capacityRiseJPerK2[0]! / 2) * riseK ** 2;
  };
  const perKg = ((storedJ(inputs['T2_K']!) - storedJ(inputs['T1_K']!)) / massG) * 1000;
  expect(Math.abs(perKg / outputs['h_specific']! - 1)).toBeLessThan(0.025);
});
