import { EngineInputError } from '../engine-input-error.ts';
import { toFive } from './to-five.ts';

/** The two margins of an earlier joint, each in words. */
export interface MarginsInWords {
  solid: string;
  run: string;
}

/**
 * Both margins of a joint as somebody reads them at the bench, in steps of 5 °C: whether it keeps solid, and whether it runs.
 *
 * @param margins solidMarginK = solidus − peak and runMarginK = liquidus − peak, K, the rise in both; a solder begins to melt before
 *   it runs, so runMarginK ≥ solidMarginK; uncertaintyK ≥ 0 of both
 * @throws {EngineInputError} for margins that no joint has
 */
export function marginsInWords(margins: { solidMarginK: number; runMarginK: number; uncertaintyK: number }): MarginsInWords {
  const { solidMarginK, runMarginK, uncertaintyK } = margins;
  if (!(uncertaintyK >= 0)) throw new EngineInputError('uncertaintyK', uncertaintyK, '>= 0');
  if (!(runMarginK >= solidMarginK)) throw new EngineInputError('runMarginK', runMarginK, 'at least solidMarginK');
  const giveOrTake = `give or take ${toFive(uncertaintyK)} °C`;
  return {
    solid:
      solidMarginK >= 0
        ? `predicted to stay solid by ${toFive(solidMarginK)} °C, ${giveOrTake}`
        : `predicted to soften, ${toFive(-solidMarginK)} °C past where it begins to melt, ${giveOrTake}: do not touch or lean on it`,
    run:
      runMarginK >= 0
        ? `predicted not to run, by ${toFive(runMarginK)} °C, ${giveOrTake}`
        : `predicted to run, ${toFive(-runMarginK)} °C past where it flows, ${giveOrTake}`,
  };
}
