/**
 * How fast the rotor turned in a trial: as a channel has read it; else by the ripple of its
 * voltage; else by the generator's constant, ω = (V + R I)/k. And how fast its tips ran, as a share
 * of the wind.
 */
import { z } from 'zod';
import { combine, MOST_DEGREES_OF_FREEDOM } from '../../metrology/combine.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import { USUAL_UNCERTAINTY } from '../../rotor/doubt.ts';
import { figuresOf, type RigFits } from '../../rotor/fitting/rig-fits.ts';
import { anemometerUncertainty_mps } from '../../rotor/wind/anemometer.ts';
import { RULER_m, type RotorAndAir } from '../../rotor/wind/rotor-and-air.ts';
import { PLACE_UNCERTAINTY, rotorWind } from '../../rotor/wind/traverse.ts';
import type { Trial } from '../trial.ts';
import { NO_RIPPLE_SPEED, speedByRipple, uncertaintyOf } from './ripple-speed.ts';
import { TrialSpeedSchema } from './trial-speed.ts';

export const SpeedAnswerSchema = z.object({
  /** Null: nothing tells it. */
  speed: TrialSpeedSchema.nullable(),
  /** Why the ripple does not; null where it does, or a channel did. */
  noRipple: z.enum(NO_RIPPLE_SPEED).nullable(),
  sampleRate_Hz: z.number().nullable(),
});
export type SpeedAnswer = Readonly<z.infer<typeof SpeedAnswerSchema>>;

export type SpeedTrial = Pick<
  Trial,
  'basis' | 'factors' | 'rotorStill' | 'ripple' | 'rotorSpeed_radps' | 'windSpeed_mps' | 'voltage_V' | 'current_A'
>;

const NOTHING: SpeedAnswer = { speed: null, noRipple: null, sampleRate_Hz: null };

export function speedOfTrial(
  trial: SpeedTrial,
  said: RotorAndAir | null,
  fits: RigFits,
): SpeedAnswer {
  if (trial.rotorStill) return NOTHING;
  const size = sizeOf(trial, said);
  const told = (rotorSpeed_radps: MeasuredValue, by: 'channel' | 'ripple' | 'generator') => ({
    rotorSpeed_radps,
    by,
    tipSpeedRatio: size && ratioOf(rotorSpeed_radps, size),
  });
  const read = trial.rotorSpeed_radps;
  if (read !== null) return { ...NOTHING, speed: told({ ...read, value: Math.abs(read.value) }, 'channel') };
  const expected = byGenerator(trial, said, fits);
  const heard = speedByRipple({
    ripple: trial.ripple,
    ripplesPerTurn: said?.rig?.ripplesPerTurn ?? null,
    expected,
    fastest_radps: size && (FASTEST * size.wind.value) / size.radius_m,
  });
  const sampleRate_Hz = trial.ripple?.sampleRate_Hz ?? null;
  if (typeof heard !== 'string') return { speed: told(heard, 'ripple'), noRipple: null, sampleRate_Hz };
  return { speed: expected && told(expected, 'generator'), noRipple: heard, sampleRate_Hz };
}

/** Tips of no rotor of a bench run faster, in winds (common practice, no source). */
const FASTEST = 10;
/** Below it any anemometer stands still. */
const LEAST_WIND_mps = 0.1;

interface Size {
  readonly radius_m: number;
  /** At the rotor. */
  readonly wind: MeasuredValue;
}

function sizeOf(
  { basis, factors, windSpeed_mps }: SpeedTrial,
  said: RotorAndAir | null,
): Size | null {
  if (said === null || windSpeed_mps === null || windSpeed_mps.value < LEAST_WIND_mps) return null;
  const length_m = factors['length_m'];
  const own_m = typeof length_m === 'number' ? said.hubRadius_m + length_m : null;
  const radius_m = length_m === undefined ? said.radius_m : own_m;
  if (radius_m === null) return null;
  const { value, standardUncertainty, degreesOfFreedom } = windSpeed_mps;
  const { traverse, anemometer } = said;
  const place = traverse === null ? 1 : rotorWind(traverse).placeFactor;
  const isMeter = anemometer !== null && basis !== 'keyed';
  const wind = combine([
    { u: place * (standardUncertainty ?? 0), degreesOfFreedom },
    limits(place * (isMeter ? anemometerUncertainty_mps(anemometer, value) : 0)),
    limits(traverse === null ? 0 : PLACE_UNCERTAINTY * place * value),
  ]);
  return { radius_m, wind: measured(place * value, wind) };
}

/** λ = ωR/U, by the law of propagation (JCGM 100:2008, 5.1.6). */
function ratioOf(speed: MeasuredValue, { radius_m, wind }: Size): MeasuredValue {
  const value = (speed.value * radius_m) / wind.value;
  return measured(
    value,
    combine([
      {
        u: (value * (speed.standardUncertainty ?? 0)) / speed.value,
        degreesOfFreedom: speed.degreesOfFreedom,
      },
      limits((value * RULER_m) / radius_m),
      {
        u: (value * (wind.standardUncertainty ?? 0)) / wind.value,
        degreesOfFreedom: wind.degreesOfFreedom,
      },
    ]),
  );
}

/** ω = (V + R I)/k; null where constant, winding or a reading is not known. */
function byGenerator(
  { voltage_V, current_A }: SpeedTrial,
  said: RotorAndAir | null,
  fits: RigFits,
): MeasuredValue | null {
  const figures = figuresOf(fits);
  const { emfConstant_Vsprad = null, windingResistance_Ohm = null } = said?.rig ?? {};
  const usual = USUAL_UNCERTAINTY;
  const k = figures.emfConstant_Vsprad ?? saidFigure(emfConstant_Vsprad, usual.emfConstant);
  const winding =
    figures.windingResistance_Ohm ?? saidFigure(windingResistance_Ohm, usual.windingResistance);
  if (k === null || winding === null || voltage_V === null || current_A === null) return null;
  const drop_V = winding.value * Math.abs(current_A.value);
  const emf_V = Math.abs(voltage_V.value) + drop_V;
  if (emf_V === 0) return null;
  const value = emf_V / k.value;
  const standardUncertainty = value * Math.hypot(k.u, (winding.u * drop_V) / emf_V);
  const known = { value, standardUncertainty, degreesOfFreedom: MOST_DEGREES_OF_FREEDOM };
  return { ...known, standardUncertainty: uncertaintyOf(known) };
}

function saidFigure(value: number | null, u: number): { value: number; u: number } | null {
  return value === null ? null : { value, u };
}

function limits(u: number): { u: number; degreesOfFreedom: number } {
  return { u, degreesOfFreedom: Infinity };
}

function measured(
  value: number,
  { u, degreesOfFreedom }: { readonly u: number; readonly degreesOfFreedom: number },
): MeasuredValue {
  return { value, standardUncertainty: u, degreesOfFreedom };
}
