/** A piece of the sequencing cases as a design, and its surrogate law in place of the heat model. */

import type { Design } from '../../shared/design/design.ts';
import type { PlanCheckRequest } from '../../shared/sequencing/check-plan.ts';
import type { HeatPhysics } from '../../shared/sequencing/heat-physics.ts';
import { flowC, surrogateOracle, type SurrogatePiece } from '../../src/cases/surrogate-piece.ts';
import { distanceMm, nearestWays } from '../../src/cases/surrogate-ways.ts';

export type SurrogatePlan = { joints: string[]; grade: string }[];

export function surrogateDesign(piece: SurrogatePiece): Design {
  const grades = Object.fromEntries(
    piece.joints
      .filter(({ fixed, excluded }) => fixed ?? excluded)
      .map(({ id, fixed, excluded }) => [id, { ...(fixed ? { only: fixed } : {}), ...(excluded ? { exclude: excluded } : {}) }]),
  );
  return {
    parts: piece.parts.map(({ id }) => ({ id, metal: 'sterling-925', form: { kind: 'ball', diameterMm: 3 } })),
    joints: piece.joints.map(({ id, a, b }) => ({
      id,
      kind: 'jump_ring',
      diameterMm: 1,
      gapMm: 0.05,
      ...(a === b ? { closes: a } : { between: [{ part: a }, { part: b }] as const }),
    })),
    rules: {
      before: piece.before,
      sameHeat: piece.same,
      notSameHeat: piece.notSame,
      maxJointsPerHeat: piece.maxJointsPerHeat,
      leastSilverFraction: piece.minFineness / 1000,
      grades,
    },
  };
}

export function surrogateCheckRequest(piece: SurrogatePiece, plan: SurrogatePlan): PlanCheckRequest {
  return {
    design: surrogateDesign(piece),
    solders: piece.grades.map(({ id, solidus, liquidus, fineness }) => ({
      id,
      solidusC: solidus,
      liquidusC: liquidus,
      silverFraction: fineness / 1000,
      ...(piece.stock[id] === undefined ? {} : { availableG: piece.stock[id] / 1000 }),
    })),
    bench: { torch: 'medium', support: 'brick' },
    plan: { heats: plan.map(({ joints, grade }) => ({ joints, solder: grade })) },
  };
}

const historyOf = (peakC: number) => ({
  peakC,
  history: { timesS: Float64Array.of(0), temperaturesC: Float64Array.of(peakC) },
});

export function surrogatePhysics(piece: SurrogatePiece): HeatPhysics {
  const oracle = surrogateOracle(piece);
  return {
    simulate({ targets, made }) {
      const run = oracle.run({ targets, made }, []);
      const { toPart } = nearestWays(piece)({ targets, made });
      const inFire = piece.parts.map(({ id }) => id).filter((id) => toPart(id) < Infinity);
      const bySolder = piece.grades.map((grade) => {
        const { joint, part } = run(grade.id)!;
        return [
          grade.id,
          {
            flowC: flowC(piece, grade),
            flow: 'flows',
            settlesC: null,
            timeToFlowS: 20,
            energyJ: 1000,
            storedJ: 400,
            lostJ: 600,
            joints: Object.fromEntries(made.map((id) => [id, historyOf(joint(id).peakC)])),
            parts: Object.fromEntries(inFire.map((id) => [id, { peakC: part(id).peakC }])),
          },
        ] as const;
      });
      return { inFire, bySolder: Object.fromEntries(bySolder) };
    },
    distanceMm: (_, a, b) => distanceMm(piece.joints, a)(b),
  };
}
