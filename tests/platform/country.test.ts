import { expect, test } from 'vitest';
import { Country } from '../../src/platform/http/country.ts';

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'.split('');
const every = letters.flatMap((first) => letters.map((second) => first + second));

test('of all codes of two letters the 249 of ISO 3166-1 are countries', () => {
  expect(every.filter((code) => Country.safeParse(code).success)).toHaveLength(249);
});

test.each(['DE', 'GB', 'US', 'PS', 'TW', 'AQ', 'BQ', 'SX'])('%s is a country', (code) => {
  expect(Country.safeParse(code).success).toBe(true);
});

test.each(['ZZ', 'AA', 'QM', 'XA', 'XX', 'XK', 'EU', 'UN', 'UK', 'DD', 'SU', 'de', 'DEU', 'D', ''])('%j is none', (code) => {
  expect(Country.safeParse(code).error!.issues[0]!.message).toMatch(/^Use the ISO 3166-1 code of a country/);
});
