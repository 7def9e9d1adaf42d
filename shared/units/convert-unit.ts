import { EngineInputError } from '../engine-input-error.ts';
import { gaugeToMm, mmToGauge, type Gauge } from './gauge.ts';
import { UNITS, type Dimension } from './unit-table.ts';

/**
 * One quantity in another unit. Exact factors, so the only error is that of a double; the last bits are rounded off
 * (15 significant digits), so that 1 [oz_tr] is 20 [pwt_tr] and not 19.999999999999996.
 *
 * Temperatures are temperatures, not differences: 0 Cel is 273.15 K.
 *
 * @param conversion value, any finite number; from and to, UCUM codes of one dimension, or the gauges awg and swg for lengths
 * @throws {EngineInputError} for an unknown code (the known ones are named), two dimensions that do not meet, a value that is
 *   no finite number or too large in the other unit, a temperature below absolute zero, or a gauge outside its numbers
 * @source UCUM, the Unified Code for Units of Measure; factors as in the table of units
 */
export function convertUnit({ value, from, to }: { value: number; from: string; to: string }): number {
  if (!Number.isFinite(value)) throw new EngineInputError('value', value, 'a finite number');
  const dimension = dimensionOf(from, 'from');
  if (dimensionOf(to, 'to') !== dimension) throw new EngineInputError('to', to, `a unit of ${dimension}, like ${from}`);
  if (from === to) return value;
  const base = toBase(value, from);
  if (dimension === 'temperature' && base < -273.15 - 1e-9)
    throw new EngineInputError('value', value, 'at or above absolute zero');
  const converted = Number(fromBase(base, to).toPrecision(15));
  if (!Number.isFinite(converted)) throw new EngineInputError('value', value, `small enough to be written in ${to}`);
  // Adding 0 turns a negative zero into zero.
  return converted + 0;
}

/** What a unit measures. */
function dimensionOf(code: string, quantity: string): Dimension {
  if (isGauge(code)) return 'length';
  const unit = findUnit(code);
  if (!unit) throw new EngineInputError(quantity, code, `one of ${[...Object.keys(UNITS), 'awg', 'swg'].join(' ')}`);
  return unit.dimension;
}

function isGauge(code: string): code is Gauge {
  return code === 'awg' || code === 'swg';
}

function findUnit(code: string) {
  return Object.hasOwn(UNITS, code) ? UNITS[code] : undefined;
}

function toBase(value: number, code: string): number {
  if (isGauge(code)) return gaugeToMm(code, value);
  const { perUnit, offset = 0 } = UNITS[code]!;
  return (value + offset) * perUnit;
}

function fromBase(base: number, code: string): number {
  if (isGauge(code)) return mmToGauge(code, base);
  const { perUnit, offset = 0 } = UNITS[code]!;
  return base / perUnit - offset;
}
