/** A board's life, seen through a cable: every reset is told, no wrap is taken for one. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  createDeviceClock,
  placeDeviceTime,
  releaseClock,
  setTimeUnit,
  type Witness,
} from '#core/reading/device-clock.ts';

const SPAN = 2 ** 32;

interface Run {
  /** Device time at which the run is first heard, in ticks: near the wrap as often as not. */
  readonly start: number;
  readonly samples: number;
  /** How long the board was away before. */
  readonly away_s: number;
}

const run: fc.Arbitrary<Run> = fc.record({
  start: fc.oneof(
    fc.integer({ min: 0, max: 5_000_000 }),
    fc.integer({ min: SPAN - 5_000_000, max: SPAN - 1 }),
  ),
  samples: fc.integer({ min: 2, max: 200 }),
  away_s: fc.double({ min: 0.5, max: 20, noNaN: true }),
});
const delays = fc.infiniteStream(fc.double({ min: 0, max: 0.4, noNaN: true }));
const drift = fc.double({ min: -0.02, max: 0.02, noNaN: true });

describe('the device clock', () => {
  it('tells each reset and no wrap, with times that always increase', () => {
    fc.assert(
      fc.property(
        fc.array(run, { minLength: 1, maxLength: 6 }),
        delays,
        drift,
        (runs, delay, fast) => {
          const clock = createDeviceClock();
          setTimeUnit(clock, 'us');
          let true_s = 0;
          let arrived_s = 0;
          let last_s = -Infinity;
          const told: string[] = [];
          const expected: string[] = [];
          for (const { start, samples, away_s } of runs) {
            true_s += away_s;
            for (let i = 0; i < samples; i += 1) {
              true_s += 0.05;
              arrived_s = Math.max(arrived_s, true_s + (delay.next().value ?? 0));
              const ticks = Math.round(start + i * 50_000 * (1 + fast)) % SPAN;
              // The sequence number, which begins anew with each run, vouches for a reset.
              const witness: Witness = i === 0 && told.length > 0 ? 'sequence' : 'checksum';
              const isReset = i === 0 && told.length > 0 && ticks < clock.lastTicks;
              expected.push(isReset ? 'restarted' : 'placed');
              // A later device time shows no reset: such a run comes over a new connection here.
              if (i === 0 && ticks >= clock.lastTicks) releaseClock(clock);
              told.push(placeDeviceTime(clock, ticks, arrived_s, last_s, witness));
              expect(clock.time_s).toBeGreaterThan(last_s);
              if (i > 0) expect(clock.time_s - last_s).toBeCloseTo(0.05 * (1 + fast), 4);
              last_s = clock.time_s;
            }
          }
          expect(told).toEqual(expected);
        },
      ),
      { numRuns: 500 },
    );
  });
});
