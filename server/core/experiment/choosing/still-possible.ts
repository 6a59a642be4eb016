/**
 * Which levels may still be the best, from e-values.
 *
 * The mean of a level's e-values "another level is above this one" is an e-value against "this
 * level is a best one" (a mean of e-values is one). Levels may tie, so what is tested is each set
 * of levels that could be the tied bests, by the mean over its levels; a level is out when every
 * set that holds it is (closed testing with the arithmetic mean: V. Vovk, R. Wang, Ann. Statist.
 * 49 (2021) 1736). The sets that could save a level are those with the least evidence against the
 * rest, so that they need not be gone through one by one.
 *
 * Whatever the truth, how many tie and how often one looks: the chance that a level which is truly
 * best is ever out is at most α.
 */

/**
 * @param against e-value against each level being a best one
 * @param alpha the chance of being ever wrong
 * @returns for each level whether it may still be a best one
 */
export function stillPossible(against: readonly number[], alpha: number): boolean[] {
  return against.map((own, level) => {
    const others = against.filter((_, other) => other !== level).sort((a, b) => a - b);
    const sums = others.reduce((all, value) => [...all, all.at(-1)! + value], [own]);
    return sums.some((sum, added) => sum / (added + 1) < 1 / alpha);
  });
}
