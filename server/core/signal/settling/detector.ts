/** The settling detector: a stream of samples in, judgements and plateaus out. No clock. */
import {
  atLeastRounding,
  detrend,
  fitNoise,
  varianceOfSlope,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Learnt, LearntChannel } from '../learnt.ts';
import type { ChannelMotion, EndReason, Estimate, Judgement, Plateau, SettlingEvent } from '../plateau.ts';
import type { Channel, Sample } from '../sample.ts';
import { threadsOf } from '../threads.ts';
import {
  addSample, beginsNextBlock, COLUMNS, createBlockBuilder, CURRENT, POWER, resetBlock, ROTOR,
  takeBlock, VOLTAGE, WIND, type Block, type BlockBuilder,
} from './block.ts';
import { droopRate, findChange, findDrift } from './change.ts';
import { CYCLE_WINDOW_S, findCycle } from './cycle.ts';
import { judgeDeparture, rampThrough, type Departure } from './departure.ts';
import { watchExcursions, type Excursions } from './excursion.ts';
import { judgeFlatness, slopeOf, type Flatness } from './flatness.ts';
import { createLagMemory, driveOf, fitLag, learnLag, type LagMemory } from './lag.ts';
import { columnOf, createHistory, forget, remember, since, type History } from './history.ts';
import { believable, createNoiseMemory, expectedNoise, learnNoise, memoryWithin, priorOf, type NoiseMemory } from './noise-memory.ts';
import { blocksWithin, evaluate, extendRecord, openRecord, plateauOf, type PlateauRecord, type Reading } from './record.ts';

/** Opaque, mutable, owned by the caller. */
export interface Detector {
  readonly builder: BlockBuilder;
  readonly history: History;
  readonly excursions: Excursions;
  readonly lag: LagMemory;
  readonly peaks: Float64Array;
  readonly memories: readonly NoiseMemory[];
  /** While a plateau is open: the session's, and what its own stretches have added. */
  local: NoiseMemory[];
  /** The open plateau's noise has been taken in up to here. */
  learnt_s: number;
  /** Present belief in each column's noise, in units of its level. */
  readonly beliefs: NoiseModel[];
  beliefs_s: number;
  record: PlateauRecord | null;
  /** Nothing before this is part of what comes next. */
  origin_s: number;
  /** When the rotor last started to turn: a rig that warms up droops most in its first minute. */
  started_s: number;
  passes: number;
  /** How the last plateau was left; after a creep or drift stillness must be shown more clearly. */
  manner: Departure['manner'];
  suspicious: boolean;
  /** Whether the rotor stood still at the last block. */
  rested: boolean;
  powerNoise: NoiseModel | null;
  power_s: number;
  /** When a cycle was last looked for, and whether one was seen. */
  cycle_s: number;
  cycles: boolean;
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
const EVIDENCE = 1.7;
const CLEAR_EVIDENCE = 6;
/** How far back a ramp is looked for, in windows; ln of the odds that speak clearly against it. */
const REACHES = [1.5, 2, 3];
const RAMP_ODDS = 3;
/** Most of the approach, in tolerances, that may still be to come. */
const REMAINING = 0.7;
/** Rounding errors of a reading that hardly moves last about this long. */
const ROUNDING_S = 0.5;
/** An open plateau's noise is taken in by stretches of this length. */
const SEGMENT_S = 8;
/** Noise and cycles are looked into this often. */
const REFRESH_S = 1;
const CYCLE_LOOK_S = 0.6;
/** Two parts of a cycle differ in their means by less than this share of the level. */
const MOST_SWING = 0.08;
/** What looking back leaves of a plateau must be longer than this to be one. */
const SHORTEST_PLATEAU_S = 3;
const TRYING_S = 30;
/** Below this a generator's voltage is only offset and noise; also below 2 % of the largest seen. */
const STILL_VOLTAGE_V = 0.005;
const CALM_MPS = 0.3;
/** A rotor stands still when it has shown nothing for this long. */
const STILL_S = 2;

export function createDetector(learnt: Learnt | null): Detector {
  const memories = COLUMNS.map(createNoiseMemory);
  const detector: Detector = {
    builder: createBlockBuilder(),
    history: createHistory(),
    excursions: { count: 0 },
    lag: createLagMemory(),
    peaks: new Float64Array(COLUMNS.length),
    memories,
    local: [],
    learnt_s: 0,
    beliefs: memories.map((memory) => expectedNoise(memory, 0)),
    beliefs_s: -Infinity,
    record: null,
    origin_s: -Infinity,
    started_s: -Infinity,
    passes: 0,
    manner: 'step',
    suspicious: false,
    rested: true,
    powerNoise: null,
    power_s: -Infinity,
    cycle_s: -Infinity,
    cycles: false,
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
  const now_s = blocks.at(-1)!.end_s;
  if (now_s - record.noises_s < REFRESH_S) {
    return plateauOf(record, blocks, readingsOf(detector, record, blocks, record.noises));
  }
  const readings = readingsOf(detector, record, blocks);
  record.noises = readings.map((reading) => reading?.noise ?? null);
  record.noises_s = now_s;
  return plateauOf(record, blocks, readings);
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

function readingsOf(
  detector: Detector,
  record: PlateauRecord,
  blocks: readonly Block[],
  noises: readonly (NoiseModel | null)[] = [],
): (Reading | null)[] {
  const period_s = (blocks.at(-1)!.end_s - blocks[0]!.start_s) / blocks.length;
  return COLUMNS.map((_, column) => {
    const values = columnOf(blocks, column);
    if (values.length === 0) return null;
    const step = column === POWER ? 0 : resolutionOf(detector, column);
    const level = Math.abs(meanOf(values));
    const scale = record.rotorStill && column !== WIND ? Math.max(step, 1e-3 * detector.peaks[column]!, 1e-6) : Math.max(level, 1e-9);
    const lag_s = column === WIND || record.rotorStill ? 0 : Math.min(Math.exp(detector.lag.logLag), (values.length * period_s) / 4);
    return evaluate({ values, period_s, scale, lag_s, floor: step / Math.sqrt(12), memory: detector.memories[column]!, known: noises[column] ?? null });
  });
}

function close(
  detector: Detector,
  endReason: EndReason,
  end_s: number,
  crept = false,
): readonly SettlingEvent[] {
  const { record } = detector;
  if (record === null) return NOTHING;
  const blocks = blocksWithin(record, -Infinity, end_s);
  const readings = readingsOf(detector, record, blocks);
  const plateau = plateauOf(record, blocks, readings);
  const length_s = plateau.end_s - plateau.start_s;
  const withdrawn = crept || (endReason === 'changed' && length_s < SHORTEST_PLATEAU_S);
  if (!record.rotorStill && !withdrawn && length_s >= SEGMENT_S) {
    readings.forEach((reading, column) => {
      if (reading !== null) learnNoise(detector.memories[column]!, reading.noise, reading.prior);
    });
  }
  detector.record = null;
  detector.passes = 0;
  return [{ kind: 'closed', plateau: withdrawn ? { ...plateau, withdrawn } : plateau, endReason }];
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
  /** What drives it: the readings without the rotor's lag. */
  readonly drive: readonly number[];
  readonly lag_s: number;
}

function tracksOf(detector: Detector, blocks: readonly Block[], asked: { still: boolean; period_s: number; open: boolean }): Track[] {
  const { still, period_s, open } = asked;
  const tracks: Track[] = [];
  for (const { channel, column } of CHANNEL_COLUMNS) {
    if (still && column !== WIND) continue;
    const values = columnOf(blocks, column);
    if (values.length < 4) continue;
    const lag_s = column === WIND ? 0 : ((open ? null : fitLag(values, period_s)) ?? Math.exp(detector.lag.logLag));
    const drive = lag_s === 0 ? values : driveOf(values, period_s, lag_s);
    tracks.push({ channel, column, values, drive, lag_s });
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

/** Noise of a stretch of one column's drive, in units of its level; null when it is no stretch of noise. */
function noiseOf(detector: Detector, column: number, asked: { drive: readonly number[]; lag_s: number; period_s: number; memory: NoiseMemory }): NoiseModel | null {
  const { drive, lag_s, period_s, memory } = asked;
  const level = Math.abs(meanOf(drive));
  if (drive.length < 4 || level === 0 || Math.abs(slopeOf(drive, 1).slope) * drive.length > 0.1 * level) return null;
  const noise = fitNoise(detrend(scaled(drive, level)), { period_s, lag_s, prior: priorOf(memory) });
  return atLeastRounding(noise, resolutionOf(detector, column) / level, ROUNDING_S);
}

interface Sight {
  readonly blocks: readonly Block[];
  readonly tracks: readonly Track[];
  readonly period_s: number;
  readonly still: boolean;
  readonly time_s: number;
}

function judgeTrack(detector: Detector, track: Track, count: number, period_s: number): Flatness {
  const values = track.drive.slice(-count);
  const level = Math.max(Math.abs(meanOf(values)), 1e-9);
  return judgeFlatness({
    values: scaled(values, level),
    period_s,
    noise: detector.beliefs[track.column]!,
    tolerance: toleranceOf(detector, track.column, level),
    evidence: track.column === WIND ? -Infinity : Math.log(detector.suspicious ? CLEAR_EVIDENCE : EVIDENCE),
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

/** How much of the approach is still to come, in tolerances, for the channel furthest off. */
function remainingOf(detector: Detector, sight: Sight, count: number): { excess: number; wait_s: number } {
  let excess = 0;
  let wait_s = 0;
  for (const { column, values, drive, lag_s } of sight.tracks) {
    if (lag_s === 0) continue;
    const level = meanOf(drive.slice(-count));
    const at = values.length - count;
    const start = meanOf(values.slice(Math.max(at - 1, 0), at + 2));
    const off = Math.abs(start / level - 1) / toleranceOf(detector, column, Math.abs(level));
    excess = Math.max(excess, off * Math.exp((-count * sight.period_s) / (1.1 * lag_s)));
    wait_s = Math.max(wait_s, off > 1 ? lag_s * Math.log(off) : 0);
  }
  return { excess, wait_s };
}

/**
 * Whether the window may be a piece of a slow ramp that reaches further back, past the last
 * change: then its flatness alone must speak clearly against the ramp's slope.
 */
function onRamp(detector: Detector, sight: Sight, count: number): boolean {
  const lead = sight.tracks.find((track) => track.lag_s > 0);
  if (lead === undefined) return false;
  const { column, lag_s } = lead;
  const noise = detector.beliefs[column]!;
  const context = columnOf(detector.history.blocks.slice(-3 * count - 1), column);
  const drive = driveOf(context, sight.period_s, lag_s);
  const own = slopeOf(drive.slice(-count), sight.period_s);
  const variance = varianceOfSlope(noise, count * sight.period_s);
  return REACHES.some((reach) => {
    const length = Math.round(reach * count);
    if (length > drive.length) return false;
    const values = scaled(drive.slice(-length), own.mean);
    const ramp = rampThrough({ values, period_s: sight.period_s, longRunVariance: Math.exp(noise.logLevel) });
    if (ramp === 0) return false;
    const slope = own.slope / own.mean;
    return ((slope - ramp) ** 2 - slope ** 2) / (2 * variance) < RAMP_ODDS;
  });
}

function centred(values: readonly number[], level: number): number[] {
  const mean = meanOf(values);
  return values.map((value) => (value - mean) / level);
}

/** The newest drive before a time, as far as it is remembered and the rotor turned. */
function earlierDrive(
  detector: Detector,
  asked: { column: number; period_s: number; lag_s: number; time_s: number; count: number },
): number[] {
  const { column, period_s, lag_s, time_s, count } = asked;
  const earlier = detector.history.blocks.filter((block) => block.end_s <= time_s + 1e-4).slice(-count - 1);
  const limit = column === VOLTAGE ? stillLimit(detector) : 0;
  const values = columnOf(earlier, column);
  return values.some((value) => Math.abs(value) <= limit) ? [] : driveOf(values, period_s, lag_s);
}

/** Whether some channel swings in a limit cycle. */
function swings(detector: Detector, sight: Sight, memories: readonly NoiseMemory[], contrast: number): boolean {
  const { tracks, period_s, time_s, blocks } = sight;
  if (time_s - detector.cycle_s < CYCLE_LOOK_S && time_s > detector.cycle_s) return detector.cycles;
  detector.cycle_s = time_s;
  const count = Math.round(CYCLE_WINDOW_S / period_s);
  detector.cycles = tracks.some(({ column, drive, lag_s }) => {
    if (column === WIND) return false;
    const part = drive.slice(-count);
    const level = Math.max(Math.abs(meanOf(part)), 1e-9);
    const missing = Math.min(count - part.length, drive.length - 1);
    // A cycle goes on across what was taken for a change: each side is seen against its own mean.
    const before = missing > 0 ? earlierDrive(detector, { column, period_s, lag_s, time_s: blocks[0]!.start_s, count: missing }) : [];
    const same = before.length > 0 && Math.abs(meanOf(before) / level - 1) < MOST_SWING;
    return findCycle({ drive: [...(same ? centred(before, level) : []), ...centred(part, level)], period_s, lag_s, noise: expectedNoise(memories[column]!, (lag_s * lag_s) / period_s), contrast });
  });
  return detector.cycles;
}

/** How far back from the window the readings belong to it: in blocks before its start. */
function walkBack(detector: Detector, sight: Sight, count: number): number {
  const { tracks, period_s, blocks } = sight;
  const chunk = Math.max(Math.round(1 / period_s), 1);
  let extra = 0;
  while (count + extra + chunk <= blocks.length) {
    const fits = tracks.every(({ column, drive: values }) => {
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
  if (time_s - detector.beliefs_s >= REFRESH_S) {
    detector.beliefs_s = time_s;
    for (const { column, drive, lag_s } of sight.tracks) {
      const memory = detector.memories[column]!;
      const noise = noiseOf(detector, column, { drive: drive.slice(-Math.round(10 / period_s)), lag_s, period_s, memory });
      detector.beliefs[column] = noise === null ? expectedNoise(memory, (lag_s * lag_s) / period_s) : believable(memory, noise);
    }
  }
  const count = flatWindow(detector, sight);
  if (count === 0 || onRamp(detector, sight, count) || remainingOf(detector, sight, count).excess > REMAINING || swings(detector, sight, detector.memories, 4)) {
    detector.passes = 0;
    return [];
  }
  if (++detector.passes < DWELL) return [];
  const extra = still ? 0 : walkBack(detector, sight, count);
  const { wait_s } = remainingOf(detector, sight, count + extra);
  const skipped = Math.min(Math.ceil(wait_s / period_s), count + extra - 5);
  const approach = sight.tracks.find((track) => track.lag_s > 0);
  const lag_s = approach === undefined ? null : fitLag(approach.values, period_s);
  if (lag_s !== null) learnLag(detector.lag, lag_s);
  const record = openRecord(blocks.slice(-(count + extra - skipped)), time_s, still);
  detector.record = record;
  detector.suspicious = false;
  detector.learnt_s = time_s - Math.min((count + extra - skipped) * period_s, SEGMENT_S);
  detector.local = detector.memories.map(memoryWithin);
  return [{ kind: 'declared', plateau: plateauOf(record, record.blocks, readingsOf(detector, record, record.blocks)) }];
}

function watch(detector: Detector, record: PlateauRecord, sight: Sight): readonly SettlingEvent[] {
  const { tracks, period_s, time_s, blocks } = sight;
  if (time_s - detector.learnt_s >= SEGMENT_S) {
    detector.learnt_s = time_s;
    for (const { column, drive, lag_s } of tracks) {
      const memory = detector.local[column]!;
      const noise = noiseOf(detector, column, { drive: drive.slice(-Math.round(SEGMENT_S / period_s)), lag_s, period_s, memory });
      if (noise !== null) learnNoise(memory, noise, priorOf(memory));
      const level = Math.abs(meanOf(drive));
      detector.beliefs[column] = atLeastRounding(expectedNoise(memory, (lag_s * lag_s) / period_s), resolutionOf(detector, column) / level, ROUNDING_S);
    }
  }
  if (record.rotorStill && !isRotorStill(detector, blocks.slice(-3))) {
    return leave(detector, blocks.at(-3)!.start_s);
  }
  for (const { column, drive: values, lag_s } of tracks) {
    const level = Math.max(Math.abs(meanOf(values)), 1e-9);
    const newest = findChange({
      values: scaled(values, level),
      period_s,
      noise: detector.beliefs[column]!,
      tolerance: toleranceOf(detector, column, level),
      droop_per_s: droopRate(time_s - detector.started_s),
      rounding_s: (resolutionOf(detector, column) / level) * lag_s,
    });
    const drifts = newest === 0 && column !== WIND && findDrift({
      values: scaled(values, level),
      period_s,
      noise: detector.beliefs[column]!,
      tolerance: toleranceOf(detector, column, level),
      droop_per_s: droopRate(time_s - detector.started_s),
    });
    if (newest === 0 && !drifts) continue;
    const departure = judgeDeparture({
      values: scaled(values, level),
      period_s,
      longRunVariance: Math.exp(detector.beliefs[column]!.logLevel),
    });
    if (drifts && departure.manner === 'step') continue;
    const at = Math.min(departure.at, blocks.length - 1);
    const slowly = drifts || newest * period_s > 2.5;
    detector.manner = slowly ? departure.manner : 'step';
    if (detector.manner !== 'step') detector.suspicious = true;
    return leave(detector, blocks[at]!.start_s, detector.manner === 'drift');
  }
  if (swings(detector, sight, detector.local, 8)) return leave(detector, Math.max(time_s - CYCLE_WINDOW_S, blocks[1]!.start_s));
  return NOTHING;
}

function leave(detector: Detector, end_s: number, crept = false): readonly SettlingEvent[] {
  const events = close(detector, 'changed', end_s, crept);
  detector.origin_s = end_s;
  return events;
}

function sightOf(detector: Detector, block: Block): Sight {
  const { record } = detector;
  const from_s = record === null ? Math.max(detector.origin_s, block.end_s - LONGEST_S) : Math.max(record.blocks[0]!.start_s, block.end_s - 45);
  const blocks = since(detector.history, from_s);
  const period_s = (block.end_s - blocks[0]!.start_s) / blocks.length;
  const open = record !== null;
  const recent = since(detector.history, block.end_s - STILL_S);
  const still = open ? record.rotorStill : isRotorStill(detector, recent);
  return { blocks, tracks: tracksOf(detector, blocks, { still, period_s, open }), period_s, still, time_s: block.end_s };
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
  if (sight.still) {
    detector.started_s = block.end_s;
    detector.suspicious = false;
  }
if (detector.record === null && detector.rested !== sight.still) detector.origin_s = Math.max(detector.origin_s, block.start_s - 0.4);
  detector.rested = sight.still;
  if (away) detector.passes = 0;
  else if (detector.record !== null) events.push(...watch(detector, detector.record, sight));
  else if (!idle) events.push(...seek(detector, sight));
  events.push({ kind: 'judged', judgement: judgementOf(detector, sight, idle) });
  return events;
}

/** Running mean of power; its noise is looked into once a second. */
function powerNow(
  detector: Detector,
  asked: { powers: readonly number[]; mean: number; period_s: number; time_s: number },
): Estimate | null {
  const { powers, mean, period_s, time_s } = asked;
  if (powers.length === 0 || mean === 0) return null;
  const stale = time_s - detector.power_s >= REFRESH_S;
  const { estimate, noise } = evaluate({
    values: powers,
    period_s,
    scale: mean,
    lag_s: Math.exp(detector.lag.logLag),
    floor: 0,
    memory: detector.memories[POWER]!,
    known: stale ? null : detector.powerNoise,
  });
  if (stale) detector.power_s = time_s;
  detector.powerNoise = noise;
  return estimate;
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
  const power_W = powerNow(detector, { powers, mean, period_s, time_s });
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
