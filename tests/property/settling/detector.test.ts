import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SettlingEvent } from '#core/signal/plateau.ts';
import type { Sample } from '#core/signal/sample.ts';
import {
  createDetector,
  finish,
  interrupt,
  judgementOf,
  observe,
} from '#core/signal/settling/detector.ts';
import { eventsOf, levels, plateausOf, rigSamples } from '../../unit/settling/bench-rig.ts';

const seeds = fc.integer({ min: 1, max: 1_000_000 });
const rates = fc.constantFrom(8, 16, 64);
const cuts_s = fc.double({ min: 5, max: 70, noNaN: true });
const RUNS = { numRuns: 8 };

function session(seed: number, rate_Hz: number): Sample[] {
  const drive_V = levels([4, 0], [26, 2], [45, 1.5], [50, 0], [Infinity, 2.5]);
  return rigSamples({ seconds: 75, seed, rate_Hz, drive_V, step_V: 1 / 1024 });
}

function intervals(events: readonly SettlingEvent[]) {
  return plateausOf(events).map(({ start_s, end_s, declared_s }) => {
    return { start_s, end_s, declared_s };
  });
}

describe('the same samples', () => {
  it('say the same, to the last bit', () => {
    fc.assert(
      fc.property(seeds, rates, (seed, rate_Hz) => {
        const samples = session(seed, rate_Hz);
        expect(eventsOf(samples)).toEqual(eventsOf(samples));
      }),
      RUNS,
    );
  });

  it('say the same whoever asks meanwhile what people are shown', () => {
    fc.assert(
      fc.property(seeds, rates, fc.integer({ min: 1, max: 40 }), (seed, rate_Hz, every) => {
        const samples = session(seed, rate_Hz);
        const detector = createDetector(null);
        const asked = samples.flatMap((sample, i) => {
          if (i % every === 0) judgementOf(detector);
          return observe(detector, sample);
        });
        expect([...asked, ...finish(detector)]).toEqual(eventsOf(samples));
      }),
      RUNS,
    );
  });

  it('in other units of voltage and current give the same intervals', () => {
    fc.assert(
      fc.property(seeds, rates, fc.constantFrom(0.5, 2, 4), (seed, rate_Hz, factor) => {
        const samples = session(seed, rate_Hz);
        const other = samples.map((sample) => ({
          ...sample,
          voltage_V: factor * sample.voltage_V!,
          current_A: factor * sample.current_A!,
        }));
        expect(intervals(eventsOf(other))).toEqual(intervals(eventsOf(samples)));
      }),
      RUNS,
    );
  });

  it('later give the same intervals later', () => {
    fc.assert(
      fc.property(seeds, rates, fc.integer({ min: 1, max: 100_000 }), (seed, rate_Hz, shift_s) => {
        const samples = session(seed, rate_Hz);
        const later = samples.map((sample) => ({ ...sample, time_s: sample.time_s + shift_s }));
        const moved = intervals(eventsOf(samples)).map((interval) => ({
          start_s: interval.start_s + shift_s,
          end_s: interval.end_s + shift_s,
          declared_s: interval.declared_s + shift_s,
        }));
        expect(intervals(eventsOf(later))).toEqual(moved);
      }),
      RUNS,
    );
  });
});

const reading = fc.option(
  fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.constantFrom(0, 1, 2, 1e-12)),
);

describe('any samples', () => {
  it('with readings missing or absurd never make it throw or say what is no number', () => {
    const sample = fc.record({
      gap_s: fc.double({ min: 1e-3, max: 3, noNaN: true }),
      voltage_V: reading,
      current_A: reading,
      windSpeed_mps: reading,
      rotorSpeed_radps: reading,
    });
    fc.assert(
      fc.property(fc.array(sample, { maxLength: 300 }), (list) => {
        let time_s = 0;
        const samples = list.map(({ gap_s, ...readings }) => {
          time_s += gap_s;
          return { ...readings, time_s };
        });
        for (const event of eventsOf(samples)) {
          if (event.kind !== 'closed') continue;
          expect(event.plateau.end_s).toBeGreaterThan(event.plateau.start_s);
          for (const estimate of Object.values(event.plateau.estimates)) {
            for (const value of Object.values(estimate)) expect(value).not.toBeNaN();
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('never make a plateau across an interruption', () => {
    fc.assert(
      fc.property(seeds, rates, cuts_s, (seed, rate_Hz, cut_s) => {
        const detector = createDetector(null);
        const events: SettlingEvent[] = [];
        let cut = false;
        for (const sample of session(seed, rate_Hz)) {
          if (!cut && sample.time_s >= cut_s) {
            events.push(...interrupt(detector, sample.time_s));
            cut = true;
          }
          events.push(...observe(detector, sample));
        }
        events.push(...finish(detector));
        for (const { start_s, end_s } of intervals(events)) {
          expect(end_s <= cut_s + 1 / rate_Hz || start_s >= cut_s).toBe(true);
        }
      }),
      RUNS,
    );
  });
});
