/** The wind of each trial against that of the trials before it: a fan that was moved or bumped. */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { studentTUpperTail } from '../../statistics/student-t.ts';
import type { ShownTrial } from '../trial.ts';
import type { Doubt } from '../view.ts';
import { above, isAlarming, percent } from './alarm.ts';

/** From fewer it can't be told how the wind scatters. */
const LEAST_BEFORE = 4;

export interface WindChange {
  /** The first trial in the new wind. */
  readonly trialId: number;
  /** From the wind before it to the mean since, as a share. */
  readonly share: number;
}

/**
 * A wind that has changed and stays so: one trial in another wind may have been a draught, and what
 * has been put back needs no word.
 * @param trials those of the plan, by number; struck ones left out
 */
export function windChange(trials: readonly ShownTrial[]): WindChange | null {
  for (const { trialId } of inAnotherWind(trials)) {
    const at = trials.findIndex(({ id }) => id === trialId);
    const [before, since] = [windsOf(trials.slice(0, at)), windsOf(trials.slice(at))];
    const shares = since.map((wind) => wind / meanOf(before) - 1);
    const share = meanOf(shares);
    // Half of the change marks the middle between the old wind and the new.
    if (shares.length > 1 && shares.every((one) => one / share > 0.5)) return { trialId, share };
  }
  return null;
}

function windsOf(trials: readonly ShownTrial[]): number[] {
  return trials.flatMap(({ windSpeed_mps }) => windSpeed_mps?.value ?? []);
}

export function inAnotherWind(trials: readonly ShownTrial[]): Doubt[] {
  return trials.flatMap(({ id, windSpeed_mps: wind }, i) => {
    const before = windsOf(trials.slice(0, i));
    // How well it is known may be all the difference.
    const u = wind?.standardUncertainty ?? null;
    if (wind === null || u === null || before.length < LEAST_BEFORE) return [];
    const mean = meanOf(before);
    const scatter = standardDeviationOf(before) * Math.sqrt(1 + 1 / before.length);
    const share = wind.value / mean - 1;
    const t = (Math.abs(share) * mean) / Math.hypot(scatter, u);
    const p = 2 * studentTUpperTail(t, before.length - 1);
    if (!isAlarming(share, p, before.length - LEAST_BEFORE + 1)) return [];
    const message = `The wind of trial ${id} was ${percent(share)} ${above(share)} what it was before. Is the fan where it was?`;
    return [{ trialId: id, kind: 'wind-drift', message, share }];
  });
}
