import { expect, test } from 'vitest';
import { addedMetal } from '../../../shared/costing/added-metal.ts';
import { hourlyRates } from '../../../shared/costing/hourly-rates.ts';

const studio = {
  payPerYear: '30000',
  onCostsPerYear: '7440.00',
  paidHoursPerYear: 1560,
  overheadPerYear: '19430.40',
  consumablesPerYear: '3036',
  people: 1,
  daysPerYear: 220,
  hoursPerDay: 8,
};

// By hand: 37 440/1560 = 24.00; 220 · 8 · 0.69 = 1214.4 h; 19 430.40/1214.4 = 16.00; 3036/1214.4 = 2.50. At half the time, 880 h.
test('an hour costs what the year does, over the hours that reach jobs', () => {
  expect(hourlyRates(studio)).toEqual({
    benchHoursPerYear: 1214.4,
    labourPerHour: '24.00',
    overheadPerBenchHour: '16.00',
    consumablesPerBenchHour: '2.50',
  });
  expect(hourlyRates({ ...studio, benchFraction: 0.5 })).toMatchObject({ benchHoursPerYear: 880, overheadPerBenchHour: '22.08' });
});

test.each([
  [{ people: 0 }, 'people must be a whole number from 1; it is 0'],
  [{ benchFraction: 0 }, 'benchFraction must be above 0, at most 1; it is 0'],
  [{ paidHoursPerYear: 0 }, 'paidHoursPerYear must be above 0; it is 0'],
  [{ payPerYear: '30,000' }, 'payPerYear must be a decimal such as "1.42", 0 or more; it is 30,000'],
])('hourlyRates() refuses %j', (changes, message) => {
  expect(() => hourlyRates({ ...studio, ...changes })).toThrow(message);
});

test('addedMetal() holds to the grams and the share that a place allows', () => {
  const limits = { addedMetalG: 1, addedMetalFraction: 0.5 };
  expect(addedMetal({ pieceG: 4, addedG: 1 }, limits)).toEqual({ finding: 'within', addedFraction: 0.25, says: [] });
  expect(addedMetal({ pieceG: 4, addedG: 1.1 }, limits)).toMatchObject({
    finding: 'over',
    says: [/1 g of this place/, /ask the office/].map((words) => expect.stringMatching(words)),
  });
  expect(addedMetal({ pieceG: 1.2, addedG: 0.7 }, limits).says[0]).toBe(
    '0.7 g is 0.5834 of the piece, over the 0.5 of this place',
  );
  expect(addedMetal({ pieceG: 4, addedG: 1 }, { addedMetalG: null, addedMetalFraction: null }).finding).toBe('no_rule');
  expect(() => addedMetal({ pieceG: 0, addedG: 1 }, limits)).toThrow('pieceG must be above 0; it is 0');
});
