import fc from 'fast-check';
import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { HEAT_COLOURS, heatColour } from '../../../shared/materials/heat-colour.ts';

// Chapman, Workshop Technology, part 1, 5th ed.: steel is black red from 426 to 593 °C, very dark red to 704, dark red to 814,
// cherry red from 815 to 870, light cherry red to 981.
test.each([
  [20, 'no glow'],
  [425.9, 'no glow'],
  [426, 'black red, seen in the dark alone'],
  [593, 'black red, seen in the dark alone'],
  [650, 'very dark red'],
  [704, 'very dark red'],
  [718, 'dark red'],
  [788, 'dark red'],
  [815, 'cherry red'],
  [870, 'cherry red'],
  [961.78, 'light cherry red'],
  [1400, 'white'],
])('heatColour() of %d °C is %s, as the published table has it', (temperatureC, words) => {
  expect(heatColour(temperatureC)).toBe(words);
});

test('hotter metal never has a colder colour', () => {
  const places = ['no glow', ...HEAT_COLOURS.map(({ words }) => words)];
  const anyC = fc.double({ min: 0, max: 3000, noNaN: true });
  fc.assert(
    fc.property(anyC, anyC, (a, b) => places.indexOf(heatColour(Math.min(a, b))) <= places.indexOf(heatColour(Math.max(a, b)))),
  );
});

test('heatColour() refuses what no metal has', () => {
  for (const wrong of [Number.NaN, Infinity, -300, 4000]) expect(() => heatColour(wrong)).toThrow(EngineInputError);
});
