/**
 * Trials that a person should look at: far from the others at their level, in another wind, or
 * showing that power has crept. Nothing is struck or corrected by this.
 */
import type { ShownTrial } from '../trial.ts';
import type { Doubt } from '../view.ts';
import { farFromOthers } from './far-from-others.ts';
import { crept } from './power-drift.ts';
import { settingsOf } from './setting.ts';
import { inAnotherWind } from './wind-drift.ts';

/**
 * @param trials by number
 * @param isWindSet the plan itself changes the wind
 */
export function doubtsOf(trials: readonly ShownTrial[], isWindSet = false): Doubt[] {
  const planned = plannedOf(trials);
  const settings = settingsOf(planned);
  const ofWind = isWindSet ? [] : inAnotherWind(planned);
  return [...farFromOthers(settings), ...ofWind, ...crept(settings)].sort(
    (one, other) => one.trialId - other.trialId,
  );
}

/** The trials that count for the plan. */
export function plannedOf<Trial extends ShownTrial>(trials: readonly Trial[]): Trial[] {
  return trials.filter(({ runId, recorded, struck }) => runId !== null && recorded && !struck);
}
