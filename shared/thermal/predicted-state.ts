/** What an earlier joint does in a heat, as a hand at the bench says it. */
export type PredictedState = 'solid' | 'softens' | 'runs';

/**
 * What becomes of the solder of an earlier joint, by its two margins alone, without their uncertainty.
 *
 * Solid while solidus − peak ≥ 0; runs once liquidus − peak < 0, also where anti-flow keeps it in its place; softens between.
 *
 * @param margins K; runMarginK ≥ solidMarginK, since a solder begins to melt before it runs
 * @returns at equality the milder of two
 */
export function predictedState({ solidMarginK, runMarginK }: { solidMarginK: number; runMarginK: number }): PredictedState {
  if (solidMarginK >= 0) return 'solid';
  return runMarginK >= 0 ? 'softens' : 'runs';
}
