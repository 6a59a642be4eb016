/**
 * The true plateaus of a noise-free course: within a stretch that no event cuts, a plateau starts
 * when the reading stays within 1 % (at least one step of the converter) of its value at the
 * stretch's end, and ends with the stretch.
 */
import { length_s, type Interval, type TruePlateau } from './recording.ts';

export interface Stretch extends Interval {
  /** level: it settles; never: by its nature it does not; still: the rotor is not to turn. */
  readonly use: 'level' | 'never' | 'still';
  /** Whether the fan blows. */
  readonly wind: boolean;
}

/** A noise-free reading in even steps from time zero. */
export interface Course {
  readonly step_s: number;
  readonly values: Float64Array;
}

const TOLERANCE = 0.01;
const SHORTEST_SURE_S = 6;
/** Less than this is no plateau to anyone. */
const SHORTEST_S = 1;

export function truePlateaus(
  course: Course,
  stretches: readonly Stretch[],
  converterStep: number,
): TruePlateau[] {
  return stretches
    .filter((stretch) => stretch.use === 'level')
    .map((stretch) => steadyEnd(course, stretch, converterStep))
    .filter(({ start_s, end_s }) => end_s - start_s >= SHORTEST_S)
    .map(({ start_s, end_s }) => ({
      start_s,
      end_s,
      voltage_V: meanOf(course, start_s, end_s),
      eitherWay: isShort({ start_s, end_s }),
    }));
}

/** Too short for anyone to insist on. */
export function isShort(interval: Interval): boolean {
  return length_s(interval) < SHORTEST_SURE_S;
}

/** The last part of the stretch over which the course stays near its value at the end. */
export function steadyEnd(course: Course, stretch: Interval, least: number): Interval {
  const first = Math.ceil(stretch.start_s / course.step_s - 1e-9);
  const last = Math.min(Math.floor(stretch.end_s / course.step_s - 1e-9), course.values.length - 1);
  const end = course.values[last] ?? 0;
  const tolerance = Math.max(TOLERANCE * Math.abs(end), least);
  let from = last;
  while (from > first && Math.abs((course.values[from - 1] ?? 0) - end) <= tolerance) from--;
  return { start_s: from * course.step_s, end_s: stretch.end_s };
}

function meanOf(course: Course, start_s: number, end_s: number): number {
  const from = Math.round(start_s / course.step_s);
  const to = Math.max(from + 1, Math.round(end_s / course.step_s));
  const part = course.values.subarray(from, to);
  return part.reduce((sum, value) => sum + value, 0) / part.length;
}
