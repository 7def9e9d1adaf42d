import type { TemperatureHistory } from './heat-run.ts';

const WITHIN_K = 1;
const MOST_POINTS = 300;

interface Stretch {
  from: number;
  to: number;
  /** The moment between that lies farthest off the straight line, and how far; K. */
  worst: number;
  offK: number;
}

/**
 * A history with as few moments as keep straight lines between them within 1 K of it: its ends, and again and again the moment
 * farthest off its line (Ramer 1972; Douglas & Peucker 1973, distances along the temperature axis). 300 moments at most; one with
 * more turns than that is off by more where it is off least.
 */
export function thinHistory(history: TemperatureHistory): { timesS: number[]; temperaturesC: number[] } {
  const { timesS, temperaturesC } = history;
  const kept = new Set([0, timesS.length - 1]);
  const stretches = [stretchOf(history, 0, timesS.length - 1)];
  while (kept.size < MOST_POINTS) {
    const at = stretches.reduce((most, { offK }, i) => (offK > stretches[most]!.offK ? i : most), 0);
    const { from, to, worst, offK } = stretches[at]!;
    if (offK <= WITHIN_K) break;
    kept.add(worst);
    stretches.splice(at, 1, stretchOf(history, from, worst), stretchOf(history, worst, to));
  }
  const moments = [...kept].sort((a, b) => a - b);
  return { timesS: moments.map((i) => timesS[i]!), temperaturesC: moments.map((i) => temperaturesC[i]!) };
}

function stretchOf({ timesS, temperaturesC }: TemperatureHistory, from: number, to: number): Stretch {
  const lengthS = timesS[to]! - timesS[from]!;
  const perS = lengthS > 0 ? (temperaturesC[to]! - temperaturesC[from]!) / lengthS : 0;
  const found: Stretch = { from, to, worst: from, offK: 0 };
  for (let i = from + 1; i < to; i++) {
    const offK = Math.abs(temperaturesC[i]! - temperaturesC[from]! - perS * (timesS[i]! - timesS[from]!));
    if (offK > found.offK) Object.assign(found, { worst: i, offK });
  }
  return found;
}
