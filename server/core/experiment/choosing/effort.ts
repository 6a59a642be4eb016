/**
 * How many more trials it will take until a level can be told from the leader, if the difference
 * and the scatter stay what they seem: the evidence that so many more would give, by the formula
 * that decides (difference-evidence.ts).
 */
import type { Contrast } from './contrast.ts';
import { differenceEvidence } from './difference-evidence.ts';
import type { LevelKey } from './level-trial.ts';
import { EVIDENCE_ERROR_SHARE } from './error-shares.ts';
import type { Standing } from './standing.ts';

/** Beyond so many more settings of both levels nobody asks how many exactly. */
const MOST = 256;

/**
 * The evidence wanders, and is reached on an upswing: on the median as soon as if the difference
 * were greater by so many of its standard errors. By simulation (docs/choosing.md).
 */
const LUCK = 0.5;

export interface Effort {
  /** Trials until the leader is told from all others, if differences are what they seem. */
  readonly likely: number;
  /** The same if each difference is greater by two standard errors. */
  readonly least: number;
}

/** Null while nothing is known of the scatter. */
export function effortOf(
  { comparable: { levels }, contrasts }: Standing,
  leader: LevelKey,
  rivals: readonly LevelKey[],
): Effort | null {
  // What the closest rival takes once the others are out (still-possible.ts).
  const evidence = (2 * (levels.length - 1)) / EVIDENCE_ERROR_SHARE;
  const found = rivals.flatMap((rival) => {
    const contrast = contrasts(levels.indexOf(leader), levels.indexOf(rival));
    return contrast === null ? [] : [contrast];
  });
  if (found.length < rivals.length) return null;
  const trials = (settings: readonly number[]): number =>
    settings.reduce((sum, count) => sum + count, Math.max(...settings));
  const needed = (standardErrors: number): number[] =>
    found.map((contrast) => {
      const difference = Math.abs(contrast.difference) + standardErrors * contrast.standardError;
      return settingsNeeded({ ...contrast, difference }, evidence);
    });
  return { likely: trials(needed(LUCK)), least: trials(needed(2)) };
}

/**
 * Further settings of each of the two levels; at least 1, MOST where it would be that many or more.
 * @param difference the true difference that is reckoned with
 * @param evidence what decides
 */
function settingsNeeded(
  { difference, standardError, student }: Contrast,
  evidence: number,
): number {
  const scatter = standardError / Math.sqrt(student.variance);
  const suffices = (settings: number): boolean => {
    // Both set anew in one block tell as much as they would alone: variance 2 for their difference.
    const variance = 1 / (1 / student.variance + settings / 2);
    const degreesOfFreedom = student.degreesOfFreedom + settings;
    const t = Math.abs(difference) / (scatter * Math.sqrt(variance));
    return differenceEvidence({ t, variance, degreesOfFreedom }).above >= evidence;
  };
  let [tooFew, enough] = [0, 1];
  while (enough < MOST && !suffices(enough)) [tooFew, enough] = [enough, 2 * enough];
  while (enough - tooFew > 1) {
    const middle = (tooFew + enough) >> 1;
    if (middle >= MOST || suffices(middle)) enough = middle;
    else tooFew = middle;
  }
  return Math.min(enough, MOST);
}
