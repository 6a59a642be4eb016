/** The power axis: all trials with their intervals, and the readings where there are any. */
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import { KINDS } from '../model/quantities.ts';
import { niceAxis, type Axis } from './axis.ts';

const HEADROOM = 1.04;
/** Until something has turned, readings below this share of a usual scale are noise at rest. */
const NOISE_SHARE = 0.005;

export function powerAxisOf(
  trials: readonly TrialView[],
  live: { readonly least: number; readonly most: number } | null,
): Axis {
  const ends = trials.flatMap(({ power_W }) => {
    if (power_W === null) return [];
    const U = expandedUncertainty(power_W) ?? 0;
    return [power_W.value - U, power_W.value + U];
  });
  const isKnown = trials.some(({ rotorStill, power_W }) => !rotorStill && power_W !== null);
  const { usual } = KINDS.power_W;
  const largest = Math.max(live?.most ?? 0, 0, ...ends);
  const isSeen = isKnown || largest > NOISE_SHARE * usual;
  const most = isSeen && largest > 0 ? largest * HEADROOM : usual;
  // Noise about zero is no reason for an axis below zero.
  const least = Math.min(live?.least ?? 0, 0, ...ends);
  return niceAxis(least < -0.05 * most ? least : 0, most, usual);
}
