import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { solvePlan } from '../../../src/cases/heat-cases.ts';
import type { HeatCases, PlanCase } from '../../../src/cases/heat-cases.ts';
import { solveMarkers } from '../../../src/cases/heat-case-markers.ts';
import type { MarkerCase } from '../../../src/cases/heat-case-markers.ts';
import { solveClosedForm, solveNetwork } from '../../../src/cases/heat-case-networks.ts';
import type { ClosedFormCase, NetworkCase } from '../../../src/cases/heat-case-networks.ts';
import { judgeJoint } from '../../../shared/thermal/verdict.ts';

interface Markers extends MarkerCase {
  expect: Record<
    string,
    { reached: boolean; tFlow?: number; energyIntoPiece_J?: number; markersAtFlow?: Record<string, number>; stalledAt?: number }
  >;
  tolerance: { tFlowRel: number; temperature_K: number; energyRel: number };
}
interface Planned extends PlanCase {
  expected: {
    reached: boolean;
    timeToFlowS: number;
    peakC: Record<string, number>;
    secondsAboveSolidus: Record<string, number>;
    partPeakC: Record<string, number>;
  };
  tolerance: { timeRelative: number; temperatureK: number; seconds: number };
}
interface Judged {
  peakC: number;
  solidusC: number;
  liquidusC: number;
  flowC: number;
  riseK: number;
  calibrated: boolean;
  uncertaintyK: number;
  solidMarginK: number;
  runMarginK: number;
  verdict: string;
}
const file = new URL('../../reference/heat-cases.json', import.meta.url);
const cases = JSON.parse(readFileSync(file, 'utf8')) as HeatCases & {
  closedForm: (ClosedFormCase & { tol?: number; tolRel?: number })[];
  explicitNetworks: (NetworkCase & { tol: number })[];
  markers: Markers[];
  plans: Planned[];
  verdicts: Judged[];
};

test('the file of heat cases has every section', () => {
  const counts = [cases.closedForm, cases.explicitNetworks, cases.markers, cases.plans, cases.verdicts].map(
    ({ length }) => length,
  );
  expect(counts).toEqual([7, 2, 4, 4, 10]);
});

test.each(cases.closedForm)('solveClosedForm() of $id keeps within its tolerance', (one) => {
  const expected = [one.expect ?? one.expect_K ?? one.expectRise!].flat();
  const values = solveClosedForm(one);
  expect(values).toHaveLength(expected.length);
  values.forEach((value, i) => expect(Math.abs(value - expected[i]!)).toBeLessThanOrEqual(one.tol ?? one.tolRel! * expected[i]!));
});

test.each(cases.explicitNetworks)('solveNetwork() of $id keeps within its tolerance', (one) => {
  const solved = solveNetwork(one);
  for (const [time, expected] of Object.entries(one.T_at)) {
    expected.forEach((value, i) => expect(Math.abs(solved[time]![i]! - value)).toBeLessThanOrEqual(one.tol));
  }
});

test.each(cases.markers)('a heat with markers, $id, keeps within its tolerance', (one) => {
  const answers = solveMarkers(one, cases.constants.grades);
  expect(answers.map(({ grade }) => grade)).toEqual(one.grades);
  for (const answer of answers) {
    const expected = one.expect[answer.grade]!;
    expect(answer.reached).toBe(expected.reached);
    if (expected.stalledAt !== undefined)
      expect(Math.abs(answer.settlesC! - expected.stalledAt)).toBeLessThanOrEqual(one.tolerance.temperature_K);
    if (expected.tFlow === undefined) continue;
    expect(Math.abs(answer.timeToFlowS! / expected.tFlow - 1)).toBeLessThanOrEqual(one.tolerance.tFlowRel);
    expect(Math.abs(answer.energyJ! / expected.energyIntoPiece_J! - 1)).toBeLessThanOrEqual(one.tolerance.energyRel);
    for (const [name, value] of Object.entries(expected.markersAtFlow!)) {
      expect(Math.abs(answer.markersAtFlow[name]! - value)).toBeLessThanOrEqual(one.tolerance.temperature_K);
    }
  }
});

const near = (got: Record<string, number>, wanted: Record<string, number>, within: number) => {
  for (const [id, value] of Object.entries(wanted)) expect(Math.abs(got[id]! - value), id).toBeLessThanOrEqual(within);
};

test.each(cases.plans)('a heat of a whole plan, $id, keeps within its tolerance', (one) => {
  const { expected, tolerance } = one;
  const answer = solvePlan(one);
  expect(answer.reached).toBe(expected.reached);
  expect(Math.abs(answer.timeToFlowS! / expected.timeToFlowS - 1)).toBeLessThanOrEqual(tolerance.timeRelative);
  near(answer.peakC, expected.peakC, tolerance.temperatureK);
  near(answer.partPeakC, expected.partPeakC, tolerance.temperatureK);
  near(answer.secondsAboveSolidus, expected.secondsAboveSolidus, tolerance.seconds);
});

test.each(cases.verdicts)('judgeJoint() of a peak of $peakC against $solidusC / $liquidusC says $verdict', (one) => {
  const judged = judgeJoint({ ...one, secondsAboveSolidus: 0, load: 'none' });
  expect(judged.verdict).toBe(one.verdict);
  expect(judged.uncertaintyK).toBeCloseTo(one.uncertaintyK, 2);
  expect(judged.solidMarginK).toBeCloseTo(one.solidMarginK, 9);
  expect(judged.runMarginK).toBeCloseTo(one.runMarginK, 9);
});
