import { EngineInputError } from '../engine-input-error.ts';

/** awg: Brown & Sharpe, the American gauge for sheet and wire; swg: the British standard wire gauge. */
export type Gauge = 'awg' | 'swg';

// Diameters in inches from 7/0 (number −6) to 40, Imperial Standard Wire Gauge, 1883.
const SWG_INCH = [
  0.5, 0.464, 0.432, 0.4, 0.372, 0.348, 0.324, 0.3, 0.276, 0.252, 0.232, 0.212, 0.192, 0.176, 0.16, 0.144, 0.128, 0.116, 0.104,
  0.092, 0.08, 0.072, 0.064, 0.056, 0.048, 0.04, 0.036, 0.032, 0.028, 0.024, 0.022, 0.02, 0.018, 0.0164, 0.0148, 0.0136, 0.0124,
  0.0116, 0.0108, 0.01, 0.0092, 0.0084, 0.0076, 0.0068, 0.006, 0.0052, 0.0048,
] as const;
const SWG_FIRST = -6;
const SWG_LAST = SWG_FIRST + SWG_INCH.length - 1;
const MM_PER_INCH = 25.4;

/**
 * Thickness or diameter of a gauge number, in mm.
 *
 * awg: d = 0.127 · 92^((36 − n)/39). swg: the table, straight between two numbers. 00 is −1, 000 is −2, 0000 is −3.
 *
 * @param number awg −3 to 44, swg −6 (7/0) to 40
 * @throws {EngineInputError} outside those numbers
 * @source ASTM B258: No. 36 is 0.0050 in, No. 0000 is 0.4600 in, 39 equal ratios between them; swg from memory of the table
 */
export function gaugeToMm(gauge: Gauge, number: number): number {
  if (gauge === 'awg') {
    if (!(number >= -3 && number <= 44)) throw new EngineInputError('gauge', number, 'from -3 (0000) to 44');
    return 0.127 * 92 ** ((36 - number) / 39);
  }
  if (!(number >= SWG_FIRST && number <= SWG_LAST)) throw new EngineInputError('gauge', number, 'from -6 (7/0) to 40');
  const lower = Math.min(Math.floor(number), SWG_LAST - 1) - SWG_FIRST;
  const share = number - SWG_FIRST - lower;
  return (SWG_INCH[lower]! * (1 - share) + SWG_INCH[lower + 1]! * share) * MM_PER_INCH;
}

/**
 * The gauge number of a thickness or diameter, the inverse of gaugeToMm(); a number between two is a size between two.
 *
 * @throws {EngineInputError} for a size outside the gauge
 */
export function mmToGauge(gauge: Gauge, sizeMm: number): number {
  const [thickestMm, thinnestMm] =
    gauge === 'awg' ? [gaugeToMm('awg', -3), gaugeToMm('awg', 44)] : [SWG_INCH[0] * MM_PER_INCH, SWG_INCH.at(-1)! * MM_PER_INCH];
  // A hair of room, so that a size just made from a number is not refused for its last bit.
  if (!(sizeMm <= thickestMm * (1 + 1e-12) && sizeMm >= thinnestMm * (1 - 1e-12))) {
    throw new EngineInputError(
      'sizeMm',
      sizeMm,
      `from ${thinnestMm.toPrecision(4)} to ${thickestMm.toPrecision(4)} mm in this gauge`,
    );
  }
  if (gauge === 'awg') return 36 - 39 * (Math.log(sizeMm / 0.127) / Math.log(92));
  const inch = sizeMm / MM_PER_INCH;
  const next = Math.max(
    1,
    SWG_INCH.findIndex((size) => size <= inch),
  );
  const upper = SWG_INCH[next - 1]!;
  return SWG_FIRST + next - 1 + (upper - inch) / (upper - SWG_INCH[next]!);
}
