import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { codeFor } from './shown-units.ts';

/** What silver is priced by. */
export const MASS_UNITS = ['g', 'dwt', 'ozt'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

export function gramsPer(mass: MassUnit): number {
  return convertUnit({ value: 1, from: codeFor('mass', { length: 'mm', temperature: 'C', mass }), to: 'g' });
}
