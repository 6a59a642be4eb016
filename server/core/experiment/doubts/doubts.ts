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

/** @param trials by number */
export function doubtsOf(trials: readonly ShownTrial[]): Doubt[] {
  const planned = trials.filter(
    ({ runId, recorded, struck }) => runId !== null && recorded && !struck,
  );
  const settings = settingsOf(planned);
  return [...farFromOthers(settings), ...inAnotherWind(planned), ...crept(settings)].sort(
    (one, other) => one.trialId - other.trialId,
  );
}
