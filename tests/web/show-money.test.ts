import { expect, test } from 'vitest';
import { showMoney } from '../../src/web/words/show-money.ts';

// ISO 4217, list one: the minor unit of EUR and HUF has two digits, of JPY none, of IQD three.
test.each([
  { amountMinor: 123_456, currency: 'EUR', figures: '1,234.56' },
  { amountMinor: 123_456, currency: 'HUF', figures: '1,234.56' },
  { amountMinor: 123_456, currency: 'JPY', figures: '123,456' },
  { amountMinor: 123_456, currency: 'IQD', figures: '123.456' },
])('$amountMinor minor units of $currency are shown as $figures', ({ amountMinor, currency, figures }) => {
  const shown = showMoney('en', amountMinor, currency);
  expect(shown.replaceAll(/[^\d.,]/g, '')).toBe(figures);
});
