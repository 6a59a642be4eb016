/** Made-up samples: first-order lag and correlated noise, from a fixed seed. */
import type { Samples } from '#core/live-messages.ts';

export const RATE_HZ = 50;
/** Stream time of every scene. */
export const NOW_S = 600;
export const RESISTANCE_OHM = 22;

/** From `at_s` before now the voltage heads for `target_V` and the wind for `wind_mps`. */
export interface Course {
  readonly before_s: number;
  readonly target_V: number;
  readonly wind_mps: number;
  readonly tau_s?: number;
  /** A swing about the target: amplitude as a share, and period. */
  readonly swing?: { readonly share: number; readonly period_s: number };
}

/** A small seeded generator (mulberry32), uniform in [0, 1). */
function createUniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** The last 60 s of samples along a course of events. */
export function samplesAlong(courses: readonly Course[], noise = 0.004): Samples {
  const uniform = createUniform(7);
  const samples: Samples = { time_s: [], voltage_V: [], current_A: [], windSpeed_mps: [] };
  let [level, wind, drift, gust] = [0, 0, 0, 0];
  for (let i = -90 * RATE_HZ; i <= 0; i++) {
    const before_s = -i / RATE_HZ;
    const course = courses.filter((one) => one.before_s >= before_s).at(-1) ?? courses[0];
    if (course === undefined) break;
    const tau_s = course.tau_s ?? 2;
    level += (course.target_V - level) / (tau_s * RATE_HZ);
    wind += (course.wind_mps - wind) / (1.2 * RATE_HZ);
    drift = 0.9 * drift + 0.44 * (uniform() - 0.5) * 3.4;
    gust = 0.95 * gust + 0.31 * (uniform() - 0.5) * 3.4;
    const swing =
      course.swing === undefined
        ? 0
        : course.swing.share * Math.sin((2 * Math.PI * before_s) / course.swing.period_s);
    const voltage = Math.max(level * (1 + noise * drift + swing), 0);
    if (before_s > 60) continue;
    samples.time_s.push(NOW_S - before_s);
    samples.voltage_V.push(round(voltage, 4));
    samples.current_A.push(round(voltage / RESISTANCE_OHM, 6));
    samples.windSpeed_mps.push(round(Math.max(wind * (1 + 0.02 * gust), 0), 3));
  }
  return samples;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
