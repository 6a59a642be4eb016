/** Scales of the drawings: from a quantity to pixels, with round grid lines. */

export interface Axis {
  readonly low: number;
  readonly high: number;
  /** Values of the grid lines, lowest first; the ends are among them. */
  readonly ticks: readonly number[];
  /** Power of ten of the last digit of a tick. */
  readonly place: number;
}

const MOST_STEPS = 4;

/**
 * An axis from 0 (or below, when there are negative values) to a round number, with at most four
 * steps of 1, 2 or 5 times a power of ten.
 * @param least smallest value to be shown
 * @param most largest value to be shown; `fallback` when nothing positive is there yet
 */
export function niceAxis(least: number, most: number, fallback: number): Axis {
  const top = most > 0 ? most : fallback;
  const bottom = Math.min(least, 0);
  const { step, place } = roundStep((top - bottom) / MOST_STEPS);
  // A hair of tolerance, so that a value on a line does not need the next one.
  const from = Math.floor(bottom / step + 1e-9);
  const to = Math.ceil(top / step - 1e-9);
  const ticks = Array.from({ length: to - from + 1 }, (_, i) => exact((from + i) * step, place));
  return { low: ticks[0] ?? 0, high: ticks.at(-1) ?? fallback, ticks, place };
}

function roundStep(rough: number): { step: number; place: number } {
  const place = Math.floor(Math.log10(rough) + 1e-12);
  const size = 10 ** place;
  const factor = [1, 2, 5].find((one) => one * size >= rough * (1 - 1e-9));
  return factor === undefined
    ? { step: 10 * size, place: place + 1 }
    : { step: factor * size, place };
}

/** Rids a multiple of a step of binary dust. */
function exact(value: number, place: number): number {
  return place < 0 ? Number(value.toFixed(-place)) : Math.round(value);
}

/** Pixels from the top for a value on an axis drawn from `top` to `bottom`. */
export function pixelOf(value: number, axis: Axis, top: number, bottom: number): number {
  const share = (value - axis.low) / (axis.high - axis.low);
  return bottom - share * (bottom - top);
}
