/**
 * The settings that were tried, with what came of them. What was read several times without setting
 * the blades anew counts once, as its own mean: such readings are alike because nothing was done in
 * between.
 */
import { meanOf } from '../../metrology/type-a/series.ts';
import { meanInterval, type MeanInterval } from '../../statistics/mean-interval.ts';
import { partsOf, runIdOf } from '../plan/run-id.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { ShownTrial } from '../trial.ts';
import type { Seat, SeatedTrial } from './seats.ts';

/** One setting of the rig, tried once. */
export interface TriedSetting {
  readonly seat: Seat;
  /** Its readings, at least one, in their order. */
  readonly trials: readonly PoweredTrial[];
  /** Mean of those in which the rotor turned, W; null where it turned in none. */
  readonly power_W: number | null;
  /** Round and group that it belongs to; runs that were added later are rounds of their own. */
  readonly block: string;
}

type PoweredTrial = ShownTrial & { readonly power_W: MeasuredValue };

/** In the order in which they were tried. Left out: no run, no power, cut short, struck. */
export function triedSettings(seated: readonly SeatedTrial[]): TriedSetting[] {
  const bySetting = new Map<string, { seat: Seat; trials: PoweredTrial[]; block: string }>();
  for (const { trial, seat } of seated) {
    if (seat === null || !counts(trial)) continue;
    const { key, block } = settingOf(trial.runId ?? '');
    const known = bySetting.get(key) ?? { seat, trials: [], block };
    known.trials.push(trial);
    bySetting.set(key, known);
  }
  return [...bySetting.values()].map((setting) => {
    return { ...setting, power_W: powerOf(setting.trials) };
  });
}

function counts(trial: ShownTrial): trial is PoweredTrial {
  return trial.recorded && !trial.struck && trial.power_W !== null;
}

function powerOf(trials: readonly PoweredTrial[]): number | null {
  const powers = trials.filter(({ rotorStill }) => !rotorStill).map(({ power_W }) => power_W.value);
  return powers.length === 0 ? null : meanOf(powers);
}

/** `key` is the same for all readings of one setting. */
function settingOf(runId: string): { key: string; block: string } {
  const parts = partsOf(runId);
  if (parts === null) return { key: runId, block: '' };
  const { round, group, again } = parts;
  return { key: runIdOf({ ...parts, repeat: 1 }), block: `${group ?? ''} ${round} ${again}` };
}

export interface SeatMean extends Seat {
  readonly power_W: MeanInterval;
  /** The newest of its trials. */
  readonly newest: ShownTrial;
}

/** The mean power of each seat where the rotor turned. */
export function seatMeans(settings: readonly TriedSetting[]): readonly SeatMean[] {
  const seats = new Map<string, TriedSetting[]>();
  for (const setting of settings) {
    if (setting.power_W === null) continue;
    const key = `${setting.seat.level} ${setting.seat.beside}`;
    seats.set(key, [...(seats.get(key) ?? []), setting]);
  }
  return [...seats.values()].map((alike) => {
    const { seat, trials } = alike.at(-1)!;
    const power_W = meanInterval(alike.flatMap((one) => one.power_W ?? []));
    return { ...seat, power_W, newest: trials.at(-1)! };
  });
}
