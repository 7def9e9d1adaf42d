import { createRequire } from 'node:module';
import type { FlameOnCells } from '../../shared/thermal/network-stepper.ts';
import type { ThermalNetwork } from '../../shared/thermal/thermal-network.ts';
import { networkSlopes } from './network-slopes.ts';

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  initialStepSize: number;
  maxSteps: number;
  solve(
    slopes: (x: number, y: number[]) => number[],
    from: number,
    start: number[],
    to: number,
  ): { y: number[]; outcome: number; nEval: number };
}
// Required, not imported: the package's own TypeScript does not pass this house's compiler settings.
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (size: number) => OdexSolver };

/**
 * A network under a fixed flame, taken to a time by a general-purpose explicit solver: ODEX, Hairer & Wanner's extrapolation with
 * step and order control. Throws if it gives up.
 */
export function explicitReference(
  { network, flame }: { network: ThermalNetwork; flame: FlameOnCells },
  { untilS, tolK }: { untilS: number; tolK: number },
): { temperaturesC: number[]; evaluations: number } {
  const solver = new Solver(network.cellCount);
  solver.absoluteTolerance = tolK;
  solver.relativeTolerance = tolK / 1000;
  solver.initialStepSize = 1e-3;
  solver.maxSteps = 1e4;
  const start = Array.from<number>({ length: network.cellCount }).fill(network.ambientC);
  const { y, outcome, nEval } = solver.solve(networkSlopes(network, flame), 0, start, untilS);
  if (outcome !== 0) throw new Error(`It gave up: outcome ${outcome}`);
  return { temperaturesC: y, evaluations: nEval };
}
