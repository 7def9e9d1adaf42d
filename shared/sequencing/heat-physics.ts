/** What the check and the search take from the heat model, and from the scale. */

import type { Design } from '../design/design.ts';
import type { HeatQuestion, HeatRun } from '../thermal/heat-run.ts';
import { jointDistances } from '../thermal/joint-distance.ts';
import { simulateHeat } from '../thermal/simulate-heat.ts';
import { fireOf } from './piece-graph.ts';

export interface HeatPhysics {
  simulate: (question: HeatQuestion) => HeatRun;
  /** Shortest way along the metal of the finished piece, between two joints; Infinity where there is none. mm */
  distanceMm: (design: Design, a: string, b: string) => number;
}

/** Grams of a solder that a joint takes, by its id in the expanded design; where it is not given, stock is not counted. */
export type SolderNeedG = (joint: string, solder: string) => number;

/** The heat model, each heat and each way simulated once as long as this lives and the design object is the same. */
export function heatModel(): HeatPhysics {
  const distances = new WeakMap<Design, ReturnType<typeof jointDistances>>();
  return {
    simulate: memoised(simulateHeat),
    distanceMm(design, a, b) {
      const between = distances.get(design) ?? jointDistances(design);
      distances.set(design, between);
      return between(a, b);
    },
  };
}

const byText = (a: string, b: string): number => Number(a > b) - Number(a < b);

/** Remembers every heat by what is in its fire and what is done to it; anti-flow changes no temperature. */
function memoised(simulate: HeatPhysics['simulate']): HeatPhysics['simulate'] {
  // The rules of a design, and which joints exist, do not matter to a heat.
  const byShape = new WeakMap<Design['parts'], WeakMap<Design['joints'], Map<string, HeatRun>>>();
  return (question) => {
    const { design, bench, solders, flame = null, protections = [] } = question;
    const ofParts = byShape.get(design.parts) ?? new WeakMap<Design['joints'], Map<string, HeatRun>>();
    const known = ofParts.get(design.joints) ?? new Map<string, HeatRun>();
    byShape.set(design.parts, ofParts.set(design.joints, known));
    const targets = [...question.targets].sort(byText);
    const made = [...fireOf(design, question.made, targets).made].sort(byText);
    const flows = solders.map(({ id, liquidusC }) => [id, liquidusC]);
    const thermal = protections.filter(({ kind }) => kind !== 'anti_flow');
    const key = JSON.stringify([bench, targets, made, flows, flame, thermal]);
    const run = known.get(key) ?? simulate({ ...question, targets, made, protections: thermal });
    known.set(key, run);
    return run;
  };
}
