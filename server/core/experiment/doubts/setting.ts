/** What the rig was set to at a time, and what it gave then. */
import { meanOf } from '../../metrology/type-a/series.ts';
import { partsOf, runIdOf } from '../plan/run-id.ts';
import type { ShownTrial } from '../trial.ts';

export interface SettingDone {
  /** The first trial at it. */
  readonly trialId: number;
  /** Levels of all factors, and the rig: what is alike in this is expected to give the same. */
  readonly level: string;
  readonly isReference: boolean;
  readonly power_W: number;
}

/**
 * With a turning rotor, in the order in which they were done. Repeats, for which nothing was set
 * anew, are one.
 */
export function settingsOf(trials: readonly ShownTrial[]): SettingDone[] {
  const found = new Map<string, { first: SettingDone; powers_W: number[] }>();
  for (const { id: trialId, runId, factors, rotorStill, power_W: power } of trials) {
    const parts = runId === null ? null : partsOf(runId);
    if (parts === null || rotorStill || power === null || power.value <= 0) continue;
    const set = runIdOf({ ...parts, repeat: 1 });
    const known = found.get(set);
    known?.powers_W.push(power.value);
    if (known !== undefined) continue;
    const level = JSON.stringify([parts.group, Object.entries(factors).sort()]);
    const first = { trialId, level, isReference: parts.reference > 0, power_W: power.value };
    found.set(set, { first, powers_W: [power.value] });
  }
  return [...found.values()].map(({ first, powers_W }) => {
    return { ...first, power_W: meanOf(powers_W) };
  });
}

export function byLevel(settings: readonly SettingDone[]): ReadonlyMap<string, SettingDone[]> {
  const levels = new Map<string, SettingDone[]>();
  for (const setting of settings) {
    const known = levels.get(setting.level);
    if (known === undefined) levels.set(setting.level, [setting]);
    else known.push(setting);
  }
  return levels;
}
