/** A piece in the format of the sequencing cases, with the surrogate law that stands in for the heat model there. */

import type { HeatOracle, HeatTemperatures, Means, Reached, Section, Technique } from '../../shared/sequencing/heat-oracle.ts';
import type { JointLimit, SequenceProblem } from '../../shared/sequencing/sequence-problem.ts';

export interface SurrogatePiece {
  id: string;
  thermal: { tAmb: number; superheat: number; phi: 'sech' | 'exp'; L: number };
  margin: { min: number; cap: number; step: number };
  maxJointsPerHeat: number;
  maxSpread?: number;
  protections: {
    sink?: { factor: number; max: number; minDist: number };
    shield?: { factor: number; max: number };
    antiflow?: { extraK: number; max: number };
    flame?: { factor: number };
  };
  grades: { id: string; solidus: number; liquidus: number; fineness: number; rank: number }[];
  stock: Record<string, number>;
  minFineness: number;
  baseMargin: number;
  parts: { id: string; baseSolidus: number; tMax?: number }[];
  joints: SurrogateJoint[];
  before: [string, string][];
  same: string[][];
  notSame: string[][];
}

export interface SurrogateJoint {
  id: string;
  a: string;
  b: string;
  la: number;
  lb: number;
  mass: number;
  fixed?: string;
  excluded?: string[];
  minFineness?: number;
  done?: string;
  doneSolidus?: number;
}

export const isDone = ({ done, doneSolidus }: SurrogateJoint): boolean => done !== undefined || doneSolidus !== undefined;

/** Shortest ways along arms, through the joints given; from joints to `joint:<id>` and `part:<id>`. mm */
export function distancesMm(joints: readonly SurrogateJoint[], from: string): Map<string, number> {
  const edges = joints.flatMap(({ id, a, b, la, lb }) => [
    { joint: `joint:${id}`, part: `part:${a}`, armMm: la },
    { joint: `joint:${id}`, part: `part:${b}`, armMm: lb },
  ]);
  const distance = new Map([[`joint:${from}`, 0]]);
  // Bellman-Ford: pieces are small.
  for (let changed = true; changed;) {
    changed = false;
    for (const { joint, part, armMm } of edges) {
      for (const [u, v] of [
        [joint, part],
        [part, joint],
      ] as const) {
        const way = (distance.get(u) ?? Infinity) + armMm;
        if (way < (distance.get(v) ?? Infinity)) {
          distance.set(v, way);
          changed = true;
        }
      }
    }
  }
  return distance;
}

function nearestMm(piece: SurrogatePiece, { made, targets }: Section): Map<string, number> {
  const present = piece.joints.filter(({ id }) => made.includes(id) || targets.includes(id));
  const nearest = new Map<string, number>();
  for (const target of targets) {
    for (const [node, way] of distancesMm(present, target)) nearest.set(node, Math.min(way, nearest.get(node) ?? Infinity));
  }
  return nearest;
}

export const flowC = (piece: SurrogatePiece, grade: { liquidus: number }): number => grade.liquidus + piece.thermal.superheat;

function drop(piece: SurrogatePiece, wayMm: number): number {
  const { phi, L } = piece.thermal;
  return phi === 'sech' ? 1 / Math.cosh(wayMm / L) : Math.exp(-wayMm / L);
}

const reached = (peakC: number): Reached => ({ peakC, uncertaintyK: 0, secondsAbove: () => 0 });

export function surrogateOracle(piece: SurrogatePiece): HeatOracle {
  const { sink, shield, antiflow, flame } = piece.protections;
  // The last section asked for: its techniques are asked for one after the other.
  let last: { section: Section; way: Map<string, number> } | null = null;
  const wayTo = (section: Section): Map<string, number> => {
    if (last?.section !== section) last = { section, way: nearestMm(piece, section) };
    return last.way;
  };
  const factorsOf = (technique: Technique): { all: number; own: Map<string, number> } => {
    let all = 1;
    const own = new Map<string, number>();
    for (const { kind, guards } of technique) {
      if (kind === 'flame_away') all *= flame!.factor;
      else if (kind !== 'anti_flow') own.set(guards, (own.get(guards) ?? 1) * (kind === 'sink' ? sink!.factor : shield!.factor));
    }
    return { all, own };
  };
  const temperatureC = (grade: { liquidus: number }, wayMm: number, times: number): number =>
    piece.thermal.tAmb + (flowC(piece, grade) - piece.thermal.tAmb) * drop(piece, wayMm) * times;
  return {
    workUnitsPerRun: 1,
    sectionMeansTogether: 1,
    run(section, technique) {
      const way = wayTo(section);
      const { all, own } = factorsOf(technique);
      const at = (grade: { liquidus: number }, node: string, id: string): Reached =>
        reached(temperatureC(grade, way.get(node)!, all * (own.get(id) ?? 1)));
      const parts = piece.parts.filter(({ id }) => way.has(`part:${id}`));
      return Object.fromEntries(
        piece.grades.map((grade): [string, HeatTemperatures] => [
          grade.id,
          {
            possible: true,
            joints: Object.fromEntries(section.made.map((id) => [id, at(grade, `joint:${id}`, id)])),
            parts: Object.fromEntries(parts.map(({ id }) => [id, at(grade, `part:${id}`, id)])),
          },
        ]),
      );
    },
    protect(section) {
      const way = wayTo(section);
      const guarded = [
        ...section.made.map((id) => ({ id, node: `joint:${id}`, joint: true })),
        ...piece.parts
          .filter(({ id, tMax }) => tMax !== undefined && way.has(`part:${id}`))
          .map(({ id }) => ({ id, node: `part:${id}`, joint: false })),
      ];
      const means: Means[] = flame && guarded.length > 0 ? [{ kind: 'flame_away', guards: '', reach: 'section' }] : [];
      for (const { id, node, joint } of guarded) {
        if (shield) means.push({ kind: 'shield', guards: id, reach: 'guarded' });
        if (sink && way.get(node)! >= sink.minDist) means.push({ kind: 'sink', guards: id, reach: 'guarded' });
        if (antiflow && joint) means.push({ kind: 'anti_flow', guards: id, reach: 'guarded' });
      }
      return means;
    },
    bound(section, solder, id) {
      const grade = piece.grades.find((each) => each.id === solder)!;
      const way = wayTo(section);
      const wayMm = way.get(`joint:${id}`) ?? way.get(`part:${id}`)!;
      return temperatureC(grade, wayMm, (flame?.factor ?? 1) * (sink?.factor ?? 1) * (shield?.factor ?? 1));
    },
  };
}

export function surrogateProblem(piece: SurrogatePiece): SequenceProblem {
  const grades = [...piece.grades].sort((a, b) => a.rank - b.rank || (a.id < b.id ? -1 : 1));
  const byId = [...piece.joints].sort((a, b) => (a.id < b.id ? -1 : 1));
  const open = byId.filter((joint) => !isDone(joint));
  const indexesOf = (ids: readonly string[]): number[] =>
    [...new Set(ids)].map((id) => open.findIndex((joint) => joint.id === id)).filter((j) => j >= 0);
  const extraK = piece.protections.antiflow?.extraK;
  const limit = (limitC: number): JointLimit => ({
    limitC,
    held: extraK === undefined ? null : { limitC: limitC + extraK, secondsOverC: limitC, budgetS: Infinity },
  });
  const mayHave = (joint: SurrogateJoint, grade: SurrogatePiece['grades'][number]): boolean =>
    (joint.fixed === undefined || joint.fixed === grade.id) &&
    !joint.excluded?.includes(grade.id) &&
    grade.fineness >= Math.max(piece.minFineness, joint.minFineness ?? 0) &&
    piece.parts
      .filter(({ id }) => id === joint.a || id === joint.b)
      .every(({ baseSolidus }) => flowC(piece, grade) <= baseSolidus - piece.baseMargin);
  const apart = open.map(({ id }) => {
    const others = piece.notSame.filter((pair) => pair.includes(id)).flat();
    const way = distancesMm(piece.joints, id);
    const far = open.filter((other) => (way.get(`joint:${other.id}`) ?? Infinity) > (piece.maxSpread ?? Infinity));
    return indexesOf([...others, ...far.map((other) => other.id)].filter((other) => other !== id));
  });
  const { protections } = piece;
  return {
    joints: open.map((joint) => ({
      id: joint.id,
      parts: [joint.a, joint.b],
      allowed: grades.reduce((mask, grade, g) => (mayHave(joint, grade) ? mask | (1 << g) : mask), 0),
      limits: grades.map(({ solidus }) => limit(solidus)),
      needG: grades.map(() => joint.mass),
    })),
    made: byId.filter(isDone).map((joint) => ({
      id: joint.id,
      parts: [joint.a, joint.b],
      limit: limit(joint.doneSolidus ?? piece.grades.find(({ id }) => id === joint.done)!.solidus),
    })),
    parts: piece.parts.map(({ id, tMax }) => ({ id, limitC: tMax ?? Infinity, closes: false })),
    grades: grades.map(({ id, rank }) => ({ id, rank, availableG: piece.stock[id] ?? Infinity })),
    after: open.map(({ id }) => indexesOf(piece.before.filter(([earlier]) => earlier === id).map(([, later]) => later))),
    together: piece.same.map(indexesOf),
    apart,
    maxJointsPerHeat: piece.maxJointsPerHeat,
    maxMeans: {
      flame_away: protections.flame ? 1 : 0,
      shield: protections.shield?.max ?? 0,
      sink: protections.sink?.max ?? 0,
      anti_flow: protections.antiflow?.max ?? 0,
    },
    margin: { leastK: piece.margin.min, targetK: piece.margin.cap, stepK: piece.margin.step },
    heatTime: { heatS: 90, jointS: 15, partS: 3, protectionS: 45 },
  };
}
