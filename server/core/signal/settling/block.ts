import type { Sample } from '../sample.ts';
import type { BlockGusts } from '../wind-gusts.ts';
import { sortFew } from './few.ts';

/** Length of a block: shorter than a rotor's response, long enough to average ripple. */
export const BLOCK_S = 0.2;

/** Order of the columns in a block. */
export const COLUMNS = [
  'voltage_V',
  'current_A',
  'power_W',
  'windSpeed_mps',
  'rotorSpeed_radps',
] as const;
export const VOLTAGE = 0;
export const CURRENT = 1;
export const POWER = 2;
export const WIND = 3;
export const ROTOR = 4;
const WIDTH = COLUMNS.length;

/** Spikes and dropouts are told apart inside a block by comparing this many slices of it. */
const SLICES = 8;

/** Means over a fifth of a second. NaN: no reading. */
export interface Block {
  readonly start_s: number;
  readonly end_s: number;
  readonly sampleCount: number;
  readonly means: number[];
  readonly gusts: BlockGusts;
}

/** Collects samples until a block is full. One sample costs a few additions, whatever the rate. */
export interface BlockBuilder {
  start_s: number;
  last_s: number;
  period_s: number;
  sampleCount: number;
  /** Of the wind's readings: sum of v³, and how often they changed. */
  windCubes: number;
  windChanges: number;
  readonly sums: Float64Array;
  readonly counts: Float64Array;
  readonly previous: Float64Array;
  /** Smallest step between different readings: the resolution, once enough were seen. */
  readonly resolution: Float64Array;
  /** How many such steps have been seen. */
  readonly steps: Float64Array;
}

export function createBlockBuilder(): BlockBuilder {
  return {
    start_s: NaN,
    last_s: NaN,
    period_s: NaN,
    sampleCount: 0,
    windCubes: 0,
    windChanges: 0,
    sums: new Float64Array(WIDTH * SLICES),
    counts: new Float64Array(WIDTH * SLICES),
    previous: new Float64Array(WIDTH).fill(NaN),
    resolution: new Float64Array(WIDTH).fill(Infinity),
    steps: new Float64Array(WIDTH),
  };
}

/** Forgets an unfinished block, keeps the resolution. */
export function resetBlock(builder: BlockBuilder): void {
  builder.start_s = NaN;
  builder.last_s = NaN;
  empty(builder);
  builder.previous.fill(NaN);
}

function empty(builder: BlockBuilder): void {
  builder.sampleCount = 0;
  builder.windCubes = 0;
  builder.windChanges = 0;
  builder.sums.fill(0);
  builder.counts.fill(0);
}

/**
 * Whether a sample at this time begins the next block. Half a period is added so that slow
 * streams get one sample a block; the last term settles ties the same way whatever the offset
 * of the stream's clock.
 */
export function beginsNextBlock(builder: BlockBuilder, time_s: number): boolean {
  return time_s - builder.start_s + 0.5 * (time_s - builder.last_s) > BLOCK_S + 1e-4;
}

function addReading(builder: BlockBuilder, column: number, slice: number, value: number): void {
  const at = column * SLICES + slice;
  builder.sums[at]! += value;
  builder.counts[at]! += 1;
  const step = Math.abs(value - builder.previous[column]!);
  if (step > 0) {
    builder.steps[column]! += 1;
    if (step < builder.resolution[column]!) builder.resolution[column] = step;
  }
  builder.previous[column] = value;
}

export function addSample(builder: BlockBuilder, sample: Sample): void {
  const { time_s, voltage_V, current_A, windSpeed_mps, rotorSpeed_radps } = sample;
  if (builder.sampleCount === 0) builder.start_s = time_s;
  if (time_s > builder.last_s) builder.period_s = time_s - builder.last_s;
  builder.last_s = time_s;
  builder.sampleCount++;
  const slice = Math.min(Math.floor(((time_s - builder.start_s) / BLOCK_S) * SLICES), SLICES - 1);
  if (voltage_V !== null) addReading(builder, VOLTAGE, slice, voltage_V);
  if (current_A !== null) addReading(builder, CURRENT, slice, current_A);
  if (voltage_V !== null && current_A !== null) {
    builder.sums[POWER * SLICES + slice]! += voltage_V * current_A;
    builder.counts[POWER * SLICES + slice]! += 1;
  }
  if (windSpeed_mps !== null) addWind(builder, slice, windSpeed_mps);
  if (rotorSpeed_radps !== null) addReading(builder, ROTOR, slice, rotorSpeed_radps);
}

function addWind(builder: BlockBuilder, slice: number, wind_mps: number): void {
  const previous = builder.previous[WIND]!;
  if (wind_mps !== previous && !Number.isNaN(previous)) builder.windChanges += 1;
  builder.windCubes += wind_mps * wind_mps * wind_mps;
  addReading(builder, WIND, slice, wind_mps);
}

/** Largest share of the level that a slice may stand off the block's median beside its spread. */
const SPIKE_SHARE = 0.05;
const SPIKE_SPREADS = 8;
/** Of fewer slices none can be told to be the odd one. */
const LEAST_SLICES = 4;
const NO_SLICES = new Uint8Array(SLICES);

function medianOf(values: number[]): number {
  const sorted = sortFew(values);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** The slices in which a contact sparked or dropped out. */
function sparkedSlices(builder: BlockBuilder): Uint8Array {
  if (builder.sampleCount < LEAST_SLICES) return NO_SLICES;
  const sparked = new Uint8Array(SLICES);
  rejectSpikes(builder, VOLTAGE, sparked);
  rejectSpikes(builder, CURRENT, sparked);
  return sparked;
}

/** Marks in `rejected` those of one column. */
function rejectSpikes(builder: BlockBuilder, column: number, rejected: Uint8Array): void {
  const slices: number[] = [];
  const means: number[] = [];
  for (let slice = 0; slice < SLICES; slice++) {
    const count = builder.counts[column * SLICES + slice]!;
    if (count === 0) continue;
    slices.push(slice);
    means.push(builder.sums[column * SLICES + slice]! / count);
  }
  if (means.length < LEAST_SLICES) return;
  const median = medianOf([...means]);
  const spread = medianOf(means.map((mean) => Math.abs(mean - median)));
  const limit = SPIKE_SPREADS * spread + SPIKE_SHARE * Math.abs(median);
  means.forEach((mean, i) => {
    if (Math.abs(mean - median) > limit) rejected[slices[i]!] = 1;
  });
}

function meanOfSlices(builder: BlockBuilder, column: number, rejected: Uint8Array): number {
  let sum = 0;
  let count = 0;
  for (let slice = 0; slice < SLICES; slice++) {
    if (rejected[slice] === 1) continue;
    sum += builder.sums[column * SLICES + slice]!;
    count += builder.counts[column * SLICES + slice]!;
  }
  return count > 0 ? sum / count : NaN;
}

function gustsOf({ counts, windCubes, windChanges }: BlockBuilder): BlockGusts {
  let count = 0;
  for (let slice = 0; slice < SLICES; slice++) count += counts[WIND * SLICES + slice]!;
  return { meanCube_m3ps3: count > 0 ? windCubes / count : NaN, changes: windChanges };
}

/** Closes the block at `end_s` and starts an empty one. */
export function takeBlock(builder: BlockBuilder, end_s: number): Block {
  const sparked = sparkedSlices(builder);
  const means = new Array<number>(WIDTH);
  for (let column = 0; column < WIDTH; column++) {
    // An anemometer's slices are all taken: its counts may well jump.
    means[column] = meanOfSlices(builder, column, column === WIND ? NO_SLICES : sparked);
  }
  const { start_s, sampleCount } = builder;
  const block = { start_s, end_s, sampleCount, means, gusts: gustsOf(builder) };
  empty(builder);
  return block;
}
