import { expect, test } from 'vitest';
import { jarIsWorthSending, scrapReturn } from '../../../shared/stock/scrap-return.ts';

// A refiner's settlement worked by hand: 61.40 g melt down by 6.5 % to a bar of 57.409; 88.1 % of it is fine, 50.577329 g; 94 %
// of that is paid at 1.05, 49.92; the fee is 25.00 and 0.04 a gram, 27.46 (27.456); 22.46 come back.
const SETTLEMENT = {
  jarG: 61.4,
  meltLossFraction: 0.065,
  assayFraction: 0.881,
  payFraction: 0.94,
  finePricePerG: '1.05',
  feeFixed: '25.00',
  feePerG: '0.04',
};

test('scrapReturn() follows a settlement to the last cent', () => {
  const { barG, fineG, ...money } = scrapReturn(SETTLEMENT, 2);
  expect(barG).toBeCloseTo(57.409, 9);
  expect(fineG).toBeCloseTo(50.577329, 9);
  expect(money).toEqual({ paid: '49.92', fees: '27.46', credit: '22.46' });
  // 54.10 g fine were expected of that jar.
  expect(fineG / 54.1).toBeCloseTo(0.935, 3);
});

test('scrapReturn() may cost more than it brings', () => {
  expect(scrapReturn({ ...SETTLEMENT, jarG: 10 }, 2)).toMatchObject({ paid: '8.13', fees: '25.40', credit: '-17.27' });
  expect(() => scrapReturn({ ...SETTLEMENT, payFraction: 94 }, 2)).toThrow('payFraction');
});

test('a jar is sent when it is worth five fees', () => {
  const jar = { payFraction: 0.94, finePricePerG: '1.05', fees: '27.46' };
  // 54.10 · 0.94 · 1.05 = 53.40, not two fees; 139.2 g are 137.39, just over five.
  expect(jarIsWorthSending({ ...jar, fineG: 54.1 })).toMatchObject({ worth: '53.396700', send: false });
  expect(jarIsWorthSending({ ...jar, fineG: 139.2 }).send).toBe(true);
  expect(jarIsWorthSending({ ...jar, fineG: 1, fees: '0' })).toMatchObject({ timesFees: null, send: true });
});
