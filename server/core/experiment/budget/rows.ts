/** From a trial's means and the causes of error to the rows of its budget. */
import type { Cause } from '../../instrument/causes.ts';
import { MOST_DEGREES_OF_FREEDOM } from '../../metrology/combine.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { Trial } from '../trial.ts';
import { draftRow, type BudgetCause, type RowDraft } from './row.ts';

export type BudgetedTrial = Pick<
  Trial,
  | 'id' | 'basis' | 'rotorStill' | 'voltage_V' | 'current_A' | 'power_W' | 'correction' | 'readBy'
>;

/** A mean with its scatter; what is not known of it adds nothing. */
export interface Mean {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** What a trial says of power, voltage and current; without signs, as V and I turn together. */
export interface Means {
  readonly power: Mean;
  readonly voltage: Mean;
  readonly current: Mean;
}

export function meansOf({ voltage_V, current_A, power_W }: BudgetedTrial): Means {
  return { power: meanOf(power_W), voltage: meanOf(voltage_V), current: meanOf(current_A) };
}

function meanOf(measured: MeasuredValue | null): Mean {
  const { value, standardUncertainty, degreesOfFreedom } = measured ?? NONE;
  const u = standardUncertainty ?? 0;
  return { value: Math.abs(value), standardUncertainty: u, degreesOfFreedom };
}

const NONE: MeasuredValue = { value: 0, standardUncertainty: 0, degreesOfFreedom: 1 };

export function boardRows(means: Means, causes: readonly Cause[], rigId: string): RowDraft[] {
  return [
    scatterRow(means.power),
    ...causes.map((cause) => causeRow(means, cause, rigId)),
    atOnceRow(means, causes),
  ];
}

function scatterRow(
  { value, standardUncertainty, degreesOfFreedom }: Mean,
  cause: BudgetCause = 'scatter of the readings',
): RowDraft {
  return draftRow({
    cause,
    channel: 'power',
    unit: 'W',
    value,
    standardUncertainty,
    distribution: cause === 'both at once' ? 'normal' : 'student',
    degreesOfFreedom,
    sensitivity: 1,
    commonAs: null,
  });
}

/** The mean's scatter is at least that of a step where a step shows; that is not counted twice. */
export function beyondScatter(means: Means, cause: Cause): Cause {
  if (cause.name !== 'step of the reading' || cause.channel === 'both') return cause;
  const seen = means[cause.channel].standardUncertainty / cause[cause.channel].offset;
  const rest = cause.standardUncertainty ** 2 - seen ** 2;
  return { ...cause, standardUncertainty: Math.sqrt(Math.max(rest, 0)) };
}

function causeRow(means: Means, cause: Cause, rigId: string): RowDraft {
  const { name, channel, unit, standardUncertainty, distribution, isCommon } = cause;
  const { voltage, current, power } = means;
  return draftRow({
    cause: name,
    channel,
    unit,
    value: unit === 'ratio' ? 1 : 0,
    standardUncertainty,
    distribution,
    degreesOfFreedom: MOST_DEGREES_OF_FREEDOM,
    sensitivity:
      power.value * (cause.voltage.gain + cause.current.gain) +
      current.value * cause.voltage.offset +
      voltage.value * cause.current.offset,
    commonAs: isCommon ? (cause.commonAs ?? `${rigId} ${name} ${channel}`) : null,
  });
}

/**
 * u²(V)u²(I) + u(V, I)²: the variance of a product beyond its linear form, of scatter and zeros.
 * What the gains add to it is a thousandth of what they add to the linear form.
 */
function atOnceRow(means: Means, causes: readonly Cause[]): RowDraft {
  const together = causes.reduce((sum, { voltage, current, standardUncertainty }) => {
    return sum + voltage.offset * current.offset * standardUncertainty ** 2;
  }, 0);
  const [u_V, u_A] = zeroUncertainties(means, causes);
  return secondOrder(Math.hypot(u_V * u_A, together));
}

function secondOrder(standardUncertainty: number): RowDraft {
  const degreesOfFreedom = MOST_DEGREES_OF_FREEDOM;
  return scatterRow({ value: 0, standardUncertainty, degreesOfFreedom }, 'both at once');
}

/** Standard uncertainties that mean voltage and mean current would have if nothing were there. */
function zeroUncertainties(
  { voltage, current }: Means,
  causes: readonly Cause[],
): readonly [u_V: number, u_A: number] {
  const of = (scatter: number, offsetOf: (cause: Cause) => number): number =>
    Math.hypot(scatter, ...causes.map((one) => offsetOf(one) * one.standardUncertainty));
  return [
    of(voltage.standardUncertainty, (cause) => cause.voltage.offset),
    of(current.standardUncertainty, (cause) => cause.current.offset),
  ];
}

/**
 * What is read while nothing turns is error, and nothing else: voltage and current each as large as
 * what is read and what is not known of it, together.
 */
export function restRow(means: Means, causes: readonly Cause[]): RowDraft {
  const [u_V, u_A] = zeroUncertainties(means, causes);
  return secondOrder(Math.hypot(means.voltage.value, u_V) * Math.hypot(means.current.value, u_A));
}

/** How well is known what they were corrected by: that is in no uncertainty of a trial yet. */
export function correctionRows(means: Means, corrections: readonly Cause[]): RowDraft[] {
  return corrections.map((cause) => causeRow(means, cause, ''));
}

/**
 * The uncertainty of a keyed trial holds the meters' accuracy already. Where the meters are
 * described (causes), the scatter is what is left without them.
 */
export function keyedRows(means: Means, causes: readonly Cause[], rigId: string): RowDraft[] {
  const { power } = means;
  const meters = causes.map((cause) => causeRow(means, cause, rigId));
  const known = Math.hypot(...meters.map(({ contribution_W }) => contribution_W));
  const whole = power.standardUncertainty;
  if (meters.length === 0 || known > whole * (1 + 1e-6)) {
    return [scatterRow(power, 'readings and meters')];
  }
  const left = Math.sqrt(Math.max(whole ** 2 - known ** 2, 0));
  // The formula of Welch and Satterthwaite the other way round: limits are not in doubt.
  const degreesOfFreedom = Math.max(power.degreesOfFreedom * (left / whole) ** 4, 1);
  return [scatterRow({ ...power, standardUncertainty: left, degreesOfFreedom }), ...meters];
}
