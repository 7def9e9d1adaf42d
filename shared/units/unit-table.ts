/** Codes are those of UCUM (case sensitive); a factor takes one of the unit to the base of its dimension. */

export type Dimension = 'length' | 'area' | 'volume' | 'mass' | 'temperature' | 'time' | 'energy' | 'density' | 'fraction';

export interface Unit {
  dimension: Dimension;
  name: string;
  /** Base units: mm, mm², mm³, g, °C, s, J, g/cm³, 1. */
  perUnit: number;
  /** Added to a value before the factor; for temperatures alone. */
  offset?: number;
}

const unit = (dimension: Dimension, name: string, perUnit: number, offset?: number): Unit =>
  offset === undefined ? { dimension, name, perUnit } : { dimension, name, perUnit, offset };

/**
 * Exact factors: the inch and the grain by the International Yard and Pound agreement of 1959, the troy units as 24, 480
 * and 5760 grains, the metric carat as 200 mg.
 *
 * @source NIST Handbook 44, Appendix C; UCUM, tables of base and derived units
 */
export const UNITS: Readonly<Record<string, Unit>> = {
  mm: unit('length', 'millimetre', 1),
  cm: unit('length', 'centimetre', 10),
  m: unit('length', 'metre', 1000),
  '[in_i]': unit('length', 'inch', 25.4),
  mm2: unit('area', 'square millimetre', 1),
  cm2: unit('area', 'square centimetre', 100),
  '[sin_i]': unit('area', 'square inch', 645.16),
  mm3: unit('volume', 'cubic millimetre', 1),
  cm3: unit('volume', 'cubic centimetre', 1000),
  mL: unit('volume', 'millilitre', 1000),
  L: unit('volume', 'litre', 1_000_000),
  g: unit('mass', 'gram', 1),
  mg: unit('mass', 'milligram', 0.001),
  kg: unit('mass', 'kilogram', 1000),
  '[gr]': unit('mass', 'grain', 0.06479891),
  '[pwt_tr]': unit('mass', 'pennyweight', 1.55517384),
  '[oz_tr]': unit('mass', 'troy ounce', 31.1034768),
  '[lb_tr]': unit('mass', 'troy pound', 373.2417216),
  '[oz_av]': unit('mass', 'ounce', 28.349523125),
  '[lb_av]': unit('mass', 'pound', 453.59237),
  '[car_m]': unit('mass', 'metric carat', 0.2),
  Cel: unit('temperature', 'degree Celsius', 1),
  '[degF]': unit('temperature', 'degree Fahrenheit', 5 / 9, -32),
  K: unit('temperature', 'kelvin', 1, -273.15),
  s: unit('time', 'second', 1),
  min: unit('time', 'minute', 60),
  h: unit('time', 'hour', 3600),
  d: unit('time', 'day', 86_400),
  J: unit('energy', 'joule', 1),
  kJ: unit('energy', 'kilojoule', 1000),
  'kW.h': unit('energy', 'kilowatt hour', 3_600_000),
  'g/cm3': unit('density', 'gram per cubic centimetre', 1),
  'kg/m3': unit('density', 'kilogram per cubic metre', 0.001),
  '1': unit('fraction', 'share of one', 1),
  '%': unit('fraction', 'percent', 0.01),
  '[ppth]': unit('fraction', 'part per thousand', 0.001),
};
