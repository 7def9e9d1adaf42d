import { minorDigits } from '../../../shared/costing/currency.ts';
import { Decimal } from '../../../shared/decimal.ts';
import type { FieldError } from '../../platform/http/problem.ts';

/** How a cell is read. */
type Cell = 'text' | 'number' | 'decimal' | 'money' | 'unit_price' | 'yes_no';

export interface ListColumn {
  /** With its unit. */
  header: string;
  /** Where its value goes in the body of a request, as a JSON Pointer. */
  pointer: string;
  cell: Cell;
  needed: boolean;
  says: string;
  /** Of money. */
  currency?: string;
}

export type DecimalMark = 'point' | 'comma';

/** What a cell says, or what is wrong with it. An empty one says nothing. */
export type Reading = { value?: unknown } | { fault: Omit<FieldError, 'pointer'> };

export function readCell(text: string, { cell, currency }: ListColumn, decimal: DecimalMark): Reading {
  const words = text.trim();
  if (words === '') return {};
  switch (cell) {
    case 'text':
      // A line break of another machine is a line break.
      return { value: words.replaceAll(/\r\n?/g, '\n') };
    case 'yes_no':
      return yesOrNo(words);
    case 'number': {
      const read = plainDecimal(words, decimal);
      return typeof read === 'string' ? { value: Number(read) } : read;
    }
    case 'decimal': {
      const read = plainDecimal(words, decimal);
      return typeof read === 'string' ? { value: read } : read;
    }
    case 'money': {
      const read = plainDecimal(words, decimal);
      return typeof read === 'string' ? inMinor(read, currency!) : read;
    }
    case 'unit_price': {
      const read = plainDecimal(words, decimal);
      return typeof read === 'string' ? { value: { amount: read, per: 'g' } } : read;
    }
  }
}

function inMinor(amount: string, currency: string): Reading {
  const digits = minorDigits(currency);
  const minor = new Decimal(amount).times(new Decimal(10).pow(digits));
  if (minor.isInteger()) return { value: { amountMinor: minor.toNumber(), currency } };
  return { fault: { detail: `${currency} has ${digits} decimals at most.`, given: amount } };
}

function yesOrNo(words: string): Reading {
  const lower = words.toLowerCase();
  if (lower === 'yes' || lower === 'no') return { value: lower === 'yes' };
  return { fault: { detail: 'Write yes or no.', given: words } };
}

/** A decimal with a point, or what is wrong: nothing is guessed of commas and points that may be meant otherwise. */
function plainDecimal(words: string, decimal: DecimalMark): string | { fault: Omit<FieldError, 'pointer'> } {
  const [mark, other] = decimal === 'point' ? ['.', ','] : [',', '.'];
  const plain = new RegExp(`^-?\\d+(\\${mark}\\d+)?([eE][+-]?\\d+)?$`);
  if (plain.test(words)) return words.replace(mark, '.');
  if (/^-?\d+([.,]\d+)+$/.test(words)) return { fault: markFault(words, { other, decimal }) };
  const [, number, unit] = /^(-?\d+(?:[.,]\d+)?)\s*([^\d\s].*)$/.exec(words) ?? [];
  return {
    fault: {
      detail: unit === undefined ? 'Write a number.' : `Write the number alone: ${number}; the header says its unit.`,
      given: words,
    },
  };
}

function markFault(words: string, { other, decimal }: { other: string; decimal: DecimalMark }): Omit<FieldError, 'pointer'> {
  const instead = decimal === 'point' ? 'comma' : 'point';
  const readings = [...new Set([words.replace(other, decimal === 'point' ? '.' : ','), words.replaceAll(/[.,]/g, '')])];
  const isGrouped = /^-?\d{1,3}([.,]\d{3})+([.,]\d+)?$/.test(words);
  if (words.split(/[.,]/).length > 2)
    return { detail: 'Write it without marks between thousands, and with one decimal mark.', given: words };
  const says = `${words} has a decimal ${instead}; this file is read with a decimal ${decimal}.`;
  const ask = `Send ?decimal=${instead} for the whole file, or write ${isGrouped ? `what is meant: ${readings.join(' or ')}` : readings[0]}.`;
  return { detail: `${says} ${ask}`, given: words, ...(isGrouped ? {} : { perhaps: Number(words.replace(',', '.')) }) };
}
