/**
 * Readings that the session's trials hold already. Where the load is a lamp, each trial is a point
 * of its voltage and current. Where the load is what was varied, the trials are load steps of the
 * generator: with the rotor's speed (read, or by the ripple alone) at any setting, without it only
 * those of one setting in one wind, and even there the speed fell as it liked.
 */
import { MOST_STEPS, type GeneratorReadings } from '../rotor/fitting/generator-readings.ts';
import type { LoadStep } from '../rotor/fitting/fit-generator.ts';
import type { LampReadings } from '../rotor/fitting/lamp-readings.ts';
import { NO_FITS } from '../rotor/fitting/rig-fits.ts';
import type { RotorAndAir } from '../rotor/wind/rotor-and-air.ts';
import { speedOfTrial } from './speed/speed-of-trial.ts';
import type { ShownTrial } from './trial.ts';

/** Why the trials hold none. */
export const NO_READINGS = [
  /** None that turned and read both voltage and current. */
  'no trials',
  /** The plan sets different loads: they are not one lamp. */
  'load varied',
  /** No two loads. */
  'one load',
] as const;
export type NoReadings = (typeof NO_READINGS)[number];

export interface TakenReadings<Readings> {
  readonly readings: Readings;
  readonly trialIds: readonly number[];
  /** Trials that were passed over for another setting or another wind. */
  readonly passedOver: number;
}

const LOAD = 'load_Ohm';

/** @param trials by number */
export function lampReadingsOf(
  trials: readonly ShownTrial[],
): TakenReadings<LampReadings> | NoReadings {
  const read = trials.flatMap(withStep);
  if (read.length === 0) return 'no trials';
  if (read.some(({ trial }) => trial.factors[LOAD] !== undefined)) return 'load varied';
  return taken(read, read.length, { steps: read.slice(-MOST_STEPS).map(({ step }) => step) });
}

/** @param trials by number */
export function generatorReadingsOf(
  trials: readonly ShownTrial[],
  said: RotorAndAir | null,
): TakenReadings<GeneratorReadings> | NoReadings {
  const read = trials.flatMap(withStep);
  if (read.length === 0) return 'no trials';
  const spun = read.flatMap((one) => {
    const rotorSpeed_radps = speedAlone_radps(one.trial, said);
    return rotorSpeed_radps === null ? [] : [{ ...one, step: { rotorSpeed_radps, ...one.step } }];
  });
  if (spun.length > 1) {
    const steps = spun.slice(-MOST_STEPS).map(({ step }) => step);
    return taken(spun, read.length, { speed: 'read', steps });
  }
  const chosen = inOneWind(read);
  if (new Set(chosen.map(({ trial }) => trial.factors[LOAD])).size < 2) return 'one load';
  const steps = chosen.slice(-MOST_STEPS).map(({ step }) => ({ rotorSpeed_radps: null, ...step }));
  return taken(chosen, read.length, { speed: 'free', steps });
}

/** Without the generator's figures, which are what is asked for. */
function speedAlone_radps(trial: ShownTrial, said: RotorAndAir | null): number | null {
  const rig = said?.rig && { ...said.rig, emfConstant_Vsprad: null };
  const asked = said && { ...said, ...(rig && { rig }) };
  return speedOfTrial(trial, asked, NO_FITS).speed?.rotorSpeed_radps.value ?? null;
}

interface ReadTrial {
  readonly trial: ShownTrial;
  readonly step: LoadStep;
}

function withStep(trial: ShownTrial): ReadTrial[] {
  const { struck, recorded, rotorStill, voltage_V, current_A } = trial;
  if (struck || !recorded || rotorStill || voltage_V === null || current_A === null) return [];
  // A reversed cable turns the sign of either, and of nothing else.
  const step = { voltage_V: Math.abs(voltage_V.value), current_A: Math.abs(current_A.value) };
  return step.voltage_V > 0 && step.current_A > 0 ? [{ trial, step }] : [];
}

function taken<Readings>(
  chosen: readonly ReadTrial[],
  all: number,
  readings: Readings,
): TakenReadings<Readings> {
  const kept = chosen.slice(-MOST_STEPS);
  return { readings, trialIds: kept.map(({ trial }) => trial.id), passedOver: all - kept.length };
}

/** Winds that differ by less are one, as a share (common practice, no source). */
export const ONE_WIND = 0.03;

/** Those of the setting with the most of them, load apart; and of these in its usual wind. */
function inOneWind(read: readonly ReadTrial[]): readonly ReadTrial[] {
  const groups = new Map<string, ReadTrial[]>();
  for (const one of read) {
    const setting = settingApart(one.trial);
    groups.set(setting, [...(groups.get(setting) ?? []), one]);
  }
  const largest = [...groups.values()].reduce((a, b) => (b.length > a.length ? b : a));
  const winds = largest.flatMap(({ trial }) => trial.windSpeed_mps?.value ?? []);
  const usual_mps = winds.toSorted((a, b) => a - b)[winds.length >> 1];
  if (usual_mps === undefined) return largest;
  return largest.filter(({ trial: { windSpeed_mps } }) => {
    const wind_mps = windSpeed_mps?.value ?? usual_mps;
    return Math.abs(wind_mps - usual_mps) <= ONE_WIND * usual_mps;
  });
}

/** All that was set, but for the load. */
function settingApart({ factors }: ShownTrial): string {
  const others = Object.entries(factors).filter(([key]) => key !== LOAD);
  return JSON.stringify(others.sort(([a], [b]) => (a < b ? -1 : 1)));
}
