/** A piece in the format of the sequencing cases, with the surrogate law that stands in for the heat model there. */

import type { HeatOracle, Means, Reached, Section, Technique } from '../../shared/sequencing/heat-oracle.ts';
import type { JointLimit, SequenceProblem } from '../../shared/sequencing/sequence-problem.ts';
import { distanceMm, nearestWays, type Ways } from './surrogate-ways.ts';

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

export const flowC = (piece: SurrogatePiece, grade: { liquidus: number }): number => grade.liquidus + piece.thermal.superheat;

function drop(piece: SurrogatePiece, wayMm: number): number {
  const { phi, L } = piece.thermal;
  return phi === 'sech' ? 1 / Math.cosh(wayMm / L) : Math.exp(-wayMm / L);
}

const reached = (peakC: number): Reached => ({ peakC, uncertaintyK: 0, secondsAbove: () => 0 });

export function surrogateOracle(piece: SurrogatePiece): HeatOracle {
  const { sink, shield, antiflow, flame } = piece.protections;
  const wayTo = nearestWays(piece);
  // The last section asked for: its techniques are asked for one after the other.
  let last: { section: Section; way: Ways } | null = null;
  const waysOf = (section: Section): Ways => {
    if (last?.section !== section) last = { section, way: wayTo(section) };
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
  const flowOf = new Map(piece.grades.map((grade) => [grade.id, flowC(piece, grade)]));
  const { tAmb } = piece.thermal;
  const guardsOf = new Map<string, Means[]>();
  const guards = (id: string, isJoint: boolean, isFar: boolean): readonly Means[] => {
    const key = `${id}:${isJoint}:${isFar}`;
    let means = guardsOf.get(key);
    if (!means) {
      const kinds: Means['kind'][] = [
        ...(shield ? ['shield' as const] : []),
        ...(sink && isFar ? ['sink' as const] : []),
        ...(antiflow && isJoint ? ['anti_flow' as const] : []),
      ];
      means = kinds.map((kind) => ({ kind, guards: id, reach: 'guarded' }));
      guardsOf.set(key, means);
    }
    return means;
  };
  const isFar = (wayMm: number): boolean => sink !== undefined && wayMm >= sink.minDist;
  const limited = piece.parts.filter(({ tMax }) => tMax !== undefined);
  return {
    workUnitsPerRun: 1,
    isMonotone: true,
    sectionMeansTogether: 1,
    run(section, technique) {
      const way = waysOf(section);
      const { all, own } = factorsOf(technique);
      return (solder) => {
        const aboveC = flowOf.get(solder)! - tAmb;
        const at = (wayMm: number, id: string): Reached => reached(tAmb + aboveC * drop(piece, wayMm) * all * (own.get(id) ?? 1));
        return { possible: true, joint: (id) => at(way.toJoint(id), id), part: (id) => at(way.toPart(id), id) };
      };
    },
    protect(section) {
      const way = waysOf(section);
      const warmed = limited.filter(({ id }) => way.toPart(id) < Infinity);
      return [
        ...(flame && section.made.length + warmed.length > 0 ? [AWAY] : []),
        ...section.made.flatMap((id) => guards(id, true, isFar(way.toJoint(id)))),
        ...warmed.flatMap(({ id }) => guards(id, false, isFar(way.toPart(id)))),
      ];
    },
  };
}

const AWAY: Means = { kind: 'flame_away', guards: '', reach: 'section' };

/** Joints that hold a part of nothing else to the same part, all in every way the same, are of one kind; others have none. */
function interchangeable({
  parts,
  joints,
  before,
  same,
  notSame,
}: SurrogatePiece): (joint: SurrogateJoint) => number | undefined {
  const ruled = new Set([...before, ...same, ...notSame].flat());
  const uses = new Map<string, number>();
  for (const { a, b } of joints) for (const id of [a, b]) uses.set(id, (uses.get(id) ?? 0) + 1);
  const likeness = new Map<string, string>();
  for (const joint of joints) {
    const { id, a, b, la, lb, ...rest } = joint;
    if (ruled.has(id) || isDone(joint) || a === b) continue;
    const [on, onMm, free, freeMm] = uses.get(b) === 1 ? [a, la, b, lb] : [b, lb, a, la];
    if (uses.get(free) !== 1) continue;
    const { id: _own, ...part } = parts.find((each) => each.id === free)!;
    likeness.set(id, JSON.stringify([on, onMm, freeMm, part, rest]));
  }
  const kinds = [...new Set(likeness.values())];
  return ({ id }) => (likeness.has(id) ? kinds.indexOf(likeness.get(id)!) : undefined);
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
    const wayTo = distanceMm(piece.joints, id);
    const far = open.filter((other) => wayTo(other.id) > (piece.maxSpread ?? Infinity));
    return indexesOf([...others, ...far.map((other) => other.id)].filter((other) => other !== id));
  });
  const { protections } = piece;
  const kindOf = interchangeable(piece);
  return {
    joints: open.map((joint) => ({
      id: joint.id,
      parts: [joint.a, joint.b],
      allowed: grades.reduce((mask, grade, g) => (mayHave(joint, grade) ? mask | (1 << g) : mask), 0),
      limits: grades.map(({ solidus }) => limit(solidus)),
      needG: grades.map(() => joint.mass),
      kind: kindOf(joint),
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
