/** What a person takes though it has not settled: whether its 95 % interval holds the true mean. */
import { describe, expect, it } from 'vitest';
import { averageNow, type Span } from '#core/signal/settling/average.ts';
import { createDetector, observe } from '#core/signal/settling/detector.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';
import { between, createRandom, normal } from '#core/virtual-rig/random.ts';

const RATE_Hz = 50;
const SEEDS = 60;
const VOLTAGE_V = 2.4;
const LOAD_Ohm = 20;

interface Rig {
  readonly span: Span;
  readonly length_s: number;
  /** Of the swing, as a share of the voltage. */
  readonly amplitude: readonly [low: number, high: number];
  /** Of the swing, s; where it is not said, any that such rigs have. */
  readonly period?: readonly [low: number, high: number];
}

/** A rig that swings steadily, in noise with a memory (AR(1)): its mean power is known. */
function isHeld(seed: number, { span, length_s, amplitude, period = [2, 10] }: Rig): boolean {
  const random = createRandom(seed);
  const detector = createDetector(null);
  const period_s = between(random, ...period);
  const swing = between(random, ...amplitude);
  const phase = between(random, 0, 2 * Math.PI);
  const memory = Math.exp(-1 / (RATE_Hz * between(random, 0.1, 1.5)));
  const scatter = between(random, 0.003, 0.02);
  let noise = 0;
  for (let k = 1; k <= length_s * RATE_Hz; k++) {
    const time_s = k / RATE_Hz;
    noise = memory * noise + Math.sqrt(1 - memory ** 2) * scatter * normal(random);
    const sway = swing * Math.sin((2 * Math.PI * time_s) / period_s + phase);
    const voltage_V = VOLTAGE_V * (1 + sway + noise);
    const windSpeed_mps = 4 + 0.05 * normal(random);
    const rest = { current_A: voltage_V / LOAD_Ohm, windSpeed_mps, rotorSpeed_radps: null };
    observe(detector, { time_s, voltage_V, ...rest });
  }
  // The mean of V²/R over whole swings, and what the noise adds to it.
  const true_W = (VOLTAGE_V ** 2 / LOAD_Ohm) * (1 + swing ** 2 / 2 + scatter ** 2);
  const { mean, standardUncertainty, degreesOfFreedom } = averageNow(detector, span, -Infinity)!.estimates.power_W!;
  return Math.abs(mean - true_W) <= studentTQuantile(0.975, degreesOfFreedom) * standardUncertainty;
}

describe('the interval of what was taken unsettled', () => {
  it.each<[string, Rig]>([
    ['an average over whole swings of 35 s', { span: 'cycles', length_s: 35, amplitude: [0.04, 0.2] }],
    // Half a block off in the period is four blocks off after eight swings.
    ['an average over strong swings', { span: 'cycles', length_s: 58, amplitude: [0.2, 0.3], period: [6.68, 6.72] }],
    ['the last seconds of noise that nobody waited for', { span: 'now', length_s: 12, amplitude: [0, 0] }],
    ['the last seconds of a swing', { span: 'now', length_s: 12, amplitude: [0.04, 0.2] }],
  ])('holds the true mean: %s', (_, rig) => {
    const held = Array.from({ length: SEEDS }, (_one, i) => isHeld(i + 1, rig)).filter(Boolean);
    // 95 % intervals of 60 seeds hold fewer than 51 by chance once in a thousand times.
    expect(held.length).toBeGreaterThanOrEqual(51);
  });
});
