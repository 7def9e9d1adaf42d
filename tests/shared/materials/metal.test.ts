import { expect, test } from 'vitest';
import type { OwnMetal } from '../../../shared/design/design.ts';
import { METAL_TABLE, type LinearInTemperature } from '../../../shared/materials/metal-table.ts';
import { getMetal, listMetals, mayGiveFume } from '../../../shared/materials/metal.ts';

const at = (line: LinearInTemperature, kelvin: number) => line.at20C + line.perK * (kelvin - 293.15);

// Incropera et al., Fundamentals of Heat and Mass Transfer, 7th ed., Table A.1: [K, W/(m·K), J/(kg·K)].
const TABLE_A1 = {
  'fine-silver-999': [
    [300, 429, 235],
    [600, 412, 250],
    [800, 396, 262],
    [1000, 379, 277],
  ],
  copper: [
    [300, 401, 385],
    [600, 379, 417],
    [800, 366, 433],
    [1000, 352, 451],
  ],
} as const;

test.each(Object.entries(TABLE_A1))('the lines of %s follow the handbook table', (id, rows) => {
  const { conductivityWPerMK, specificHeatJPerKgK } = getMetal(id);
  for (const [kelvin, conductivity, specificHeat] of rows) {
    expect(Math.abs(at(conductivityWPerMK, kelvin) / conductivity - 1)).toBeLessThan(0.02);
    expect(Math.abs(at(specificHeatJPerKgK, kelvin) / specificHeat - 1)).toBeLessThan(0.055);
  }
});

// Nearest published values: ITS-90 for silver and copper; NIST assessment of the Ag–Cu eutectic, 779.1 °C.
test('melting points lie within 2 °C of the fixed points', () => {
  expect(Math.abs(getMetal('fine-silver-999').solidusC - 961.78)).toBeLessThan(2);
  expect(Math.abs(getMetal('copper').solidusC - 1084.62)).toBeLessThan(2);
  expect(Math.abs(getMetal('sterling-925').castSolidusC - 779.1)).toBeLessThan(2);
});

test('every row is in order and physical', () => {
  expect(listMetals().length).toBeGreaterThan(5);
  for (const metal of listMetals()) {
    expect(metal.castSolidusC, metal.id).toBeLessThanOrEqual(metal.solidusC);
    expect(metal.solidusC, metal.id).toBeLessThanOrEqual(metal.liquidusC);
    expect(metal.finenessFraction, metal.id).toBeGreaterThanOrEqual(0);
    expect(metal.finenessFraction, metal.id).toBeLessThan(1);
    for (const celsius of [20, 800]) {
      expect(at(metal.conductivityWPerMK, celsius + 273.15), metal.id).toBeGreaterThan(10);
      expect(at(metal.specificHeatJPerKgK, celsius + 273.15), metal.id).toBeGreaterThan(100);
    }
  }
});

test('every value names its source', () => {
  const values = Object.values(METAL_TABLE).flatMap(({ name: _name, ...sourced }) => Object.values(sourced));
  expect(values.length).toBeGreaterThan(50);
  for (const { source, standing } of values) {
    expect(source.length).toBeGreaterThan(5);
    expect(['found', 'memory', 'derived', 'judgement']).toContain(standing);
  }
});

// 1/ρ = Σ w/ρ by hand, g/cm³: Ag 10.49, Cu 8.96 (CRC Handbook), Ge 5.32.
test.each([
  ['britannia-958', 1 / (0.9584 / 10.49 + 0.0416 / 8.96)],
  ['germanium-silver-935', 1 / (0.935 / 10.49 + 0.053 / 8.96 + 0.012 / 5.32)],
  ['germanium-silver-960', 1 / (0.96 / 10.49 + 0.028 / 8.96 + 0.012 / 5.32)],
] as const)('the density of %s is what its composition comes to', (id, mixedGPerCm3) => {
  expect(METAL_TABLE[id].densityGPerCm3.standing).toBe('derived');
  expect(Math.abs(getMetal(id).densityGPerCm3 - mixedGPerCm3)).toBeLessThan(0.005);
});

test('getMetal() refuses an unknown id and lists the known ones', () => {
  expect(() => getMetal('pewter')).toThrow(/metal must be one of sterling-925, fine-silver-999, .*it is pewter/);
});

const own = { densityGPerCm3: 15.45, solidusC: 885, liquidusC: 895, conductivityWPerMK: 60, specificHeatJPerGK: 0.174 };

test('getMetal() brings a metal of one’s own to the same form', () => {
  const metal = getMetal({ name: 'Yellow gold', ...own });
  expect(metal).toMatchObject({
    name: 'Yellow gold',
    finenessFraction: 0,
    castSolidusC: 885,
    conductivityWPerMK: { at20C: 60, perK: 0 },
  });
  expect(metal.specificHeatJPerKgK.at20C).toBeCloseTo(174, 9);
});

test.each([
  [0.925, 779],
  [0, 885],
  [0.999, 885],
])('getMetal() holds a casting of one’s own of %d silver to %d °C', (finenessFraction, castSolidusC) => {
  expect(getMetal({ ...own, finenessFraction }).castSolidusC).toBe(castSolidusC);
});

test.each([
  ['densityGPerCm3', 0],
  ['solidusC', Number.NaN],
  ['liquidusC', 880],
  ['conductivityWPerMK', Infinity],
  ['finenessFraction', 92.5],
  ['emissivityFraction', 0],
])('getMetal() refuses a metal of one’s own with %s %d', (field, value) => {
  expect(() => getMetal({ ...own, [field]: value })).toThrow(new RegExp(`^${field} must be`));
});

// Zinc boils at 907 °C (CRC Handbook of Chemistry and Physics): of the table the brasses and nickel silver hold it.
test('mayGiveFume() tells metals with zinc, and those of which nobody says what they are', () => {
  const fuming = listMetals().filter(({ id }) => mayGiveFume(id));
  expect(fuming.map(({ id }) => id)).toEqual(['brass', 'brass-65', 'nickel-silver']);
  expect([undefined, 'base', 'silver', 'gold'].map((kind) => mayGiveFume({ ...own, ...(kind && { kind }) } as OwnMetal))).toEqual(
    [true, true, false, false],
  );
});
