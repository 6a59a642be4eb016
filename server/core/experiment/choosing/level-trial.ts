/** What choosing a level goes by: trials of one factor, in the order in which they were made. */

/** A level as a trial carries it: a number in the factor's unit, or a name. */
export type LevelKey = number | string;

export interface LevelTrial {
  readonly level: LevelKey;
  /** The response, in any one unit; more is better. A rotor that did not turn is 0. */
  readonly value: number;
  /**
   * What it shares its time, group and rig with: a round, or a small set of runs. Trials with null
   * are one block.
   */
  readonly block: number | string | null;
  /** Type A standard uncertainty of the value, in its unit; null where unknown. */
  readonly standardUncertainty?: number | null;
}

/** The levels in the order in which they first came. */
export function levelsOf(trials: readonly LevelTrial[]): LevelKey[] {
  return [...new Set(trials.map(({ level }) => level))];
}
