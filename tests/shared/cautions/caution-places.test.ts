import { expect, test } from 'vitest';
import { bathCautions } from '../../../shared/cautions/bath-cautions.ts';
import { CAUTIONS } from '../../../shared/cautions/caution-table.ts';
import { heatCautions } from '../../../shared/cautions/heat-cautions.ts';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';

const everything = {
  cadmiumInDoubt: true,
  unknownSolder: true,
  fumingMetal: true,
  boraxFraction: 0.35,
  fluorideInDoubt: true,
  heatShy: false,
  steel: true,
  support: 'charcoal' as const,
};

const byTable = (place: string) =>
  CAUTIONS.filter(({ shownAt }) => (shownAt as readonly string[]).includes(place)).map(({ id }) => id);

test('each caution is shown where the table says', () => {
  const atHeats = new Set(
    [{ hollow: true }, { hollow: false, heatShy: true }, { hollow: false }].flatMap((facts) =>
      heatCautions({ ...everything, ...facts }).map(({ id }) => id),
    ),
  );
  // The closing of the last vent (C9) is told by the check of the plan, which alone knows it.
  atHeats.add('C9');
  const atBaths = new Set(LIFECYCLES.pickle_bath.states.flatMap((state) => bathCautions(state).map(({ id }) => id)));
  expect([...atHeats].toSorted()).toEqual(byTable('heat').toSorted());
  expect([...atBaths].toSorted()).toEqual(byTable('bath').toSorted());
  expect(byTable('list')).toEqual(['C17', 'C19']);
});

test('a bath in work is about hot metal, acid and iron; one that is renewed about where it goes', () => {
  expect(bathCautions('in_use').map(({ id }) => id)).toEqual(['C12', 'C13', 'C14', 'C18']);
  expect(bathCautions('spent').map(({ id }) => id)).toEqual(['C13', 'C15']);
  expect(bathCautions('gone')).toEqual([]);
});
