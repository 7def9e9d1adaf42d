/** Solves every instance of a file of sequencing cases with its surrogate law, to the last level: one JSON line each. */

import { readFileSync } from 'node:fs';
import process from 'node:process';
import { runToEnd } from '../../shared/run-to-end.ts';
import { searchLevels } from '../../shared/sequencing/search-levels.ts';
import { MOST_OPEN_JOINTS } from '../../shared/sequencing/sequence-problem.ts';
import { isDone, surrogateOracle, surrogateProblem, type SurrogatePiece } from './surrogate-piece.ts';

export interface SequenceCaseLine {
  id: string;
  feasible: boolean | null;
  marginLevel: number | null;
  protections: number | null;
  heats: number | null;
  distinctGrades: number | null;
  preference: number | null;
  timeS: number | null;
  proven: boolean;
}

/** Work units after which a piece is left with what has been found. */
const WORK_UNITS = 3_000_000;

/** What is said of a piece with more joints than the search takes. */
const UNKNOWN = {
  feasible: null,
  marginLevel: null,
  protections: null,
  heats: null,
  distinctGrades: null,
  preference: null,
  timeS: null,
  proven: false,
};

export function solveCase(piece: SurrogatePiece, workUnits: number): SequenceCaseLine {
  if (piece.joints.filter((joint) => !isDone(joint)).length > MOST_OPEN_JOINTS) return { id: piece.id, ...UNKNOWN };
  const limits = { workUnits, stopAt: 'time', preferHigherGrades: false } as const;
  const { outcome, proof } = runToEnd(searchLevels(surrogateProblem(piece), surrogateOracle(piece), limits));
  const valueOf = (level: string): number | null => proof.find((each) => each.level === level)!.value;
  return {
    id: piece.id,
    feasible: outcome === 'unknown' ? null : outcome !== 'infeasible',
    marginLevel: valueOf('margin'),
    protections: valueOf('protections'),
    heats: valueOf('heats'),
    distinctGrades: valueOf('grades'),
    preference: valueOf('preference'),
    timeS: valueOf('time'),
    proven: outcome === 'optimal' || outcome === 'infeasible',
  };
}

function main(file: string): void {
  const cases = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
  const pieces = Object.values(cases)
    .filter((section) => Array.isArray(section))
    .flatMap((section) => section.map(({ piece }: { piece: SurrogatePiece }) => piece));
  for (const piece of pieces) {
    const startedMs = performance.now();
    const line = solveCase(piece, WORK_UNITS);
    process.stdout.write(`${JSON.stringify({ ...line, ms: Math.round((performance.now() - startedMs) * 10) / 10 })}\n`);
  }
}

if (import.meta.main) {
  const file = process.argv[2];
  if (file) main(file);
  else {
    process.stderr.write('Cannot read the cases: give the path of a file of sequencing cases\n');
    process.exitCode = 1;
  }
}
