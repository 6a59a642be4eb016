/** What a trial's readings may be wrong by, after what they were corrected by. */
import { causesOf, GAPS, type Cause, type Effect } from '../../instrument/causes.ts';
import type { Instrument } from '../../instrument/instrument.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import { AS_MEASURED, type Line } from '../correction.ts';
import { beyondScatter, meansOf, type BudgetedTrial } from './rows.ts';

/** How well a correction is known, nobody has said. */
export const BUDGET_GAPS = [...GAPS, 'correction'] as const;
export type BudgetGap = (typeof BUDGET_GAPS)[number];

export function causesOfTrial(
  trial: BudgetedTrial,
  instrument: Instrument,
): { readonly causes: readonly Cause[]; readonly gaps: readonly BudgetGap[] } {
  const { causes, gaps } = causesOf(instrument);
  const means = meansOf(trial);
  const by = trial.correction?.by;
  const corrected = (cause: Cause): Cause => ({
    ...cause,
    voltage: correctedEffect(cause.voltage, by?.voltage_V, trial.voltage_V),
    current: correctedEffect(cause.current, by?.current_A, trial.current_A),
  });
  const asCorrected = by === undefined ? causes : causes.map(corrected);
  const isPowerCorrected = by?.voltage_V !== undefined || by?.current_A !== undefined;
  return {
    causes: asCorrected.map((cause) => beyondScatter(means, cause)),
    gaps: isPowerCorrected ? [...gaps, 'correction'] : gaps,
  };
}

/**
 * value = reading·(1 + gain) + offset, corrected to V = g·value + o: a unit of the cause changes it
 * by V·gain + g·offset − o·gain. Budgets work with values without their sign, so the offset turns
 * with it.
 */
function correctedEffect(
  { gain, offset }: Effect,
  { gain: g, offset: o }: Line = AS_MEASURED,
  corrected: MeasuredValue | null,
): Effect {
  const sign = Math.sign(corrected?.value ?? 0) || 1;
  return { gain, offset: sign * (g * offset - o * gain) };
}
