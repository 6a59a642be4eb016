import { describe, expect, it } from 'vitest';
import {
  createDriftEstimator,
  observeLateness,
  restartDrift,
  type DriftEstimator,
} from '#core/reading/drift.ts';

/** Repeatable numbers in [0, 1): the linear congruential generator of Numerical Recipes, 2nd ed. */
function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

interface Way {
  readonly drift_ppm: number;
  readonly seconds: number;
  /** Delay of a line on its way. */
  readonly delay_s: (time_s: number, random: () => number) => number;
}

/** Samples every 20 ms, as a board whose clock drifts would send them; arrivals never overtake. */
function watch(estimator: DriftEstimator, { drift_ppm, seconds, delay_s }: Way): DriftEstimator {
  const random = uniform(7);
  let arrived_s = 0;
  for (let i = 0; i < seconds * 50; i += 1) {
    const true_s = i / 50;
    arrived_s = Math.max(arrived_s, true_s + delay_s(true_s, random));
    const device_s = true_s * (1 + drift_ppm * 1e-6);
    observeLateness(estimator, arrived_s, arrived_s - device_s);
  }
  return estimator;
}

const steady: Way['delay_s'] = () => 0.003;
const jitter: Way['delay_s'] = (_, random) => 0.002 + 0.008 * random() ** 2;
/** USB hands over what came in the last 50 ms. */
const bursts: Way['delay_s'] = (time_s) => Math.ceil(time_s / 0.05) * 0.05 - time_s;
/** Now and then the laptop is busy for three seconds. */
const stalls: Way['delay_s'] = (time_s, random) =>
  0.002 + 0.004 * random() + (time_s % 31 < 3 ? 3 - (time_s % 31) : 0);

describe('clock drift', () => {
  it('is unknown until it is known well enough', () => {
    expect(
      watch(createDriftEstimator(), { drift_ppm: 50, seconds: 20, delay_s: steady }).drift_ppm,
    ).toBeNull();
    expect(
      watch(createDriftEstimator(), { drift_ppm: 50, seconds: 40, delay_s: steady }).drift_ppm,
    ).toBeCloseTo(50, 3);
  });

  it.each([0, 40, -40, 5000, -5000, 20_000])(
    'of %i ppm is found through jitter, bursts and stalls',
    (drift_ppm) => {
      for (const delay_s of [jitter, bursts, stalls]) {
        const { drift_ppm: found } = watch(createDriftEstimator(), {
          drift_ppm,
          seconds: 600,
          delay_s,
        });
        expect(Math.abs((found ?? Number.NaN) - drift_ppm)).toBeLessThan(60);
      }
    },
  );

  it('sharpens with time in bounded memory', () => {
    const estimator = watch(createDriftEstimator(), {
      drift_ppm: 123,
      seconds: 4 * 3600,
      delay_s: jitter,
    });
    expect(estimator.drift_ppm).toBeCloseTo(123, 0);
    expect(estimator.blocks.length).toBeLessThan(64);
  });

  it('is not said while lines come too irregularly to tell', () => {
    const wild: Way['delay_s'] = (time_s, random) =>
      (Math.floor(time_s / 5) % 2) * 2 * random() + 0.5 * (Math.floor(time_s / 5) % 3);
    expect(
      watch(createDriftEstimator(), { drift_ppm: 0, seconds: 60, delay_s: wild }).drift_ppm,
    ).toBeNull();
  });

  it('outlives a new beginning of the clock', () => {
    const estimator = watch(createDriftEstimator(), {
      drift_ppm: 300,
      seconds: 100,
      delay_s: steady,
    });
    restartDrift(estimator);
    expect(estimator.drift_ppm).toBeCloseTo(300, 0);
    expect(estimator.blocks).toEqual([]);
  });
});
