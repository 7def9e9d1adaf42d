import { expect, test } from 'vitest';
import { pickleDip, copperIn } from '../../../shared/costing/pickle-dip.ts';
import { Decimal } from '../../../shared/decimal.ts';

// Standard atomic weights, CIAAW 2021 (conventional values where an interval is given).
const H = 1.008;
const [B, C, O, Na, S, Cu] = [10.81, 12.011, 15.999, 22.98976928, 32.06, 63.546];
const CUO = Cu + O;
const BORAX = 2 * Na + 4 * B + 7 * O;

// CuO + 2 NaHSO₄ → CuSO₄ + Na₂SO₄ + H₂O; CuO + H₂SO₄ → CuSO₄ + H₂O; 3 CuO + 2 H₃Cit → Cu₃Cit₂ + 3 H₂O: two H⁺ each.
// Na₂B₄O₇ + 2 H⁺ + 5 H₂O → 4 H₃BO₃ + 2 Na⁺: two again.
const ACID_FOR_TWO_PROTONS = {
  bisulphate: 2 * (Na + H + S + 4 * O),
  sulphuric: 2 * H + S + 4 * O,
  citric: (2 / 3) * (6 * C + 8 * H + 7 * O),
};

test.each(Object.entries(ACID_FOR_TWO_PROTONS))('a dip uses %s as the atomic weights say', (acid, gPerMole) => {
  const dip = (areaCm2: number, boraxG: number) =>
    pickleDip(
      { areaCm2: new Decimal(areaCm2), boraxG: new Decimal(boraxG) },
      { acid: acid as keyof typeof ACID_FOR_TWO_PROTONS, oxideUm: 1, dragOutMlPerCm2: 0, strengthGPerL: 100 },
    );
  // The molar masses that the recipe freezes are rounded in their fifth place.
  const oxide = dip(1, 0);
  expect(oxide.acidG.div(oxide.cuoG).toNumber() / (gPerMole / CUO)).toBeCloseTo(1, 3);
  expect(Math.abs(oxide.acidG.div(oxide.cuoG).toNumber() / (gPerMole / CUO) - 1)).toBeLessThan(1e-4);
  expect(Math.abs(dip(0, 1).acidG.toNumber() / (gPerMole / BORAX) - 1)).toBeLessThan(1.5e-4);
});

test('copper goes into the bath as the oxide holds it', () => {
  expect(Math.abs(copperIn(new Decimal(1)).toNumber() / (Cu / CUO) - 1)).toBeLessThan(1e-6);
});

// 1.5 L at 100 g/L carried out at 0.015 mL/cm²: 1.5 mg a cm².
test('what is carried out on the work is of the strength of the bath', () => {
  const { acidG } = pickleDip(
    { areaCm2: new Decimal(40), boraxG: new Decimal(0) },
    { acid: 'citric', oxideUm: 0, dragOutMlPerCm2: 0.015, strengthGPerL: 100 },
  );
  expect(acidG.toNumber()).toBeCloseTo(0.06, 12);
});
