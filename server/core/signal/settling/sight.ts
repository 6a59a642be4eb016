/** What is looked at in one judgement: the blocks since the last change, channel by channel. */
import { meanOf } from '../../metrology/type-a/series.ts';
import { CHANNELS, type Channel } from '../sample.ts';
import { COLUMNS, VOLTAGE, WIND, type Block } from './block.ts';
import { alignedColumn, columnOf, since } from './history.ts';
import { driveOf, fitLag } from './lag.ts';
import { stillLimit_V, type Detector } from './state.ts';

/** The longest stretches that settling is judged by and that a change is seen against. */
const SEEKING_S = 30;
const WATCHING_S = 45;
/** A rotor stands still when it has shown nothing for this long. */
const STILL_S = 2;
/** Air slower than this is calm: common anemometers do not turn in it. */
const CALM_MPS = 0.3;

/** One channel's readings, oldest first, one a block. */
export interface Track {
  readonly channel: Channel;
  readonly column: number;
  readonly values: readonly number[];
  /** What drives it: the readings without the rotor's lag (one fewer; the same when lag is 0). */
  readonly drive: readonly number[];
  readonly lag_s: number;
  /** Mean size of the drive, never zero. */
  readonly level: number;
}

export interface Sight {
  readonly blocks: readonly Block[];
  readonly tracks: readonly Track[];
  readonly period_s: number;
  readonly still: boolean;
  readonly time_s: number;
}

export function sightOf(state: Detector, block: Block): Sight {
  const { record } = state;
  const from_s =
    record === null
      ? Math.max(state.origin_s, block.end_s - SEEKING_S)
      : Math.max(record.blocks[0]!.start_s, block.end_s - WATCHING_S);
  const blocks = since(state.history, from_s);
  const period_s = (block.end_s - blocks[0]!.start_s) / blocks.length;
  const recent = since(state.history, block.end_s - STILL_S);
  const still = record?.rotorStill ?? isRotorStill(state, recent);
  const time_s = block.end_s;
  return { blocks, tracks: tracksOf(state, blocks, { still, period_s }), period_s, still, time_s };
}

function tracksOf(
  state: Detector,
  blocks: readonly Block[],
  { still, period_s }: { still: boolean; period_s: number },
): Track[] {
  const tracks: Track[] = [];
  for (const channel of CHANNELS) {
    const column = COLUMNS.indexOf(channel);
    if (still && column !== WIND) continue;
    const values = alignedColumn(blocks, column);
    if (values.length < 4) continue;
    const lag_s = column === WIND ? 0 : lagOf(state, values, period_s);
    const drive = lag_s === 0 ? values : driveOf(values, period_s, lag_s);
    const level = Math.max(Math.abs(meanOf(drive)), 1e-9);
    tracks.push({ channel, column, values, drive, lag_s, level });
  }
  return tracks;
}

/** The lag that an approach shows while it goes on; otherwise the one that is remembered. */
function lagOf(state: Detector, values: readonly number[], period_s: number): number {
  const shown = state.record === null ? fitLag(values, period_s) : null;
  return shown ?? Math.exp(state.lag.logLag);
}

export function isRotorStill(state: Detector, blocks: readonly Block[]): boolean {
  const values = columnOf(blocks, VOLTAGE);
  const limit = stillLimit_V(state);
  return values.length > 0 && values.every((value) => Math.abs(value) <= limit);
}

/** Whether the newest five seconds had wind; null when nothing measures it. */
export function windBlows({ tracks, period_s }: Sight): boolean | null {
  const wind = tracks.find((track) => track.column === WIND);
  if (wind === undefined) return null;
  return meanOf(wind.values.slice(-Math.round(5 / period_s))) > CALM_MPS;
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

/** In units of a level. */
export function scaled(values: readonly number[], level: number): number[] {
  return values.map((value) => value / level);
}
