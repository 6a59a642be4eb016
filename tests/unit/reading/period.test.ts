import { describe, expect, it } from 'vitest';
import { createPeriodLearner, learnInterval } from '#core/reading/period.ts';

function learn(intervals: readonly (readonly [number, number])[]): number | null {
  const learner = createPeriodLearner();
  for (const [interval_s, samples] of intervals) learnInterval(learner, interval_s, samples);
  return learner.period_s;
}

describe('the sample period', () => {
  it('is unknown at first', () => {
    expect(learn([])).toBeNull();
    expect(
      learn([
        [0.1, 1],
        [0.1, 1],
        [0.1, 1],
      ]),
    ).toBeNull();
  });

  it('is known after a few samples', () => {
    expect(learn(Array(4).fill([0.2, 1]))).toBeCloseTo(0.2, 12);
  });

  it('averages what a rounded clock splits', () => {
    const thirds = Array.from({ length: 32 }, (_, i): [number, number] => [
      i % 3 === 0 ? 0.016 : 0.017,
      1,
    ]);
    expect(learn(thirds)).toBeCloseTo(0.016667, 4);
  });

  it('leaves pauses out', () => {
    expect(learn([...Array(31).fill([0.01, 1]), [30, 1]])).toBeCloseTo(0.01, 12);
  });

  it('counts lost samples into an interval', () => {
    expect(
      learn([
        [0.01, 1],
        [0.05, 5],
        [0.01, 1],
        [0.02, 2],
      ]),
    ).toBeCloseTo(0.01, 12);
  });

  it('follows a change of pace', () => {
    expect(learn([...Array(64).fill([0.01, 1]), ...Array(64).fill([0.1, 1])])).toBeCloseTo(0.1, 12);
  });
});
