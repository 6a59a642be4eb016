/**
 * The typical time between samples, learnt from the newest intervals. Robust like a median, and
 * as exact as a mean: intervals far longer than the median (a pause) are left out, the rest is
 * averaged, so that a rounded device clock (16, 17, 17 ms) gives 16.67 ms.
 */

const NEWEST = 32;
/** Intervals after which it is worked out for the first times, then after each NEWEST. */
const EARLY: readonly number[] = [4, 8, 16];
/** An interval longer than this many medians is a pause, not a period. */
const PAUSE = 3;

export interface PeriodLearner {
  period_s: number | null;
  /** Time per sample of each interval, and how many samples it spans. */
  readonly spacings_s: Float64Array;
  readonly spans: Float64Array;
  count: number;
}

export function createPeriodLearner(): PeriodLearner {
  return {
    period_s: null,
    spacings_s: new Float64Array(NEWEST),
    spans: new Float64Array(NEWEST),
    count: 0,
  };
}

/** `samples` samples came in `interval_s`. */
export function learnInterval(learner: PeriodLearner, interval_s: number, samples: number): void {
  const slot = learner.count % NEWEST;
  learner.spacings_s[slot] = interval_s / samples;
  learner.spans[slot] = samples;
  learner.count += 1;
  if (slot === NEWEST - 1 || EARLY.includes(learner.count)) learner.period_s = typical_s(learner);
}

function typical_s({ spacings_s, spans, count }: PeriodLearner): number {
  const known = Math.min(count, NEWEST);
  const sorted = spacings_s.slice(0, known).sort();
  const longest_s = PAUSE * (sorted[known >> 1] as number);
  let total_s = 0;
  let samples = 0;
  for (let i = 0; i < known; i += 1) {
    const spacing_s = spacings_s[i] as number;
    const span = spans[i] as number;
    if (spacing_s > longest_s) continue;
    total_s += spacing_s * span;
    samples += span;
  }
  return total_s / samples;
}
