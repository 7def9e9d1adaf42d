/** Every plan of a small piece, one by one, under the surrogate law. Shares no code with the search. */

import type { SurrogatePiece } from '../../src/cases/surrogate-piece.ts';

export type Objective = [
  marginLevel: number,
  protections: number,
  heats: number,
  grades: number,
  preference: number,
  timeS: number,
];

export interface State {
  /** Joint to grade or, for one that exists already, to a solidus. */
  made: Map<string, number>;
}

type Joint = SurrogatePiece['joints'][number];
type Grade = SurrogatePiece['grades'][number];

function floyd(piece: SurrogatePiece, present: Joint[]): Map<string, Map<string, number>> {
  const nodes = [...present.map(({ id }) => `j ${id}`), ...piece.parts.map(({ id }) => `p ${id}`)];
  const d = new Map(nodes.map((u) => [u, new Map(nodes.map((v) => [v, u === v ? 0 : Infinity]))]));
  const link = (u: string, v: string, mm: number): void => {
    d.get(u)!.set(v, Math.min(mm, d.get(u)!.get(v)!));
    d.get(v)!.set(u, Math.min(mm, d.get(v)!.get(u)!));
  };
  for (const { id, a, b, la, lb } of present) {
    link(`j ${id}`, `p ${a}`, la);
    link(`j ${id}`, `p ${b}`, lb);
  }
  for (const k of nodes)
    for (const u of nodes)
      for (const v of nodes) {
        const via = d.get(u)!.get(k)! + d.get(k)!.get(v)!;
        if (via < d.get(u)!.get(v)!) d.get(u)!.set(v, via);
      }
  return d;
}

/** Fewest protections with which one heat keeps every margin at the level; Infinity if none do. */
export function fewestProtections(piece: SurrogatePiece, state: State, targets: Joint[], grade: Grade, levelK: number): number {
  const present = piece.joints.filter((joint) => state.made.has(joint.id) || targets.includes(joint));
  const d = floyd(piece, present);
  const way = (node: string): number => Math.min(...targets.map(({ id }) => d.get(`j ${id}`)!.get(node)!));
  const flowC = grade.liquidus + piece.thermal.superheat;
  const guarded = [
    ...[...state.made].map(([id, limitC]) => ({ mm: way(`j ${id}`), limitC, joint: true })),
    ...piece.parts
      .filter(({ tMax }) => tMax !== undefined)
      .map(({ id, tMax }) => ({ mm: way(`p ${id}`), limitC: tMax!, joint: false })),
  ].filter(({ mm }) => mm < Infinity);
  const { sink, shield, antiflow, flame } = piece.protections;
  const { tAmb, phi, L } = piece.thermal;
  let fewest = Infinity;
  const assign = (i: number, used: number[], count: number, flameFactor: number): void => {
    if (count >= fewest) return;
    if (i === guarded.length) {
      fewest = count;
      return;
    }
    const { mm, limitC, joint } = guarded[i]!;
    for (let way = 0; way < 8; way++) {
      const [s, h, a] = [way & 1, (way >> 1) & 1, (way >> 2) & 1];
      if (s && (!sink || mm < sink.minDist || used[0]! >= sink.max)) continue;
      if (h && (!shield || used[1]! >= shield.max)) continue;
      if (a && (!antiflow || !joint || used[2]! >= antiflow.max)) continue;
      const fall = phi === 'sech' ? 2 / (Math.exp(mm / L) + Math.exp(-mm / L)) : Math.exp(-mm / L);
      const t = tAmb + (flowC - tAmb) * fall * flameFactor * (s ? sink!.factor : 1) * (h ? shield!.factor : 1);
      if (limitC + (a ? antiflow!.extraK : 0) - t < levelK - 1e-9) continue;
      assign(i + 1, [used[0]! + s, used[1]! + h, used[2]! + a], count + s + h + a, flameFactor);
    }
  };
  assign(0, [0, 0, 0], 0, 1);
  if (flame) assign(0, [0, 0, 0], 1, flame.factor);
  return fewest;
}

export function hangTogether(piece: SurrogatePiece, state: State, targets: Joint[]): { parts: number } | null {
  const d = floyd(
    piece,
    piece.joints.filter((joint) => state.made.has(joint.id) || targets.includes(joint)),
  );
  const from = d.get(`j ${targets[0]!.id}`)!;
  if (targets.some(({ id }) => from.get(`j ${id}`) === Infinity)) return null;
  return { parts: piece.parts.filter(({ id }) => from.get(`p ${id}`)! < Infinity).length };
}

export function mayShareHeat(piece: SurrogatePiece, targets: Joint[]): boolean {
  const has = (id: string): boolean => targets.some((joint) => joint.id === id);
  if (piece.before.some(([a, b]) => has(a) && has(b))) return false;
  if (piece.notSame.some((pair) => pair.every(has))) return false;
  if (piece.same.some((group) => group.some(has) && !group.every(has))) return false;
  const d = floyd(piece, piece.joints);
  return targets.every((u) => targets.every((v) => d.get(`j ${u.id}`)!.get(`j ${v.id}`)! <= (piece.maxSpread ?? Infinity)));
}

export const mayHave = (piece: SurrogatePiece, joint: Joint, grade: Grade): boolean =>
  (joint.fixed ?? grade.id) === grade.id &&
  !(joint.excluded ?? []).includes(grade.id) &&
  grade.fineness >= piece.minFineness &&
  grade.fineness >= (joint.minFineness ?? 0) &&
  piece.parts.every(
    ({ id, baseSolidus }) =>
      (id !== joint.a && id !== joint.b) || grade.liquidus + piece.thermal.superheat <= baseSolidus - piece.baseMargin,
  );

const before = (a: readonly number[], b: readonly number[]): boolean => {
  const i = a.findIndex((value, k) => value !== b[k]);
  return i >= 0 && a[i]! < b[i]!;
};

export function bruteForceAtLevel(piece: SurrogatePiece, levelK: number): Objective | null {
  let best: number[] | null = null;
  const open = piece.joints.filter(({ done, doneSolidus }) => done === undefined && doneSolidus === undefined);
  const memo = new Map<string, number>();
  const next = (
    state: State,
    left: Joint[],
    cost: { prot: number; heats: number; grades: Set<string>; pref: number; time: number; use: Record<string, number> },
  ): void => {
    if (best && before(best, [cost.prot, cost.heats])) return;
    if (left.length === 0) {
      const value = [cost.prot, cost.heats, cost.grades.size, cost.pref, cost.time];
      if (!best || before(value, best)) best = value;
      return;
    }
    for (let set = 1; set < 2 ** left.length; set++) {
      const targets = left.filter((_, i) => (set >> i) & 1);
      if (targets.length > piece.maxJointsPerHeat || !mayShareHeat(piece, targets)) continue;
      const rest = left.filter((joint) => !targets.includes(joint));
      if (piece.before.some(([a, b]) => rest.some(({ id }) => id === a) && targets.some(({ id }) => id === b))) continue;
      const section = hangTogether(piece, state, targets);
      if (!section) continue;
      for (const grade of piece.grades) {
        if (!targets.every((joint) => mayHave(piece, joint, grade))) continue;
        const mg = (cost.use[grade.id] ?? 0) + targets.reduce((sum, { mass }) => sum + mass, 0);
        if (mg > (piece.stock[grade.id] ?? Infinity) + 1e-9) continue;
        const key = `${[...state.made]
          .map(String)
          .toSorted((a, b) => (a < b ? -1 : 1))
          .join(';')}|${set}|${grade.id}|${left.map(({ id }) => id).join()}`;
        const prot = memo.get(key) ?? fewestProtections(piece, state, targets, grade, levelK);
        memo.set(key, prot);
        if (prot === Infinity) continue;
        const made = new Map(state.made);
        for (const { id } of targets) made.set(id, grade.solidus);
        next({ made }, rest, {
          prot: cost.prot + prot,
          heats: cost.heats + 1,
          grades: new Set([...cost.grades, grade.id]),
          pref: cost.pref + grade.rank * targets.length,
          time: cost.time + 90 + 15 * targets.length + 3 * section.parts + 45 * prot,
          use: { ...cost.use, [grade.id]: mg },
        });
      }
    }
  };
  const made = new Map<string, number>();
  for (const { id, done, doneSolidus } of piece.joints) {
    if (doneSolidus !== undefined) made.set(id, doneSolidus);
    else if (done !== undefined) made.set(id, piece.grades.find((grade) => grade.id === done)!.solidus);
  }
  next({ made }, open, { prot: 0, heats: 0, grades: new Set(), pref: 0, time: 0, use: {} });
  return best && ([levelK, ...(best as number[])] as Objective);
}

export function bruteForce(piece: SurrogatePiece): Objective | null {
  for (let levelK = piece.margin.cap; levelK >= piece.margin.min; levelK -= piece.margin.step) {
    const best = bruteForceAtLevel(piece, levelK);
    if (best) return best;
  }
  return null;
}
