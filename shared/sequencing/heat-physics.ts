/** What the check and the search take from the heat model, and from the scale. */

import type { Design } from '../design/design.ts';
import type { HeatQuestion, HeatRun, SolderRun } from '../thermal/heat-run.ts';
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

/**
 * Remembers every heat by what is in its fire and what is done to it; anti-flow changes no temperature. A heat with one target comes
 * to the same for a solder whatever others are asked for beside it, so solder by solder; where the flame is played between targets,
 * it is played for all that were asked together.
 */
function memoised(simulate: HeatPhysics['simulate']): HeatPhysics['simulate'] {
  // The rules of a design, and which joints exist, do not matter to a heat.
  const byShape = new WeakMap<Design['parts'], WeakMap<Design['joints'], Map<string, KnownHeat>>>();
  return (question) => {
    const { design, bench, solders, flame = null, protections = [] } = question;
    const ofParts = byShape.get(design.parts) ?? new WeakMap<Design['joints'], Map<string, KnownHeat>>();
    const known = ofParts.get(design.joints) ?? new Map<string, KnownHeat>();
    byShape.set(design.parts, ofParts.set(design.joints, known));
    const targets = [...question.targets].sort(byText);
    const made = [...fireOf(design, question.made, targets).made].sort(byText);
    const together = targets.length > 1 ? solders.map(({ liquidusC }) => liquidusC) : null;
    const thermal = protections.filter(({ kind }) => kind !== 'anti_flow');
    const key = JSON.stringify([
      bench,
      targets,
      made,
      together,
      flame,
      thermal,
      design.contacts,
      question.histories,
      question.layered,
    ]);
    const heat = known.get(key) ?? { inFire: [], byLiquidusC: new Map<number, SolderRun>() };
    known.set(key, heat);
    const missing = solders.filter(({ liquidusC }) => !heat.byLiquidusC.has(liquidusC));
    if (missing.length > 0) {
      const run = simulate({ ...question, targets, made, protections: thermal, solders: missing });
      heat.inFire = run.inFire;
      for (const { id, liquidusC } of missing) heat.byLiquidusC.set(liquidusC, run.bySolder[id]!);
    }
    return {
      inFire: heat.inFire,
      bySolder: Object.fromEntries(solders.map(({ id, liquidusC }) => [id, heat.byLiquidusC.get(liquidusC)!])),
    };
  };
}

interface KnownHeat {
  inFire: readonly string[];
  byLiquidusC: Map<number, SolderRun>;
}
