/** Looks for a limit cycle in what is seen now. */
import { meanOf } from '../../metrology/type-a/series.ts';
import { VOLTAGE, WIND } from './block.ts';
import { CYCLE_WINDOW_S, findCycle, SHORTEST_CYCLE_WINDOW_S } from './cycle.ts';
import { columnOf } from './history.ts';
import { driveOf } from './lag.ts';
import { expectedNoise, type NoiseMemory } from './noise-memory.ts';
import { raiseOf } from './sight.ts';
import { stillLimit_V, type CycleLook, type Detector, type Sight } from './state.ts';
import { driveIn, driveMean, LEAST_LEVEL, newest, type Track } from './track.ts';

/** A cycle is looked for this often. */
const LOOK_S = 0.6;
/** Two parts of a cycle differ in their means by less than this share of the level. */
const MOST_SWING = 0.12;
const NONE: readonly number[] = [];

/** Deviations from their mean, in units of `level`. */
function centred(values: readonly number[], level: number): number[] {
  const mean = meanOf(values);
  return values.map((value) => (value - mean) / level);
}

/** The newest drive before what is seen, as far as it is remembered and the rotor turned. */
function earlierDrive(
  state: Detector,
  sight: Sight,
  track: Track,
  count: number,
): readonly number[] {
  const earlier = sight.blocks.slice(Math.max(sight.from - count - 1, 0), sight.from);
  const values = columnOf(earlier, track.column);
  const limit = track.column === VOLTAGE ? stillLimit_V(state) : 0;
  if (values.some((value) => Math.abs(value) <= limit)) return NONE;
  return driveOf(values, sight.period_s, track.lag_s);
}

/**
 * The window a cycle is looked for in. While seeking it reaches back across what was taken for a
 * change: a cycle goes on there. An open plateau is judged by itself.
 */
function windowOf(state: Detector, sight: Sight, track: Track): readonly number[] {
  const count = Math.round(CYCLE_WINDOW_S / sight.period_s);
  const from = newest(track, count);
  const length = track.to - from;
  const level = Math.max(Math.abs(driveMean(track, from)), LEAST_LEVEL);
  const part = driveIn(track, from, level);
  const missing = state.record === null ? Math.min(count - length, length - 1) : 0;
  const earlier = missing > 0 ? earlierDrive(state, sight, track, missing) : NONE;
  const same = earlier.length > 0 && Math.abs(meanOf(earlier) / level - 1) < MOST_SWING;
  // Each side is seen against its own mean.
  return same ? [...centred(earlier, level), ...centred(part, 1)] : part;
}

/** Whether some channel swings; `contrast` is how far a line must stand above the noise. */
export function swings(
  state: Detector,
  sight: Sight,
  asked: { look: CycleLook; memories: readonly NoiseMemory[]; contrast: number },
): boolean {
  const { time_s, tracks, period_s } = sight;
  const { look } = asked;
  if (time_s - look.time_s < LOOK_S) return look.seen;
  look.time_s = time_s;
  look.seen = tracks.some((track) => {
    if (track.column === WIND) return false;
    const drive = windowOf(state, sight, track);
    if (drive.length * period_s < CYCLE_WINDOW_S - 2 * period_s) return false;
    const noise = expectedNoise(asked.memories[track.column]!, raiseOf(track, period_s));
    return findCycle({ drive, period_s, lag_s: track.lag_s, noise, contrast: asked.contrast });
  });
  return look.seen;
}

/** What was seen that deciding needed is looked at again only now and then: it counts so long, s. */
const SEEN_FOR_S = 2;

/** Whether people are to be told that it swings. */
export function isSeenSwinging({ telling, deciding }: Detector, { time_s }: Sight): boolean {
  return telling.seen || (deciding.seen && time_s - deciding.time_s <= SEEN_FOR_S);
}

/**
 * Whether some channel swings in the newest `count` blocks alone, which looked flat: those may hold
 * whole periods of a cycle long before it has filled the window that it is looked for in.
 */
export function swingsWithin(
  state: Detector,
  { tracks, period_s }: Sight,
  { count, contrast }: { count: number; contrast: number },
): boolean {
  if (count * period_s < SHORTEST_CYCLE_WINDOW_S) return false;
  return tracks.some((track) => {
    const { column, lag_s } = track;
    if (column === WIND) return false;
    const from = newest(track, count);
    const drive = driveIn(track, from, Math.max(Math.abs(driveMean(track, from)), LEAST_LEVEL));
    return findCycle({ drive, period_s, lag_s, noise: state.beliefs[column]!, contrast });
  });
}
