/**
 * The board's own clock: a counter in µs, ms or s, which wraps at 2^32 and begins anew when the
 * board is reset, placed on the recording's time.
 *
 * With `arrival` the first sample of a connection, or after a reset, is placed at its arrival, and
 * all later ones at the device's own spacing: arrival times jitter and come in bursts, device times
 * don't. With `stream` the device time is the time.
 *
 * Wrap or reset? Lines may come late, but never before they were sent. A counter that went back has
 * wrapped if the time since then, counted across the wrap, fits the arrival, and if no sequence
 * number began anew with it; otherwise the counter began anew. A jump ahead of arrival is judged
 * alike. A line without a checksum may itself be damaged, so there a new beginning counts only once
 * the line after it confirms it.
 */
import type { TimeUnit } from '#protocol/plain-header.ts';
import {
  createDriftEstimator,
  observeLateness,
  restartDrift,
  type DriftEstimator,
} from './drift.ts';

/** restarted: placed, but it does not continue what was; refused: no time can be given. */
export type Placement = 'placed' | 'restarted' | 'refused';

/**
 * What vouches for a line besides itself: its checksum, or a sequence number that began anew with
 * it. A counter that went back together with the sequence number has not wrapped.
 */
export type Witness = 'none' | 'checksum' | 'sequence';

const COUNTER_SPAN = 2 ** 32;
const TICKS_PER_S: Readonly<Record<TimeUnit, number>> = { us: 1e6, ms: 1e3, s: 1 };

/** How far a line may seem to come from the future: an absolute part, and … */
const AHEAD_S = 1;
/** … a part of the time since the line before, for clocks that run fast (RC oscillators: 10 %). */
const AHEAD_SHARE = 0.2;
/** A line across a wrap may be at most this late: longer than any buffer on the way holds. */
const LATE_S = 30;
/** In a file no arrival helps: a counter that went back by more than this has not wrapped. */
const STREAM_WRAP_GAP_S = 60;
/** How fast the least lateness is forgotten, in s/s: as fast as a clock may drift. */
const FORGETTING = 0.01;
/** The least step to a new beginning. */
const STEP_S = 0.001;

export interface DeviceClock {
  mode: 'arrival' | 'stream';
  ticksPerS: number;
  /** Counters in µs and ms wrap; seconds don't. */
  wraps: boolean;
  /** False until the first sample of a connection, or after a reset. */
  anchored: boolean;
  /** Newest device time as sent, and unwrapped to seconds. */
  lastTicks: number;
  lastDevice_s: number;
  /** Added to unwrapped ticks, a multiple of COUNTER_SPAN. */
  wrappedTicks: number;
  /** Stream time less device time. */
  offset_s: number;
  /** About the smallest lateness seen of late. */
  leastLateness_s: number;
  /** A new beginning that waits for the next line to confirm it. */
  suspectTicks: number | null;
  suspectAt_s: number;
  /** Something else (a header) already said that the board was reset. */
  resetExpected: boolean;
  readonly drift: DriftEstimator;
  /** The newest placed stream time: the result of `placeDeviceTime`. */
  time_s: number;
}

export function createDeviceClock(): DeviceClock {
  return {
    mode: 'arrival',
    ticksPerS: 1,
    wraps: false,
    anchored: false,
    lastTicks: 0,
    lastDevice_s: 0,
    wrappedTicks: 0,
    offset_s: 0,
    leastLateness_s: 0,
    suspectTicks: null,
    suspectAt_s: 0,
    resetExpected: false,
    drift: createDriftEstimator(),
    time_s: 0,
  };
}

export function setTimeUnit(clock: DeviceClock, unit: TimeUnit): void {
  clock.ticksPerS = TICKS_PER_S[unit];
  clock.wraps = unit !== 's';
}

/** The next sample starts afresh: a new connection, a reset, another unit. */
export function releaseClock(clock: DeviceClock): void {
  clock.anchored = false;
  clock.lastTicks = 0;
  clock.wrappedTicks = 0;
  clock.suspectTicks = null;
  clock.resetExpected = false;
  restartDrift(clock.drift);
}

/**
 * Places a sample with the device time `ticks`, arrived at `at_s`, after all that is not later than
 * `after_s`; the time is then in `clock.time_s`.
 */
export function placeDeviceTime(
  clock: DeviceClock,
  ticks: number,
  at_s: number,
  after_s: number,
  witness: Witness,
): Placement {
  if (clock.mode === 'stream') return placeAsItStands(clock, ticks, after_s);
  if (!clock.anchored) {
    anchor(clock, ticks, at_s, after_s);
    return 'placed';
  }
  if (ticks === clock.lastTicks) return 'refused';
  const device_s = unwrapped_s(clock, ticks);
  const beganAnew = witness === 'sequence' && ticks < clock.lastTicks;
  if (!beganAnew && follows(clock, ticks, device_s, at_s)) {
    advance(clock, ticks, device_s, at_s);
    return clock.time_s > after_s ? 'placed' : 'refused';
  }
  if (witness !== 'none' || clock.resetExpected || confirmsSuspect(clock, ticks, at_s)) {
    releaseClock(clock);
    anchor(clock, ticks, at_s, after_s);
    return 'restarted';
  }
  clock.suspectTicks = ticks;
  clock.suspectAt_s = at_s;
  return 'refused';
}

/** Stream time of something that happened at `ticks`, near the newest sample; null if not near. */
export function timeNear_s(clock: DeviceClock, ticks: number): number | null {
  if (!clock.anchored) return null;
  const forward = (ticks - clock.lastTicks + COUNTER_SPAN) % COUNTER_SPAN;
  const nearest = forward < COUNTER_SPAN / 2 ? forward : forward - COUNTER_SPAN;
  const away_s = nearest / clock.ticksPerS;
  return Math.abs(away_s) < LATE_S ? clock.lastDevice_s + away_s + clock.offset_s : null;
}

function anchor(clock: DeviceClock, ticks: number, at_s: number, after_s: number): void {
  clock.time_s = at_s > after_s ? at_s : after_s + STEP_S;
  clock.anchored = true;
  clock.lastTicks = ticks;
  clock.lastDevice_s = ticks / clock.ticksPerS;
  clock.offset_s = clock.time_s - clock.lastDevice_s;
  clock.leastLateness_s = at_s - clock.time_s;
  observeLateness(clock.drift, at_s, clock.leastLateness_s);
}

/** Whether the line can be one that the same run of the board sent after the newest one. */
function follows(clock: DeviceClock, ticks: number, device_s: number, at_s: number): boolean {
  const step_s = device_s - clock.lastDevice_s;
  if (step_s <= 0) return false;
  const excess_s = at_s - (device_s + clock.offset_s) - clock.leastLateness_s;
  const slack_s = AHEAD_SHARE * step_s;
  if (excess_s < -(AHEAD_S + slack_s)) return false;
  return ticks > clock.lastTicks || excess_s <= LATE_S + slack_s;
}

function advance(clock: DeviceClock, ticks: number, device_s: number, at_s: number): void {
  const lateness_s = at_s - (device_s + clock.offset_s);
  const forgotten_s = clock.leastLateness_s + FORGETTING * (device_s - clock.lastDevice_s);
  clock.leastLateness_s = lateness_s < forgotten_s ? lateness_s : forgotten_s;
  observeLateness(clock.drift, at_s, lateness_s);
  remember(clock, ticks, device_s);
  clock.time_s = device_s + clock.offset_s;
  clock.suspectTicks = null;
  clock.resetExpected = false;
}

function confirmsSuspect(clock: DeviceClock, ticks: number, at_s: number): boolean {
  const { suspectTicks, suspectAt_s } = clock;
  if (suspectTicks === null || ticks <= suspectTicks) return false;
  const step_s = (ticks - suspectTicks) / clock.ticksPerS;
  return step_s <= (at_s - suspectAt_s) * (1 + AHEAD_SHARE) + AHEAD_S;
}

/** Device time is stream time; only a later connection that begins too early is moved. */
function placeAsItStands(clock: DeviceClock, ticks: number, after_s: number): Placement {
  const device_s = unwrapped_s(clock, ticks);
  const isBack = clock.anchored && ticks < clock.lastTicks;
  if (isBack && device_s - clock.lastDevice_s > STREAM_WRAP_GAP_S) return 'refused';
  if (!clock.anchored) clock.offset_s = device_s > after_s ? 0 : after_s + STEP_S - device_s;
  const time_s = device_s + clock.offset_s;
  if (time_s <= after_s) return 'refused';
  clock.anchored = true;
  clock.time_s = time_s;
  remember(clock, ticks, device_s);
  return 'placed';
}

function remember(clock: DeviceClock, ticks: number, device_s: number): void {
  if (ticks < clock.lastTicks && clock.wraps) clock.wrappedTicks += COUNTER_SPAN;
  clock.lastTicks = ticks;
  clock.lastDevice_s = device_s;
}

/** Device time in seconds, with the wrap that there is between it and the newest one, if any. */
function unwrapped_s(clock: DeviceClock, ticks: number): number {
  const hasWrapped =
    ticks < clock.lastTicks && clock.anchored && clock.wraps && clock.lastTicks < COUNTER_SPAN;
  return (ticks + clock.wrappedTicks + (hasWrapped ? COUNTER_SPAN : 0)) / clock.ticksPerS;
}
