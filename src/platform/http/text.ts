import { z } from 'zod';

/** "owner, bench or desk", for a sentence. */
export function anyOf(words: readonly string[]): string {
  return words.join(', ').replace(/, ([^,]*)$/, ' or $1');
}

/** One line somebody typed: trimmed, NFC, no control characters. */
export function lineOfText(most: number, whenEmpty?: string) {
  return z
    .string()
    .normalize('NFC')
    .trim()
    .min(1, whenEmpty)
    .max(most)
    .regex(/^\P{Cc}*$/u, 'Control characters cannot be used here.');
}

/** The same over several lines. */
export function blockOfText(most: number) {
  return z
    .string()
    .normalize('NFC')
    .trim()
    .min(1)
    .max(most)
    .regex(/^[\P{Cc}\n\t]*$/u, 'Control characters cannot be used here.');
}
