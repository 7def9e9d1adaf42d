import { Decimal } from '../decimal.ts';
import type { Acid, PickleUse } from './estimate-request.ts';
import { physics } from './inputs.ts';

// Molar masses, g/mol, frozen by recipe 1.
const CUO = '79.545';
const CU = '63.546';
const BORAX = '201.22';
/** Grams of acid for a mole of copper oxide or of borax: either takes two H⁺. */
const ACID_PER_MOLE: Readonly<Record<Acid, Decimal>> = {
  // CuO + 2 NaHSO₄ → CuSO₄ + Na₂SO₄ + H₂O
  bisulphate: new Decimal('120.06').times(2),
  // CuO + H₂SO₄ → CuSO₄ + H₂O
  sulphuric: new Decimal('98.079'),
  // 3 CuO + 2 H₃Cit → Cu₃Cit₂ + 3 H₂O
  citric: new Decimal('192.124').times(2).div(3),
};
const CUO_G_PER_CM3 = '6.31';

/**
 * What one dip takes from a bath: for the oxide, for the borax of the flux glass, and what is carried out on the work.
 *
 * CuO = area · δ · 10⁻⁴ · 6.31; acid = CuO · s + borax · b + area · drag-out/1000 · strength, with s and b from two H⁺ a mole.
 *
 * @param work the whole wetted surface, cm², and the borax on it, g
 * @throws {EngineInputError} for an oxide or a drag-out below 0, or no strength
 * @source stoichiometry; density of CuO 6.31 g/cm³, CRC Handbook; oxide thickness and drag-out are assumed
 */
export function pickleDip(
  { areaCm2, boraxG }: { areaCm2: Decimal; boraxG: Decimal },
  pickle: Pick<PickleUse, 'acid' | 'oxideUm' | 'dragOutMlPerCm2' | 'strengthGPerL'>,
): { cuoG: Decimal; acidG: Decimal } {
  const perMole = ACID_PER_MOLE[pickle.acid];
  // µm · cm² · g/cm³: 10⁻⁴ cm a µm.
  const cuoG = areaCm2
    .times(physics('pickle.oxideUm', pickle.oxideUm, { from: 0 }))
    .times('1e-4')
    .times(CUO_G_PER_CM3);
  const draggedG = areaCm2
    .times(physics('pickle.dragOutMlPerCm2', pickle.dragOutMlPerCm2, { from: 0 }))
    .div(1000)
    .times(physics('pickle.strengthGPerL', pickle.strengthGPerL, { above: 0 }));
  return { cuoG, acidG: cuoG.times(perMole).div(CUO).plus(boraxG.times(perMole).div(BORAX)).plus(draggedG) };
}

/** Copper in an amount of its oxide, g. */
export function copperIn(cuoG: Decimal): Decimal {
  return cuoG.times(CU).div(CUO);
}
