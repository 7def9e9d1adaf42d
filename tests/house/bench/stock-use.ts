/** Seeded use of one solder as a studio has it: pieces, each with the grams it takes, some weeks after it was accepted. */

export interface Work {
  /** Week in which it is soldered, from 0. */
  week: number;
  /** Week in which it was accepted, and its solder held. */
  acceptedInWeek: number;
  grams: number;
}

type Random = () => number;

/** mulberry32, a public-domain generator of 32 bits: the same work for the same seed. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Log-normal by the polar form of Box and Muller. */
function about(random: Random, median: number, spread: number): number {
  const normal = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  return median * Math.exp(spread * normal);
}

interface Shape {
  what: string;
  /** Chance of a piece in a week. */
  chance: (week: number) => number;
  /** Pieces when there are any. */
  pieces: number;
  median: number;
  spread: number;
}

/** Invented, in the range of a studio of one to three; no study of solder use was found. */
export const SHAPES: readonly Shape[] = [
  { what: 'steady small work', chance: () => 0.95, pieces: 3, median: 0.12, spread: 0.3 },
  { what: 'lumps, a third of the weeks', chance: () => 0.33, pieces: 1, median: 1.2, spread: 0.45 },
  { what: 'lumps with a rare large piece', chance: () => 0.3, pieces: 1, median: 0.8, spread: 1.1 },
  { what: 'a large piece a quarter', chance: () => 0.08, pieces: 1, median: 6, spread: 0.4 },
  {
    what: 'an autumn of three times the work',
    chance: (week) => (week % 52 >= 38 ? 0.75 : 0.25),
    pieces: 1,
    median: 1.2,
    spread: 0.45,
  },
  {
    what: 'work that doubles in two years',
    chance: (week) => Math.min(0.9, 0.2 * 2 ** (week / 104)),
    pieces: 1,
    median: 1.2,
    spread: 0.45,
  },
  { what: 'work that dies away', chance: (week) => 0.5 * 2 ** (-week / 52), pieces: 1, median: 1.2, spread: 0.45 },
];

export function workOf(shape: Shape, { seed, weeks }: { seed: number; weeks: number }): Work[] {
  const random = seeded(seed);
  return Array.from({ length: weeks }, (_, week) => week).flatMap((week) => {
    if (random() >= shape.chance(week)) return [];
    return Array.from({ length: shape.pieces }, (): Work => ({
      week,
      acceptedInWeek: week - Math.floor(6 * random()),
      grams: Number(about(random, shape.median, shape.spread).toFixed(4)),
    }));
  });
}
