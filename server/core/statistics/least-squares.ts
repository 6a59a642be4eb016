/**
 * Linear least squares by Householder's QR decomposition (G. H. Golub, C. F. Van Loan, Matrix
 * Computations, 5.3, from memory): twice the digits of normal equations. A column that those before
 * it already span is left out, so that designs with empty cells need no case of their own.
 */

export interface LeastSquares {
  /** In the order of the columns; 0 for one that was left out. */
  readonly coefficients: readonly number[];
  readonly rank: number;
  readonly residualSquares: number;
  /** Rows − rank. */
  readonly residualFreedom: number;
  /** lᵀ(XᵀX)⁻¹m: times σ² the covariance of lᵀβ and mᵀβ. */
  covariance(l: readonly number[], m: readonly number[]): number;
}

/** What is left of a column's length when the others span it, by rounding alone. */
const SPANNED = 1e-10;

/**
 * @param columns of the model, each as long as `y`; not changed
 * @param y observed values
 */
export function leastSquares(
  columns: readonly (readonly number[])[],
  y: readonly number[],
): LeastSquares {
  const rest = Float64Array.from(y);
  const work = columns.map((column) => Float64Array.from(column));
  /** Columns kept, by their place among all. */
  const kept: number[] = [];
  work.forEach((column, place) => {
    const row = kept.length;
    const norm = lengthFrom(column, row);
    if (row >= y.length || !(norm > SPANNED * lengthFrom(column, 0))) return;
    const mirror = column.slice(row);
    const diagonal = mirror[0]! > 0 ? -norm : norm;
    mirror[0]! -= diagonal;
    reflect(rest, row, mirror);
    for (const later of work.slice(place + 1)) reflect(later, row, mirror);
    column.fill(0, row);
    column[row] = diagonal;
    kept.push(place);
  });
  const triangle = (i: number, j: number): number => work[kept[j]!]![i]!;
  const rank = kept.length;
  const residual = lengthFrom(rest, rank);
  const coefficients = new Array<number>(columns.length).fill(0);
  for (let i = rank - 1; i >= 0; i--) {
    let sum = rest[i]!;
    for (let j = i + 1; j < rank; j++) sum -= triangle(i, j) * coefficients[kept[j]!]!;
    coefficients[kept[i]!] = sum / triangle(i, i);
  }
  /** R⁻ᵀl */
  const forward = (l: readonly number[]): number[] => {
    const solved: number[] = [];
    for (let i = 0; i < rank; i++) {
      let sum = l[kept[i]!] ?? 0;
      for (let j = 0; j < i; j++) sum -= triangle(j, i) * solved[j]!;
      solved.push(sum / triangle(i, i));
    }
    return solved;
  };
  return {
    coefficients,
    rank,
    residualSquares: residual ** 2,
    residualFreedom: y.length - rank,
    covariance(l, m) {
      const [one, other] = [forward(l), forward(m)];
      return one.reduce((sum, value, i) => sum + value * other[i]!, 0);
    },
  };
}

function lengthFrom(column: Float64Array, from: number): number {
  let largest = 0;
  for (let i = from; i < column.length; i++) largest = Math.max(largest, Math.abs(column[i]!));
  if (largest === 0) return 0;
  let sum = 0;
  for (let i = from; i < column.length; i++) sum += (column[i]! / largest) ** 2;
  return largest * Math.sqrt(sum);
}

/** Mirrors `column` from row `from` on in the plane that stands upright on `mirror`. */
function reflect(column: Float64Array, from: number, mirror: Float64Array): void {
  let [along, square] = [0, 0];
  for (let i = 0; i < mirror.length; i++) {
    along += mirror[i]! * column[from + i]!;
    square += mirror[i]! ** 2;
  }
  const twice = (2 * along) / square;
  for (let i = 0; i < mirror.length; i++) column[from + i]! -= twice * mirror[i]!;
}
