/** The rules of a piece of the sequencing cases, to be let go one by one, under its surrogate law. */

import type { Posable } from '../../shared/sequencing/find-conflict.ts';
import { remembering, type Purse } from '../../shared/sequencing/trial.ts';
import { surrogateOracle, surrogateProblem, type SurrogatePiece } from '../../src/cases/surrogate-piece.ts';

type Change = (piece: SurrogatePiece) => SurrogatePiece;

function rulesOf(piece: SurrogatePiece): Map<string, Change> {
  const rules = new Map<string, Change>();
  for (const key of ['before', 'same', 'notSame'] as const) {
    for (const rule of piece[key]) {
      rules.set(`${key} ${rule.join()}`, (from) => ({ ...from, [key]: from[key].filter((each) => each.join() !== rule.join()) }));
    }
  }
  for (const { id } of piece.joints) {
    for (const key of ['fixed', 'excluded', 'minFineness'] as const) {
      if (piece.joints.find((joint) => joint.id === id)![key] === undefined) continue;
      rules.set(`${key} ${id}`, (from) => ({
        ...from,
        joints: from.joints.map((joint) => {
          const { [key]: _gone, ...rest } = joint;
          return joint.id === id ? rest : joint;
        }),
      }));
    }
  }
  for (const { id, tMax } of piece.parts) {
    if (tMax === undefined) continue;
    rules.set(`tMax ${id}`, (from) => ({
      ...from,
      parts: from.parts.map((part) => (part.id === id ? { id, baseSolidus: part.baseSolidus } : part)),
    }));
  }
  for (const grade of Object.keys(piece.stock)) {
    rules.set(`stock ${grade}`, (from) => ({
      ...from,
      stock: Object.fromEntries(Object.entries(from.stock).filter(([id]) => id !== grade)),
    }));
  }
  if (piece.maxSpread !== undefined)
    rules.set('maxSpread', (from) => {
      const { maxSpread: _gone, ...rest } = from;
      return rest;
    });
  if (piece.minFineness > 0) rules.set('minFineness', (from) => ({ ...from, minFineness: 0 }));
  rules.set('maxJoints', (from) => ({ ...from, maxJointsPerHeat: from.joints.length }));
  return rules;
}

export function surrogatePosable(piece: SurrogatePiece, purse: Purse): Posable {
  const rules = rulesOf(piece);
  return {
    rules: [...rules.keys()],
    pose(letGo) {
      const looser = [...letGo].reduce((from, name) => rules.get(name)!(from), piece);
      return { problem: surrogateProblem(looser), oracle: remembering(surrogateOracle(looser), purse) };
    },
  };
}
