import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { readQuantity } from '../../../shared/units/read-quantity.ts';

const inEnglish = { decimalMark: '.', gauge: 'awg' } as const;
const inGerman = { decimalMark: ',', gauge: 'swg' } as const;

test.each([
  ['1.2dwt', 1.2, '[pwt_tr]'],
  ['18 ga', 18, 'awg'],
  ['18 gauge', 18, 'awg'],
  ['1300F', 1300, '[degF]'],
  [' 1475 °F ', 1475, '[degF]'],
  ['0.5 in', 0.5, '[in_i]'],
  ['92.5 %', 92.5, '%'],
  ['.5', 0.5, undefined],
  ['1,5', 1.5, undefined],
  ['0,125', 0.125, undefined],
  ['1,234.5 g', 1234.5, 'g'],
  ['1,234,567', 1_234_567, undefined],
  ['-0', 0, undefined],
])('%j reads as %d %s', (text, value, unit) => {
  expect(readQuantity(text, inEnglish)).toEqual({ outcome: 'read', value, ...(unit === undefined ? {} : { unit }) });
});

test('a comma is a decimal where the language has it so, and a gauge the studio’s', () => {
  expect(readQuantity('1,234 mm', inGerman)).toEqual({ outcome: 'read', value: 1.234, unit: 'mm' });
  expect(readQuantity('1.234,5', inGerman)).toEqual({ outcome: 'read', value: 1234.5 });
  expect(readQuantity('18 ga', inGerman)).toEqual({ outcome: 'read', value: 18, unit: 'swg' });
});

test('what may be thousands is not assumed', () => {
  expect(readQuantity('1,234', inEnglish)).toEqual({ outcome: 'unclear', readings: [1.234, 1234] });
  expect(readQuantity('1.234 g', inGerman)).toEqual({ outcome: 'unclear', readings: [1.234, 1234] });
});

test.each(['', 'thin', '1 oz', '5 constructor', '1.2.3', '1,23,4', '--1', '1e3', '∞', '12 34'])('%j cannot be read', (text) => {
  expect(readQuantity(text, inEnglish)).toEqual({ outcome: 'unreadable' });
});

test('readQuantity() reads back what is printed, in a unit that converts', () => {
  fc.assert(
    fc.property(fc.integer({ min: -99_999, max: 99_999 }), fc.constantFrom('mm', 'in', 'cm'), (hundredths, word) => {
      const found = readQuantity(`${(hundredths / 100).toFixed(2)} ${word}`, inEnglish);
      expect(found).toMatchObject({ outcome: 'read', value: hundredths / 100 });
      if (found.outcome === 'read') expect(convertUnit({ value: found.value, from: found.unit!, to: 'mm' })).toBeTypeOf('number');
    }),
  );
});
