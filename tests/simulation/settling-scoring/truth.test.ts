import { describe, expect, it } from 'vitest';
import { truePlateaus, type Course, type Stretch } from '../../bench/settling/truth.ts';

const STEP_S = 0.01;

function courseOf(value: (time_s: number) => number, length_s: number): Course {
  const values = Float64Array.from({ length: Math.round(length_s / STEP_S) + 1 }, (_, i) =>
    value(i * STEP_S),
  );
  return { step_s: STEP_S, values };
}

function level(start_s: number, end_s: number): Stretch {
  return { start_s, end_s, use: 'level', wind: true };
}

describe('true plateaus', () => {
  it('start where an exponential approach comes within 1 % of its end', () => {
    // Closed form: 1 - exp(-t/τ) is within 1 % of one after τ·ln 100 = 4.605 τ.
    const course = courseOf((time_s) => 1 - Math.exp(-time_s / 2), 60);
    const [plateau] = truePlateaus(course, [level(0, 60)], 0);
    expect(plateau!.start_s).toBeCloseTo(2 * Math.log(100), 1);
    expect(plateau!.end_s).toBe(60);
    expect(plateau!.voltage_V).toBeGreaterThan(0.999);
    expect(plateau!.eitherWay).toBe(false);
  });

  it('start where it comes within one step of a coarse converter', () => {
    const course = courseOf((time_s) => 1 - Math.exp(-time_s / 2), 60);
    const [plateau] = truePlateaus(course, [level(0, 60)], 0.05);
    expect(plateau!.start_s).toBeCloseTo(2 * Math.log(20), 1);
  });

  it('start at once after a step of less than 1 %, and end with the next event', () => {
    const course = courseOf((time_s) => (time_s < 20 ? 1 : 1.009), 40);
    const plateaus = truePlateaus(course, [level(0, 20), level(20, 40)], 0);
    expect(plateaus.map(({ start_s, end_s }) => [start_s, end_s])).toEqual([
      [0, 20],
      [20, 40],
    ]);
  });

  it('take the mean of a drooping reading, from where it is within 1 % of its end', () => {
    const course = courseOf((time_s) => 1 - 0.001 * time_s, 30);
    const [plateau] = truePlateaus(course, [level(0, 30)], 0);
    // 0.97 at the end; 0.9797 was read 9.7 s before.
    expect(plateau!.start_s).toBeCloseTo(20.3, 1);
    expect(plateau!.voltage_V).toBeCloseTo((0.9797 + 0.97) / 2, 4);
  });

  it('are not in stretches that never settle or stand still, nor shorter than a second', () => {
    const course = courseOf(() => 1, 60);
    const stretches: Stretch[] = [
      { ...level(0, 20), use: 'never' },
      { ...level(20, 40), use: 'still' },
      level(40, 40.5),
      level(40.5, 45),
    ];
    const plateaus = truePlateaus(course, stretches, 0);
    expect(plateaus).toHaveLength(1);
    expect(plateaus[0]).toMatchObject({ start_s: 40.5, eitherWay: true });
  });
});
