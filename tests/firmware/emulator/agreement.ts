/** Whether a logged trial agrees with what was played. */
import { expect } from 'vitest';
import type { MeasuredValue } from '#core/metrology/measured-value.ts';
import type { TrialView } from '#core/live-messages.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';
import type { Truth } from './rig-score.ts';
import { CONVERTER_BUDGET } from './wiring.ts';

/**
 * Each mean within its own 99 % limits (the trial's window is not quite the stage, and the air is
 * gusty), plus what the converter may add.
 */
export function expectTrial(
  trial: TrialView | undefined,
  truth: Truth,
  sketch: keyof typeof CONVERTER_BUDGET,
): void {
  const budget = CONVERTER_BUDGET[sketch];
  const power_W = truth.voltage_V * budget.current_A + truth.current_A * budget.voltage_V;
  expectNear(trial?.voltage_V, truth.voltage_V, budget.voltage_V);
  expectNear(trial?.current_A, truth.current_A, budget.current_A);
  expectNear(trial?.power_W, truth.power_W, power_W);
  expectNear(trial?.windSpeed_mps, truth.windSpeed_mps, PULSE_SHARE * truth.windSpeed_mps);
}

/** The time of a pulse is known to 4 µs in at least 250 ms; the rate is held for so long. */
const PULSE_SHARE = 0.002;

export function expectNear(measured: MeasuredValue | null | undefined, truth: number, budget: number): void {
  const { value, standardUncertainty, degreesOfFreedom } = measured ?? MISSING;
  const limit = studentTQuantile(0.995, degreesOfFreedom) * (standardUncertainty ?? NaN) + budget;
  expect(Math.abs(value - truth), `${value} is not ${truth} ± ${limit}`).toBeLessThanOrEqual(limit);
  // Limits so wide that anything would do are no agreement; those of an interrupted trial are wide.
  expect(limit / Math.abs(truth)).toBeLessThan(0.1);
}

const MISSING: MeasuredValue = { value: NaN, standardUncertainty: 0, degreesOfFreedom: 1 };
