import { expect, test } from 'vitest';
import { CAUTIONS } from '../../../shared/cautions/caution-table.ts';
import { heatCautions, type HeatFacts } from '../../../shared/cautions/heat-cautions.ts';

const plain: HeatFacts = {
  cadmiumInDoubt: false,
  unknownSolder: false,
  fumingMetal: false,
  boraxFraction: 0.35,
  fluorideInDoubt: true,
  hollow: false,
  heatShy: false,
  steel: false,
  support: 'brick',
};
const idsOf = (facts: Partial<HeatFacts>) => heatCautions({ ...plain, ...facts }).map(({ id }) => id);

// Workshop practice: a plain heat has flame, glare, flux fumes, a quench, hot work near pickle, gas, and a board under it.
test('heatCautions() of a plain heat', () => {
  expect(idsOf({})).toEqual(['C1', 'C2', 'C3', 'C4', 'C11', 'C12', 'C13', 'C16', 'C20', 'C21']);
});

test('heatCautions() never quenches hollow work or stones', () => {
  for (const facts of [{ hollow: true }, { heatShy: true }]) expect(idsOf(facts)).not.toContain('C11');
  expect(idsOf({ hollow: true })).toContain('C8');
  expect(idsOf({ heatShy: true })).toContain('C10');
});

test('heatCautions() adds what the fire holds and drops what is not there', () => {
  const cases: [Partial<HeatFacts>, string, boolean][] = [
    [{ cadmiumInDoubt: true }, 'C5', true],
    [{ unknownSolder: true }, 'C6', true],
    [{ fumingMetal: true }, 'C7', true],
    [{ steel: true }, 'C14', true],
    [{ fluorideInDoubt: false }, 'C3', false],
    [{ boraxFraction: 0 }, 'C4', false],
    [{ support: 'air' }, 'C21', false],
  ];
  for (const [facts, id, isShown] of cases) expect([id, idsOf(facts).includes(id as 'C1')]).toEqual([id, isShown]);
});

test('a caution that blocks is the one about cadmium alone', () => {
  expect(CAUTIONS.filter(({ tick }) => tick === 'blocks').map(({ id }) => id)).toEqual(['C5']);
  expect(new Set(CAUTIONS.map(({ id }) => id)).size).toBe(21);
});
