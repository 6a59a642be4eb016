/**
 * The ripple of a commutator in a voltage: found where it is, not found where it is not. Signals
 * are synthetic, with a known frequency; Fourier sums are checked against their definition.
 */
import { describe, expect, it } from 'vitest';
import { transform } from '#core/signal/ripple/fourier.ts';
import { rippleIn } from '#core/signal/ripple/ripple.ts';
import { createVoltages, keepVoltage, rippleBetween } from '#core/signal/ripple/voltages.ts';
import { createRandom, normal, type Random } from '#core/virtual-rig/random.ts';

interface Signal {
  readonly count: number;
  readonly rate_Hz: number;
  readonly ripple_Hz: number;
  readonly amplitude_V: number;
  readonly noise_V: number;
  /** Relative standard deviation of the speed, over a second or so. */
  readonly wander?: number;
  /** Of gusts, which are slow noise. */
  readonly gusts_V?: number;
  /** Of the converter. */
  readonly step_V?: number;
}

function voltagesOf(signal: Signal, random: Random): Float64Array {
  const { count, rate_Hz, ripple_Hz, amplitude_V, noise_V } = signal;
  const { wander = 0, gusts_V = 0, step_V = 0 } = signal;
  const keep = Math.exp(-1 / rate_Hz);
  const fresh = Math.sqrt(1 - keep ** 2);
  let [phase, speed, gust] = [0, 0, 0];
  return Float64Array.from({ length: count }, () => {
    speed = keep * speed + fresh * wander * normal(random);
    gust = 0.98 * gust + Math.sqrt(1 - 0.98 ** 2) * gusts_V * normal(random);
    phase += (2 * Math.PI * ripple_Hz * (1 + speed)) / rate_Hz;
    const value = 2 + gust + amplitude_V * Math.sin(phase) + noise_V * normal(random);
    return step_V > 0 ? Math.round(value / step_V) * step_V : value;
  });
}

describe('the transform', () => {
  it('is the sum of its definition', () => {
    const random = createRandom(3);
    const values = Array.from({ length: 32 }, () => normal(random));
    const [re, im] = [Float64Array.from(values), new Float64Array(32)];
    transform(re, im);
    for (let k = 0; k < 32; k++) {
      const sum = (wave: (angle: number) => number) =>
        values.reduce((total, value, i) => total + value * wave((2 * Math.PI * k * i) / 32), 0);
      expect(re[k]).toBeCloseTo(sum(Math.cos), 12);
      expect(im[k]).toBeCloseTo(-sum(Math.sin), 12);
    }
  });
});

describe('a ripple', () => {
  it.each<[string, Signal, number]>([
    ['in white noise', { count: 8000, rate_Hz: 1000, ripple_Hz: 183, amplitude_V: 0.005, noise_V: 0.01 }, 183],
    ['that wanders by a per cent, in gusts', { count: 8000, rate_Hz: 1000, ripple_Hz: 183, amplitude_V: 0.005, noise_V: 0.01, wander: 0.01, gusts_V: 0.05 }, 183],
    ['near half the rate', { count: 4000, rate_Hz: 500, ripple_Hz: 244, amplitude_V: 0.006, noise_V: 0.01 }, 244],
    ['of a slow rotor at a slow rate', { count: 500, rate_Hz: 50, ripple_Hz: 13, amplitude_V: 0.01, noise_V: 0.01 }, 13],
    ['faster than half the rate: folded back', { count: 8000, rate_Hz: 1000, ripple_Hz: 817, amplitude_V: 0.005, noise_V: 0.01 }, 183],
    ['smaller than a step, carried over it by noise', { count: 8000, rate_Hz: 1000, ripple_Hz: 120, amplitude_V: 0.002, noise_V: 0.004, step_V: 0.005 }, 120],
  ])('%s is found at its frequency', (_, signal, seen_Hz) => {
    const { lines } = rippleIn(voltagesOf(signal, createRandom(7)), signal.rate_Hz)!;
    const [first] = lines;
    const reach_Hz = 3 * first!.standardUncertainty_Hz + 0.01 * (signal.wander ?? 0) * seen_Hz;
    expect(Math.abs(first!.frequency_Hz - seen_Hz)).toBeLessThan(Math.max(reach_Hz, 0.2));
    expect(first!.amplitude_V / signal.amplitude_V).toBeGreaterThan(0.7);
    expect(first!.amplitude_V / signal.amplitude_V).toBeLessThan(1.3);
  });

  it('that the noise hides is not made up, nor one that is smaller than a step', () => {
    const hidden = { count: 4000, rate_Hz: 500, ripple_Hz: 90, amplitude_V: 0.0002, noise_V: 0.01 };
    expect(rippleIn(voltagesOf(hidden, createRandom(1)), 500)).toMatchObject({ lines: [], isBelowStep: false });
    const quiet = { ...hidden, noise_V: 1e-4, step_V: 0.005 };
    expect(rippleIn(voltagesOf(quiet, createRandom(1)), 500)).toMatchObject({ lines: [], isBelowStep: true });
  });

  it('needs some hundred readings', () => {
    expect(rippleIn(new Float64Array(200), 50)).toBeNull();
    expect(rippleIn(new Float64Array(400).fill(2), 50)).toEqual({ sampleRate_Hz: 50, lines: [], isBelowStep: true });
  });

  it('has a mean frequency within its uncertainty, as often as three degrees of freedom say', () => {
    const random = createRandom(21);
    const signal = { count: 2000, rate_Hz: 250, ripple_Hz: 71.3, amplitude_V: 0.02, noise_V: 0.01 };
    let held = 0;
    for (let i = 0; i < 200; i++) {
      const [line] = rippleIn(voltagesOf(signal, random), 250)!.lines;
      // Student's t for 95 % and three degrees of freedom: 3.182.
      held += Number(Math.abs(line!.frequency_Hz - 71.3) < 3.182 * line!.standardUncertainty_Hz);
    }
    expect(held / 200).toBeGreaterThan(0.93);
  });

  // Bonferroni's bound: the chance is at most the level, whatever the colour of the noise.
  it.each([['white', 0], ['with gusts', 0.05]])('is found in noise alone no more often than is said: %s', (_, gusts_V) => {
    const random = createRandom(5);
    const [level, trials] = [0.05, 400];
    let found = 0;
    for (let i = 0; i < trials; i++) {
      const noise = voltagesOf({ count: 1500, rate_Hz: 250, ripple_Hz: 1, amplitude_V: 0, noise_V: 0.01, gusts_V }, random);
      if (rippleIn(noise, 250, level)!.lines.length > 0) found += 1;
    }
    // Three standard deviations of the count above what is said.
    expect(found).toBeLessThan(level * trials + 3 * Math.sqrt(level * trials));
  });
});

describe('voltages that are kept', () => {
  const signal = { count: 4000, rate_Hz: 500, ripple_Hz: 90, amplitude_V: 0.02, noise_V: 0.01 };
  const keepAll = (missing: (i: number) => boolean) => {
    const voltages = createVoltages();
    voltagesOf(signal, createRandom(2)).forEach((voltage_V, i) => {
      keepVoltage(voltages, { time_s: 100 + i / 500, voltage_V: missing(i) ? null : voltage_V });
    });
    return voltages;
  };
  it('tell of the longest stretch without a gap between two times', () => {
    const whole = keepAll(() => false);
    expect(rippleBetween(whole, { start_s: 101, end_s: 106 })).toMatchObject({ sampleRate_Hz: expect.closeTo(500, 6) as number });
    expect(rippleBetween(whole, { start_s: 101, end_s: 106 })?.lines[0]?.frequency_Hz).toBeCloseTo(90, 0);
    expect(rippleBetween(whole, { start_s: 50, end_s: 60 })).toBeNull();
    const torn = keepAll((i) => i === 1000);
    expect(rippleBetween(torn, { start_s: 100, end_s: 108 })?.lines[0]?.frequency_Hz).toBeCloseTo(90, 0);
    expect(rippleBetween(keepAll((i) => i % 100 === 0), { start_s: 100, end_s: 108 })).toBeNull();
  });
  it('are the newest ones only, however long it goes on', () => {
    const voltages = createVoltages();
    const length = voltages.values_V.length;
    for (let i = 0; i < length + 5; i++) keepVoltage(voltages, { time_s: i / 1000, voltage_V: i });
    expect(voltages.values_V).toHaveLength(length);
    expect([voltages.values_V[4], voltages.values_V[5]]).toEqual([length + 4, 5]);
  });
});
