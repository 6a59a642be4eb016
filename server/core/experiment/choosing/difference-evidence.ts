/**
 * How strongly a difference between two levels speaks for the one side: an e-value, which may be
 * looked at after every trial.
 *
 * The ratio of the chance of the readings if the true difference δ is above 0, to that if it is 0:
 * δ/σ has a half-normal law of variance g, everything else (scatter σ, other levels, blocks) drops
 * out by invariance. With t the difference over its standard error s√c on ν degrees of freedom and
 * a = c/(c + g):
 *
 *   E = 2·√a·[(1 + t²/ν)/(1 + a·t²/ν)]^((ν+1)/2) · P(T_{ν+1} < t·√((1 − a)(ν + 1)/(ν + a·t²)))
 *
 * If δ ≤ 0, the chance that E ever reaches K, however often one looks, is at most 1/K (Ville 1939).
 *
 * T. L. Lai, Ann. Statist. 4 (1976) 265 (t statistics by mixture); H. Robbins, Ann. Math. Stat. 41
 * (1970) 1397 (mixtures); M. Lindon, D. W. Ham, M. Tingley, I. Bojinov, Anytime-valid linear
 * models, arXiv:2210.08589; H. Wang, A. Ramdas, Anytime-valid t-tests, arXiv:2310.03722.
 */
import { studentTUpperTail } from '../../statistics/student-t.ts';
import { rootBetween } from '../../statistics/tail-root.ts';

/**
 * Variance of the differences looked for, in units of the scatter's: typical ones are five times
 * the scatter. Whatever it is, the claim holds; it decides how soon something is said. Chosen by
 * simulation (docs/choosing.md).
 */
export const PRIOR_VARIANCE = 25;

export interface ContrastStudent {
  /** The difference over its standard error; ±Infinity where there is no scatter. */
  readonly t: number;
  /** Variance of the difference in units of the scatter's variance. */
  readonly variance: number;
  /** 0 or more. */
  readonly degreesOfFreedom: number;
}

/** E for "above 0" and for "below 0". Both are 1 while nothing is known of the scatter. */
export function differenceEvidence(student: ContrastStudent): { above: number; below: number } {
  const { t, variance, degreesOfFreedom: nu } = student;
  if (nu <= 0) return { above: 1, below: 1 };
  const a = variance / (variance + PRIOR_VARIANCE);
  const square = t ** 2;
  const ratio = square === Infinity ? 1 / a : (nu + square) / (nu + a * square);
  const both = 2 * Math.sqrt(a) * ratio ** ((nu + 1) / 2);
  const shrunk =
    square === Infinity
      ? Math.sign(t) * Math.sqrt(((1 - a) * (nu + 1)) / a)
      : t * Math.sqrt(((1 - a) * (nu + 1)) / (nu + a * square));
  const lower = studentTUpperTail(Math.abs(shrunk), nu + 1);
  // Beyond the range of numbers the one side is endless and the other nothing.
  const less = lower === 0 ? 0 : both * lower;
  const more = both * (1 - lower);
  return t >= 0 ? { above: more, below: less } : { above: less, below: more };
}

/**
 * The t at which E reaches `evidence`: the half-width of an interval that holds at every look, in
 * standard errors. Infinity where no difference could reach it yet.
 */
export function evidentT(evidence: number, student: Omit<ContrastStudent, 't'>): number {
  const logExcess = (t: number): number =>
    Math.log(differenceEvidence({ ...student, t }).above / evidence);
  if (!(logExcess(Infinity) > 0)) return Infinity;
  let high = 1;
  while (logExcess(high) < 0) high *= 2;
  return rootBetween(logExcess, 0, high);
}
