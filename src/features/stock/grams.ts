/** Stock is kept in integers of 0.1 mg, so that sums stay exact; people and JSON see grams. */
const TENTH_MG_PER_G = 10_000;

/** What a scale may be wrong by: a lot may seem to go this far below nothing before it must be weighed. */
export const SCALE_ERROR_TENTH_MG = 200;

export function toTenthMg(grams: number): number {
  return Math.round(grams * TENTH_MG_PER_G);
}

export function toG(tenthMg: number): number {
  return tenthMg / TENTH_MG_PER_G;
}

/** For sentences. */
export function inGrams(tenthMg: number): string {
  return `${toG(tenthMg)} g`;
}
