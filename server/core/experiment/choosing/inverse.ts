/** The inverse of a small symmetric positive definite matrix, by Gauss-Jordan elimination. */
export function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let pivot = 0; pivot < n; pivot++) {
    const top = rows[pivot]!;
    const scale = top[pivot]!;
    for (let j = 0; j < 2 * n; j++) top[j]! /= scale;
    for (const row of rows) {
      const factor = row[pivot]!;
      if (row === top || factor === 0) continue;
      for (let j = 0; j < 2 * n; j++) row[j]! -= factor * top[j]!;
    }
  }
  return rows.map((row) => row.slice(n));
}
