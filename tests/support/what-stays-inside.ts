import { expect } from 'vitest';
import type { Person } from './start-app.ts';

/** Texts of the studio that no client is to read, in every way they may be written. */
export interface Secrets {
  words: string[];
  /** Amounts and rates, as plain decimals. */
  figures: string[];
}

const NAMES = ['Flint', 'Basalt', 'Tamarisk', 'Pebble'];

/** Every cost, rate and share inside a version, and who works here; none of what the client is told. */
export async function secretsOf(owner: Person, quoteId: string, told: readonly number[]): Promise<Secrets> {
  const { inside } = (await owner.get(`/quotes/${quoteId}`).expect(200)).body;
  const { lines, totals } = inside.answer as { lines: { amountMinor: number }[]; totals: Record<string, number> };
  const amounts = [...lines.map(({ amountMinor }) => amountMinor), ...Object.values(totals)]
    .filter((minor) => Math.abs(minor) > 100 && !told.includes(Math.abs(minor)))
    .map((minor) => (Math.abs(minor) / 100).toFixed(2));
  const { ratesPerHour, overheadPerBenchHour, consumablesPerBenchHour } = inside.request.policy;
  const rates = [...Object.values(ratesPerHour as Record<string, string>), overheadPerBenchHour, consumablesPerBenchHour];
  return {
    words: [...NAMES, 'margin', 'markup', 'Marge', 'overhead', 'labour', 'pickle'],
    figures: [...amounts, ...rates.filter((rate) => Number(rate) > 0), inside.finePricePerG],
  };
}

export function holdInside(text: string, { words, figures }: Secrets): void {
  expect(text.length).toBeGreaterThan(100);
  expect(figures.length).toBeGreaterThan(10);
  const read = text.toLowerCase();
  for (const word of words) expect(read.includes(word.toLowerCase()), word).toBe(false);
  for (const figure of figures) {
    for (const written of [figure, figure.replace('.', ',')]) {
      // Not as a piece of a longer figure.
      expect(new RegExp(`(?<![\\d.,])${written.replace('.', '\\.')}(?![\\d])`).test(text), written).toBe(false);
    }
  }
}
