/** What a trial's readings may be wrong by, after what they were corrected by. */
import { causesOf, GAPS, type Cause, type Effect } from '../../instrument/causes.ts';
import type { Instrument } from '../../instrument/instrument.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { Line } from '../correction.ts';
import { asOne, correctionCauses, isUnsaid, linesOf } from './corrections.ts';
import { beyondScatter, meansOf, type BudgetedTrial } from './rows.ts';

/** Of a correction nobody has said how well it is known. */
export const BUDGET_GAPS = [...GAPS, 'correction'] as const;
export type BudgetGap = (typeof BUDGET_GAPS)[number];

export function causesOfTrial(
  trial: BudgetedTrial,
  instrument: Instrument,
): TrialCauses {
  const { causes, gaps } = causesOf(instrument);
  const means = meansOf(trial);
  const [ofV, ofI] = [linesOf(trial, 'voltage_V'), linesOf(trial, 'current_A')];
  const [asV, asI] = [asOne(ofV), asOne(ofI)];
  const corrected = (cause: Cause): Cause => ({
    ...cause,
    voltage: correctedEffect(cause.voltage, asV, trial.voltage_V),
    current: correctedEffect(cause.current, asI, trial.current_A),
  });
  const isCorrected = ofV.length + ofI.length > 0;
  const asCorrected = isCorrected ? causes.map(corrected) : causes;
  return {
    causes: asCorrected.map((cause) => beyondScatter(means, cause)),
    corrections: [
      ...correctionCauses(trial, 'voltage', signOf(trial.voltage_V)),
      ...correctionCauses(trial, 'current', signOf(trial.current_A)),
    ],
    gaps: isUnsaid([...ofV, ...ofI]) ? [...gaps, 'correction'] : gaps,
  };
}

export interface TrialCauses {
  /** Of the instruments. */
  readonly causes: readonly Cause[];
  /** Of what was put right, as far as it is known how well. */
  readonly corrections: readonly Cause[];
  readonly gaps: readonly BudgetGap[];
}

function signOf(value: MeasuredValue | null): number {
  return Math.sign(value?.value ?? 0) || 1;
}

/**
 * value = reading·(1 + gain) + offset, corrected to V = g·value + o: a unit of the cause changes it
 * by V·gain + g·offset − o·gain. Budgets work with values without their sign, so the offset turns
 * with it.
 */
function correctedEffect(
  { gain, offset }: Effect,
  { gain: g, offset: o }: Line,
  corrected: MeasuredValue | null,
): Effect {
  return { gain, offset: signOf(corrected) * (g * offset - o * gain) };
}
