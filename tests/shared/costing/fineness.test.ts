import { expect, test } from 'vitest';
import { fineness, type FinenessRule, type Weighable } from '../../../shared/costing/fineness.ts';
import { PUBLISHED_MARKING_RULES } from '../../../shared/costing/published-marking-rules.ts';

const body = { id: 'body', metal: 'sterling', form: { kind: 'weighed', massG: 19.2, areaMm2: 0 } } as const;
/** A tee of so much solder: length · 1 mm · 0.05 mm · 10 g/cm³. */
const seam = (solder: string, massG: number) =>
  ({ id: 'seam', kind: 'tee', solder, lengthMm: massG / 0.0005, thicknessMm: 1, gapMm: 0.05 }) as const;
const metals = [
  { id: 'sterling', densityGPerCm3: 10.36, fineness: 0.925 },
  { id: 'fine', densityGPerCm3: 10.49, fineness: 0.999 },
  { id: 'copper', densityGPerCm3: 8.96, fineness: 0 },
];
const solders = [
  { id: 'easy', densityGPerCm3: 10, silverFraction: 0.65 },
  { id: 'extra-easy', densityGPerCm3: 10, silverFraction: 0.56 },
  { id: 'nameless', densityGPerCm3: 10 },
];
const piece = (solder: string, solderG: number, more: Weighable['design']['parts'] = []): Weighable => ({
  metals,
  solders,
  design: { parts: [body, ...more], joints: [seam(solder, solderG)] },
});
const none: FinenessRule = {
  leastSolderFinenessFraction: null,
  toleranceWithoutSolderFraction: null,
  toleranceWithSolderFraction: null,
  markOverG: null,
};
const ofPlace = (place: string): FinenessRule =>
  PUBLISHED_MARKING_RULES.filter((rule) => rule.place === place).reduce(
    (all, { field, value }) => ({ ...all, [field]: value }),
    none,
  );

// (19.2 · 925 + 0.8 · 650)/20 = 914.0, under the 915 of 15 U.S.C. 296; of a 650 solder, 3.636 % of the whole is the most.
test('fineness() of a whole with its solder, against a tolerance for it', () => {
  const found = fineness(piece('easy', 0.8), ofPlace('US'));
  expect(found.wholeFraction).toBeCloseTo(0.914, 12);
  expect(found).toMatchObject({ standardFraction: 0.925, withoutSolderFraction: 0.925, finding: 'outside', finishedG: 20 });
  expect(found.says).toEqual(['With its solder it is 914 ‰, under 915 ‰']);
  const most = (19.2 * 0.03636363636) / (1 - 0.03636363636);
  expect(fineness(piece('easy', most - 1e-6), ofPlace('US')).finding).toBe('within');
  expect(fineness(piece('easy', most + 1e-6), ofPlace('US')).finding).toBe('outside');
});

test('fineness() holds every solder to the least that a place asks, and says when a mark is needed', () => {
  const refused = fineness(piece('extra-easy', 0.01), ofPlace('GB'));
  expect(refused).toMatchObject({ finding: 'outside', leastSolderFraction: 0.56 });
  expect(refused.says).toEqual([
    "Its least fine solder is 560 ‰, under this place's 650 ‰",
    'It needs a mark: over 7.78 g, at 19.21 g before it is finished',
  ]);
  expect(fineness(piece('easy', 0.01), ofPlace('GB')).finding).toBe('within');
  // What was really put in counts, whatever was planned.
  expect(fineness({ ...piece('easy', 0.01), putIn: [0.65, 0.56] }, ofPlace('GB')).finding).toBe('outside');
  // One that nobody knows does not cover one that is known to be too low.
  expect(fineness({ ...piece('nameless', 0.01), putIn: [0.56] }, ofPlace('GB'))).toMatchObject({
    finding: 'outside',
    wholeFraction: null,
    leastSolderFraction: 0.56,
  });
});

test('fineness() tells what is not known from what is within', () => {
  expect(fineness(piece('nameless', 0.01), ofPlace('GB'))).toMatchObject({ finding: 'unknown', wholeFraction: null });
  const copper = { id: 'rivet', metal: 'copper', form: { kind: 'weighed', massG: 0.1, areaMm2: 0 } } as const;
  expect(fineness(piece('easy', 0.01, [copper]), none)).toMatchObject({ finding: 'unknown', standardFraction: null });
  // Of fine silver and sterling together it is sterling.
  const bezel = { id: 'bezel', metal: 'fine', form: { kind: 'weighed', massG: 0.1, areaMm2: 0 } } as const;
  expect(fineness(piece('easy', 0.01, [bezel]), none)).toMatchObject({ finding: 'within', standardFraction: 0.925 });
  expect(fineness(piece('easy', 0.01), null)).toMatchObject({
    finding: 'no_rule',
    says: ['No rule is entered for this place: ask the office named on your packet'],
  });
});

test('published rules say where they are from, and which of them are memory', () => {
  expect(PUBLISHED_MARKING_RULES.length).toBeGreaterThan(4);
  for (const { source, standing, value, place } of PUBLISHED_MARKING_RULES) {
    expect(source.length, place).toBeGreaterThan(10);
    expect(value).toBeGreaterThanOrEqual(0);
    if (place === 'US') expect(standing).toBe('memory');
  }
});
