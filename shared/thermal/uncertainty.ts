export const LEAST_UNCERTAINTY_K = 15;

/** κ: how fast the uncertainty grows with the fall from the target; less with a calibration of that torch and person. */
export function uncertaintyGrowth(calibrated: boolean): number {
  return calibrated ? 0.3 : 0.5;
}

/**
 * How far a predicted peak may be off. Control stops on the target, so errors of the flame cancel near it and grow with the fall
 * from it: U = √(15² + (κ·max(0, T_flow − T))²), κ 0.5, or 0.3 with a calibration of that torch and person. Judgement: no measured
 * heats of such pieces are known.
 *
 * @returns K, ≥ 15
 */
export function uncertaintyK({ flowC, peakC, calibrated }: { flowC: number; peakC: number; calibrated: boolean }): number {
  return Math.hypot(LEAST_UNCERTAINTY_K, uncertaintyGrowth(calibrated) * Math.max(0, flowC - peakC));
}
