import { Decimal } from '../decimal.ts';
import type { LabourLine } from './estimate-request.ts';
import { physics } from './inputs.ts';
import { runFactor } from './small-run.ts';

/** How many times as long as its first piece a run takes. */
export type RunTimes = (run: NonNullable<LabourLine['run']>) => Decimal;

const worked: RunTimes = ({ pieces, learningFraction }) => runFactor(pieces, learningFraction);

/**
 * Minutes that a line of labour is planned at: (set-up + first piece · Σ k^(log₂ L)) · learned factor.
 *
 * @param runTimes where somebody keeps what was worked out before; every line of a run has the same
 * @throws {EngineInputError} for minutes below 0, a factor not above 0, or a run that runFactor() refuses
 * @source unit learning curve, as in runFactor()
 */
export function labourMinutes(
  { operation, minutes, factor = 1, setupMinutes = 0, run }: LabourLine,
  runTimes: RunTimes = worked,
): Decimal {
  const first = physics(`${operation}.minutes`, minutes, { from: 0 });
  const setup = physics(`${operation}.setupMinutes`, setupMinutes, { from: 0 });
  return setup.plus(run ? first.times(runTimes(run)) : first).times(physics(`${operation}.factor`, factor, { above: 0 }));
}
