/** The axis of a channel's strip: what was read in the last minute, in proportion to what it can be. */
import { niceAxis, type Axis } from './axis.ts';

/** Noise at rest is no signal: the axis holds at least this share of the largest reading … */
const LEAST_SHARE = 0.1;
/** … which, before anything has run, is taken for this share of a usual one. */
const UNKNOWN_SHARE = 0.25;

/**
 * @param extent of the readings shown; null where there are none
 * @param largest reading that is known of, without its sign
 * @param usual full scale of such a channel
 */
export function stripAxisOf(
  extent: { readonly least: number; readonly most: number } | null,
  { largest, usual }: { readonly largest: number; readonly usual: number },
): Axis {
  const floor = LEAST_SHARE * Math.max(largest, UNKNOWN_SHARE * usual);
  const most = extent === null ? usual : Math.max(extent.most * 1.05, floor);
  const least = Math.min(extent?.least ?? 0, 0);
  return niceAxis(least < -0.05 * most ? least : 0, most, usual);
}
