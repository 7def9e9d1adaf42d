import type { Settings } from './settings.schema.ts';

/** The trim learned of a solder, by the code of its product; undefined: none was. */
export function learnedTrim(solderTrims: Settings['solderTrims'], code: string): number | undefined {
  return Object.hasOwn(solderTrims, code) ? solderTrims[code] : undefined;
}
