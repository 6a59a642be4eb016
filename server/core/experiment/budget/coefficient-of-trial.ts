/** The power coefficient of a trial, from what was read and what was said of rotor and air. */
import { z } from 'zod';
import { airDensity } from '../../rotor/wind/air-density.ts';
import { anemometerUncertainty_mps, isTurning } from '../../rotor/wind/anemometer.ts';
import { idealPowerCoefficient } from '../../rotor/wind/ideal-rotor.ts';
import {
  CoefficientSchema,
  powerCoefficient,
  withinLimit,
  type CoefficientInput,
  type CoefficientInputs,
} from '../../rotor/wind/power-coefficient.ts';
import { airOf, RULER_m, type RotorAndAir } from '../../rotor/wind/rotor-and-air.ts';
import { PLACE_UNCERTAINTY, rotorWind, type Traverse } from '../../rotor/wind/traverse.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { Trial } from '../trial.ts';
import type { Budget } from './budget.ts';
import { GUSTS_FROM, gustsOfTrial, type TrialGusts } from './gusts-of-trial.ts';
import { errorsOf, isUnsaid, linesOf } from './corrections.ts';

/** What is not known, so that the uncertainty is at least what is given. */
export const COEFFICIENT_GAPS = ['anemometer', 'wind across the rotor', 'correction'] as const;

/** Why there is none: what is missing, or what makes the question void. */
export const NO_COEFFICIENT = [
  'no power',
  'no wind reading',
  'too little wind',
  'rotor not described',
  /** The plan changes it, and calls its levels by names without numbers. */
  'blade length without a number',
] as const;

type Why = (typeof NO_COEFFICIENT)[number];

export const TrialCoefficientSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('none'), why: z.enum(NO_COEFFICIENT) }),
  CoefficientSchema.extend({
    kind: z.literal('known'),
    airDensity_kgpm3: z.number(),
    radius_m: z.number(),
    /** Over the rotor, as far as it was read there; else at the anemometer's place. */
    wind_mps: z.number(),
    /** Of the blades' tips; null without a reading of the rotor's speed. */
    tipSpeedRatio: z.number().nullable(),
    /** What an ideal rotor at that speed would reach: less than Betz's limit, for its swirl. */
    idealAtSpeed: z.number().nullable(),
    /** What the gusts' part in the mean of v³ rests on. */
    gustsFrom: z.enum(GUSTS_FROM),
    gaps: z.array(z.enum(COEFFICIENT_GAPS)).readonly(),
  }),
]);
export type TrialCoefficient = Readonly<z.infer<typeof TrialCoefficientSchema>>;

/** Below it any anemometer stands still (common practice, no source). */
const LEAST_WIND_mps = 0.1;

export type CoefficientTrial = Pick<
  Trial,
  | 'basis' | 'factors' | 'windSpeed_mps' | 'rotorSpeed_radps' | 'rotorStill'
  | 'windGusts' | 'correction' | 'readBy'
>;

/** @param budget of the trial's power; null where it has none */
export function coefficientOfTrial(
  trial: CoefficientTrial,
  budget: Budget | null,
  said: RotorAndAir | null,
): TrialCoefficient {
  if (said === null) return none('rotor not described');
  const radius_m = radiusOf(trial, said);
  if (typeof radius_m === 'string') return none(radius_m);
  if (budget === null) return none('no power');
  const wind = trial.windSpeed_mps;
  if (wind === null) return none('no wind reading');
  const isRead = said.anemometer === null || isTurning(said.anemometer, wind.value);
  if (!isRead || wind.value < LEAST_WIND_mps) return none('too little wind');
  const inputs = inputsOf({ trial, budget, said, radius_m, wind });
  const wind_mps = windAtRotor_mps(inputs);
  const tipSpeedRatio = tipSpeedRatioOf(trial, radius_m, wind_mps);
  return {
    kind: 'known',
    ...powerCoefficient(inputs),
    airDensity_kgpm3: inputs['air density'].value,
    radius_m,
    wind_mps,
    tipSpeedRatio,
    idealAtSpeed: tipSpeedRatio === null ? null : idealPowerCoefficient(tipSpeedRatio),
    gustsFrom: gustsOfTrial(trial, wind).from,
    gaps: gapsOf(trial, said),
  };
}

/** As a trial carries it; null where it can't be told. */
export function measuredCoefficient(found: TrialCoefficient): MeasuredValue | null {
  if (found.kind === 'none') return null;
  const { value, standardUncertainty, degreesOfFreedom } = found;
  return { value, standardUncertainty, degreesOfFreedom };
}

function none(why: Why): TrialCoefficient {
  return { kind: 'none', why };
}

/** Where blade length is what is changed, the trial's own: a blade begins at the hub's rim. */
function radiusOf({ factors }: CoefficientTrial, said: RotorAndAir): number | Why {
  const length_m = factors['length_m'];
  if (length_m === undefined) return said.radius_m ?? 'rotor not described';
  const isLength = typeof length_m === 'number' && length_m > 0;
  return isLength ? said.hubRadius_m + length_m : 'blade length without a number';
}

interface Parts {
  readonly trial: CoefficientTrial;
  readonly budget: Budget;
  readonly said: RotorAndAir;
  readonly radius_m: number;
  readonly wind: MeasuredValue;
}

function inputsOf(parts: Parts): CoefficientInputs {
  const { budget, said, radius_m, wind } = parts;
  const { air, u } = airOf(said.air);
  const density = airDensity(air, u);
  return {
    power: student({
      value: budget.value_W,
      standardUncertainty: budget.standardUncertainty_W,
      degreesOfFreedom: budget.degreesOfFreedom,
    }),
    'air density': normal(density.density_kgpm3, density.standardUncertainty_kgpm3),
    'rotor radius': withinLimit(radius_m, RULER_m),
    'scatter of the wind': student(wind),
    anemometer: anemometerError(parts),
    'correction of the wind': correctionError(parts),
    gusts: gustsInput(gustsOfTrial(parts.trial, wind)),
    'place of the anemometer': placeOf(said.traverse),
  };
}

function gustsInput({ value, standardUncertainty, from }: TrialGusts): CoefficientInput {
  const input = from === 'samples' ? normal : withinLimit;
  return input(value, standardUncertainty);
}

/** The ± of a keyed reading holds the instrument's limits already. */
function anemometerError({ trial, said, wind }: Parts): CoefficientInput {
  const isKnown = trial.basis !== 'keyed' && said.anemometer !== null;
  return withinLimit(0, isKnown ? anemometerUncertainty_mps(said.anemometer, wind.value) : 0);
}

/** Several as one, by their squares. */
function correctionError({ trial, wind }: Parts): CoefficientInput {
  const errors = errorsOf(linesOf(trial, 'windSpeed_mps'));
  const us = errors.map(({ known, effect }) => {
    return (effect.gain * wind.value + effect.offset) * known.standardUncertainty;
  });
  const isLimit = errors.length === 1 && errors[0]?.known.distribution === 'rectangular';
  const u = Math.hypot(...us);
  return isLimit ? withinLimit(0, u) : normal(0, u);
}

function placeOf(traverse: Traverse | null): CoefficientInput {
  if (traverse === null) return normal(1, 0);
  const { placeFactor } = rotorWind(traverse);
  return normal(placeFactor, PLACE_UNCERTAINTY * placeFactor);
}

function gapsOf(trial: CoefficientTrial, { anemometer, traverse }: RotorAndAir) {
  const gaps = {
    anemometer: anemometer === null && trial.basis !== 'keyed',
    'wind across the rotor': traverse === null,
    correction: isUnsaid(linesOf(trial, 'windSpeed_mps')),
  };
  return COEFFICIENT_GAPS.filter((gap) => gaps[gap]);
}

function windAtRotor_mps(inputs: CoefficientInputs): number {
  return inputs['scatter of the wind'].value * inputs['place of the anemometer'].value;
}

function tipSpeedRatioOf(
  { rotorSpeed_radps, rotorStill }: CoefficientTrial,
  radius_m: number,
  wind_mps: number,
): number | null {
  if (rotorSpeed_radps === null || rotorStill) return null;
  const ratio = (Math.abs(rotorSpeed_radps.value) * radius_m) / wind_mps;
  return ratio > 0 ? ratio : null;
}

function normal(value: number, standardUncertainty: number): CoefficientInput {
  return { ...withinLimit(value, standardUncertainty), distribution: 'normal' };
}

function student(measured: MeasuredValue): CoefficientInput {
  const { value, standardUncertainty, degreesOfFreedom } = measured;
  const u = standardUncertainty ?? 0;
  return { ...normal(Math.abs(value), u), distribution: 'student', degreesOfFreedom };
}
