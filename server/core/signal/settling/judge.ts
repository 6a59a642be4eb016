import { longRunVarianceOf } from '../../metrology/type-a/mean-estimate.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { ChannelMotion } from '../plateau.ts';
import type { Channel } from '../sample.ts';

/** A change smaller than this share of the reading is no change. */
export const TOLERANCE = 0.01;

/** What one channel does over a window. */
export interface ChannelJudgement {
  readonly motion: ChannelMotion;
  /** Change over the window by its slope, and between its first and last third, in tolerances. */
  readonly excess: number;
}

function slopeOf(values: readonly number[], period_s: number): number {
  const middle = (values.length - 1) / 2;
  let weighted = 0;
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    weighted += (i - middle) * values[i]!;
    squares += (i - middle) ** 2;
  }
  return squares > 0 ? weighted / squares / period_s : 0;
}

/** Judges one channel over equally spaced block means; `allowance` widens the tolerance. */
export function judgeChannel(asked: {
  channel: Channel;
  values: readonly number[];
  period_s: number;
  tolerance: number;
}): ChannelJudgement {
  const { channel, values, period_s, tolerance } = asked;
  const length_s = values.length * period_s;
  const slope = slopeOf(values, period_s);
  const third = Math.max(Math.floor(values.length / 3), 1);
  const first = meanOf(values.slice(0, third));
  const last = meanOf(values.slice(-third));
  const residual = values.map((value, i) => value - slope * i * period_s);
  const error = Math.sqrt(longRunVarianceOf(residual) / values.length);
  const allowed = tolerance + error * Math.sqrt(6);
  const drift = Math.max(Math.abs(slope) * length_s * 0.7, Math.abs(last - first));
  const excess = drift / allowed;
  const motion = excess <= 1 ? 'still' : error > 3 * tolerance ? 'unsteady' : slope > 0 ? 'rising' : 'falling';
  return { motion: { channel, motion, level: last, slope_per_s: slope }, excess };
}
