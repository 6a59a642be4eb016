/** The settling detector: a stream of samples in, judgements and plateaus out. No clock. */
import {
  detrend,
  fitNoise,
  priorModel,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Learnt, LearntChannel } from '../learnt.ts';
import type { ChannelMotion, EndReason, Judgement, Plateau, SettlingEvent } from '../plateau.ts';
import type { Channel, Sample } from '../sample.ts';
import { threadsOf } from '../threads.ts';
import {
  addSample, beginsNextBlock, COLUMNS, createBlockBuilder, CURRENT, POWER, resetBlock, ROTOR,
  takeBlock, VOLTAGE, WIND, type Block, type BlockBuilder,
} from './block.ts';
import { findChange, splitOf } from './change.ts';
import { findCycle } from './cycle.ts';
import { watchExcursions, type Excursions } from './excursion.ts';
import { judgeFlatness, slopeOf, type Flatness } from './flatness.ts';
import { columnOf, createHistory, forget, remember, since, type History } from './history.ts';
import { createNoiseMemory, learnNoise, priorOf, type NoiseMemory } from './noise-memory.ts';
import { blocksWithin, evaluate, extendRecord, openRecord, plateauOf, type PlateauRecord, type Reading } from './record.ts';

/** Opaque, mutable, owned by the caller. */
export interface Detector {
  readonly builder: BlockBuilder;
  readonly history: History;
  readonly excursions: Excursions;
  readonly peaks: Float64Array;
  readonly memories: readonly NoiseMemory[];
  /** Present belief in each column's noise, in units of its level. */
  readonly beliefs: NoiseModel[];
  beliefs_s: number;
  record: PlateauRecord | null;
  /** Nothing before this is part of what comes next. */
  origin_s: number;
  passes: number;
  unsteadySince_s: number;
}

const NOTHING: readonly SettlingEvent[] = Object.freeze([]);
const CHANNEL_COLUMNS: readonly { channel: Channel; column: number }[] = [
  { channel: 'voltage_V', column: VOLTAGE },
  { channel: 'current_A', column: CURRENT },
  { channel: 'windSpeed_mps', column: WIND },
  { channel: 'rotorSpeed_radps', column: ROTOR },
];
export const TOLERANCE = 0.01;
const LADDER_S = [2.4, 3, 3.8, 4.8, 6, 7.5, 9.4, 11.7, 14.6, 18.3, 22.9, 28.6];
const LONGEST_S = 30;
const DWELL = 3;
const TRYING_S = 30;
/** Below this a generator's voltage is only offset and noise; also below 2 % of the largest seen. */
const STILL_VOLTAGE_V = 0.005;
const CALM_MPS = 0.3;

export function createDetector(learnt: Learnt | null): Detector {
  const memories = COLUMNS.map(createNoiseMemory);
  const detector: Detector = {
    builder: createBlockBuilder(),
    history: createHistory(),
    excursions: { count: 0 },
    peaks: new Float64Array(COLUMNS.length),
    memories,
    beliefs: memories.map((memory) => priorModel(priorOf(memory))),
    beliefs_s: -Infinity,
    record: null,
    origin_s: -Infinity,
    passes: 0,
    unsteadySince_s: NaN,
  };
  for (const { channel, column } of CHANNEL_COLUMNS) {
    const known = learnt?.channels[channel];
    if (known === undefined) continue;
    detector.peaks[column] = known.peak;
    detector.builder.resolution[column] = known.resolution ?? Infinity;
  }
  return detector;
}

/** Takes one sample. */
export function observe(detector: Detector, sample: Sample): readonly SettlingEvent[] {
  const { builder } = detector;
  let events = NOTHING;
  if (builder.sampleCount > 0) {
    const silence_s = sample.time_s - builder.last_s;
    if (silence_s > Math.max(2, 5 * builder.period_s)) events = interrupt(detector, builder.last_s);
    else if (beginsNextBlock(builder, sample.time_s)) events = onBlock(detector, takeBlock(builder, sample.time_s));
  }
  addSample(builder, sample);
  return events;
}

/** Link lost, board restarted or samples stopped: the window is forgotten, what was learnt stays. */
export function interrupt(detector: Detector, _time_s: number): readonly SettlingEvent[] {
  const events = close(detector, 'interrupted', Infinity);
  forget(detector.history);
  resetBlock(detector.builder);
  detector.excursions.count = 0;
  detector.unsteadySince_s = NaN;
  detector.passes = 0;
  detector.origin_s = -Infinity;
  detector.beliefs_s = -Infinity;
  return events;
}

/** The stream is over. */
export function finish(detector: Detector): readonly SettlingEvent[] {
  return close(detector, 'end', Infinity);
}

/** The plateau that is open now, with its estimates so far. */
export function openPlateau(detector: Detector): Plateau | null {
  const { record } = detector;
  if (record === null) return null;
  const blocks = blocksWithin(record, -Infinity, Infinity);
  return plateauOf(record, blocks, readingsOf(detector, record, blocks));
}

export function learntOf(detector: Detector): Learnt {
  const channels: Partial<Record<Channel, LearntChannel>> = {};
  for (const { channel, column } of CHANNEL_COLUMNS) {
    const resolution = detector.builder.resolution[column]!;
    const peak = detector.peaks[column]!;
    if (peak === 0) continue;
    channels[channel] = {
      resolution: Number.isFinite(resolution) ? resolution : null, peak, logNoise: 0, noiseWeight: 0,
    };
  }
  return { version: 1, channels };
}

function readingsOf(detector: Detector, record: PlateauRecord, blocks: readonly Block[]): (Reading | null)[] {
  const period_s = (blocks.at(-1)!.end_s - blocks[0]!.start_s) / blocks.length;
  return COLUMNS.map((_, column) => {
    const values = columnOf(blocks, column);
    if (values.length === 0) return null;
    const step = column === POWER ? 0 : resolutionOf(detector, column);
    const level = Math.abs(meanOf(values));
    const scale = record.rotorStill && column !== WIND ? Math.max(step, 1e-3 * detector.peaks[column]!, 1e-6) : Math.max(level, 1e-9);
    return evaluate({ values, period_s, scale, floor: step / Math.sqrt(12), memory: detector.memories[column]! });
  });
}

function close(detector: Detector, endReason: EndReason, end_s: number): readonly SettlingEvent[] {
  const { record } = detector;
  if (record === null) return NOTHING;
  const blocks = blocksWithin(record, -Infinity, end_s);
  const readings = readingsOf(detector, record, blocks);
  const plateau = plateauOf(record, blocks, readings);
  if (!record.rotorStill && plateau.end_s - plateau.start_s > 8) {
    readings.forEach((reading, column) => {
      if (reading !== null) learnNoise(detector.memories[column]!, reading.noise, reading.prior);
    });
  }
  detector.record = null;
  detector.passes = 0;
  return [{ kind: 'closed', plateau, endReason }];
}

function resolutionOf(detector: Detector, column: number): number {
  const step = detector.builder.resolution[column]!;
  return Number.isFinite(step) ? step : 0;
}

function stillLimit(detector: Detector): number {
  return Math.max(STILL_VOLTAGE_V, 1.5 * resolutionOf(detector, VOLTAGE), 0.02 * detector.peaks[VOLTAGE]!);
}

function isRotorStill(detector: Detector, window: readonly Block[]): boolean {
  const values = columnOf(window, VOLTAGE);
  const limit = stillLimit(detector);
  return values.length > 0 && values.every((value) => Math.abs(value) <= limit);
}

/** One channel's readings, oldest first. */
interface Track {
  readonly channel: Channel;
  readonly column: number;
  readonly values: readonly number[];
}

function tracksOf(blocks: readonly Block[], still: boolean): Track[] {
  const tracks: Track[] = [];
  for (const { channel, column } of CHANNEL_COLUMNS) {
    if (still && column !== WIND) continue;
    const values = columnOf(blocks, column);
    if (values.length >= 4) tracks.push({ channel, column, values });
  }
  return tracks;
}

function toleranceOf(detector: Detector, column: number, level: number): number {
  const share = column === WIND ? 3 * TOLERANCE : TOLERANCE;
  return Math.max(share, resolutionOf(detector, column) / level);
}

function scaled(values: readonly number[], level: number): number[] {
  return values.map((value) => value / level);
}

function refreshBeliefs(detector: Detector, tracks: readonly Track[], span: { from: number; to: number; period_s: number }): void {
  for (const { column, values } of tracks) {
    const part = values.slice(span.from, span.to);
    const prior = priorOf(detector.memories[column]!);
    const level = Math.abs(meanOf(part));
    const { slope } = slopeOf(part, 1);
    if (part.length < 4 || level === 0 || Math.abs(slope) * part.length > 0.1 * level) {
      detector.beliefs[column] = priorModel(prior);
    } else {
      detector.beliefs[column] = fitNoise(detrend(scaled(part, level)), span.period_s, prior);
    }
  }
}

interface Sight {
  readonly blocks: readonly Block[];
  readonly tracks: readonly Track[];
  readonly period_s: number;
  readonly still: boolean;
  readonly time_s: number;
}

function judgeTrack(detector: Detector, track: Track, count: number, period_s: number): Flatness {
  const values = track.values.slice(-count);
  const level = Math.max(Math.abs(meanOf(values)), 1e-9);
  return judgeFlatness({
    values: scaled(values, level),
    period_s,
    noise: detector.beliefs[track.column]!,
    tolerance: toleranceOf(detector, track.column, level),
  });
}

/** Shortest window over which every channel is flat, in blocks; 0 when there is none. */
function flatWindow(detector: Detector, sight: Sight): number {
  const { tracks, period_s, still, blocks } = sight;
  if (tracks.length === 0) return 0;
  for (const length_s of LADDER_S) {
    const count = Math.round(length_s / period_s);
    if (count > blocks.length) return 0;
    if (count < 5 || (still && length_s < 5)) continue;
    if (tracks.every((track) => judgeTrack(detector, track, count, period_s).flat)) return count;
  }
  return 0;
}

function swings(detector: Detector, sight: Sight): boolean {
  return sight.tracks.some(({ column, values }) => {
    if (column === WIND) return false;
    const part = values.slice(-Math.round(16 / sight.period_s));
    return findCycle(scaled(part, Math.abs(meanOf(part))), sight.period_s, detector.beliefs[column]!);
  });
}

/** How far back from the window the readings belong to it: in blocks before its start. */
function walkBack(detector: Detector, sight: Sight, count: number): number {
  const { tracks, period_s, blocks } = sight;
  const chunk = Math.max(Math.round(1 / period_s), 1);
  let extra = 0;
  while (count + extra + chunk <= blocks.length) {
    const fits = tracks.every(({ column, values }) => {
      const level = meanOf(values.slice(-(count + extra)));
      const from = values.length - count - extra - chunk;
      const older = meanOf(values.slice(Math.max(from, 0), from + chunk));
      const noise = Math.sqrt(Math.exp(detector.beliefs[column]!.logLevel) / (chunk * period_s + 2 * detector.beliefs[column]!.time_s));
      return Math.abs(older / level - 1) <= 0.7 * toleranceOf(detector, column, Math.abs(level)) + noise;
    });
    if (!fits) break;
    extra += chunk;
  }
  return extra;
}

function seek(detector: Detector, sight: Sight): SettlingEvent[] {
  const { blocks, time_s, period_s, still } = sight;
  if (time_s - detector.beliefs_s >= 1) {
    detector.beliefs_s = time_s;
    const from = Math.max(blocks.length - Math.round(10 / period_s), 0);
    refreshBeliefs(detector, sight.tracks, { from, to: blocks.length, period_s });
  }
  const count = flatWindow(detector, sight);
  if (count === 0 || swings(detector, sight)) {
    detector.passes = 0;
    return [];
  }
  if (++detector.passes < DWELL) return [];
  const extra = still ? 0 : walkBack(detector, sight, count);
  const record = openRecord(blocks.slice(-(count + extra)), time_s, still);
  detector.record = record;
  return [{ kind: 'declared', plateau: plateauOf(record, record.blocks, readingsOf(detector, record, record.blocks)) }];
}

function watch(detector: Detector, record: PlateauRecord, sight: Sight): readonly SettlingEvent[] {
  const { tracks, period_s, time_s, blocks } = sight;
  if (time_s - detector.beliefs_s >= 1) {
    detector.beliefs_s = time_s;
    const to = blocks.length - Math.round(7 / period_s);
    if (to * period_s > 7) refreshBeliefs(detector, tracks, { from: 0, to, period_s });
  }
  if (record.rotorStill && !isRotorStill(detector, blocks.slice(-3))) {
    return leave(detector, blocks.at(-3)!.start_s);
  }
  for (const { column, values } of tracks) {
    const level = Math.max(Math.abs(meanOf(values)), 1e-9);
    const newest = findChange({
      values: scaled(values, level),
      period_s,
      noise: detector.beliefs[column]!,
      tolerance: toleranceOf(detector, column, level),
    });
    if (newest === 0) continue;
    const from = Math.max(values.length - 3 * newest - 10, 0);
    const at = from + splitOf(values.slice(from), 1);
    return leave(detector, blocks[Math.min(at, blocks.length - 1)]!.start_s);
  }
  return NOTHING;
}

function leave(detector: Detector, end_s: number): readonly SettlingEvent[] {
  const events = close(detector, 'changed', end_s);
  detector.origin_s = end_s;
  return events;
}

function sightOf(detector: Detector, block: Block): Sight {
  const { record } = detector;
  const from_s = record === null ? Math.max(detector.origin_s, block.end_s - LONGEST_S) : Math.max(record.blocks[0]!.start_s, block.end_s - 45);
  const blocks = since(detector.history, from_s);
  const period_s = (block.end_s - blocks[0]!.start_s) / blocks.length;
  const still = record === null ? isRotorStill(detector, blocks.slice(-Math.round(5 / period_s))) : record.rotorStill;
  return { blocks, tracks: tracksOf(blocks, still), period_s, still, time_s: block.end_s };
}

function onBlock(detector: Detector, block: Block): readonly SettlingEvent[] {
  remember(detector.history, block);
  for (const { column } of CHANNEL_COLUMNS) {
    const size = Math.abs(block.means[column]!);
    if (size > detector.peaks[column]!) detector.peaks[column] = size;
  }
  const events: SettlingEvent[] = [];
  if (detector.record !== null) extendRecord(detector.record, block);
  const away = watchExcursions(detector.excursions, detector.history.blocks);
  const sight = sightOf(detector, block);
  const idle = sight.still && !hasWind(sight);
  if (away) detector.passes = 0;
  else if (detector.record !== null) events.push(...watch(detector, detector.record, sight));
  else if (!idle) events.push(...seek(detector, sight));
  events.push({ kind: 'judged', judgement: judgementOf(detector, sight, idle) });
  return events;
}

function hasWind({ tracks, period_s }: Sight): boolean {
  const wind = tracks.find((track) => track.column === WIND);
  return wind !== undefined && meanOf(wind.values.slice(-Math.round(5 / period_s))) > CALM_MPS;
}

function judgementOf(detector: Detector, sight: Sight, idle: boolean): Judgement {
  const { time_s, period_s, blocks, tracks } = sight;
  const count = Math.min(Math.round(4 / period_s), blocks.length);
  let worst = 0;
  const channels: ChannelMotion[] = tracks.map((track) => {
    const judged = judgeTrack(detector, track, Math.max(count, 2), period_s);
    const level = meanOf(track.values.slice(-Math.max(Math.round(count / 3), 1)));
    const relative = Math.abs(judged.slope_per_s) * 4;
    if (!judged.flat) worst = Math.max(worst, relative);
    const motion = judged.flat ? 'still' : relative < 2 * judged.slopeError_per_s * 4 ? 'unsteady' : judged.slope_per_s > 0 ? 'rising' : 'falling';
    return { channel: track.channel, motion, level, slope_per_s: judged.slope_per_s * level };
  });
  const settled = detector.record !== null;
  if (settled || idle) detector.unsteadySince_s = NaN;
  else if (Number.isNaN(detector.unsteadySince_s)) detector.unsteadySince_s = time_s;
  const trying = time_s - detector.unsteadySince_s > TRYING_S;
  const phase = settled ? 'settled' : idle ? 'idle' : trying ? 'unsettled' : worst > 0.05 ? 'moving' : 'settling';
  const powers = columnOf(blocks.slice(-Math.round(8 / period_s)), POWER);
  const mean = powers.length > 0 ? Math.abs(meanOf(powers)) : 0;
  const power_W = powers.length === 0 || mean === 0 ? null : evaluate({ values: powers, period_s, scale: mean, floor: 0, memory: detector.memories[POWER]! }).estimate;
  return {
    time_s,
    phase,
    channels,
    threads: power_W === null ? [] : threadsOf(powers, 2 * TOLERANCE * mean),
    power_W,
    remaining_s: null,
    cause: phase !== 'unsettled' ? null : channels.some((one) => one.motion === 'unsteady') ? 'cycle' : 'drift',
  };
}
export { CURRENT };
