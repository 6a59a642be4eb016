/** Samples put together second by second: all that is needed to see that a rig is wired wrong. */
import type { Sample } from '../signal/sample.ts';

export const WATCHED = ['voltage_V', 'current_A', 'windSpeed_mps'] as const;
export type Watched = (typeof WATCHED)[number];

export interface ChannelSecond {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** Amplitude of a ripple of the mains in the voltage. */
export interface Hum {
  readonly frequency_Hz: number;
  readonly amplitude_V: number;
  /** Amplitude beside it, which noise and settling have too. */
  readonly beside_V: number;
}

export interface Second {
  readonly time_s: number;
  readonly count: number;
  readonly channels: Readonly<Record<Watched, ChannelSecond | null>>;
  /** Read most of the time and left out, for no such quantity has it; else null. */
  readonly beyond: Readonly<Record<Watched, number | null>>;
  /** null: too few samples a second to see it. */
  readonly hum: Hum | null;
}

/** How often a channel was beyond all limits, and what it read last. */
interface Beyond {
  readonly count: number;
  readonly last: number;
}

interface Sum {
  count: number;
  sum: number;
  low: number;
  high: number;
}

/** The second that is being filled. */
export interface Filling {
  start_s: number | null;
  last_s: number;
  count: number;
  sums: Record<Watched, Sum>;
  beyond: Record<Watched, Beyond>;
  /** Voltages, as many as hum needs; beyond it none. */
  voltages: number[];
}

export function createFilling(): Filling {
  const beyond = { voltage_V: NEVER, current_A: NEVER, windSpeed_mps: NEVER };
  return { start_s: null, last_s: 0, count: 0, sums: emptySums(), beyond, voltages: [] };
}

const NEVER: Beyond = { count: 0, last: 0 };

function emptySums(): Record<Watched, Sum> {
  const empty = (): Sum => ({ count: 0, sum: 0, low: Infinity, high: -Infinity });
  return { voltage_V: empty(), current_A: empty(), windSpeed_mps: empty() };
}

/** Takes a sample. @returns the second that it brings to its end; else null */
export function fill(filling: Filling, sample: Sample): Second | null {
  const { time_s } = sample;
  const isOver = filling.start_s !== null && time_s - filling.start_s >= 1;
  const second = isOver ? secondOf(filling) : null;
  if (isOver || filling.start_s === null) {
    Object.assign(filling, { ...createFilling(), start_s: time_s });
  }
  filling.count += 1;
  filling.last_s = time_s;
  const { sums } = filling;
  add(sums.voltage_V, sample.voltage_V);
  add(sums.current_A, sample.current_A);
  add(sums.windSpeed_mps, sample.windSpeed_mps);
  if (sample.voltage_V !== null && filling.count <= MOST_FOR_HUM) {
    filling.voltages.push(sample.voltage_V);
  }
  return second;
}

function add(sum: Sum, value: number | null): void {
  if (value === null) return;
  sum.count += 1;
  sum.sum += value;
  if (value < sum.low) sum.low = value;
  if (value > sum.high) sum.high = value;
}

function secondOf({ last_s, count, sums, beyond, voltages }: Filling): Second {
  const of = (channel: Watched): ChannelSecond | null => {
    const { count: n, sum, low, high } = sums[channel];
    return n === 0 ? null : { mean: sum / n, low, high };
  };
  const mostly = (channel: Watched): number | null => {
    return 2 * beyond[channel].count > count ? beyond[channel].last : null;
  };
  return {
    time_s: last_s,
    count,
    channels: {
      voltage_V: of('voltage_V'),
      current_A: of('current_A'),
      windSpeed_mps: of('windSpeed_mps'),
    },
    beyond: {
      voltage_V: mostly('voltage_V'),
      current_A: mostly('current_A'),
      windSpeed_mps: mostly('windSpeed_mps'),
    },
    hum: humIn(voltages, count),
  };
}

/** Twice the highest frequency looked for, and some for the filter before the converter. */
const LEAST_FOR_HUM = 250;
const MOST_FOR_HUM = 2000;
const MAINS_Hz = [50, 60] as const;
/** Beside both mains and their harmonics. */
const BESIDE_Hz = [41, 45, 55, 65, 71] as const;

/** Ripple of the mains in one second of voltages, by the algorithm of Goertzel. */
function humIn(voltages: readonly number[], rate_Hz: number): Hum | null {
  if (rate_Hz < LEAST_FOR_HUM || rate_Hz > MOST_FOR_HUM || voltages.length < rate_Hz) return null;
  const shaped = windowed(voltages);
  const amplitude = (frequency: number): number => amplitudeAt(shaped, frequency / rate_Hz);
  const [first, second] = MAINS_Hz.map(amplitude);
  const beside = BESIDE_Hz.map(amplitude).sort((a, b) => a - b)[BESIDE_Hz.length >> 1] ?? 0;
  const isFirst = (first ?? 0) >= (second ?? 0);
  return {
    frequency_Hz: MAINS_Hz[isFirst ? 0 : 1],
    amplitude_V: Math.max(first ?? 0, second ?? 0),
    beside_V: beside,
  };
}

/** With its mean taken off, and in Hann's window, so that a reading that settles leaks little. */
function windowed(values: readonly number[]): Float64Array {
  const n = values.length;
  let sum = 0;
  for (let k = 0; k < n; k++) sum += values[k]!;
  const mean = sum / n;
  const window = hann(n);
  const shaped = new Float64Array(n);
  for (let k = 0; k < n; k++) shaped[k] = window[k]! * (values[k]! - mean);
  return shaped;
}

/**
 * Amplitude of the sinusoid of this frequency, in cycles a sample (G. Goertzel, Am. Math. Monthly
 * 65 (1958) 34; F. J. Harris, Proc. IEEE 66 (1978) 51; both from memory).
 */
function amplitudeAt(shaped: Float64Array, frequency: number): number {
  const n = shaped.length;
  const w = 2 * Math.cos(2 * Math.PI * frequency);
  let before = 0;
  let last = 0;
  for (let k = 0; k < n; k++) {
    const now = shaped[k]! + w * last - before;
    before = last;
    last = now;
  }
  const power = last ** 2 + before ** 2 - w * last * before;
  // Hann's window has a mean of one half.
  return (4 / n) * Math.sqrt(Math.max(power, 0));
}

/** The newest windows: a board's seconds have all as many samples, but for one or two. */
const WINDOWS = new Map<number, Float64Array>();
const MOST_WINDOWS = 4;

function hann(n: number): Float64Array {
  const known = WINDOWS.get(n);
  if (known !== undefined) return known;
  if (WINDOWS.size >= MOST_WINDOWS) WINDOWS.clear();
  const made = new Float64Array(n);
  for (let k = 0; k < n; k++) made[k] = 0.5 - 0.5 * Math.cos((2 * Math.PI * k) / n);
  WINDOWS.set(n, made);
  return made;
}
