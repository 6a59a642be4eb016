/** When something is worth stopping a class for. */

/** Chance of pointing at anything, for each kind of doubt, in an experiment with nothing wrong. */
const FALSE_ALARM = 0.05;
/** Less than this is no reason to stop a class, as a share. */
const WORTH_SAYING = 0.03;
/** The parts 1/(4k) of the chance that the looks get sum up to 1 over thirty of them. */
const SHARING = 4;

/**
 * Whether a deviation is more than chance would bring. Whoever looks again and again finds
 * something at last, so the chance of a false alarm is shared out among all looks (Bonferroni),
 * and earlier ones, which decide more, have more of it.
 * @param share deviation, as a share of what was expected
 * @param p how often chance alone brings as much or more, at one look
 * @param looks how many there have been, with this one
 */
export function isAlarming(share: number, p: number, looks: number): boolean {
  return Math.abs(share) > WORTH_SAYING && p < FALSE_ALARM / (SHARING * looks);
}

export function percent(share: number): string {
  return `${Math.round(Math.abs(share) * 100)} %`;
}

export function above(share: number): string {
  return share > 0 ? 'above' : 'below';
}
