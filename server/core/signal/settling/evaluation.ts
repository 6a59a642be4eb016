/** The means of an open or closing plateau, with their Type A evaluation. */
import type { NoiseModel } from '../../metrology/type-a/noise-model.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Declared, Plateau } from '../plateau.ts';
import { REFRESH_S, SEGMENT_S } from './beliefs.ts';
import { COLUMNS, CURRENT, POWER, VOLTAGE, WIND, type Block } from './block.ts';
import { awaySince_s } from './excursion.ts';
import { columnOf } from './history.ts';
import { learnNoise, learnOwn, priorOf } from './noise-memory.ts';
import {
  blocksUntil,
  evaluate,
  plateauOf,
  type PlateauRecord,
  type Reading,
} from './record.ts';
import { restOf } from './rest.ts';
import { openLimit_A, resolutionOf, stepOf, type Detector } from './state.ts';

/** What looking back leaves of a plateau must be longer than this to be one. */
const SHORTEST_PLATEAU_S = 4;
/** The same where the change had come before it was called still: that rested on the change too. */
const SHORTEST_BELATED_S = 8;

/** A lag of more than this share of a stretch can't be taken out of it. */
const MOST_LAG = 0.5;

/** The lag to take out of a stretch of the open plateau, or of what may become one. */
export function lagOver({ record, lag }: Detector, length_s: number): number {
  return Math.min(record?.lag_s ?? Math.exp(lag.logLag), MOST_LAG * length_s);
}

function readingsOf(
  state: Detector,
  record: PlateauRecord,
  asked: { blocks: readonly Block[]; noises: readonly (NoiseModel | null)[]; learns: boolean },
): (Reading | null)[] {
  const { blocks, noises, learns } = asked;
  const period_s = (blocks.at(-1)!.end_s - blocks[0]!.start_s) / blocks.length;
  const lag_s = lagOver(state, blocks.length * period_s);
  return COLUMNS.map((_, column) => {
    const values = columnOf(blocks, column);
    if (values.length === 0) return null;
    const lags = column !== WIND && !record.rotorStill;
    return evaluate({
      values,
      period_s,
      scale: scaleOf(state, record, { column, level: Math.abs(meanOf(values)) }),
      floor: (beside) => floorOf(state, blocks, column, beside),
      lag_s: lags ? lag_s : 0,
      memory: state.meanMemories[column]!,
      gusts: learns ? state.memories[column]! : null,
      known: noises[column] ?? null,
    });
  });
}

/** What a column's noise is measured against: its level, or at rest its resolution. */
function scaleOf(
  state: Detector,
  record: PlateauRecord,
  { column, level }: { column: number; level: number },
): number {
  if (!record.rotorStill || column === WIND) return Math.max(level, 1e-9);
  return Math.max(resolutionOf(state, column), 1e-3 * state.peaks[column]!, 1e-6);
}

/** Half of all normal deviations are smaller than this many standard deviations. */
const NORMAL_MIDDLE = 0.6745;

/** In the middle of the order of the sizes of steps from one value to the next; 0 without any. */
function middleHop(values: readonly number[]): number {
  const hops = new Float64Array(Math.max(values.length - 1, 0));
  for (let i = 0; i < hops.length; i++) hops[i] = Math.abs(values[i + 1]! - values[i]!);
  return hops.sort()[hops.length >> 1] ?? 0;
}

/**
 * Least standard uncertainty that the resolution leaves: step/√12 (JCGM 100:2008, F.2.2.1), and
 * less where the readings vary by steps, for then rounding averages out: its first harmonic by
 * exp(−2π²(deviation/step)²) (B. Widrow, IRE Trans. Circuit Theory 3(4), 1956; from memory). The
 * deviation is taken from one block mean to the next, in the middle of their order: it is less
 * than that of the readings.
 */
function roundingOf(state: Detector, column: number, blocks: readonly Block[]): number {
  const values = columnOf(blocks, column);
  const step = stepOf(state, column);
  if (step === 0 || values.length === 0) return 0;
  const deviation = middleHop(values) / (NORMAL_MIDDLE * Math.SQRT2);
  return (step / Math.sqrt(12)) * Math.exp(-2 * (Math.PI * (deviation / step)) ** 2);
}

/** What rounding leaves of a column by what it leaves of each that was read: power has two. */
function withParts(
  blocks: readonly Block[],
  column: number,
  roundingOfPart: (part: number) => number,
): number {
  if (column !== POWER) return roundingOfPart(column);
  const shares = [VOLTAGE, CURRENT].map((part) => {
    const size = Math.abs(meanOf(columnOf(blocks, part)));
    return size > 0 ? roundingOfPart(part) / size : 0;
  });
  return Math.abs(meanOf(columnOf(blocks, POWER))) * Math.hypot(...shares);
}

/** What rounding leaves of a column; 0 where even all of a step is no more than `beside`. */
function floorOf(
  state: Detector,
  blocks: readonly Block[],
  column: number,
  beside: number,
): number {
  const most = withParts(blocks, column, (part) => stepOf(state, part) / Math.sqrt(12));
  if (most <= beside) return 0;
  return withParts(blocks, column, (part) => roundingOf(state, part, blocks));
}

/** What the means are taken over: at rest not what came before the rotor had really stopped. */
function blocksOf(record: PlateauRecord, end_s: number): readonly Block[] {
  const blocks = blocksUntil(record, end_s);
  return record.rotorStill ? restOf(blocks) : blocks;
}

/** Since when a plateau that has just been declared is one. */
export function declaredOf(record: PlateauRecord): Declared {
  const { declared_s } = record;
  return { start_s: blocksOf(record, declared_s)[0]!.start_s, declared_s };
}

/** The plateau so far, without what stands off; its noise is looked into once a second. */
export function presentPlateau(state: Detector, record: PlateauRecord): Plateau {
  const blocks = blocksOf(record, awaySince_s(state.excursions, state.history));
  const now_s = blocks.at(-1)!.end_s;
  const stale = now_s - record.noises_s >= REFRESH_S;
  const noises = stale ? [] : record.noises;
  const readings = readingsOf(state, record, { blocks, noises, learns: false });
  if (stale) {
    record.noises = readings.map((reading) => reading?.noise ?? null);
    record.noises_s = now_s;
  }
  return plateauOf(record, blocks, readings);
}

/** The plateau up to `end_s`, for good. */
export function finalPlateau(
  state: Detector,
  record: PlateauRecord,
  { end_s, crept, changed }: { end_s: number; crept: boolean; changed: boolean },
): Plateau {
  const blocks = blocksOf(record, end_s);
  const length_s = blocks.at(-1)!.end_s - blocks[0]!.start_s;
  const least_s = end_s < record.declared_s ? SHORTEST_BELATED_S : SHORTEST_PLATEAU_S;
  const withdrawn = crept || (changed && length_s < least_s);
  const learns = !withdrawn && !record.rotorStill && length_s >= SEGMENT_S;
  const readings = readingsOf(state, record, { blocks, noises: [], learns });
  if (learns) learnFrom(state, readings);
  const plateau = plateauOf(record, blocks, readings);
  return withdrawn ? { ...plateau, withdrawn: true } : plateau;
}

/** The session learns the noise of a plateau. */
function learnFrom(state: Detector, readings: readonly (Reading | null)[]): void {
  const current_A = Math.abs(readings[CURRENT]?.estimate.mean ?? Infinity);
  const open = current_A <= openLimit_A(state);
  readings.forEach((reading, column) => {
    // Noise about no current is none of the load's.
    if (open && (column === CURRENT || column === POWER)) return;
    if (reading === null || reading.gusts === null) return;
    const [memory, meanMemory] = [state.memories[column]!, state.meanMemories[column]!];
    learnNoise(memory, reading.gusts, priorOf(memory));
    learnOwn(memory, reading.gusts);
    learnNoise(meanMemory, reading.noise, priorOf(meanMemory));
  });
}
