/** What the trials together say of the rig. */
import { coefficientToTell, type Described } from '../experiment/budget/answer.ts';
import { plannedOf } from '../experiment/doubts/doubts.ts';
import { windChange } from '../experiment/doubts/wind-drift.ts';
import type { ShownTrial } from '../experiment/trial.ts';
import { BETZ_LIMIT } from '../rotor/wind/wind-power.ts';
import type { Finding } from './finding.ts';

/**
 * @param trials by number
 * @param isWindSet the plan itself changes the wind
 */
export function findingsOfTrials(
  trials: readonly ShownTrial[],
  said: Described,
  isWindSet: boolean,
): Finding[] {
  const counting = trials.filter(({ struck, recorded }) => recorded && !struck);
  const moved = isWindSet ? [] : windMoved(trials);
  return [...windPast(counting), ...moved, ...beyondWind(counting, said)];
}

function windMoved(trials: readonly ShownTrial[]): Finding[] {
  const change = windChange(plannedOf(trials));
  if (change === null) return [];
  const { trialId, share: value } = change;
  return [{ kind: 'wind-changed', channel: null, value, trialId }];
}

/** Where nothing has turned at any setting yet, it is not the setting. */
function windPast(trials: readonly ShownTrial[]): Finding[] {
  const settings = new Set(trials.map(({ factors }) => JSON.stringify(factors)));
  const last = trials.at(-1);
  const hasTurned = trials.some(({ rotorStill }) => !rotorStill);
  if (last === undefined || settings.size < 2 || hasTurned) return [];
  const value = last.windSpeed_mps?.value ?? null;
  return [{ kind: 'wind-past-rotor', channel: null, value, trialId: last.id }];
}

/**
 * More than 16/27 of the wind's power, and by more than is uncertain of it: no rotor can take that
 * (A. Betz, Zeitschrift für das gesamte Turbinenwesen 17 (1920) 307, from memory).
 */
function beyondWind(trials: readonly ShownTrial[], said: Described): Finding[] {
  if (said.rotorAndAir === null) return [];
  const found = trials.findLast((trial) => {
    const { value = 0, standardUncertainty = 0 } = coefficientToTell(trial, said) ?? {};
    return value - 2 * (standardUncertainty ?? 0) > BETZ_LIMIT;
  });
  if (found === undefined) return [];
  const value = coefficientToTell(found, said)?.value ?? null;
  return [{ kind: 'beyond-wind', channel: null, value, trialId: found.id }];
}
