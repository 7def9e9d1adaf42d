import { expect, test } from 'vitest';
import { densityFromComposition } from '../../../shared/materials/density-from-composition.ts';
import { REFERENCE_FILLERS, SOLDER_GRADES } from '../../../shared/materials/solder-table.ts';
import { listSolders } from '../../../shared/materials/solder.ts';

const solders = listSolders();
const get = (id: string) => solders.find((solder) => solder.id === id)!;

// ISO 17672:2016 gives the same alloys under other names, to 5 °C: Ag 156, Ag 265, Ag 270, Ag 272.
test.each([
  ['extra-easy', 620, 655],
  ['easy', 670, 720],
  ['medium', 690, 740],
  ['eutectic', 780, 780],
])('%s melts where the other standard says', (id, solidusC, liquidusC) => {
  expect(Math.abs(get(id).solidusC - solidusC)).toBeLessThanOrEqual(3);
  expect(Math.abs(get(id).liquidusC - liquidusC)).toBeLessThanOrEqual(3);
});

test('a grade that equals a row of the standard has its composition and temperatures', () => {
  for (const [grade, row] of [
    ['medium', 'BAg-10'],
    ['easy', 'BAg-9'],
    ['extra-easy', 'BAg-7'],
    ['eutectic', 'BAg-8'],
  ] as const) {
    const { composition, solidusC, liquidusC } = SOLDER_GRADES[grade];
    expect(REFERENCE_FILLERS[row]!.composition.value).toEqual(composition.value);
    expect(REFERENCE_FILLERS[row]).toMatchObject({ solidusC: { value: solidusC.value }, liquidusC: { value: liquidusC.value } });
  }
});

// Measured: sterling 10.36 (material page), BAg-7 9.3 (material database), brass 70/30 8.53 (C26000 page).
test.each([
  [{ Ag: 92.5, Cu: 7.5 }, 10.36, 0.002],
  [{ Ag: 56, Cu: 22, Zn: 17, Sn: 5 }, 9.3, 0.03],
  [{ Cu: 70, Zn: 30 }, 8.53, 0.03],
  [{ Ag: 1 }, 10.49, 1e-12],
])('densityFromComposition(%j) is near the measured %d', (composition, measured, tolerance) => {
  expect(Math.abs(densityFromComposition(composition) / measured - 1)).toBeLessThan(tolerance);
});

test('hard solder comes to 9.97 g/cm³, and no grade is more than 0.6 % denser', () => {
  const hardGPerCm3 = densityFromComposition({ Ag: 75, Cu: 22, Zn: 3 });
  expect(hardGPerCm3).toBeCloseTo(1 / (0.75 / 10.49 + 0.22 / 8.96 + 0.03 / 7.14), 9);
  expect(Math.abs(hardGPerCm3 - 9.97)).toBeLessThan(0.01);
  const offered = solders.filter(({ isOffered }) => isOffered);
  for (const { id, densityGPerCm3 } of offered) expect(densityGPerCm3 / 9.97, id).toBeLessThan(1.006);
});

test('densityFromComposition() refuses nothing, and less than nothing', () => {
  expect(() => densityFromComposition({})).toThrow('composition must be at least one element; it is nothing');
  expect(() => densityFromComposition({ Ag: -1 })).toThrow('composition.Ag must be 0 or more; it is -1');
});

test('only grades are offered, and none of them holds cadmium', () => {
  expect(solders.filter(({ isOffered }) => isOffered).map(({ id }) => id)).toEqual(Object.keys(SOLDER_GRADES));
  expect(solders.some(({ cadmiumStanding }) => cadmiumStanding === 'yes')).toBe(true);
  for (const { isOffered, cadmiumStanding } of solders) if (isOffered) expect(cadmiumStanding).toBe('no');
});

test('every row is in order, adds up to a hundred, and names its sources', () => {
  const rows = { ...SOLDER_GRADES, ...REFERENCE_FILLERS };
  expect(Object.keys(rows).length).toBeGreaterThan(20);
  for (const [id, { composition, solidusC, liquidusC }] of Object.entries(rows)) {
    expect(solidusC.value, id).toBeLessThanOrEqual(liquidusC.value);
    expect(
      Object.values(composition.value).reduce((total, part) => total + part, 0),
      id,
    ).toBeCloseTo(100, 9);
    for (const { source } of [composition, solidusC, liquidusC]) expect(source.length, id).toBeGreaterThan(10);
  }
});

test('nothing that has no source is said to have been found in one', () => {
  const grades = Object.values(SOLDER_GRADES).flatMap(({ name: _name, ...sourced }) => Object.values(sourced));
  const unsourced = grades.filter(({ source }) => source.includes('no source'));
  expect(unsourced.length).toBeGreaterThan(0);
  for (const { standing } of unsourced) expect(standing).toBe('memory');
});
