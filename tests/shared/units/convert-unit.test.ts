import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { UNITS } from '../../../shared/units/unit-table.ts';

// NIST Handbook 44, Appendix C (exact), and NIST SP 811, Appendix B.8.
test.each([
  [1, '[oz_tr]', 'g', 31.1034768],
  [1, '[pwt_tr]', 'g', 1.55517384],
  [1, '[gr]', 'mg', 64.79891],
  [1, '[oz_tr]', '[pwt_tr]', 20],
  [1, '[oz_tr]', '[gr]', 480],
  [1, '[lb_tr]', '[oz_tr]', 12],
  [1, '[lb_av]', '[gr]', 7000],
  [5, '[car_m]', 'g', 1],
  [1, '[in_i]', 'mm', 25.4],
  [1, 'kW.h', 'kJ', 3600],
  [10.36, 'g/cm3', 'kg/m3', 10360],
  [92.5, '%', '[ppth]', 925],
  [90, 'min', 'h', 1.5],
  [1475, '[degF]', 'Cel', 801.666666666667],
  [961.78, 'Cel', 'K', 1234.93],
  [-40, 'Cel', '[degF]', -40],
])('%d %s in %s is %d', (value, from, to, expected) => {
  expect(convertUnit({ value, from, to })).toBe(expected);
});

// ASTM B258, and the same printed rounded in the Machinery's Handbook; the last column is the British gauge of 1883.
test.each([
  ['awg', 36, 0.127],
  ['awg', -3, 11.684],
  ['awg', 18, 1.023687],
  ['awg', 20, 0.811821],
  ['awg', 26, 0.404892],
  ['swg', 18, 1.2192],
  ['swg', -6, 12.7],
  ['swg', 40, 0.12192],
])('%s %d is %d mm', (from, value, expected) => {
  expect(convertUnit({ value, from, to: 'mm' })).toBeCloseTo(expected, 6);
});

const aPair = fc
  .constantFrom(...Object.entries(UNITS))
  .chain(([from, { dimension }]) =>
    fc.tuple(fc.constant(from), fc.constantFrom(...Object.keys(UNITS).filter((to) => UNITS[to]!.dimension === dimension))),
  );

test('convertUnit() there and back is where it began', () => {
  fc.assert(
    fc.property(aPair, fc.double({ min: 0, max: 1e6, noNaN: true }), ([from, to], value) => {
      const back = convertUnit({ value: convertUnit({ value, from, to }), from: to, to: from });
      expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, value));
    }),
  );
});

test('convertUnit() of a gauge there and back is where it began, and thinner for a higher number', () => {
  fc.assert(
    fc.property(fc.constantFrom('awg', 'swg'), fc.double({ min: -3, max: 39.5, noNaN: true }), (gauge, value) => {
      const sizeMm = convertUnit({ value, from: gauge, to: 'mm' });
      expect(convertUnit({ value: sizeMm, from: 'mm', to: gauge })).toBeCloseTo(value, 7);
      expect(convertUnit({ value: value + 0.5, from: gauge, to: 'mm' })).toBeLessThan(sizeMm);
    }),
  );
});

test.each([
  [{ value: 1, from: 'dwt', to: 'g' }, /^from must be one of 1 mm .*it is dwt$/],
  [{ value: 1, from: 'g', to: 'constructor' }, /^to must be one of/],
  [{ value: 1, from: 'g', to: 'mm' }, /^to must be a unit of mass, like g; it is mm$/],
  [{ value: Number.NaN, from: 'g', to: 'mg' }, /^value must be a finite number/],
  [{ value: -300, from: 'Cel', to: 'K' }, /^value must be at or above absolute zero/],
  [{ value: 1e308, from: 'kg', to: 'mg' }, /^value must be small enough to be written in mg/],
  [{ value: 45, from: 'awg', to: 'mm' }, /^gauge must be from -3/],
  [{ value: 20, from: 'mm', to: 'swg' }, /^sizeMm must be from 0.1219 to 12.70 mm/],
])('convertUnit() refuses %j', (conversion, message) => {
  expect(() => convertUnit(conversion)).toThrow(message);
});
