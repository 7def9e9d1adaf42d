import { data } from 'currency-codes';
import { expect, test } from 'vitest';
import { minorDigits } from '../../../shared/costing/currency.ts';

// ISO 4217, list one: these have "N.A." as minor unit; the last is the code for no currency at all.
const WITHOUT_MINOR_UNIT = ['XAG', 'XAU', 'XBA', 'XBB', 'XBC', 'XBD', 'XDR', 'XPD', 'XPT', 'XSU', 'XTS', 'XUA', 'X'.repeat(3)];

test('minorDigits() agrees with list one of ISO 4217', () => {
  const rows = data.filter(({ code }) => !WITHOUT_MINOR_UNIT.includes(code));
  expect(rows.length).toBeGreaterThan(150);
  for (const { code, digits } of rows) expect(minorDigits(code), code).toBe(digits);
});

test.each([...WITHOUT_MINOR_UNIT, 'ABC', 'eur', ''])('minorDigits() refuses %j', (code) => {
  expect(() => minorDigits(code)).toThrow('currency must be a currency code of ISO 4217, such as EUR');
});
