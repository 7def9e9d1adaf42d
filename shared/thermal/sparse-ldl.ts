/**
 * Factors and solves the symmetric positive definite matrices of a thermal network, A = L·D·Lᵀ, for one pattern and many values.
 *
 * The order of elimination (minimum degree) and the place every product is subtracted from are worked out once, in planLdl();
 * a numeric factorisation is then a straight walk over one list, with no searching.
 *
 * @source George & Liu, Computer Solution of Large Sparse Positive Definite Systems (1981), ch. 5 (minimum degree, symbolic factors)
 */
export interface LdlPlan {
  size: number;
  /** Row or column i is eliminated at positions[i]. */
  positions: Int32Array;
  /** Where column j of L begins in rows; its values lie at size + the same index, after the size diagonals. */
  columnStarts: Int32Array;
  rows: Int32Array;
  /** For each pair of entries of each column in turn: the value it is subtracted from. */
  updateTargets: Int32Array;
  /** For each edge: where its off-diagonal value lies. */
  edgeSlots: Int32Array;
  valueCount: number;
}

function popCount(word: number): number {
  let w = word - ((word >>> 1) & 0x55555555);
  w = (w & 0x33333333) + ((w >>> 2) & 0x33333333);
  return (((w + (w >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/** Neighbours as bit rows: joining two rows is then a few word operations, which suits the up to some thousand cells of a piece. */
function eliminate(size: number, from: Int32Array, to: Int32Array): { order: Int32Array; columns: Int32Array[] } {
  const words = (size + 31) >>> 5;
  const bits = new Int32Array(size * words);
  for (let e = 0; e < from.length; e++) {
    const i = from[e]!;
    const j = to[e]!;
    bits[i * words + (j >>> 5)]! |= 1 << (j & 31);
    bits[j * words + (i >>> 5)]! |= 1 << (i & 31);
  }
  const degrees = new Int32Array(size);
  const countRow = (i: number) => {
    let degree = 0;
    for (let w = i * words, end = w + words; w < end; w++) degree += popCount(bits[w]!);
    return degree;
  };
  for (let i = 0; i < size; i++) degrees[i] = countRow(i);
  const order = new Int32Array(size);
  const columns: Int32Array[] = [];
  for (let step = 0; step < size; step++) {
    let best = -1;
    let least = size + 1;
    for (let i = 0; i < size; i++) {
      const degree = degrees[i]!;
      if (degree >= 0 && degree < least) {
        least = degree;
        best = i;
      }
    }
    order[step] = best;
    degrees[best] = -1;
    const row = best * words;
    const neighbours = new Int32Array(least);
    let found = 0;
    for (let w = 0; w < words; w++) {
      for (let left = bits[row + w]!; left !== 0; left &= left - 1)
        neighbours[found++] = (w << 5) + (31 - Math.clz32(left & -left));
    }
    columns.push(neighbours);
    for (const i of neighbours) {
      const own = i * words;
      for (let w = 0; w < words; w++) bits[own + w]! |= bits[row + w]!;
      bits[own + (i >>> 5)]! &= ~(1 << (i & 31));
      bits[own + (best >>> 5)]! &= ~(1 << (best & 31));
      degrees[i] = countRow(i);
    }
  }
  return { order, columns };
}

/** The plan for a matrix with a full diagonal and one off-diagonal pair an edge; no edge may join a row to itself. */
export function planLdl(size: number, from: Int32Array, to: Int32Array): LdlPlan {
  const { order, columns } = eliminate(size, from, to);
  const positions = new Int32Array(size);
  order.forEach((i, position) => (positions[i] = position));
  const columnStarts = new Int32Array(size + 1);
  let pairs = 0;
  columns.forEach((column, j) => {
    columnStarts[j + 1] = columnStarts[j]! + column.length;
    pairs += (column.length * (column.length + 1)) / 2;
  });
  const count = columnStarts[size]!;
  const rows = new Int32Array(count);
  columns.forEach((column, j) => rows.set(column.map((i) => positions[i]!).sort(), columnStarts[j]));

  const updateTargets = new Int32Array(pairs);
  const slotOfRow = new Int32Array(size);
  // Right-looking: column j updates columns rows[p]; their slots are looked up through a scatter of that column's rows.
  const firstPair = new Int32Array(size);
  for (let j = 0, pair = 0; j < size; j++) {
    firstPair[j] = pair;
    const length = columnStarts[j + 1]! - columnStarts[j]!;
    pair += (length * (length + 1)) / 2;
  }
  const users: number[][] = Array.from({ length: size }, () => []);
  for (let j = 0; j < size; j++) for (let p = columnStarts[j]!; p < columnStarts[j + 1]!; p++) users[rows[p]!]!.push(j, p);
  for (let k = 0; k < size; k++) {
    for (let p = columnStarts[k]!; p < columnStarts[k + 1]!; p++) slotOfRow[rows[p]!] = size + p;
    const list = users[k]!;
    for (let u = 0; u < list.length; u += 2) {
      const j = list[u]!;
      const p = list[u + 1]!;
      const start = columnStarts[j]!;
      const end = columnStarts[j + 1]!;
      const length = end - start;
      const a = p - start;
      let pair = firstPair[j]! + a * length - (a * (a - 1)) / 2;
      updateTargets[pair++] = k;
      for (let q = p + 1; q < end; q++) updateTargets[pair++] = slotOfRow[rows[q]!]!;
    }
  }

  const edgeSlots = new Int32Array(from.length);
  for (let e = 0; e < from.length; e++) {
    const a = positions[from[e]!]!;
    const b = positions[to[e]!]!;
    const column = Math.min(a, b);
    edgeSlots[e] = size + rows.indexOf(Math.max(a, b), columnStarts[column]);
  }
  return { size, positions, columnStarts, rows, updateTargets, edgeSlots, valueCount: size + count };
}

/** Replaces A's diagonal (by position) and lower off-diagonals (by slot) in values with D⁻¹ and L. */
export function factorLdl(plan: LdlPlan, values: Float64Array): void {
  const { size, columnStarts, updateTargets } = plan;
  let pair = 0;
  for (let j = 0; j < size; j++) {
    const inverse = 1 / values[j]!;
    values[j] = inverse;
    const end = size + columnStarts[j + 1]!;
    for (let p = size + columnStarts[j]!; p < end; p++) {
      const below = values[p]!;
      const scaled = below * inverse;
      for (let q = p; q < end; q++) values[updateTargets[pair++]!]! -= scaled * values[q]!;
      values[p] = scaled;
    }
  }
}

/** Solves for one right-hand side in place; work needs size entries. */
export function solveLdl(plan: LdlPlan, values: Float64Array, side: Float64Array, work: Float64Array): void {
  const { size, columnStarts, positions, rows } = plan;
  for (let i = 0; i < size; i++) work[positions[i]!] = side[i]!;
  for (let j = 0; j < size; j++) {
    const x = work[j]!;
    const end = columnStarts[j + 1]!;
    for (let p = columnStarts[j]!; p < end; p++) work[rows[p]!]! -= values[size + p]! * x;
  }
  for (let j = size - 1; j >= 0; j--) {
    let x = work[j]! * values[j]!;
    const end = columnStarts[j + 1]!;
    for (let p = columnStarts[j]!; p < end; p++) x -= values[size + p]! * work[rows[p]!]!;
    work[j] = x;
  }
  for (let i = 0; i < size; i++) side[i] = work[positions[i]!]!;
}
