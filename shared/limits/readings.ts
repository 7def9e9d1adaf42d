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
  /** @param is the same in the field's own unit, with it */
  says: (given: number, is: string) => string;
  /** The same in the field's own unit; undefined where it cannot have been meant so. */
  convert: (given: number) => number | undefined;
}

const gauge = (code: 'awg' | 'swg', says: Read['says']): Read => ({
  says,
  convert: (given) =>
    Number.isInteger(given) && given >= 0 && given <= 40 ? convertUnit({ value: given, from: code, to: 'mm' }) : undefined,
});

const unit = (from: string, to: string, says: Read['says']): Read => ({
  says,
  convert: (given) => convertUnit({ value: given, from, to }),
});

const price = (from: string, says: Read['says']): Read => ({
  says,
  convert: (given) => given / convertUnit({ value: 1, from, to: 'g' }),
});

export const READINGS: Readonly<Record<Reading, Read>> = {
  awg: gauge('awg', (given, is) => `gauge ${given} (Brown & Sharpe) is ${is}`),
  swg: gauge('swg', (given, is) => `gauge ${given} (British) is ${is}`),
  fahrenheit: {
    says: (given, is) => `${given} °F is ${is}`,
    convert: (given) => (given > -459 ? convertUnit({ value: given, from: '[degF]', to: 'Cel' }) : undefined),
  },
  dwt: unit('[pwt_tr]', 'g', (given, is) => `${given} dwt is ${is}`),
  ozt: unit('[oz_tr]', 'g', (given, is) => `${given} ozt is ${is}`),
  mg: unit('mg', 'g', (given, is) => `${given} mg is ${is}`),
  percent: unit('%', '1', (given, is) => `${given} % is ${is}`),
  per_thousand: unit('[ppth]', '1', (given, is) => `${given} parts per thousand is ${is}`),
  kg_per_m3: unit('kg/m3', 'g/cm3', (given, is) => `${given} kg/m³ is ${is}`),
  price_per_ozt: price('[oz_tr]', (given, is) => `${given} minor units a troy ounce is ${is}`),
  price_per_dwt: price('[pwt_tr]', (given, is) => `${given} minor units a pennyweight is ${is}`),
  across: { says: (given, is) => `${given} mm across is ${is}`, convert: (given) => given * Math.PI },
  // markup m of the cost is margin m / (1 + m) of the price
  markup: {
    says: (given, is) => `a markup of ${given} is ${is}`,
    convert: (given) => (given > 0 ? given / (1 + given) : undefined),
  },
};
