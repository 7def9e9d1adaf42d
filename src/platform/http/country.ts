import { z } from 'zod';

const names = new Intl.DisplayNames(['en'], { type: 'region', fallback: 'none' });

/** Codes that ISO 3166-1 leaves to users or has set aside; none is a country's own, but the names of regions know some. */
const NO_COUNTRY = /^(AA|Q[M-Z]|X[A-Z]|ZZ|AC|CP|CQ|DG|EA|EU|EZ|IC|TA|UN)$/;

const EXPECTED = 'Use the ISO 3166-1 code of a country, two capital letters such as DE, GB for the United Kingdom.';

/** A country by its code of two letters (ISO 3166-1), as it is today: not one that was given up, nor another word for it, such as UK. */
export const Country = z
  .string()
  .regex(/^[A-Z]{2}$/, { error: EXPECTED, abort: true })
  .refine(isCountry, EXPECTED);

function isCountry(code: string): boolean {
  return !NO_COUNTRY.test(code) && names.of(code) !== undefined && new Intl.Locale(`und-${code}`).region === code;
}
