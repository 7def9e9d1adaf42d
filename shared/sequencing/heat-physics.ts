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

/** The heat model, each heat simulated once as long as this lives and the design is alike, each way once as long as it is the same object. */
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
  const heatsOf = knownByShape();
  return (question) => {
    const { design, bench, solders, flame = null, protections = [] } = question;
    const known = heatsOf(design);
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

type KnownHeats = Map<string, KnownHeat>;

/** More than a check with every fix it tries asks for; a search may have left many times as much. */
const KEPT_HEATS = 1000;

/**
 * What is known of a design, by its parts and joints: its rules do not matter to a heat. A design that comes again as another object,
 * as from one question of a page to the next, finds what the last alike has left.
 */
function knownByShape(): (design: Design) => KnownHeats {
  const byObject = new WeakMap<Design['parts'], WeakMap<Design['joints'], KnownHeats>>();
  let last: { shape: string; known: KnownHeats } | undefined;
  return ({ parts, joints }) => {
    const ofParts = byObject.get(parts) ?? new WeakMap<Design['joints'], KnownHeats>();
    byObject.set(parts, ofParts);
    let known = ofParts.get(joints);
    if (!known) {
      const shape = JSON.stringify([parts, joints]);
      known = last?.shape === shape && last.known.size <= KEPT_HEATS ? last.known : new Map<string, KnownHeat>();
      last = { shape, known };
      ofParts.set(joints, known);
    }
    return known;
  };
}
