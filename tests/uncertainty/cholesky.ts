/** Columns of the lower triangular factor of a correlation matrix: `C = sum of column column'`. */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const lower = matrix.map(() => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!;
      lower[i]![j] = i === j ? Math.sqrt(rest) : rest / lower[j]![j]!;
    }
  }
  return lower.map((_, j) => lower.map((row) => row[j]!));
}
