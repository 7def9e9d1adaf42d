/** Answers the search's questions with the heat model. */

import type { Design } from '../design/design.ts';
import type { Bench, Flame, Protection } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import { partSolidusC } from '../materials/metal.ts';
import { secondsAbove } from '../thermal/heat-run.ts';
import { judgePart } from '../thermal/verdict.ts';
import { uncertaintyK } from '../thermal/uncertainty.ts';
import type { HeatAnswer, HeatOracle, Means, Reached, Section, Technique } from './heat-oracle.ts';
import type { HeatPhysics } from './heat-physics.ts';
import { endsOf } from '../design/joint-ends.ts';
import { fireOf } from './piece-graph.ts';
import type { ProtectionOption } from './plan-search-request.ts';

/** How far the flame is tilted when it is kept away from something. */
export const AWAY_TILT_DEG = 45;

/** Sinks nearer than this to a target keep it from flowing more than they spare anything. */
const USUAL_LEAST_DISTANCE_MM = 8;

/** What a run of the heat model costs beside one option looked at. */
const WORK_UNITS_PER_RUN = 500;

export interface HeatModelOracleInput {
  /** Expanded. */
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  protections: readonly ProtectionOption[];
  physics: HeatPhysics;
}

/**
 * Protections asked for: the flame tilted 45° away from an earlier joint or a limited part; a shield before one; tweezers on an earlier
 * joint; anti-flow on one. No joint nearer to a target than the option's `leastDistanceMm` (0, of a sink 8 mm, where not given) is
 * guarded. Of those that change temperatures throughout (all but anti-flow) one heat takes at most three in a piece of up to four
 * joints, otherwise two.
 */
export function heatModelOracle({ design, solders, bench, protections, physics }: HeatModelOracleInput): HeatOracle {
  const calibrated = bench.calibration !== undefined && bench.calibration !== null;
  const reachedOf = (peakC: number, flowC: number, seconds: (limitC: number) => number): Reached => ({
    peakC,
    uncertaintyK: uncertaintyK({ flowC, peakC, calibrated }),
    secondsAbove: seconds,
  });
  const run = (section: Section, technique: Technique): HeatAnswer => {
    const { bySolder } = physics.simulate({ design, bench, solders, ...section, ...heatWith(technique) });
    return (solder) => {
      const heat = bySolder[solder];
      if (!heat) return null;
      const { flow, flowC, joints, parts } = heat;
      return {
        possible: flow !== 'does_not_flow' && noneMelts(section.targets, parts, flowC),
        joint(id) {
          const { peakC, history } = joints[id]!;
          return reachedOf(peakC, flowC, (limitC) => secondsAbove(history, limitC));
        },
        part: (id) => reachedOf(parts[id]!.peakC, flowC, () => 0),
      };
    };
  };
  const noneMelts = (targets: readonly string[], parts: Readonly<Record<string, { peakC: number }>>, flowC: number): boolean => {
    const targeted = new Set(design.joints.filter(({ id }) => targets.includes(id)).flatMap((joint) => endsOf(joint)));
    return design.parts.every((part) => {
      const warmed = parts[part.id];
      const limitC = partSolidusC(part);
      return (
        !warmed ||
        judgePart({ ...warmed, limitC, ...(targeted.has(part.id) ? { targetFlowC: flowC } : {}) }).severity !== 'problem'
      );
    });
  };
  const protect = ({ made, targets }: Section): Means[] => {
    const limited = new Set(design.parts.filter(({ maxC }) => maxC !== undefined).map(({ id }) => id));
    const guardedParts = fireOf(design, made, targets).parts.filter((id) => limited.has(id));
    const isFar = (id: string, leastMm: number): boolean =>
      leastMm === 0 || targets.every((target) => physics.distanceMm(design, target, id) >= leastMm);
    const joints = (kind: Means['kind']): readonly string[] => {
      const option = protections.find((each) => each.kind === kind);
      const leastMm = option?.leastDistanceMm ?? (kind === 'sink' ? USUAL_LEAST_DISTANCE_MM : 0);
      return option ? made.filter((id) => isFar(id, leastMm)) : [];
    };
    const parts = (kind: Means['kind']): readonly string[] =>
      protections.some((each) => each.kind === kind) ? guardedParts : [];
    return [
      ...meansOf('flame_away', 'section', [...joints('flame_away'), ...parts('flame_away')]),
      ...meansOf('shield', 'section', [...joints('shield'), ...parts('shield')]),
      ...meansOf('sink', 'section', joints('sink')),
      ...meansOf('anti_flow', 'guarded', joints('anti_flow')),
    ];
  };
  return {
    run,
    protect,
    // A part that is added takes heat as well.
    isMonotone: false,
    sectionMeansTogether: sectionMeansTogether(design),
    workUnitsPerRun: WORK_UNITS_PER_RUN,
  };
}

/** Most means that change a whole section used together in one heat: three in a piece of up to four joints, in a larger one two. */
export function sectionMeansTogether({ joints }: Pick<Design, 'joints'>): 2 | 3 {
  return joints.length <= 4 ? 3 : 2;
}

function meansOf(kind: Means['kind'], reach: Means['reach'], ids: readonly string[]): Means[] {
  return ids.map((guards) => ({ kind, guards, reach }));
}

/** The flame and the protections of a heat done with a technique. */
export function heatWith(technique: Technique): { flame?: Flame; protections?: Protection[] } {
  const away = technique.find(({ kind }) => kind === 'flame_away');
  const protections = technique.flatMap(({ kind, guards }): Protection[] => {
    if (kind === 'flame_away') return [];
    return [kind === 'sink' ? { kind, sink: 'tweezers', at: { joint: guards } } : { kind, guards }];
  });
  return {
    ...(away ? { flame: { tiltDeg: AWAY_TILT_DEG, awayFrom: away.guards } } : {}),
    ...(protections.length > 0 ? { protections } : {}),
  };
}
