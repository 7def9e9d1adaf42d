import { convertUnit } from '../units/convert-unit.ts';

/** A unit, or a way of saying it, in which a number outside its fences may have been meant. */
export type Reading =
  | 'awg'
  | 'swg'
  | 'fahrenheit'
  | 'dwt'
  | 'ozt'
  | 'mg'
  | 'percent'
  | 'per_thousand'
  | 'kg_per_m3'
  | 'price_per_ozt'
  | 'price_per_dwt'
  | 'across'
  | 'markup';

interface Read {
  words: (given: number) => string;
  /** The same in the field's own unit; undefined where it cannot have been meant so. */
  convert: (given: number) => number | undefined;
}

const gauge = (code: 'awg' | 'swg', name: string): Read => ({
  words: (given) => `gauge ${given} (${name})`,
  convert: (given) =>
    Number.isInteger(given) && given >= 0 && given <= 40 ? convertUnit({ value: given, from: code, to: 'mm' }) : undefined,
});

const unit = (symbol: string, from: string, to: string): Read => ({
  words: (given) => `${given} ${symbol}`,
  convert: (given) => convertUnit({ value: given, from, to }),
});

const price = (symbol: string, from: string): Read => ({
  words: (given) => `${given} minor units a ${symbol}`,
  convert: (given) => given / convertUnit({ value: 1, from, to: 'g' }),
});

export const READINGS: Readonly<Record<Reading, Read>> = {
  awg: gauge('awg', 'Brown & Sharpe'),
  swg: gauge('swg', 'British'),
  fahrenheit: {
    words: (given) => `${given} °F`,
    convert: (given) => (given > -459 ? convertUnit({ value: given, from: '[degF]', to: 'Cel' }) : undefined),
  },
  dwt: unit('dwt', '[pwt_tr]', 'g'),
  ozt: unit('ozt', '[oz_tr]', 'g'),
  mg: unit('mg', 'mg', 'g'),
  percent: unit('%', '%', '1'),
  per_thousand: unit('parts per thousand', '[ppth]', '1'),
  kg_per_m3: unit('kg/m³', 'kg/m3', 'g/cm3'),
  price_per_ozt: price('troy ounce', '[oz_tr]'),
  price_per_dwt: price('pennyweight', '[pwt_tr]'),
  across: { words: (given) => `${given} mm across`, convert: (given) => given * Math.PI },
  // markup m of the cost is margin m / (1 + m) of the price
  markup: { words: (given) => `a markup of ${given}`, convert: (given) => (given > 0 ? given / (1 + given) : undefined) },
};
