import fc from 'fast-check';
import { expect, test } from 'vitest';
import { moneyInField, moneyTyped } from '../../src/web/units/typed-money.ts';
import { decimalOf, inField, numberOf } from '../../src/web/units/typed-number.ts';

// Decimal signs as CLDR has them: a comma in German, a point in English.
test.each([
  { plain: '0.8', locale: 'de', written: '0,8' },
  { plain: '0.8', locale: 'en', written: '0.8' },
  { plain: '0.8', locale: 'de-CH', written: '0.8' },
  { plain: '1.234', locale: 'de', written: '1,2340' },
  { plain: '1234', locale: 'de', written: '1234' },
])('$plain stands in a field of $locale as $written', ({ plain, locale, written }) => {
  expect(inField(plain, locale)).toBe(written);
});

test('whatever stands in a field is read back as itself', () => {
  fc.assert(
    fc.property(fc.constantFrom('en', 'de', 'fr'), fc.integer({ min: -9_999_999, max: 9_999_999 }), (locale, thousandths) => {
      expect(numberOf(inField(String(thousandths / 1000), locale))).toBe(thousandths / 1000);
    }),
  );
});

// ISO 4217: two digits of EUR, three of KWD.
test.each([
  { amountMinor: 1234, currency: 'EUR' },
  { amountMinor: 1234, currency: 'KWD' },
])('$amountMinor minor units of $currency are read back from a German field', (money) => {
  expect(moneyTyped(moneyInField('de', money), money.currency)).toEqual(money);
});

test('a decimal keeps its places', () => {
  expect(decimalOf(' 26,50 ')).toBe('26.50');
  expect(decimalOf('1 1/2')).toBe('1.5');
});

test('what could be two numbers is not guessed at', () => {
  expect(decimalOf('1,234')).toBe('1,234');
  expect(numberOf('1,234')).toBe('1,234');
  expect(moneyTyped('1,234', 'EUR').amountMinor).toBeNaN();
  expect(numberOf(' ')).toBeUndefined();
});
