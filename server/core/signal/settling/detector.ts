/** The settling detector: a stream of samples in, judgements and plateaus out. No clock. */
import { estimateMean, longRunVarianceOf } from '../../metrology/type-a/mean-estimate.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Learnt, LearntChannel } from '../learnt.ts';
import type { ChannelMotion, EndReason, Judgement, Plateau, SettlingEvent } from '../plateau.ts';
import type { Channel, Sample } from '../sample.ts';
import { threadsOf } from '../threads.ts';
import {
  addSample, beginsNextBlock, BLOCK_S, COLUMNS, createBlockBuilder, CURRENT, POWER, resetBlock, ROTOR,
  takeBlock, VOLTAGE, WIND, type Block, type BlockBuilder,
} from './block.ts';
import { columnOf, createHistory, forget, remember, since, type History } from './history.ts';
import { judgeChannel, TOLERANCE, type ChannelJudgement } from './judge.ts';
import { extendRecord, openRecord, plateauOf, type PlateauRecord } from './record.ts';

/** Opaque, mutable, owned by the caller. */
export interface Detector {
  readonly builder: BlockBuilder;
  readonly history: History;
  readonly peaks: Float64Array;
  record: PlateauRecord | null;
  unsteadySince_s: number;
  stillFor: number;
}

const NOTHING: readonly SettlingEvent[] = Object.freeze([]);
const CHANNEL_COLUMNS: readonly { channel: Channel; column: number }[] = [
  { channel: 'voltage_V', column: VOLTAGE },
  { channel: 'current_A', column: CURRENT },
  { channel: 'windSpeed_mps', column: WIND },
  { channel: 'rotorSpeed_radps', column: ROTOR },
];
const WINDOW_S = 6;
const DWELL_S = 1;
const TRYING_S = 30;
/** Below this a generator's voltage is only offset and noise; also below 2 % of the largest seen. */
const STILL_VOLTAGE_V = 0.005;
const CALM_MPS = 0.3;

export function createDetector(learnt: Learnt | null): Detector {
  const detector: Detector = {
    builder: createBlockBuilder(),
    history: createHistory(),
    peaks: new Float64Array(COLUMNS.length),
    record: null,
    unsteadySince_s: NaN,
    stillFor: 0,
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
  detector.unsteadySince_s = NaN;
  detector.stillFor = 0;
  return events;
}

/** The stream is over. */
export function finish(detector: Detector): readonly SettlingEvent[] {
  return close(detector, 'end', Infinity);
}

/** The plateau that is open now, with its estimates so far. */
export function openPlateau(detector: Detector): Plateau | null {
  return detector.record === null ? null : plateauOf(detector.record, Infinity, floorsOf(detector));
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

/** Least standard uncertainties: what the resolution leaves open, resolution/√12. */
function floorsOf(detector: Detector): number[] {
  const floors = Array.from(detector.builder.resolution, (step) => (Number.isFinite(step) ? step / Math.sqrt(12) : 0));
  return floors;
}

function close(detector: Detector, endReason: EndReason, end_s: number): readonly SettlingEvent[] {
  if (detector.record === null) return NOTHING;
  const plateau = plateauOf(detector.record, end_s, floorsOf(detector));
  detector.record = null;
  return [{ kind: 'closed', plateau, endReason }];
}

function resolutionOf(detector: Detector, column: number): number {
  const step = detector.builder.resolution[column]!;
  return Number.isFinite(step) ? step : 0;
}

function isRotorStill(detector: Detector, window: readonly Block[]): boolean {
  const values = columnOf(window, VOLTAGE);
  const limit = Math.max(STILL_VOLTAGE_V, 1.5 * resolutionOf(detector, VOLTAGE), 0.02 * detector.peaks[VOLTAGE]!);
  return values.length > 0 && values.every((value) => Math.abs(value) <= limit);
}

function hasWind(window: readonly Block[]): boolean {
  const values = columnOf(window, WIND);
  return values.length > 0 && meanOf(values) > CALM_MPS;
}

function judgeWindow(detector: Detector, window: readonly Block[], still: boolean): ChannelJudgement[] {
  const judged: ChannelJudgement[] = [];
  const period_s = (window.at(-1)!.end_s - window[0]!.start_s) / window.length;
  for (const { channel, column } of CHANNEL_COLUMNS) {
    const values = columnOf(window, column);
    if (values.length < 4) continue;
    const scale = still && column !== WIND ? Math.max(STILL_VOLTAGE_V, detector.peaks[column]!) : Math.abs(meanOf(values));
    const tolerance = Math.max(TOLERANCE * scale, resolutionOf(detector, column));
    judged.push(judgeChannel({ channel, values, period_s, tolerance: column === WIND ? 3 * tolerance : tolerance }));
  }
  return judged;
}

/** Whether the newest three seconds have left the plateau's mean. */
function hasLeft(detector: Detector, record: PlateauRecord): boolean {
  const newest = since(detector.history, detector.history.blocks.at(-1)!.end_s - 3);
  for (const { column } of CHANNEL_COLUMNS) {
    const earlier = columnOf(record.blocks.slice(0, -newest.length), column);
    const now = columnOf(newest, column);
    if (earlier.length < 5 || now.length < 3) continue;
    const longRun = longRunVarianceOf(earlier);
    const error = Math.sqrt(longRun / earlier.length + longRun / now.length);
    const tolerance = Math.max(2 * TOLERANCE * Math.abs(meanOf(earlier)), 2 * resolutionOf(detector, column), record.rotorStill ? STILL_VOLTAGE_V : 0);
    if (Math.abs(meanOf(now) - meanOf(earlier)) > tolerance + 3 * error) return true;
  }
  return false;
}

function onBlock(detector: Detector, block: Block): readonly SettlingEvent[] {
  remember(detector.history, block);
  for (const { column } of CHANNEL_COLUMNS) {
    const size = Math.abs(block.means[column]!);
    if (size > detector.peaks[column]!) detector.peaks[column] = size;
  }
  const events: SettlingEvent[] = [];
  const window = since(detector.history, block.end_s - WINDOW_S);
  const full = block.end_s - detector.history.blocks[0]!.start_s >= WINDOW_S - BLOCK_S;
  const still = isRotorStill(detector, window);
  const judged = judgeWindow(detector, window, still);
  const steady = full && judged.length > 0 && judged.every((one) => one.excess <= 1);
  const idle = still && !hasWind(window);
  detector.stillFor = steady && !idle ? detector.stillFor + (block.end_s - block.start_s) : 0;
  if (detector.record !== null) {
    extendRecord(detector.record, block);
    if (hasLeft(detector, detector.record)) events.push(...close(detector, 'changed', block.end_s - 3));
  } else if (detector.stillFor >= DWELL_S) {
    detector.record = openRecord(window, block.end_s, still);
    events.push({ kind: 'declared', plateau: plateauOf(detector.record, Infinity, floorsOf(detector)) });
  }
  events.push({ kind: 'judged', judgement: judgementOf(detector, { window, judged, idle }) });
  return events;
}

function judgementOf(
  detector: Detector,
  seen: { window: readonly Block[]; judged: readonly ChannelJudgement[]; idle: boolean },
): Judgement {
  const { window, judged, idle } = seen;
  const time_s = window.at(-1)!.end_s;
  const worst = judged.reduce((most, one) => Math.max(most, one.excess), 0);
  const settled = detector.record !== null;
  if (settled || idle) detector.unsteadySince_s = NaN;
  else if (Number.isNaN(detector.unsteadySince_s)) detector.unsteadySince_s = time_s;
  const trying = time_s - detector.unsteadySince_s > TRYING_S;
  const phase = settled ? 'settled' : idle ? 'idle' : trying ? 'unsettled' : worst > 3 ? 'moving' : 'settling';
  const powers = columnOf(window, POWER);
  const channels: ChannelMotion[] = judged.map((one) => one.motion);
  const power_W = powers.length === 0 ? null : estimateMean(powers, 0);
  return {
    time_s,
    phase,
    channels,
    threads: power_W === null ? [] : threadsOf(powers, 2 * TOLERANCE * Math.abs(power_W.mean)),
    power_W,
    remaining_s: phase === 'settling' ? Math.max(DWELL_S - detector.stillFor, 0) : null,
    cause: phase !== 'unsettled' ? null : channels.some((one) => one.motion === 'unsteady') ? 'cycle' : 'drift',
  };
}
