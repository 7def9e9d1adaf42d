import type { Bench, Heat, OwnTorch, TorchPreset } from '../design/plan.ts';
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
  const base = describedTorch(torch);
  const powerW = base.powerW * (calibration?.powerFactor ?? 1);
  const spreadMm = base.spreadMm * (calibration?.spreadFactor ?? 1);
  if (!(powerW > 0 && powerW <= 1e5)) throw new EngineInputError('powerW', powerW, 'above 0 and up to 100000');
  if (!(spreadMm >= 0.5 && spreadMm <= 500)) throw new EngineInputError('spreadMm', spreadMm, '0.5 to 500');
  if (!(base.gasC >= 900 && base.gasC < 4000)) throw new EngineInputError('gasC', base.gasC, '900 to 4000');
  return { powerW, spreadMm, gasC: base.gasC };
}

function describedTorch(torch: Bench['torch']): OwnTorch {
  const described = typeof torch === 'string' ? TORCHES[torch] : torch;
  if (described === undefined)
    throw new EngineInputError('torch', torch, `one of ${Object.keys(TORCHES).join(', ')}, or one of your own`);
  return described;
}

/** Whether a heat names a torch that is not the bench's: one of other numbers, whatever it is called. */
export function isOnOtherTorch(bench: Pick<Bench, 'torch'>, heat: Pick<Heat, 'torch'>): boolean {
  if (heat.torch === undefined) return false;
  const [own, other] = [describedTorch(bench.torch), describedTorch(heat.torch)];
  return own.powerW !== other.powerW || own.spreadMm !== other.spreadMm || own.gasC !== other.gasC;
}

/**
 * The bench as one heat has it: the torch and support that the heat names in place of the bench's. A calibration is of the bench's
 * torch and hand, so a heat on another torch has none.
 *
 * @throws {EngineInputError} for an unknown preset
 */
export function benchOfHeat(bench: Bench, heat: Pick<Heat, 'torch' | 'support'>): Bench {
  const { torch, support = bench.support } = heat;
  if (torch === undefined) return support === bench.support ? bench : { ...bench, support };
  return isOnOtherTorch(bench, heat) ? { ...bench, torch, support, calibration: null } : { ...bench, support };
}
