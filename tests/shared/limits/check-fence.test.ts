import { describe, expect, test } from 'vitest';
import { checkFence } from '../../../shared/limits/check-fence.ts';
import { FENCES, type Fence } from '../../../shared/limits/fences.ts';

const rows: [string, string, Fence][] = Object.entries(FENCES).flatMap(([thing, fields]) =>
  Object.entries(fields).map(([field, fence]): [string, string, Fence] => [thing, field, fence]),
);

test('the table has fences for many fields', () => {
  expect(rows.length).toBeGreaterThan(60);
});

const past = (value: number, sign: number) => value + sign * Math.max(1e-9, Math.abs(value) * 1e-9);

describe.each(rows)('%s.%s', (thing, field, fence) => {
  const { refuseBelow = -Infinity, refuseAbove = Infinity } = fence;
  const { askBelow = refuseBelow, askAbove = refuseAbove } = fence;
  const outcome = (value: number) => checkFence(thing, field, value).outcome;

  test('the fences stand in order', () => {
    expect(refuseBelow).toBeLessThanOrEqual(askBelow);
    expect(askBelow).toBeLessThan(askAbove);
    expect(askAbove).toBeLessThanOrEqual(refuseAbove);
    expect(refuseBelow).toBeGreaterThan(-Infinity);
  });

  test('a number on a fence stands inside it, one past it does not', () => {
    expect(outcome(askBelow)).toBe('ok');
    if (askAbove < Infinity) expect(outcome(askAbove)).toBe('ok');
    if (askBelow > refuseBelow) expect([outcome(refuseBelow), outcome(past(askBelow, -1))]).toEqual(['ask', 'ask']);
    if (askAbove < refuseAbove) expect(outcome(past(askAbove, 1))).toBe('ask');
    if (askAbove < refuseAbove && refuseAbove < Infinity) expect(outcome(refuseAbove)).toBe('ask');
    expect(outcome(past(refuseBelow, -1))).toBe('refuse');
    if (refuseAbove < Infinity) expect(outcome(past(refuseAbove, 1))).toBe('refuse');
    expect([outcome(Number.NaN), outcome(-Infinity)]).toEqual(['refuse', 'refuse']);
  });
});

// Converted values: ASTM B258 No. 18, 0.0403 in; 1883 standard wire gauge No. 18, 0.048 in; 1475 °F = 801.67 °C;
// 17 mm × π = 53.41 mm; troy weights of NIST Handbook 44.
test.each([
  [
    'part',
    'thicknessMm',
    18,
    'ask',
    1.02369,
    'The thickness is usually between 0.2 and 6 mm; you wrote 18. Gauge 18 (Brown & Sharpe) is 1.024 mm, gauge 18 (British) is 1.219 mm: was that meant?',
  ],
  [
    'part',
    'thicknessMm',
    24,
    'refuse',
    0.510559,
    'The thickness must be between 0.05 and 20 mm; you wrote 24. Gauge 24 (Brown & Sharpe) is 0.5106 mm, gauge 24 (British) is 0.5588 mm: was that meant?',
  ],
  [
    'alloy',
    'solidusC',
    1475,
    'ask',
    801.667,
    'The solidus is usually between 600 and 1100 °C; you wrote 1475. 1475 °F is 801.7 °C: was that meant?',
  ],
  [
    'alloy',
    'finenessFraction',
    92.5,
    'refuse',
    0.925,
    'The fineness must be between 0 and 1; you wrote 92.5. 92.5 % is 0.925: was that meant?',
  ],
  [
    'alloy',
    'finenessFraction',
    925,
    'refuse',
    0.925,
    'The fineness must be between 0 and 1; you wrote 925. 925 parts per thousand is 0.925: was that meant?',
  ],
  [
    'client',
    'ringSizeMm',
    17,
    'refuse',
    53.4071,
    'The ring size, the inside circumference, must be between 35 and 90 mm; you wrote 17. 17 mm across is 53.41 mm: was that meant?',
  ],
  [
    'part',
    'densityGPerCm3',
    10360,
    'refuse',
    10.36,
    'The density must be between 1 and 23 g/cm³; you wrote 10360. 10360 kg/m³ is 10.36 g/cm³: was that meant?',
  ],
  [
    'piece',
    'targetWeightG',
    0.2,
    'ask',
    0.311035,
    'The weight is usually between 0.3 and 3000 g; you wrote 0.2. 0.2 dwt is 0.311 g, 0.2 ozt is 6.221 g: was that meant?',
  ],
  [
    'solder_product',
    'smallestPieceG',
    1.3,
    'refuse',
    0.0013,
    'The smallest piece must be between 0.0001 and 0.1 g; you wrote 1.3. 1.3 mg is 0.0013 g: was that meant?',
  ],
  [
    'quote_version',
    'taxRateFraction',
    20,
    'refuse',
    0.2,
    'The tax rate must be between 0 and 1; you wrote 20. 20 % is 0.2: was that meant?',
  ],
  [
    'quote_version',
    'marginFraction',
    1.2,
    'refuse',
    0.545455,
    'The margin, a share of the price, must be between -0.5 and 0.95; you wrote 1.2. A markup of 1.2 is 0.5455: was that meant?',
  ],
])('checkFence(%s, %s, %d) names the likely unit', (thing, field, given, outcome, perhaps, says) => {
  expect(checkFence(thing, field, given)).toMatchObject({ outcome, perhaps, says });
});

test('checkFence() gives no reading that would not fit either', () => {
  const found = checkFence('part', 'thicknessMm', 25.5);
  expect(found).toEqual({ outcome: 'refuse', unit: 'mm', says: 'The thickness must be between 0.05 and 20 mm; you wrote 25.5.' });
});

test('checkFence() says what to do about a number that is too high', () => {
  expect(checkFence('joint', 'gapMm', 0.8)).toEqual({
    outcome: 'refuse',
    unit: 'mm',
    says: 'The gap must be between 0.005 and 0.5 mm; you wrote 0.8. Solder does not bridge gaps: refit the joint, then enter the true gap.',
  });
});

test('checkFence() says the same of one that is only asked about', () => {
  expect(checkFence('joint', 'gapMm', 0.2)).toEqual({
    outcome: 'ask',
    unit: 'mm',
    says: 'The gap is usually between 0.02 and 0.12 mm; you wrote 0.2. Solder does not bridge gaps: refit the joint, then enter the true gap.',
  });
});

test('checkFence() of a field without a fence is a fault of the program', () => {
  expect(() => checkFence('part', 'colour', 1)).toThrow('There is no fence for part.colour');
});
