/** Runs every section of a file of heat cases through the heat model: one JSON line a case. */

import { readFileSync } from 'node:fs';
import process from 'node:process';
import type { Design } from '../../shared/design/design.ts';
import { expandDesign, expandHeat } from '../../shared/design/expand-design.ts';
import type { Bench, Plan } from '../../shared/design/plan.ts';
import { secondsAbove } from '../../shared/thermal/heat-run.ts';
import { simulateHeat } from '../../shared/thermal/simulate-heat.ts';
import { judgeJoint } from '../../shared/thermal/verdict.ts';
import type { JointReading } from '../../shared/thermal/verdict.ts';
import { solveMarkers } from './heat-case-markers.ts';
import type { MarkerCase } from './heat-case-markers.ts';
import { solveClosedForm, solveNetwork } from './heat-case-networks.ts';
import type { ClosedFormCase, NetworkCase } from './heat-case-networks.ts';

interface CaseSolder {
  id: string;
  solidusC: number;
  liquidusC: number;
}

export interface PlanCase {
  id: string;
  request: { design: Design; solders: CaseSolder[]; bench: Bench; plan: Plan };
  /** Counted from 1. */
  heat: number;
}

export interface HeatCases {
  constants: { grades: Record<string, { solidus: number; liquidus: number }> };
  closedForm?: ClosedFormCase[];
  explicitNetworks?: NetworkCase[];
  markers?: MarkerCase[];
  plans?: PlanCase[];
  verdicts?: (Pick<JointReading, 'peakC' | 'solidusC' | 'liquidusC' | 'flowC' | 'riseK' | 'calibrated'> & { id?: string })[];
}

/** The heat of a plan that its case asks about. */
export function solvePlan({ request: { design, solders, bench, plan }, heat }: PlanCase) {
  const expanded = expandDesign(design);
  const heats = plan.heats.map((each) => expandHeat(each, expanded));
  const { joints: targets, solder, flame, protections } = heats[heat - 1]!;
  const earlier = heats.slice(0, heat - 1);
  const before = design.joints.filter(({ made }) => made).flatMap(({ id }) => expanded.jointsOf(id));
  const run = simulateHeat({
    design: expanded.design,
    bench,
    targets,
    made: [...before, ...earlier.flatMap(({ joints }) => joints)],
    solders: solders.filter(({ id }) => id === solder),
    ...(flame && { flame }),
    ...(protections && { protections }),
  }).bySolder[solder!]!;
  const solidusOf = (joint: string) =>
    solders.find(({ id }) => id === earlier.find(({ joints }) => joints.includes(joint))?.solder)?.solidusC;
  const entries = Object.entries(run.joints);
  return {
    grade: solder!,
    reached: run.flow !== 'does_not_flow',
    flow: run.flow,
    timeToFlowS: run.timeToFlowS,
    settlesC: run.settlesC,
    energyJ: run.energyJ,
    storedJ: run.storedJ,
    lostJ: run.lostJ,
    peakC: Object.fromEntries(entries.map(([id, { peakC }]) => [id, peakC])),
    secondsAboveSolidus: Object.fromEntries(
      entries.flatMap(([id, { history }]) => {
        const solidusC = solidusOf(id);
        return solidusC === undefined ? [] : [[id, secondsAbove(history, solidusC)]];
      }),
    ),
    partPeakC: Object.fromEntries(Object.entries(run.parts).map(([id, { peakC }]) => [id, peakC])),
  };
}

/** A case that expects one number is answered with one. */
function scalarIfOne({ expect, expectRise }: ClosedFormCase, values: number[]): number | number[] {
  return Array.isArray(expect) || Array.isArray(expectRise) ? values : values[0]!;
}

const own = ({ id }: { id: string }) => id;

function* section<T>(
  name: string,
  of: readonly T[] | undefined,
  idOf: (one: T, i: number) => string,
  solve: (one: T) => object[],
) {
  for (const [i, one] of (of ?? []).entries()) {
    const startMs = performance.now();
    const answers = solve(one);
    const ms = performance.now() - startMs;
    for (const answer of answers) yield { section: name, id: idOf(one, i), ...answer, ms };
  }
}

/** Every case of a file, solved as it is reached. */
export function* solveHeatCases(cases: HeatCases): Generator<Record<string, unknown>> {
  yield* section('closedForm', cases.closedForm, own, (one) => [{ value: scalarIfOne(one, solveClosedForm(one)) }]);
  yield* section('explicitNetworks', cases.explicitNetworks, own, (one) => [{ value: solveNetwork(one) }]);
  yield* section('markers', cases.markers, own, (one) => solveMarkers(one, cases.constants.grades));
  yield* section('plans', cases.plans, own, (one) => [solvePlan(one)]);
  yield* section(
    'verdicts',
    cases.verdicts,
    ({ id }, i) => id ?? String(i + 1),
    (one) => {
      const judgement = judgeJoint({ secondsAboveSolidus: 0, load: 'none', ...one });
      return [{ value: judgement.verdict, ...judgement }];
    },
  );
}

if (import.meta.main) {
  const file = process.argv[2];
  if (file === undefined) {
    process.stderr.write('Cannot run heat cases: name a file of them\n');
    process.exit(2);
  }
  for (const line of solveHeatCases(JSON.parse(readFileSync(file, 'utf8')) as HeatCases))
    process.stdout.write(`${JSON.stringify(line)}\n`);
}
