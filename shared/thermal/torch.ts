import type { Bench, OwnTorch, TorchPreset } from '../design/plan.ts';
import { EngineInputError } from '../engine-input-error.ts';

/** Judged until times looked right to bench practice, to be calibrated; extra_large is for hollow ware. */
export const TORCHES: Readonly<Record<TorchPreset, OwnTorch>> = {
  micro: { powerW: 80, spreadMm: 4.5, gasC: 1500 },
  small: { powerW: 140, spreadMm: 7, gasC: 1500 },
  medium: { powerW: 250, spreadMm: 10, gasC: 1500 },
  large: { powerW: 500, spreadMm: 15, gasC: 1500 },
  extra_large: { powerW: 1200, spreadMm: 25, gasC: 1500 },
  hot_point: { powerW: 150, spreadMm: 3, gasC: 2200 },
};

/**
 * The torch of a bench as its calibration has it: power and spread multiplied, gas as it is.
 *
 * @throws {EngineInputError} for an unknown preset, a number outside its range, or gas colder than 900 °C, which flows no solder
 */
export function torchOf({ torch, calibration }: Pick<Bench, 'torch' | 'calibration'>): OwnTorch {
  const base = typeof torch === 'string' ? TORCHES[torch] : torch;
  if (base === undefined)
    throw new EngineInputError('torch', torch, `one of ${Object.keys(TORCHES).join(', ')}, or one of your own`);
  const powerW = base.powerW * (calibration?.powerFactor ?? 1);
  const spreadMm = base.spreadMm * (calibration?.spreadFactor ?? 1);
  if (!(powerW > 0 && powerW <= 1e5)) throw new EngineInputError('powerW', powerW, 'above 0 and up to 100000');
  if (!(spreadMm >= 0.5 && spreadMm <= 500)) throw new EngineInputError('spreadMm', spreadMm, '0.5 to 500');
  if (!(base.gasC >= 900 && base.gasC < 4000)) throw new EngineInputError('gasC', base.gasC, '900 to 4000');
  return { powerW, spreadMm, gasC: base.gasC };
}
