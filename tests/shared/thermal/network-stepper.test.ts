import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import type { FlameOnCells } from '../../../shared/thermal/network-stepper.ts';
import { createNetworkBuilder } from '../../../shared/thermal/thermal-network.ts';
import { marchTo } from '../../../src/cases/heat-case-networks.ts';
import { rk4 } from '../../support/rk4.ts';

/** A source in W, as a flame too hot for its cell to matter. */
const source = (...powersW: number[]): FlameOnCells => ({
  gasC: 1e9,
  exchangeWPerK: Float64Array.from(powersW, (w) => w / 1e9),
  displacedFraction: new Float64Array(powersW.length),
});

// Incropera et al., 7th ed., Example 5.1: bead 0.706 mm, h 400 W/m²K, ρ 8500 kg/m³, c 400 J/kgK; 25 °C into 200 °C gas: 199 °C at 5.2 s.
test('a bead in hot gas takes the published thermocouple time', () => {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: 8500 * 400 * (Math.PI / 6) * 7.06e-4 ** 3, fixedLossWPerK: 400 * Math.PI * 7.06e-4 ** 2 });
  const bead = createNetworkStepper(builder.build(200));
  expect(marchTo(bead, Float64Array.of(25), 5.165646772)[0]).toBeCloseTo(199, 1);
});

// Incropera, 7th ed., eq. 5.25: 5 g of 246 J/kgK, 15 W, losing 0.012 W/K: 573.87 °C after 60 s.
test('a lump under constant power and linear loss reaches the published temperature', () => {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: 0.005 * 246, fixedLossWPerK: 0.012 });
  const lump = createNetworkStepper(builder.build(20));
  expect(marchTo(lump, Float64Array.of(20), 60, { flame: source(15) })[0]).toBeCloseTo(573.8724, 1);
});

// Two lumps and a conductance, closed form: cf. Bejan & Kraus, Heat Transfer Handbook (2003), eqs. 3.287–3.288.
test('two lumps even out as their closed form says', () => {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: 2.75 });
  builder.addCell({ capacityJPerK: 0.55 });
  builder.addConductance(0, 1, 0.08);
  const [a, b] = marchTo(createNetworkStepper(builder.build(20)), Float64Array.of(700, 20), 5, { tolK: 1e-3 });
  expect(a).toBeCloseTo(634.0185, 1);
  expect(b).toBeCloseTo(349.9074, 1);
});

// Incropera, 7th ed., table 3.4 case B: pin fin 2 × 50 mm, k 385, h 20, base 700 °C in 25 °C: middle ratio 0.91166, tip 620.918 °C.
test('a pin fin settles to the published profile', () => {
  const cells = 200;
  const builder = createNetworkBuilder();
  const dx = 0.05 / cells;
  const halfPerMm = dx / 2 / (Math.PI * 1e-6) / 1000;
  for (let i = 0; i < cells; i++) {
    builder.addCell({ capacityJPerK: 1e-3, conductivityWPerMmK: 0.385, fixedLossWPerK: 20 * Math.PI * 0.002 * dx });
    if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: halfPerMm, toPerMm: halfPerMm });
  }
  const base = builder.addCell({ capacityJPerK: 1e12, conductivityWPerMmK: 0.385 });
  builder.addEdge(0, base, { fromPerMm: halfPerMm, toPerMm: 0 });
  const start = new Float64Array(cells + 1).fill(25);
  start[base] = 700;
  const values = marchTo(createNetworkStepper(builder.build(25)), start, 1e5);
  expect((values[cells / 2]! + values[cells / 2 - 1]! - 50) / 2 / 675).toBeCloseTo(0.9116610551, 4);
  expect(values[cells - 1]).toBeCloseTo(620.9183, 1);
});

// Carslaw & Jaeger, 2nd ed., §3.8 eq. (3): rod 50 mm, 1 MW/m² at one end, k 385, ρ 10360, c 275: rises after 2 s.
test('a rod heated at one end rises as the published series', () => {
  const cells = 200;
  const builder = createNetworkBuilder();
  const dx = 0.05 / cells;
  for (let i = 0; i < cells; i++) {
    builder.addCell({ capacityJPerK: 10360 * 275 * dx, conductivityWPerMmK: 0.385 });
    if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: dx / 2000, toPerMm: dx / 2000 });
  }
  const flame = source(1e6, ...Array.from({ length: cells - 1 }, () => 0));
  const rises = marchTo(createNetworkStepper(builder.build(0)), new Float64Array(cells), 2, { flame });
  expect(rises[0]! + (rises[0]! - rises[1]!) / 2).toBeCloseTo(48.18339, 1);
  expect((rises[cells / 2]! + rises[cells / 2 - 1]!) / 2).toBeCloseTo(8.720939, 1);
  expect(rises[cells - 1]).toBeCloseTo(1.357294, 1);
});

const aNetwork = fc
  .record({
    capacities: fc.array(fc.double({ min: 0.01, max: 0.5, noNaN: true }), { minLength: 2, maxLength: 12 }),
    conductance: fc.double({ min: 0.002, max: 0.2, noNaN: true }),
    lossWPerK: fc.double({ min: 0, max: 5e-3, noNaN: true }),
    radiationWPerK4: fc.double({ min: 0, max: 5e-12, noNaN: true }),
    exchangeWPerK: fc.double({ min: 1e-3, max: 0.02, noNaN: true }),
  })
  .map(({ capacities, conductance, lossWPerK, radiationWPerK4, exchangeWPerK }) => {
    const builder = createNetworkBuilder();
    capacities.forEach((c, i) => {
      builder.addCell({
        capacityJPerK: c,
        capacityRiseJPerK2: c / 5000,
        lossWPerK,
        radiationWPerK4,
        conductivityWPerMmK: 0.36,
        conductivityRiseWPerMmK2: -3e-5,
      });
      if (i > 0) builder.addEdge(i - 1, i, { fromPerMm: 0.18 / conductance, toPerMm: 0.18 / conductance });
    });
    // The flame strikes the first cell only.
    const heated = new Float64Array(capacities.length);
    heated[0] = exchangeWPerK;
    return {
      network: builder.build(20),
      flame: { gasC: 1500, exchangeWPerK: heated, displacedFraction: heated.map((h) => (h > 0 ? 0.8 : 0)) },
    };
  });

test('finish() agrees with an independent Runge–Kutta', () => {
  fc.assert(
    fc.property(aNetwork, ({ network, flame }) => {
      const start = new Float64Array(network.cellCount).fill(20);
      const stepped = marchTo(createNetworkStepper(network), start, 6, { flame, tolK: 0.05 });
      const plain = rk4(network, [...start], { flame, dtS: 0.02, stop: (_, timeS) => timeS >= 6 - 1e-9 }).temperaturesC;
      stepped.forEach((t, i) => expect(Math.abs(t - plain[i]!)).toBeLessThan(0.3));
    }),
    { numRuns: 30 },
  );
});

test('heat from the flame is heat stored plus heat lost', () => {
  fc.assert(
    fc.property(aNetwork, ({ network, flame }) => {
      const stepper = createNetworkStepper(network);
      let t = new Float64Array(network.cellCount).fill(20);
      let [inJ, lostJ] = [0, 0];
      const lostW = (field: Float64Array) =>
        field.reduce((sum, ti, i) => {
          const convected = network.lossWPerK[i]! * (1 - flame.displacedFraction[i]!) * (ti - 20);
          return sum + convected + network.radiationWPerK4[i]! * ((ti + 273.15) ** 4 - 293.15 ** 4);
        }, 0);
      for (let step = 0; step < 400; step++) {
        stepper.begin(t, new Float64Array(0), 0.02, flame);
        stepper.finish();
        const after = stepper.read(1, new Float64Array(t.length));
        inJ += 0.01 * (stepper.flameHeatW(t, t.length) + stepper.flameHeatW(after, t.length));
        lostJ += 0.01 * (lostW(t) + lostW(after));
        t = after as typeof t;
      }
      const storedJ = t.reduce(
        (sum, ti, i) => sum + network.capacityJPerK[i]! * (ti - 20) + (network.capacityRiseJPerK2[i]! / 2) * (ti - 20) ** 2,
        0,
      );
      expect(Math.abs(inJ - storedJ - lostJ) / inJ).toBeLessThan(2e-3);
    }),
    { numRuns: 30 },
  );
});

// Newton's law of cooling on both sides of a lump: T = (H·T_gas + loss·T_room)/(H + loss) = (0.02·1500 + 0.03·20)/0.05 = 612 °C.
test('settle() of a lump between flame and room is their weighted mean', () => {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: 1, fixedLossWPerK: 0.03 });
  const flame = { gasC: 1500, exchangeWPerK: Float64Array.of(0.02), displacedFraction: Float64Array.of(0) };
  expect(createNetworkStepper(builder.build(20)).settle(flame)[0]).toBeCloseTo(612, 6);
});

test('settle() loses what the flame gives, and a heat comes to it from below', () => {
  fc.assert(
    fc.property(aNetwork, fc.double({ min: 0.1, max: 5000, noNaN: true }), ({ network, flame }, untilS) => {
      const stepper = createNetworkStepper(network);
      const settledC = stepper.settle(flame);
      const lostW = settledC.reduce((sum, t, i) => {
        const convected = network.lossWPerK[i]! * (1 - flame.displacedFraction[i]!) * (t - 20);
        return sum + convected + network.radiationWPerK4[i]! * ((t + 273.15) ** 4 - 293.15 ** 4);
      }, 0);
      const gainedW = settledC.reduce((sum, t, i) => sum + flame.exchangeWPerK[i]! * (1500 - t), 0);
      expect(Math.abs(gainedW - lostW)).toBeLessThan(1e-3);
      const heatedC = marchTo(stepper, new Float64Array(network.cellCount).fill(20), untilS, { flame });
      settledC.forEach((t, i) => expect(heatedC[i]).toBeLessThan(t + 0.2));
    }),
    { numRuns: 50 },
  );
});

test('cells without flame stay between the room and the hottest', () => {
  fc.assert(
    fc.property(aNetwork, fc.double({ min: 0.05, max: 10, noNaN: true }), ({ network, flame }, untilS) => {
      const t = marchTo(createNetworkStepper(network), new Float64Array(network.cellCount).fill(20), untilS, { flame });
      t.forEach((ti) => {
        expect(ti).toBeGreaterThanOrEqual(20 - 1e-6);
        expect(ti).toBeLessThanOrEqual(t[0]! + 1e-6);
      });
    }),
    { numRuns: 50 },
  );
});

test('read() within a step is of second order, as at its end', () => {
  const builder = createNetworkBuilder();
  builder.addCell({ capacityJPerK: 1, fixedLossWPerK: 1 });
  const stepper = createNetworkStepper(builder.build(0));
  const worst = (dtS: number) => {
    stepper.begin(Float64Array.of(100), new Float64Array(0), dtS, null);
    stepper.finish();
    return Math.max(
      ...[0.25, 0.5, 0.75, 1].map((at) => Math.abs(stepper.read(at, new Float64Array(1))[0]! - 100 * Math.exp(-at * dtS))),
    );
  };
  // Local error of order 3: an eighth at half the step.
  expect(worst(0.1) / worst(0.05)).toBeGreaterThan(7);
});
