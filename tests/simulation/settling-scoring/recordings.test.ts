import { describe, expect, it } from 'vitest';
import { exactMethod } from '../../bench/settling/exact-method.ts';
import { parseOptions, recordingsOf } from '../../bench/settling/options.ts';
import { plantRecordings } from '../../bench/settling/plant-generator.ts';
import { length_s, type Recording } from '../../bench/settling/recording.ts';
import { addScore, emptyScore, figuresOf, scoreRecording } from '../../bench/settling/score.ts';
import { secondRecordings } from '../../bench/settling/second-generator.ts';

const MAKERS = { plant: plantRecordings, second: secondRecordings };

describe.each(Object.entries(MAKERS))('recordings of the generator "%s"', (_, maker) => {
  const recordings = maker.kinds.flatMap((kind) =>
    [1, 2].map((seed) => maker.record(kind, 10, seed)),
  );

  it('repeat themselves for the same seed and not for another', () => {
    for (const kind of maker.kinds) {
      expect(maker.record(kind, 5, 3)).toEqual(maker.record(kind, 5, 3));
      expect(maker.record(kind, 5, 3)).not.toEqual(maker.record(kind, 5, 4));
    }
  });

  it('have samples in order of time, within the recording', () => {
    for (const { samples, duration_s } of recordings) {
      const times = samples.map((sample) => sample.time_s);
      expect(times.every((time_s, i) => i === 0 || time_s > times[i - 1]!)).toBe(true);
      expect(times[0]).toBeGreaterThanOrEqual(0);
      expect(times.at(-1)).toBeLessThanOrEqual(duration_s + 1);
    }
  });

  it('have true plateaus in order, apart from each other and from standing still', () => {
    for (const { plateaus, still, duration_s } of recordings) {
      const all = [...plateaus, ...still].sort((a, b) => a.start_s - b.start_s);
      for (const [i, interval] of all.entries()) {
        expect(length_s(interval)).toBeGreaterThan(0);
        expect(interval.end_s).toBeLessThanOrEqual(duration_s + 1e-9);
        if (i > 0) expect(interval.start_s).toBeGreaterThanOrEqual(all[i - 1]!.end_s - 1e-9);
      }
    }
  });

  it('read near the true mean over each true plateau', () => {
    const total = emptyScore();
    for (const recording of recordings) {
      addScore(total, scoreRecording(recording, exactMethod.find(recording), 0));
    }
    const figures = figuresOf(total);
    expect(figures.trueCount).toBeGreaterThan(100);
    expect(figures.f1).toBe(1);
    expect(Math.abs(figures.bias)).toBeLessThan(0.003);
    expect(figures.errorMedian).toBeLessThan(0.01);
  });

  it('know when a still rotor stood in the wind', () => {
    const stopped = recordings.filter(({ kind }) => kind === 'stopped');
    expect(stopped.every(({ stillInWind }) => stillInWind.length > 0)).toBe(true);
    for (const recording of stopped) {
      for (const rest of recording.stillInWind) {
        expect(meanOf(recording, rest, 'windSpeed_mps')).toBeGreaterThan(0.5);
        expect(meanOf(recording, rest, 'voltage_V')).toBeLessThan(0.3);
      }
    }
  });
});

function meanOf(
  { samples }: Recording,
  { start_s, end_s }: { start_s: number; end_s: number },
  channel: 'windSpeed_mps' | 'voltage_V',
): number {
  const values = samples
    .filter(({ time_s }) => time_s >= start_s && time_s < end_s)
    .map((sample) => sample[channel] ?? 0);
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe('options', () => {
  it('give more than a thousand true plateaus over all kinds and rates', () => {
    const options = parseOptions([]);
    expect(options.rates_Hz).toEqual([5, 10, 50, 200, 1000]);
    let count = 0;
    for (const { plateaus } of recordingsOf({ ...options, rates_Hz: [5] })) {
      count += plateaus.filter((plateau) => !plateau.eitherWay).length;
    }
    // Each rate has as many sessions as every other.
    expect(count * options.rates_Hz.length).toBeGreaterThan(1000);
  });

  it('keep development, report and fresh seeds apart', () => {
    const seeds = ['dev', 'report', '3', '77'].flatMap(
      (name) => parseOptions(['--seeds', name]).seeds,
    );
    expect(new Set(seeds).size).toBe(seeds.length);
  });

  it('refuse what they do not know, in words', () => {
    expect(() => parseOptions(['--kinds', 'storm'])).toThrow(
      '--kinds: no "storm"; there are steps',
    );
    expect(() => parseOptions(['--seeds', 'x'])).toThrow(
      '--seeds: a whole number above zero, not "x"',
    );
    expect(() => parseOptions(['--rates', '0'])).toThrow('--rates: a whole number above zero');
    expect(() => parseOptions(['--generator', 'x'])).toThrow('--generator: one of plant, second');
    expect(() => parseOptions(['--seed'])).toThrow();
  });
});
