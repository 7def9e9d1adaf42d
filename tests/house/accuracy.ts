/** The lines of the accuracy table in README, worked out from the reference cases. */

import { readFileSync } from 'node:fs';
import { estimate } from '../../shared/costing/estimate.ts';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { solveMarkers, type MarkerCase } from '../../src/cases/heat-case-markers.ts';
import {
  marchTo,
  solveClosedForm,
  solveNetwork,
  type ClosedFormCase,
  type NetworkCase,
} from '../../src/cases/heat-case-networks.ts';
import { solvePlan, type HeatCases, type PlanCase } from '../../src/cases/heat-cases.ts';
import { createNetworkStepper } from '../../shared/thermal/network-stepper.ts';
import { simulateHeat } from '../../shared/thermal/simulate-heat.ts';
import { demoHeats, lit } from '../support/demo-heats.ts';
import { explicitReference } from '../support/explicit-reference.ts';

interface Numbers {
  [id: string]: number;
}
interface Files {
  heat: Pick<HeatCases, 'constants'> & {
    closedForm: ClosedFormCase[];
    explicitNetworks: NetworkCase[];
    markers: (MarkerCase & { expect: Record<string, { tFlow?: number; markersAtFlow?: Numbers }> })[];
    plans: (PlanCase & { expected: { timeToFlowS: number; peakC: Numbers; partPeakC: Numbers; secondsAboveSolidus: Numbers } })[];
  };
  estimate: { cases: { request: EstimateRequest; expected: { lines: { amountMinor: number }[] } }[] };
}

const read = <File extends keyof Files>(file: File): Files[File] =>
  JSON.parse(readFileSync(new URL(`../reference/${file}-cases.json`, import.meta.url), 'utf8')) as Files[File];

export function accuracyLines(): string[] {
  const { constants, closedForm, explicitNetworks, markers, plans } = read('heat');
  const closed = closedForm.map((one) => worst(solveClosedForm(one), [one.expect ?? one.expect_K ?? one.expectRise!].flat()));
  const networks = explicitNetworks.flatMap((one) => {
    const solved = solveNetwork(one);
    return Object.entries(one.T_at).map(([time, expected]) => worst(solved[time]!, expected));
  });
  const marked = markers.flatMap((one) => {
    const solved = solveMarkers(one, constants.grades);
    return Object.entries(one.expect).map(([grade, { tFlow, markersAtFlow = {} }]) => {
      const run = solved.find((each) => each.grade === grade)!;
      return {
        temperatureK: worstOf(run.markersAtFlow ?? {}, markersAtFlow),
        time: tFlow ? Math.abs(run.timeToFlowS! / tFlow - 1) : 0,
      };
    });
  });
  const planned = plans.map((one) => {
    const run = solvePlan(one);
    const { expected } = one;
    return {
      temperatureK: Math.max(worstOf(run.peakC, expected.peakC), worstOf(run.partPeakC, expected.partPeakC)),
      time: Math.abs(run.timeToFlowS! / expected.timeToFlowS - 1),
      seconds: worstOf(run.secondsAboveSolidus, expected.secondsAboveSolidus),
    };
  });
  const heats = demoHeats();
  const steady = heats.map(({ question }) => {
    const { stepper, flame } = lit(question).program;
    const cold = new Float64Array(stepper.network.cellCount).fill(20);
    const stepped = marchTo(createNetworkStepper(stepper.network), cold, 5, { flame, tolK: 3, firstStepS: 0.05 });
    return worst([...stepped], explicitReference({ network: stepper.network, flame }, { untilS: 5, tolK: 1e-4 }).temperaturesC);
  });
  const unbalanced = heats.flatMap(({ question }) =>
    Object.values(simulateHeat(question).bySolder).map(({ energyJ, storedJ, lostJ }) =>
      Math.abs(1 - (storedJ! + lostJ!) / energyJ!),
    ),
  );
  const cents = read('estimate').cases.map(({ request, expected }) =>
    worst(
      estimate(request).lines.map(({ amountMinor }) => amountMinor),
      expected.lines.map(({ amountMinor }) => amountMinor),
    ),
  );
  return [
    row(
      'temperatures in bodies, fins, rings, plates',
      'closed solutions (Carslaw & Jaeger; Incropera)',
      kelvin(Math.max(...closed)),
      '0.1 to 0.5 %, 2.5 K for a Gaussian source',
    ),
    row('temperatures in given networks', 'an independent Runge–Kutta solution', kelvin(Math.max(...networks)), '0.3 K'),
    row(
      'temperatures along a piece at flow',
      'a separate implementation on a fine grid',
      kelvin(max(marked, 'temperatureK')),
      '6 K',
    ),
    row('time to flow of those', 'the same', percent(max(marked, 'time')), '5 %'),
    row('peaks of joints and parts in whole plans', 'the same', kelvin(max(planned, 'temperatureK')), '10 K'),
    row('time to flow in whole plans', 'the same', percent(max(planned, 'time')), '8 %'),
    row('seconds above a solidus', 'the same', `${max(planned, 'seconds').toFixed(1)} s`, '1 s'),
    row(
      'cells of the demo pieces after 5 s of steady flame',
      'ODEX, a general-purpose solver, on the same networks',
      kelvin(Math.max(...steady)),
      '0.3 K',
    ),
    row(
      'heat stored and lost in those pieces at flow',
      'the heat the flame gave them',
      percent(Math.max(...unbalanced)),
      '0.5 %',
    ),
    row('every line of a worked quote', 'the same sums by hand', `${Math.max(...cents)} cents`, '0 cents'),
  ];
}

const row = (...cells: string[]): string => `| ${cells.join(' | ')} |`;
const kelvin = (value: number): string => (value < 0.01 ? 'under 0.01 K' : `${value.toFixed(value < 0.1 ? 2 : 1)} K`);
const percent = (fraction: number): string => (fraction < 5e-4 ? 'under 0.1 %' : `${(100 * fraction).toFixed(1)} %`);
const max = <Key extends string>(rows: Record<Key, number>[], key: Key): number => Math.max(...rows.map((one) => one[key]));

function worst(values: readonly number[], expected: readonly number[]): number {
  if (values.length !== expected.length || values.length === 0)
    throw new Error(`${values.length} values against ${expected.length}`);
  return Math.max(...values.map((value, i) => Math.abs(value - expected[i]!)));
}

function worstOf(values: Readonly<Numbers>, expected: Readonly<Numbers>): number {
  return Math.max(0, ...Object.entries(expected).map(([id, value]) => Math.abs(values[id]! - value)));
}
