/** Points whose temperatures are read off the cells, each by weights that sum to 1. */
export interface Probes {
  count: number;
  starts: Int32Array;
  cells: Int32Array;
  weights: Float64Array;
}

export function createProbes(points: readonly (readonly { cell: number; weight: number }[])[]): Probes {
  const flat = points.flat();
  const starts = new Int32Array(points.length + 1);
  points.forEach((point, p) => (starts[p + 1] = starts[p]! + point.length));
  return {
    count: points.length,
    starts,
    cells: Int32Array.from(flat, ({ cell }) => cell),
    weights: Float64Array.from(flat, ({ weight }) => weight),
  };
}

/** Value of one probe in a field over the cells: temperatures, or their slopes. */
export function readProbe({ starts, cells, weights }: Probes, probe: number, field: Float64Array): number {
  let sum = 0;
  for (let p = starts[probe]!; p < starts[probe + 1]!; p++) sum += weights[p]! * field[cells[p]!]!;
  return sum;
}

/** Index of the coldest probe. */
export function coldestProbe(probes: Probes, temperaturesC: Float64Array): number {
  let coldest = 0;
  let least = Infinity;
  for (let probe = 0; probe < probes.count; probe++) {
    const t = readProbe(probes, probe, temperaturesC);
    if (t < least) {
      least = t;
      coldest = probe;
    }
  }
  return coldest;
}

export function coldestC(probes: Probes, temperaturesC: Float64Array): number {
  return readProbe(probes, coldestProbe(probes, temperaturesC), temperaturesC);
}

export function hottestC(probes: Probes, temperaturesC: Float64Array): number {
  let most = -Infinity;
  for (let probe = 0; probe < probes.count; probe++) most = Math.max(most, readProbe(probes, probe, temperaturesC));
  return most;
}
