/** How the chance of being ever wrong is shared out between the two ways of judging. */

/** The share of experiments in which a claim may be wrong. */
export const ERROR_SHARE = 0.05;

/**
 * What a look at the rounds may spend, by how many there are: fixed beforehand, so that together
 * they err in no more experiments than they add up to (Bonferroni; shares as a function of the
 * round: K. K. G. Lan, D. L. DeMets, Biometrika 70 (1983) 659). A class does about three rounds.
 */
export const ROUND_SHARES: ReadonlyMap<number, number> = new Map([
  [2, 0.004],
  [3, 0.018],
  [4, 0.004],
  [5, 0.002],
  [6, 0.001],
  [7, 0.0005],
  [8, 0.0005],
]);

/** What is left for the evidence that is looked at after every trial. */
export const EVIDENCE_ERROR_SHARE =
  ERROR_SHARE - [...ROUND_SHARES.values()].reduce((sum, share) => sum + share, 0);
