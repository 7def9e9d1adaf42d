/**
 * A piece of the sequencing cases as a mixed-integer program: a tree of joints made one in a heat, at one margin level, with the fewest
 * protections. Written from the law alone; shares no code with the search.
 */

import type { SurrogatePiece } from '../../src/cases/surrogate-piece.ts';

/** Σ coefficients · variables ≥ least. */
export interface Row {
  coefficients: Map<string, number>;
  least: number;
}

export interface Program {
  /** All of them 0 or 1. */
  variables: Set<string>;
  /** Minimised. */
  costs: Map<string, number>;
  rows: Row[];
}

type Joint = SurrogatePiece['joints'][number];

/** Joints on the way from one to another, both left out, and how long it is; in a tree there is one way. mm */
function wayBetween(joints: readonly Joint[], from: Joint, to: Joint): { mm: number; through: Joint[] } | null {
  const armOf = (joint: Joint, part: string): number => (joint.a === part ? joint.la : joint.lb);
  const walk = (joint: Joint, cameBy: string | null, mm: number, through: Joint[]): { mm: number; through: Joint[] } | null => {
    for (const part of [joint.a, joint.b]) {
      if (part === cameBy) continue;
      for (const next of joints) {
        if (next === joint || (next.a !== part && next.b !== part)) continue;
        const wayMm = mm + armOf(joint, part) + armOf(next, part);
        if (next === to) return { mm: wayMm, through };
        const found = walk(next, part, wayMm, [...through, next]);
        if (found) return found;
      }
    }
    return null;
  };
  return walk(from, null, 0, []);
}

export function sequenceProgram(piece: SurrogatePiece, levelK: number): Program {
  const program: Program = { variables: new Set(), costs: new Map(), rows: [] };
  const variable = (name: string, cost = 0): string => {
    program.variables.add(name);
    if (cost > 0) program.costs.set(name, cost);
    return name;
  };
  const atLeast = (least: number, ...terms: [number, string][]): void => {
    const coefficients = new Map<string, number>();
    for (const [factor, name] of terms) coefficients.set(name, (coefficients.get(name) ?? 0) + factor);
    program.rows.push({ coefficients, least });
  };
  const { joints, grades, thermal, protections } = piece;
  const isBefore = (p: Joint, j: Joint): string => variable(`b_${p.id}_${j.id}`);
  const isOf = (j: Joint, grade: { id: string }): string => variable(`x_${j.id}_${grade.id}`);
  for (const j of joints) {
    atLeast(1, ...grades.map((grade): [number, string] => [1, isOf(j, grade)]));
    atLeast(-1, ...grades.map((grade): [number, string] => [-1, isOf(j, grade)]));
    for (const grade of grades) {
      const solidus = Math.min(...piece.parts.filter(({ id }) => id === j.a || id === j.b).map(({ baseSolidus }) => baseSolidus));
      const isExcluded = (j.excluded ?? []).includes(grade.id) || (j.fixed ?? grade.id) !== grade.id;
      if (isExcluded || grade.liquidus + thermal.superheat > solidus - piece.baseMargin) atLeast(0, [-1, isOf(j, grade)]);
    }
    for (const other of joints) {
      if (other.id <= j.id) continue;
      atLeast(1, [1, isBefore(j, other)], [1, isBefore(other, j)]);
      atLeast(-1, [-1, isBefore(j, other)], [-1, isBefore(other, j)]);
    }
  }
  for (const a of joints)
    for (const b of joints)
      for (const c of joints)
        if (a !== b && b !== c && a !== c) atLeast(-1, [-1, isBefore(a, b)], [-1, isBefore(b, c)], [1, isBefore(a, c)]);
  for (const [first, then] of piece.before) atLeast(1, [1, `b_${first}_${then}`]);
  const { sink, shield, antiflow, flame } = protections;
  for (const j of joints) {
    const laid: [string, number][] = [];
    for (const p of joints) {
      if (p === j) continue;
      const { mm, through } = wayBetween(joints, p, j)!;
      const fire = variable(`f_${p.id}_${j.id}`);
      const before: [number, string][] = [p, ...through].map((q) => [-1, isBefore(q, j)]);
      atLeast(-through.length, [1, fire], ...before);
      const means: [string, string][] = [
        ...(flame ? [['flame', variable(`flame_${j.id}`, 1)] as [string, string]] : []),
        ...(shield ? [['shield', variable(`shield_${p.id}_${j.id}`, 1)] as [string, string]] : []),
        ...(sink && mm >= sink.minDist ? [['sink', variable(`sink_${p.id}_${j.id}`, 1)] as [string, string]] : []),
        ...(antiflow ? [['antiflow', variable(`antiflow_${p.id}_${j.id}`, 1)] as [string, string]] : []),
      ];
      for (const [kind, name] of means) if (kind !== 'flame') laid.push([name, ['shield', 'sink', 'antiflow'].indexOf(kind)]);
      const fall = thermal.phi === 'sech' ? 1 / Math.cosh(mm / thermal.L) : Math.exp(-mm / thermal.L);
      for (const later of grades) {
        for (const earlier of grades) {
          const stands = (kinds: readonly string[]): boolean => {
            const factor =
              (kinds.includes('flame') ? flame!.factor : 1) *
              (kinds.includes('sink') ? sink!.factor : 1) *
              (kinds.includes('shield') ? shield!.factor : 1);
            const peakC = thermal.tAmb + (later.liquidus + thermal.superheat - thermal.tAmb) * fall * factor;
            return earlier.solidus + (kinds.includes('antiflow') ? antiflow!.extraK : 0) - peakC >= levelK - 1e-9;
          };
          // Whatever does not suffice: something that is not among it has to be used as well.
          for (let set = 0; set < 2 ** means.length; set++) {
            const [used, others] = [means.filter((_, k) => (set >> k) & 1), means.filter((_, k) => !((set >> k) & 1))];
            if (stands(used.map(([kind]) => kind))) continue;
            atLeast(
              -2,
              ...others.map(([, name]): [number, string] => [1, name]),
              [-1, fire],
              [-1, isOf(j, later)],
              [-1, isOf(p, earlier)],
            );
          }
        }
      }
    }
    for (const [kind, most] of [shield?.max, sink?.max, antiflow?.max].entries()) {
      const names = laid.filter(([, each]) => each === kind).map(([name]): [number, string] => [-1, name]);
      if (most !== undefined && names.length > most) atLeast(-most, ...names);
    }
  }
  return program;
}

const sum = (terms: Iterable<[string, number]>): string =>
  [...terms].map(([name, factor]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`).join(' ');

/** In the text form that linear programs are exchanged in. */
export function asLpText({ variables, costs, rows }: Program): string {
  const constraints = rows.map(({ coefficients, least }) => `${sum(coefficients)} >= ${least}`);
  const objective = costs.size > 0 ? sum(costs) : `0 ${[...variables][0]}`;
  return ['Minimize', objective, 'Subject To', ...constraints, 'Binary', ...variables, 'End'].join('\n');
}
