/** The wind of each trial against that of the trials before it: a fan that was moved or bumped. */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { studentTUpperTail } from '../../statistics/student-t.ts';
import type { ShownTrial } from '../trial.ts';
import type { Doubt } from '../view.ts';
import { above, isAlarming, percent } from './alarm.ts';

/** From fewer it can't be told how the wind scatters. */
const LEAST_BEFORE = 4;

export function inAnotherWind(trials: readonly ShownTrial[]): Doubt[] {
  return trials.flatMap(({ id, windSpeed_mps: wind }, i) => {
    const before = trials.slice(0, i).flatMap(({ windSpeed_mps }) => windSpeed_mps?.value ?? []);
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
