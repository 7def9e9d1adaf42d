import { EngineInputError } from '../engine-input-error.ts';

/** A colour that hot metal shows, from the temperature at which it begins. */
export interface HeatColour {
  fromC: number;
  words: string;
}

/**
 * The colours of glowing metal, coldest first.
 *
 * @source W. A. J. Chapman, Workshop Technology, part 1, 5th ed. (1972): colours of steel. Silver under flux glows alike, as common
 *   practice has it; how bright it looks hangs on the light of the room, so judge it in the dim.
 */
export const HEAT_COLOURS = [
  { fromC: 426, words: 'black red, seen in the dark alone' },
  { fromC: 594, words: 'very dark red' },
  { fromC: 705, words: 'dark red' },
  { fromC: 815, words: 'cherry red' },
  { fromC: 871, words: 'light cherry red' },
  { fromC: 982, words: 'orange' },
  { fromC: 1093, words: 'yellow' },
  { fromC: 1259, words: 'yellow white' },
  { fromC: 1315, words: 'white' },
] as const satisfies readonly HeatColour[];

/**
 * What colour metal of a temperature glows in, in words; "no glow" under 426 °C.
 *
 * @param temperatureC −273.15 to 3000
 * @throws {EngineInputError} for a temperature that no bench has
 * @source as HEAT_COLOURS
 */
export function heatColour(temperatureC: number): string {
  if (!(temperatureC >= -273.15 && temperatureC <= 3000))
    throw new EngineInputError('temperatureC', temperatureC, '-273.15 to 3000');
  return HEAT_COLOURS.findLast(({ fromC }) => temperatureC >= fromC)?.words ?? 'no glow';
}
