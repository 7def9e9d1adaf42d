import fc from 'fast-check';
import { expect, test } from 'vitest';
import { teller } from '../../src/web/words/tell.ts';

const tell = teller(
  {
    'it peaks {0} its solidus': 'sie kommt bis {0} den Solidus',
    'about {0} °C {1}': 'etwa {0} °C {1}',
    over: 'über',
    under: 'unter',
    'Flows only just: with a quarter less power it would not': 'Fließt gerade eben: mit einem Viertel weniger Leistung nicht',
    'Joint {0} is in heat {1}: heat {2} has made it': 'Lötstelle {0} ist in Lötung {1}: Lötung {2} hat sie schon gemacht',
    'Joint {0} is in heat {1}': 'Lötstelle {0} ist in Lötung {1}',
    'with {0}: flows{1}': 'mit {0}: fließt{1}',
    ', but {0}': ', aber {0}',
    'a shield': 'einem Schirm',
    'In heat {0}: {1}': 'In Lötung {0}: {1}',
    '{0} are not there yet': '{0} fehlen noch',
    ' and ': ' und ',
    'laid out': 'ausgelegt',
    'Gone on {0}: {1}': 'Entsorgt am {0}: {1}',
    'a {0} has no {1}': '{0, select, sheet {ein Blech} other {{0}}} hat kein {1}',
    'at most {0}': 'höchstens {0}',
    'working days': 'Arbeitstage',
    'Made {0} before {1} ({2} times)': '{2, plural, one {Einmal} other {#-mal}} {1} nach {0} gemacht',
    'There is no heat {0}. The plan has {1}': 'Lötung {0} gibt es nicht: der Plan hat {1}',
  },
  'de-AT',
);

test.each([
  // The surest template wins: the one with most of the sentence in it.
  ['Joint a-b is in heat 3: heat 2 has made it', 'Lötstelle a-b ist in Lötung 3: Lötung 2 hat sie schon gemacht'],
  ['Joint a-b is in heat 3', 'Lötstelle a-b ist in Lötung 3'],
  // What is put in is told too, with its figures as the reader writes them.
  ['it peaks about 12.5 °C over its solidus', 'sie kommt bis etwa 12,5 °C über den Solidus'],
  ['About 4 °C under', 'Etwa 4 °C unter'],
  ['with a shield: flows, but rivet: about 5 °C over', 'mit einem Schirm: fließt, aber rivet: etwa 5 °C über'],
  ['with a shield and a shield: flows', 'mit einem Schirm und einem Schirm: fließt'],
  ['Made a before b (1 times)', 'Einmal b nach a gemacht'],
  ['Made a before b (3 times)', '3-mal b nach a gemacht'],
  // Sentences after one another: whole where a template has both, else each.
  ['There is no heat 4. The plan has 3', 'Lötung 4 gibt es nicht: der Plan hat 3'],
  [
    'Flows only just: with a quarter less power it would not. Joint a is in heat 1. Nobody knows this one.',
    'Fließt gerade eben: mit einem Viertel weniger Leistung nicht. Lötstelle a ist in Lötung 1. Nobody knows this one.',
  ],
  ['Joint a is in heat 1\nJoint b is in heat 2', 'Lötstelle a ist in Lötung 1\nLötstelle b ist in Lötung 2'],
  [
    '/heats/0: Joint a is in heat 1. /heats/1: Joint b is in heat 2.',
    '/heats/0: Lötstelle a ist in Lötung 1. /heats/1: Lötstelle b ist in Lötung 2.',
  ],
  ['Joint a is in heat 1. 2 of them: a shield.', 'Lötstelle a ist in Lötung 1. 2 of them: einem Schirm.'],
  // Numbers of pieces are no decimals.
  ['Joint C31-001.2 is in heat 1.5', 'Lötstelle C31-001.2 ist in Lötung 1,5'],
  [
    'Joint a is in heat 2031-05-05T07:58:00.000Z',
    `Lötstelle a ist in Lötung ${new Date('2031-05-05T07:58:00Z').toLocaleString('de-AT', { dateStyle: 'medium', timeStyle: 'short' })}`,
  ],
  // A state is the same with a line between its words.
  ['Joint a is in heat laid_out', 'Lötstelle a ist in Lötung ausgelegt'],
  // What somebody typed is left as it is, and the rest is told.
  ['Joint a is in heat 1. Gone on 2031-05-05: the works', 'Lötstelle a ist in Lötung 1. Entsorgt am 05.05.2031: the works'],
  // Only the last place of a template may hold more than one clause.
  ['Joint a is in heat 1; Joint b is in heat 2', 'Lötstelle a ist in Lötung 1; Lötstelle b ist in Lötung 2'],
  ['a sheet has no zMm', 'ein Blech hat kein zMm'],
  ['at most 2.5 working days', 'höchstens 2,5 Arbeitstage'],
  // What begins as it does goes before what only ends as it does.
  ['In heat 2: 3 chips of easy are not there yet', 'In Lötung 2: 3 chips of easy fehlen noch'],
  // What stands after one another is not taken for one, where a place is not for a list.
  ['Joint a is in heat 3; Joint b is in heat 4', 'Lötstelle a ist in Lötung 3; Lötstelle b ist in Lötung 4'],
  // Nothing is taken for a template that only is called like what every object has.
  ['Joint toString is in heat 3', 'Lötstelle toString ist in Lötung 3'],
  // Nothing is guessed.
  ['Ring with stone and chain', 'Ring with stone and chain'],
  ['12.5', '12.5'],
])('%s', (english, german) => {
  expect(tell(english)).toBe(german);
});

const word = fc.string({ unit: fc.constantFrom('a', 'e', 'i', 'o', 'u'), minLength: 2, maxLength: 6 });
const value = fc.oneof(
  fc.string({ unit: fc.constantFrom('x', 'y', 'z'), minLength: 1, maxLength: 6 }),
  fc.integer({ min: 0, max: 99_999 }).map((tenths) => String(tenths / 10)),
);

test('whatever a template is filled with is told in its German, with the same values', () => {
  const template = fc.array(word, { minLength: 3, maxLength: 7 }).chain((words) =>
    fc.uniqueArray(fc.nat({ max: words.length }), { minLength: 1, maxLength: 3 }).map((places) => {
      const marked = [...words];
      places.toSorted((a, b) => b - a).forEach((at) => marked.splice(at, 0, '{}'));
      let next = 0;
      return marked.join(' ').replaceAll('{}', () => `{${next++}}`);
    }),
  );
  const one = template.chain((english) =>
    fc.record({ english: fc.constant(english), values: fc.array(value, { minLength: 3, maxLength: 3 }) }),
  );
  fc.assert(
    fc.property(one, ({ english, values }) => {
      const places = [...english.matchAll(/\{\d\}/g)].map(([place]) => place);
      const german = `Deutsch: ${places.toReversed().join(' und ')}`;
      const told = teller({ [english]: german }, 'de')(fill(english, values));
      expect(told).toBe(
        fill(
          german,
          values.map((each) => each.replace(/(\d)\.(\d)/, '$1,$2')),
        ),
      );
    }),
  );
});

function fill(template: string, values: readonly string[]): string {
  return template.replaceAll(/\{(\d)\}/g, (_, at: string) => values[Number(at)]!);
}
