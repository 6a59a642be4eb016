/** What can be heard of the rig: whether it runs, runs down, or stands. */
import type { Verdict } from '../../signal/plateau.ts';

/**
 * A rotor that shows no voltage may still turn slowly: this long beyond the detector's own wait
 * for a still rotor, s.
 */
const STOP_CONFIRMED_S = 2;
/** Below this share of what was logged last, the fan is off or on its way … */
const RUN_DOWN_SHARE = 0.7;
/** … until it is above this again. */
const BACK_SHARE = 0.85;

/** Levels of the trial logged last; null where there is none. */
export interface LastLevels {
  readonly voltage_V: number | null;
  readonly windSpeed_mps: number | null;
}

export interface RigHeard {
  /** running: wind or a turning rotor; standing: neither, for long enough to be sure. */
  readonly motion: 'unknown' | 'running' | 'standing';
  /** Running, but on its way down. */
  readonly runsDown: boolean;
  readonly isWindHeard: boolean;
  /** Since when nothing has moved, stream time; null while something does. */
  readonly quietSince_s: number | null;
}

export const UNHEARD: RigHeard = {
  motion: 'unknown',
  runsDown: false,
  isWindHeard: false,
  quietSince_s: null,
};

export function hearRig(before: RigHeard, verdict: Verdict, last: LastLevels): RigHeard {
  const { rotorStill, windBlows, time_s } = verdict;
  const isWindHeard = windBlows !== null;
  if (!rotorStill || windBlows === true) {
    const runsDown = windBlows === false || hasFallen(before, verdict, last);
    return { motion: 'running', runsDown, isWindHeard, quietSince_s: null };
  }
  const quietSince_s = before.quietSince_s ?? time_s;
  const isSure = time_s - quietSince_s >= STOP_CONFIRMED_S;
  // Until it is sure, what was heard before stands.
  const motion = isSure ? 'standing' : before.motion;
  return { motion, runsDown: motion === 'running', isWindHeard, quietSince_s };
}

/** By the wind where it is heard: blades set in the wind change the voltage, but not the wind. */
function hasFallen(
  { runsDown }: RigHeard,
  { levels, windBlows }: Verdict,
  last: LastLevels,
): boolean {
  const channel = windBlows === null ? 'voltage_V' : 'windSpeed_mps';
  const level = levels.find((one) => one.channel === channel)?.level;
  const logged = last[channel];
  if (level === undefined || logged === null) return false;
  return Math.abs(level) < (runsDown ? BACK_SHARE : RUN_DOWN_SHARE) * Math.abs(logged);
}
