/** What is looked at in one judgement. */
import { CHANNELS } from '../sample.ts';
import { COLUMNS, CURRENT, VOLTAGE, WIND, type Block } from './block.ts';
import { courseSince, indexSince, type Course } from './history.ts';
import { fitLag } from './lag.ts';
import { openLimit_A, stillLimit_V, type Detector, type Sight } from './state.ts';
import { createTrack, readingMean, type Track } from './track.ts';

/** The longest stretches that settling is judged by and that a change is seen against. */
const SEEKING_S = 30;
const WATCHING_S = 45;
/** A rotor stands still when it has shown nothing for this long. */
const STILL_S = 2;
/** Air slower than this is calm: common anemometers do not turn in it. */
const CALM_MPS = 0.3;
const CHANNEL_COLUMNS = CHANNELS.map((channel) => ({ channel, column: COLUMNS.indexOf(channel) }));
/** Fewer readings show nothing. */
const LEAST_READINGS = 4;

export function sightOf(state: Detector, { end_s: time_s }: Block): Sight {
  const { record, history } = state;
  const { blocks } = history;
  const from_s =
    record === null
      ? Math.max(state.origin_s, time_s - SEEKING_S)
      : Math.max(record.blocks[0]!.start_s, time_s - WATCHING_S);
  const from = indexSince(history, from_s);
  const count = blocks.length - from;
  const period_s = (time_s - blocks[from]!.start_s) / count;
  const still = record?.rotorStill ?? isRotorStill(state, indexSince(history, time_s - STILL_S));
  const tracks = tracksOf(state, { from, still, period_s });
  return { blocks, from, count, tracks, period_s, still, time_s };
}

function tracksOf(
  state: Detector,
  { from, still, period_s }: { from: number; still: boolean; period_s: number },
): Track[] {
  const { history } = state;
  const tracks: Track[] = [];
  if (history.blocks.length - from < LEAST_READINGS) return tracks;
  for (const { channel, column } of CHANNEL_COLUMNS) {
    if (still && column !== WIND) continue;
    const part = courseSince(history, column, from);
    if (part === null) continue;
    const { course } = part;
    const readings = { channel, column, course, from: part.from, to: course.values.length };
    if (column === CURRENT && isOpenCircuit(state, readings)) continue;
    const lag_s = column === WIND ? 0 : lagOf(state, readings, period_s);
    tracks.push(createTrack(readings, lag_s, period_s));
  }
  return tracks;
}

/** Where no current flows there is only noise, which no share of nothing would hold. */
function isOpenCircuit(
  state: Detector,
  { course, from, to }: { course: Course; from: number; to: number },
): boolean {
  return Math.abs(readingMean({ course }, from, to)) <= openLimit_A(state);
}

/** The lag that an approach shows while it goes on; otherwise the one that is remembered. */
function lagOf(
  state: Detector,
  { course, from }: { course: Course; from: number },
  period_s: number,
): number {
  const shown = state.record === null ? fitLag(course, from, period_s) : null;
  return shown ?? Math.exp(state.lag.logLag);
}

/**
 * The same track over the newest `count` of the drive, as far as it is remembered: past the last
 * change, and with missing readings held.
 */
export function withContext(
  { history }: Detector,
  { channel, column, lag_s }: Track,
  count: number,
  period_s: number,
): Track {
  const course = history.courses[column]!;
  const to = course.values.length;
  const from = Math.max(to - count - 1, 0);
  return createTrack({ channel, column, course, from, to }, lag_s, period_s);
}

/** Whether no voltage has been seen since this block; false when none is measured. */
export function isRotorStill(state: Detector, from: number): boolean {
  const { blocks } = state.history;
  const limit = stillLimit_V(state);
  let measured = false;
  for (let i = from; i < blocks.length; i++) {
    const value = blocks[i]!.means[VOLTAGE]!;
    if (Number.isNaN(value)) continue;
    if (Math.abs(value) > limit) return false;
    measured = true;
  }
  return measured;
}

/** The block since which every voltage is one of a rotor that turns; past the newest if none is. */
export function turnsSince(state: Detector): number {
  const { blocks } = state.history;
  const limit = stillLimit_V(state);
  let from = blocks.length;
  // Missing readings are none of a rotor at rest.
  while (from > 0 && !(Math.abs(blocks[from - 1]!.means[VOLTAGE]!) <= limit)) from -= 1;
  return from;
}

/** Whether the newest five seconds had wind; null when nothing measures it. */
export function windBlows({ tracks, period_s }: Sight): boolean | null {
  const wind = tracks.find((track) => track.column === WIND);
  if (wind === undefined) return null;
  const from = Math.max(wind.to - Math.round(5 / period_s), wind.from);
  return readingMean(wind, from, wind.to) > CALM_MPS;
}

/** Nothing is being measured: no wind, and no rotor that turns. */
export function isIdle(sight: Sight): boolean {
  const { still, tracks } = sight;
  const windOnly = tracks.length > 0 && tracks.every(({ column }) => column === WIND);
  return (still || windOnly) && windBlows(sight) !== true;
}

/** By how much the lag of a track raises its reading's white noise: see metrology/type-a. */
export function raiseOf({ lag_s }: Track, period_s: number): number {
  return (lag_s * lag_s) / period_s;
}
