/** Readings of two meters as they are keyed in, for the tests that need some. */
import type { Command } from '#core/experiment/command.ts';
import type { Meters } from '#core/experiment/keyed.ts';

/** Ranges and limits of an imagined hand meter. */
export const METERS: Meters = {
  voltage: { range: 20, resolution: 0.01, relative: 0.005, counts: 2, unit: 'V' },
  current: { range: 0.2, resolution: 1e-4, relative: 0.01, counts: 3, unit: 'mA' },
  windSpeed: null,
};

/** What is said to key in these pairs of V and A. */
export function keyIn(
  runId: string | null,
  pairs: readonly (readonly [voltage_V: number, current_A: number])[],
): Extract<Command, { say: 'key-in' }> {
  const { voltage, current } = METERS;
  return {
    say: 'key-in',
    runId,
    meters: METERS,
    readings: pairs.map(([voltage_V, current_A]) => ({
      voltage: { value: voltage_V, step: voltage.resolution },
      current: { value: current_A, step: current.resolution },
      windSpeed: null,
    })),
    didNotTurn: false,
    note: null,
  };
}
