/**
 * Variances of fitted parameters: the diagonal of the inverse of their information matrix JᵀJ, by Gauss and Jordan.
 *
 * @param information symmetric and positive definite: with a prior on every parameter it is, and needs no pivoting
 */
export function variances(information: readonly (readonly number[])[]): number[] {
  const size = information.length;
  const rows = information.map((row, i) => [...row, ...row.map((_, j) => Number(i === j))]);
  for (const [pivot, row] of rows.entries()) {
    const scale = row[pivot]!;
    for (let j = 0; j < 2 * size; j++) row[j]! /= scale;
    for (const [i, other] of rows.entries()) {
      const share = other[pivot]!;
      if (i !== pivot) for (let j = 0; j < 2 * size; j++) other[j]! -= share * row[j]!;
    }
  }
  return rows.map((row, i) => row[size + i]!);
}
