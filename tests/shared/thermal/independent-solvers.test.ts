import { expect, test } from 'vitest';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import type { FlameOnCells } from '../../../shared/thermal/network-stepper.ts';
import type { ThermalNetwork } from '../../../shared/thermal/thermal-network.ts';
import { marchTo } from '../../../src/cases/heat-case-networks.ts';
import { demoHeats, lit } from '../../support/demo-heats.ts';
import { explicitReference } from '../../support/explicit-reference.ts';
import { createImplicitReference } from '../../support/implicit-reference.ts';

const heats = demoHeats();

/** Tolerance of the heats themselves, and of a march that shows the equations rather than the steps. */
const USUAL_K = 3;
const FINE_K = 0.02;
const FIRST_STEP_S = 0.05;

function networks(): { name: string; network: ThermalNetwork; flame: FlameOnCells }[] {
  return heats.flatMap(({ name, question }) =>
    [false, true].map((layered) => {
      const { program } = lit(question, { layered });
      return { name: layered ? `${name} on layers` : name, network: program.stepper.network, flame: program.flame };
    }),
  );
}

const cold = ({ cellCount, ambientC }: ThermalNetwork) => new Float64Array(cellCount).fill(ambientC);
const apartK = (a: ArrayLike<number>, b: ArrayLike<number>) => Math.max(...Array.from(a, (value, i) => Math.abs(value - b[i]!)));

test('there is a heat of every piece of the demo studio', () => {
  expect(heats.length).toBeGreaterThanOrEqual(4);
});

// Worst seen: 0.24 K with the steps of a heat, 0.026 K with fine ones.
test.each(networks())('$name: five seconds of flame come out as ODEX has them', ({ network, flame }) => {
  const { temperaturesC } = explicitReference({ network, flame }, { untilS: 5, tolK: 1e-4 });
  expect(Math.max(...temperaturesC)).toBeGreaterThan(200);
  const march = (tolK: number) =>
    marchTo(createNetworkStepper(network), cold(network), 5, { flame, tolK, firstStepS: FIRST_STEP_S });
  expect(apartK(march(USUAL_K), temperaturesC)).toBeLessThan(0.3);
  expect(apartK(march(FINE_K), temperaturesC)).toBeLessThan(0.04);
});

test.each(networks())('$name: one implicit step is what a general sparse LU solves', ({ network, flame }) => {
  const warmC = marchTo(createNetworkStepper(network), cold(network), 3, { flame });
  const reference = createImplicitReference(network, flame);
  const stepper = createNetworkStepper(network);
  for (const dtS of [0.01, 0.25, 2]) {
    stepper.begin(warmC, new Float64Array(0), dtS, flame);
    const expected = reference.firstSlopes([...warmC], dtS);
    const largest = Math.max(...expected.map(Math.abs));
    expect(largest).toBeGreaterThan(1);
    expect(apartK(stepper.firstSlopes, expected) / largest).toBeLessThan(1e-10);
  }
});

test.each(networks())('$name: the same method on general matrices takes the same way', ({ network, flame }) => {
  const own = marchTo(createNetworkStepper(network), cold(network), 5, { flame, tolK: USUAL_K, firstStepS: FIRST_STEP_S });
  const { temperaturesC } = createImplicitReference(network, flame).marchTo(5, USUAL_K, FIRST_STEP_S);
  expect(apartK(own, temperaturesC)).toBeLessThan(1e-8);
});
