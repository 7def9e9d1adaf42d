import { expect, test } from 'vitest';
import { predictedState } from '../../../shared/thermal/predicted-state.ts';

// Plain arithmetic on invented windows, hard 740–775, medium 690–735, easy 650–705 °C: solidus and liquidus less the peak.
test.each([
  { peakC: 720, solidusC: 740, liquidusC: 775, state: 'solid' },
  { peakC: 750, solidusC: 740, liquidusC: 775, state: 'softens' },
  { peakC: 720, solidusC: 690, liquidusC: 735, state: 'softens' },
  { peakC: 750, solidusC: 650, liquidusC: 705, state: 'runs' },
  // On the very point, the milder.
  { peakC: 740, solidusC: 740, liquidusC: 775, state: 'solid' },
  { peakC: 775, solidusC: 740, liquidusC: 775, state: 'softens' },
])('predictedState() at $peakC °C is $state for $solidusC to $liquidusC °C', ({ peakC, solidusC, liquidusC, state }) => {
  expect(predictedState({ solidMarginK: solidusC - peakC, runMarginK: liquidusC - peakC })).toBe(state);
});
