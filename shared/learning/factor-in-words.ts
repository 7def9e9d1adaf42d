import { EngineInputError } from '../engine-input-error.ts';
import { median } from './median.ts';

/**
 * What the records say of an operation, in a sentence: "six times out of seven filing took longer than planned, usually by a
 * quarter".
 *
 * @param ratios actual ÷ guessed, one a piece, > 0; at least one
 * @throws {EngineInputError} for a ratio that is not positive
 */
export function factorInWords(operation: string, ratios: readonly number[]): string {
  for (const ratio of ratios) if (!(ratio > 0 && ratio < Infinity)) throw new EngineInputError('ratios', ratio, '> 0 each');
  const longer = ratios.filter((ratio) => ratio > 1).length;
  const usual = median(ratios);
  const all = inWords(ratios.length);
  const by = share(usual);
  const usually = by === null ? 'usually about as long' : usual < 1 ? `usually by ${by} less` : `usually by ${by}`;
  return longer === 1
    ? `one time out of ${all} ${operation} took longer than planned, ${usually}`
    : `${inWords(longer)} times out of ${all} ${operation} took longer than planned, ${usually}`;
}

const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

function inWords(count: number): string {
  return WORDS[count] ?? String(count);
}

/** How far from as planned, as people say it; null under a twentieth. */
function share(ratio: number): string | null {
  const off = Math.abs(ratio - 1);
  if (off < 0.05) return null;
  if (off < 0.15) return 'a tenth';
  if (off < 0.22) return 'a fifth';
  if (off < 0.29) return 'a quarter';
  if (off < 0.42) return 'a third';
  if (off < 0.6) return 'a half';
  if (off < 0.85) return 'three quarters';
  return ratio < 1 ? 'nearly all' : off < 1.25 ? 'as much again' : `${Math.round(off * 10) / 10} times as much again`;
}
