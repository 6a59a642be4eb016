/** Thinning against its own definition, worked out the slow way: common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { samplePower_W } from '#core/signal/sample.ts';
import type { Sample } from '#core/signal/sample.ts';
import { MOST_KEPT, WHOLE_COUNT, thin, toColumns } from '../../../server/live/thin.ts';

const reading = fc.option(fc.double({ min: -10, max: 10, noNaN: true }), { nil: null, freq: 8 });
const samples = fc
  .array(fc.tuple(fc.double({ min: 1e-4, max: 0.02, noNaN: true }), reading, reading, reading), { maxLength: 300 })
  .map((rows) => {
    let time_s = 0;
    return rows.map(([step_s, voltage_V, current_A, windSpeed_mps]): Sample => {
      time_s += step_s;
      return { time_s, voltage_V, current_A, windSpeed_mps, rotorSpeed_radps: null };
    });
  });

/** Stretches as documented, each from the first sample after the one before. */
function stretchesOf(all: readonly Sample[], stretch_s: number): Sample[][] {
  const stretches: Sample[][] = [];
  for (const sample of all) {
    const last = stretches.at(-1);
    if (last?.[0] && sample.time_s < last[0].time_s + stretch_s) last.push(sample);
    else stretches.push([sample]);
  }
  return stretches;
}

const READINGS = [
  (sample: Sample) => sample.voltage_V,
  (sample: Sample) => sample.current_A,
  (sample: Sample) => sample.windSpeed_mps,
  samplePower_W,
];

describe('thinning', () => {
  it('keeps real samples in order, every extreme and a missing reading of each stretch', () => {
    fc.assert(
      fc.property(samples, fc.constantFrom(0.02, 0.1, 1), (all, stretch_s) => {
        const kept = new Set(thin(all, stretch_s));
        expect([...kept]).toEqual(all.filter((sample) => kept.has(sample)));
        expect([...kept].at(-1)).toBe(all.at(-1));
        for (const stretch of stretchesOf(all, stretch_s)) {
          const left = stretch.filter((sample) => kept.has(sample));
          expect(left.length).toBeLessThanOrEqual(Math.max(WHOLE_COUNT, MOST_KEPT));
          for (const of of READINGS) {
            const before = stretch.map(of).filter((value) => value !== null);
            const after = left.map(of).filter((value) => value !== null);
            expect(Math.max(...after) === Math.max(...before)).toBe(true);
            expect(Math.min(...after) === Math.min(...before)).toBe(true);
            expect(left.map(of).includes(null)).toBe(stretch.map(of).includes(null));
          }
        }
      }),
    );
  });

  it('leaves a slow stream alone and cuts a fast one', () => {
    const at = (rate_Hz: number): Sample[] =>
      Array.from({ length: rate_Hz }, (_, index) => ({
        time_s: index / rate_Hz,
        voltage_V: Math.sin(index),
        current_A: Math.cos(index),
        windSpeed_mps: Math.sin(index / 7),
        rotorSpeed_radps: null,
      }));
    expect(thin(at(350), 0.02)).toHaveLength(350);
    expect(thin(at(1000), 0.02).length).toBeLessThanOrEqual(401);
    expect(thin(at(20_000), 0.02).length).toBeLessThanOrEqual(401);
  });

  it('keeps a spike of one sample at its true height and time', () => {
    const spiky = Array.from({ length: 1000 }, (_, index) => ({
      time_s: index / 1000,
      voltage_V: index === 613 ? 9 : 1,
      current_A: 0.1,
      windSpeed_mps: 4,
      rotorSpeed_radps: null,
    }));
    const columns = toColumns(thin(spiky, 0.1));
    expect(columns.time_s[columns.voltage_V.indexOf(9)]).toBe(0.613);
    expect(columns.time_s.length).toBeLessThan(50);
  });
});
