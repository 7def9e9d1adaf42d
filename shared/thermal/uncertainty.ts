const LEAST_K = 15;
const GROWTH = 0.5;
const CALIBRATED_GROWTH = 0.3;

/**
 * How far a predicted peak may be off. Control stops on the target, so errors of the flame cancel near it and grow with the fall
 * from it: U = √(15² + (κ·max(0, T_flow − T))²), κ 0.5, or 0.3 with a calibration of that torch and person.
 *
 * @returns K, ≥ 15
 */
export function uncertaintyK({ flowC, peakC, calibrated }: { flowC: number; peakC: number; calibrated: boolean }): number {
  return Math.hypot(LEAST_K, (calibrated ? CALIBRATED_GROWTH : GROWTH) * Math.max(0, flowC - peakC));
}
