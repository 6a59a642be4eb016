/**
 * From plateau to trial: when a settled stretch has been recorded long enough to be logged, and
 * what becomes of it when it closes.
 */
import { expandedUncertainty } from '../metrology/format.ts';
import type { MeasuredValue } from '../metrology/measured-value.ts';
import type { EndReason, Estimate, Plateau } from '../signal/plateau.ts';
import type { Quantity } from '../signal/sample.ts';
import type { Trial } from './trial.ts';

/** A settled stretch shorter than this is brief: kept as a plateau, not logged as a trial. */
export const RECORDING_LENGTH_S = 5;
/** The recording goes on until the power is known this well (half its 95 % interval over value) … */
const RELATIVE_UNCERTAINTY_WANTED = 0.02;
/** … but no longer than this. */
export const LONGEST_RECORDING_S = 15;
/** The detector must have stood by its word this long before anything is logged. */
export const CONFIRMATION_S = 1;

/** What the samples alone say of a trial; numbering and what operators do come from the book. */
export type DerivedTrial = Pick<
  Trial,
  | 'state'
  | 'recorded'
  | 'start_s'
  | 'end_s'
  | 'declared_s'
  | 'sampleCount'
  | 'rotorStill'
  | 'basis'
  | 'voltage_V'
  | 'current_A'
  | 'power_W'
  | 'windSpeed_mps'
  | 'rotorSpeed_radps'
  | 'windGusts'
  | 'ripple'
>;

/** Whether an open plateau has been recorded long enough, judged at stream time `now_s`. */
export function isRecorded(plateau: Plateau, now_s: number): boolean {
  const length_s = plateau.end_s - plateau.start_s;
  if (length_s < RECORDING_LENGTH_S || now_s - plateau.declared_s < CONFIRMATION_S) return false;
  return length_s >= LONGEST_RECORDING_S || plateau.rotorStill || isKnownWell(plateau);
}

function isKnownWell({ estimates }: Plateau): boolean {
  const estimate = estimates.power_W ?? estimates.voltage_V;
  if (estimate === undefined) return true;
  const expanded = expandedUncertainty(estimate) ?? 0;
  return expanded <= RELATIVE_UNCERTAINTY_WANTED * Math.abs(estimate.mean);
}

/**
 * What a closed plateau becomes: a final or interrupted trial, or null when it was brief.
 * @param alreadyLogged a revision of it was committed while it was open
 */
export function closeTrial(
  plateau: Plateau,
  endReason: EndReason,
  alreadyLogged: boolean,
): DerivedTrial | null {
  const recorded = alreadyLogged || plateau.end_s - plateau.start_s >= RECORDING_LENGTH_S;
  if (plateau.withdrawn && !alreadyLogged) return null;
  if (endReason === 'interrupted') return deriveTrial(plateau, 'interrupted', alreadyLogged);
  return recorded ? deriveTrial(plateau, 'final', true) : null;
}

/** The trial that a plateau's estimates make, without number or operator's marks. */
export function deriveTrial(
  plateau: Plateau,
  state: Trial['state'],
  recorded: boolean,
  basis: Trial['basis'] = 'settled',
): DerivedTrial {
  return {
    state,
    recorded,
    start_s: plateau.start_s,
    end_s: plateau.end_s,
    declared_s: plateau.declared_s,
    sampleCount: plateau.sampleCount,
    rotorStill: plateau.rotorStill,
    basis,
    voltage_V: measured(plateau, 'voltage_V'),
    current_A: measured(plateau, 'current_A'),
    power_W: measured(plateau, 'power_W'),
    windSpeed_mps: measured(plateau, 'windSpeed_mps'),
    rotorSpeed_radps: measured(plateau, 'rotorSpeed_radps'),
    ...(plateau.windGusts === undefined ? {} : { windGusts: plateau.windGusts }),
    ripple: null,
  };
}

/** A plateau's estimate of one quantity as a measured value; null when it had no readings. */
export function measured(plateau: Plateau, quantity: Quantity): MeasuredValue | null {
  const estimate: Estimate | undefined = plateau.estimates[quantity];
  if (estimate === undefined) return null;
  const { mean, standardUncertainty, degreesOfFreedom } = estimate;
  return { value: mean, standardUncertainty, degreesOfFreedom };
}
