/**
 * How trials should be shared out among levels so that the best is found with the fewest: optimal
 * computing budget allocation.
 *
 * With δ_i the gap between level i and the best level b, and σ_i its scatter:
 * N_i/N_j = (σ_i/δ_i)²/(σ_j/δ_j)² for i, j ≠ b, and N_b = σ_b·√(Σ_{i≠b} N_i²/σ_i²).
 * C.-H. Chen, J. Lin, E. Yücesan, S. E. Chick, Discrete Event Dyn. Syst. 10 (2000) 251.
 *
 * For instance gaps 0, 1, 2, 3, 4 and variances 1, 1, 9, 9, 4 share 50 trials 11, 9, 19, 9, 2.
 */

export interface Rival {
  /** How far below the best; 0 for the best itself, above 0 for every other. */
  readonly gap: number;
  readonly variance: number;
}

/**
 * Shares that sum to 1.
 * @param rivals at least two, of which one has gap 0
 */
export function optimalShares(rivals: readonly Rival[]): number[] {
  const weights = rivals.map(({ gap, variance }) => (gap > 0 ? variance / gap ** 2 : 0));
  const squares = rivals.map(({ variance }, i) => weights[i]! ** 2 / variance);
  const total = squares.reduce((sum, square) => sum + square, 0);
  const counts = rivals.map(({ gap, variance }, i) =>
    gap > 0 ? weights[i]! : Math.sqrt(variance * total),
  );
  const all = counts.reduce((sum, count) => sum + count, 0);
  return counts.map((count) => count / all);
}

/**
 * How many of `added` trials each level gets, so that the totals come closest to the shares. Levels
 * that already have more than their share get none (Chen et al., the same paper, section 4).
 * @param shares of any sum
 * @param done how many it has so far
 */
export function shareOut(
  shares: readonly number[],
  done: readonly number[],
  added: number,
): number[] {
  const total = done.reduce((sum, count) => sum + count, added);
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const given = done.map(() => 0);
  for (let trial = 0; trial < added; trial++) {
    const lacking = shares.map((share, i) => (share / whole) * total - done[i]! - given[i]!);
    given[lacking.indexOf(Math.max(...lacking))]!++;
  }
  return given;
}
