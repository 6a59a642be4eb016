import { describe, expect, it } from 'vitest';
import { calibratedRecordings } from '../../bench/settling/calibrated-generator.ts';
import { exactMethod } from '../../bench/settling/exact-method.ts';
import { parseOptions, recordingsOf } from '../../bench/settling/options.ts';
import { plantRecordings } from '../../bench/settling/plant-generator.ts';
import { length_s, type Recording, type RecordingMaker } from '../../bench/settling/recording.ts';
import { addScore, emptyScore, figuresOf, scoreRecording } from '../../bench/settling/score.ts';
import { secondRecordings } from '../../bench/settling/second-generator.ts';

const MAKERS = { plant: plantRecordings, second: secondRecordings, ...calibratedRecordings };

describe.each(Object.entries(MAKERS))('recordings of the generator "%s"', (_, maker) => {
  const recordings = maker.kinds.flatMap((kind) =>
    [1, 2].map((seed) => maker.record(kind, 10, seed)),
  );

  it('repeat themselves for the same seed and not for another', () => {
    for (const kind of maker.kinds) {
      const [first, other] = recordings.filter((recording) => recording.kind === kind);
      expect(maker.record(kind, 10, 1)).toEqual(first);
      expect(other!.samples).not.toEqual(first!.samples);
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

  it('have true plateaus of every kind but where the rotor is stopped all the time', () => {
    const found = new Set(
      recordings.filter(({ plateaus }) => plateaus.length > 0).map(({ kind }) => kind),
    );
    expect(maker.kinds.filter((kind) => !found.has(kind) && kind !== 'stopped')).toEqual([]);
  });
});

it.each([plantRecordings, secondRecordings])('a still rotor stands in the wind', (maker) => {
  for (const seed of [1, 2]) {
    const recording = maker.record('stopped', 10, seed);
    expect(recording.stillInWind.length).toBeGreaterThan(0);
    for (const rest of recording.stillInWind) {
      expect(meanOf(recording, rest, 'windSpeed_mps')).toBeGreaterThan(0.5);
      expect(meanOf(recording, rest, 'voltage_V')).toBeLessThan(0.3);
    }
  }
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

describe('calibrated recordings', () => {
  const { gusty, added, apart, alone } = calibratedRecordings;
  const record = (maker: RecordingMaker) => maker.record('steps', 10, 5);

  it('are the same session whichever way the noise arises', () => {
    const truth = ({ plateaus, lag_s }: Recording) => ({ plateaus, lag_s });
    for (const maker of [added, apart, alone]) {
      expect(truth(record(maker))).toEqual(truth(record(gusty)));
      expect(record(maker).samples).not.toEqual(record(gusty).samples);
    }
  });

  it('have noise on the current that is that of the voltage, of its own, or none', () => {
    expect(likeness(record(gusty))).toBeGreaterThan(0.9);
    expect(likeness(record(added))).toBeGreaterThan(0.9);
    expect(Math.abs(likeness(record(apart)))).toBeLessThan(0.5);
    const read = record(alone).samples;
    expect(read.every((s) => s.current_A === null && s.windSpeed_mps === null)).toBe(true);
  });
});

/** Correlation of voltage and current about their means, over all true plateaus. */
function likeness({ samples, plateaus }: Recording): number {
  let [both, voltage, current] = [0, 0, 0];
  for (const { start_s, end_s } of plateaus) {
    const part = samples.filter(({ time_s }) => time_s >= start_s && time_s < end_s);
    const mean_V = part.reduce((sum, s) => sum + s.voltage_V!, 0) / part.length;
    const mean_A = part.reduce((sum, s) => sum + s.current_A!, 0) / part.length;
    for (const { voltage_V, current_A } of part) {
      const [off_V, off_A] = [voltage_V! / mean_V - 1, current_A! / mean_A - 1];
      both += off_V * off_A;
      voltage += off_V ** 2;
      current += off_A ** 2;
    }
  }
  return both / Math.sqrt(voltage * current);
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
    expect(() => parseOptions(['--generator', 'x'])).toThrow(
      '--generator: one of plant, second, gusty',
    );
    expect(() => parseOptions(['--seed'])).toThrow();
  });
});
