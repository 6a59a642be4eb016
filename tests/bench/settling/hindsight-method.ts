/**
 * A limit: what could be found by someone who sees the whole recording at once and knows the
 * rotor's lag and the noise of the true plateaus. The drive (the reading with its lag taken out),
 * in logarithm and by half seconds, is cut into levels and straight lines so that likelihood less a
 * penalty for each number needed is highest (dynamic programming over the last cut: B. Jackson et
 * al., IEEE Signal Processing Letters 12(2), 2005; from memory).
 */
import { detrend } from '#core/metrology/type-a/cosines.ts';
import { fitNoise } from '#core/metrology/type-a/noise-fit.ts';
import { driveOf } from '#core/signal/settling/lag.ts';
import { createNoiseMemory, priorOf } from '#core/signal/settling/noise-memory.ts';
import { estimateInterval } from './estimate-interval.ts';
import type { FoundPlateau, Method } from './method.ts';
import type { Interval, Recording } from './recording.ts';

const PERIOD_S = 0.5;
/** What one more number must save of squared deviations, in variances: best on 72000 to 72007. */
const PENALTY = 6;
/** Below this share of the largest reading the rotor stands still. */
const REST_SHARE = 0.05;
/** The slowest ramp; a level may droop by less. */
const RAMP_PER_S = 0.0012;
const SHORTEST_S = 4;
const TOLERANCE = 0.01;

/** One piece of the best cutting: half seconds from `from` up to `to`, in ln of the drive. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

export const hindsightMethod: Method = {
  name: 'with hindsight',
  find: (recording) => ({ plateaus: plateausIn(recording), takenBack: [], hopeless_s: [] }),
};

function plateausIn(recording: Recording): FoundPlateau[] {
  const readings = halfSeconds(recording);
  const least = REST_SHARE * Math.max(...readings);
  const drive = driveOf(readings, PERIOD_S, recording.lag_s);
  const logs = Float64Array.from(drive, (value) => Math.log(Math.max(value, least)));
  const cost = costOf(logs, varianceIn(recording, readings));
  const pieces = bestPieces(logs.length, cost);
  return pieces.flatMap((piece, at) => {
    const settled = settledPart(piece, pieces[at - 1], recording.lag_s);
    const slope_per_s = (piece.end - piece.start) / ((piece.to - piece.from) * PERIOD_S);
    const turns = piece.end > Math.log(2 * least);
    const lasts = settled.end_s - settled.start_s >= SHORTEST_S;
    if (!turns || !lasts || Math.abs(slope_per_s) > RAMP_PER_S) return [];
    const { start_s, end_s } = settled;
    const estimate = estimateInterval(recording.samples, settled);
    return [{ ...settled, declared_s: start_s, closed_s: end_s, ...estimate }];
  });
}

/** Medians, which sparks and short dropouts do not move; where nothing was read, the last. */
function halfSeconds({ samples, duration_s }: Recording): number[] {
  const parts: number[][] = Array.from({ length: Math.floor(duration_s / PERIOD_S) }, () => []);
  for (const { time_s, voltage_V } of samples) {
    if (voltage_V !== null) parts[Math.floor(time_s / PERIOD_S)]?.push(voltage_V);
  }
  let last = 0;
  return parts.map((part) => (last = part.sort((a, b) => a - b)[part.length >> 1] ?? last));
}

/**
 * Relative variance of half a second of the drive, from all true plateaus: what a mean over many
 * would suggest, or where the reading's own noise is stronger than that, what each has.
 */
function varianceIn({ plateaus, lag_s }: Recording, readings: readonly number[]): number {
  const prior = priorOf(createNoiseMemory());
  let [logLevels, squares, count] = [0, 0, 0];
  for (const { start_s, end_s, voltage_V } of plateaus) {
    const part = readings.slice(Math.ceil(start_s / PERIOD_S), Math.floor(end_s / PERIOD_S));
    const drive = driveOf(part.map((value) => value / voltage_V), PERIOD_S, lag_s);
    const noise = detrend(drive);
    const known = { period_s: PERIOD_S, lag_s, prior, wanders: false };
    logLevels += noise.length * fitNoise(noise, known).logLevel;
    squares += noise.reduce((sum, value) => sum + value * value, 0);
    count += noise.length;
  }
  if (count === 0) return Math.exp(prior.logLevel) / PERIOD_S;
  return Math.max(Math.exp(logLevels / count) / PERIOD_S, squares / count);
}

type Cost = (from: number, to: number) => { cost: number; slope: number; mean: number };

/** Squared deviations from level or line, in variances of a half second, and the penalties. */
function costOf(values: Float64Array, variance: number): Cost {
  const n = values.length;
  const ones = new Float64Array(n + 1);
  const squares = new Float64Array(n + 1);
  const products = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const value = values[i]!;
    ones[i + 1] = ones[i]! + value;
    squares[i + 1] = squares[i]! + value * value;
    products[i + 1] = products[i]! + i * value;
  }
  return (from, to) => {
    const count = to - from;
    const sum = ones[to]! - ones[from]!;
    const mean = sum / count;
    const level = squares[to]! - squares[from]! - sum * mean;
    const product = products[to]! - products[from]! - ((from + to - 1) / 2) * sum;
    const spread = (count * (count * count - 1)) / 12;
    const slope = spread > 0 ? product / spread : 0;
    const flat = level / variance + 2 * PENALTY;
    const sloping = (level - slope * product) / variance + 3 * PENALTY;
    return sloping < flat ? { cost: sloping, slope, mean } : { cost: flat, slope: 0, mean };
  };
}

function bestPieces(n: number, costOfPart: Cost): Piece[] {
  const best = new Float64Array(n + 1).fill(Infinity);
  const cuts = new Int32Array(n + 1);
  best[0] = 0;
  for (let to = 1; to <= n; to++) {
    for (let from = 0; from < to; from++) {
      const cost = best[from]! + costOfPart(from, to).cost;
      if (cost < best[to]!) {
        best[to] = cost;
        cuts[to] = from;
      }
    }
  }
  const pieces: Piece[] = [];
  for (let to = n; to > 0; to = cuts[to]!) {
    const from = cuts[to]!;
    const { slope, mean } = costOfPart(from, to);
    const half = (slope * (to - from)) / 2;
    pieces.unshift({ from, to, start: mean - half, end: mean + half });
  }
  return pieces;
}

/** From when the reading itself, which follows the drive late, is within 1 % of its end. */
function settledPart(piece: Piece, before: Piece | undefined, lag_s: number): Interval {
  const step = before === undefined ? 0 : Math.abs(piece.start - before.end);
  const late_s = lag_s * Math.max(0, Math.log(step / TOLERANCE));
  // The drive between two half seconds stands at the end of the first.
  const end_s = (piece.to + 1) * PERIOD_S;
  return { start_s: Math.min((piece.from + 1) * PERIOD_S + late_s, end_s), end_s };
}
