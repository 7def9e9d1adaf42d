/** The 95 % point of the standard normal distribution. */
const Z_95 = 1.6448536269514722;

/** The textbook's order point: the mean demand of the lead time and so many deviations that it covers 95 % of a normal one. */
export function normalOrderPoint({ mean, deviation }: { mean: number; deviation: number }): number {
  return mean + Z_95 * deviation;
}
