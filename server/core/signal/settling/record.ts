import { detrend } from '../../metrology/type-a/cosines.ts';
import { fitNoises, type Belief } from '../../metrology/type-a/noise-fit.ts';
import {
  degreesOfFreedomOf,
  varianceOfReadingMean,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import type { Estimate, Plateau } from '../plateau.ts';
import { gustsIn, mergeGusts } from '../wind-gusts.ts';
import { COLUMNS, type Block } from './block.ts';
import type { Standard } from './change.ts';
import { columnOf } from './history.ts';
import { driveOf } from './lag.ts';
import { priorOf, type NoiseMemory } from './noise-memory.ts';

/**
 * The spectrum's shape is a model: even where statistics would say less, the logarithm of its
 * long-run variance is not known better than to this variance.
 */
const SHAPE_DOUBT = 0.25;
/** More blocks than this are merged in pairs: a plateau may last for hours. */
const CAPACITY = 600;

/** The blocks of an open plateau, in bounded memory. */
export interface PlateauRecord {
  declared_s: number;
  rotorStill: boolean;
  /** The lag that its approach showed, or else the one that was remembered then. */
  readonly lag_s: number;
  blocks: Block[];
  /** How many original blocks one kept block stands for. */
  merged: number;
  pending: Block[];
  /** When a change was last looked for. */
  watched_s: number;
  /** What a change must stand out from by present beliefs, of each column that was watched. */
  standards: Standard[];
  /** Noise of each column when it was last looked into, and when that was. */
  noises: readonly (NoiseModel | null)[];
  noises_s: number;
}

export function openRecord(
  blocks: readonly Block[],
  opened: Pick<PlateauRecord, 'declared_s' | 'rotorStill' | 'lag_s'>,
): PlateauRecord {
  const { declared_s, rotorStill, lag_s } = opened;
  return {
    declared_s,
    rotorStill,
    lag_s,
    blocks: [...blocks],
    merged: 1,
    pending: [],
    watched_s: -Infinity,
    standards: [],
    noises: [],
    noises_s: -Infinity,
  };
}

function merge(blocks: readonly Block[]): Block {
  const means = new Array<number>(COLUMNS.length);
  for (let column = 0; column < COLUMNS.length; column++) {
    means[column] = meanOf(columnOf(blocks, column));
  }
  return {
    start_s: blocks[0]!.start_s,
    end_s: blocks.at(-1)!.end_s,
    sampleCount: blocks.reduce((sum, block) => sum + block.sampleCount, 0),
    means,
    gusts: mergeGusts(blocks.map(({ gusts }) => gusts)),
  };
}

/**
 * Adds one block; when the record is full its blocks are merged in pairs. What may yet be blanked
 * (`away`, see excursion) is not merged before that is known.
 */
export function extendRecord(record: PlateauRecord, block: Block, away: boolean): void {
  record.pending.push(block);
  if (away) return;
  while (record.pending.length >= record.merged) {
    const next = record.pending.splice(0, record.merged);
    record.blocks.push(record.merged === 1 ? next[0]! : merge(next));
  }
  if (record.blocks.length < CAPACITY) return;
  const pairs: Block[] = [];
  for (let at = 0; at + 1 < record.blocks.length; at += 2) {
    pairs.push(merge(record.blocks.slice(at, at + 2)));
  }
  record.blocks = pairs;
  record.merged *= 2;
}

/** A column's mean and noise over a plateau. */
export interface Reading {
  readonly estimate: Estimate;
  /** In units of the level. */
  readonly noise: NoiseModel;
  /** The same as a comparison of neighbouring stretches meets it; null where it was not asked for. */
  readonly gusts: NoiseModel | null;
}

/** What noise is looked for in, and the unit that it is remembered in. */
interface Stretch {
  readonly values: readonly number[];
  readonly scale: number;
  readonly period_s: number;
  readonly lag_s: number;
}

/**
 * Evaluates one column; `scale` is the unit that its noise is remembered in, `known` its noise when
 * that need not be looked into again. `gusts`: the memory of noise without wander, when that is
 * asked for, too. `floor`: the least standard uncertainty that rounding leaves, or 0 where that is
 * not above the one that it is asked beside.
 */
export function evaluate(asked: {
  values: readonly number[];
  period_s: number;
  scale: number;
  floor: (beside: number) => number;
  lag_s: number;
  memory: NoiseMemory;
  gusts: NoiseMemory | null;
  known: NoiseModel | null;
}): Reading {
  const { values, period_s, scale, floor, lag_s, memory, known } = asked;
  const beliefs = [{ prior: priorOf(memory), wanders: true }];
  if (asked.gusts !== null) beliefs.push({ prior: priorOf(asked.gusts), wanders: false });
  const noises = known === null ? noisesOf(asked, beliefs) : [known];
  const noise = noises[0]!;
  const doubted = { ...noise, logLevelVariance: noise.logLevelVariance + SHAPE_DOUBT };
  const error = scale * Math.sqrt(varianceOfReadingMean(doubted, values.length * period_s, lag_s));
  const mean = meanOf(values);
  const spread = values.length > 1 ? standardDeviationOf(values, mean) : 0;
  // Noise that never shows lies within a step.
  const least = floor(spread === 0 ? 0 : error);
  const standardUncertainty = spread === 0 && least > 0 ? least : Math.max(error, least);
  const effective = standardUncertainty > 0 ? (spread / standardUncertainty) ** 2 : 1;
  return {
    noise,
    gusts: noises[1] ?? null,
    estimate: {
      mean,
      standardUncertainty,
      degreesOfFreedom: degreesOfFreedomOf(doubted),
      effectiveSampleSize: Math.max(Math.min(effective, values.length), 1),
    },
  };
}

function noisesOf(stretch: Stretch, beliefs: readonly Belief[]): NoiseModel[] {
  const { values, scale, period_s, lag_s } = stretch;
  const relative = new Array<number>(values.length);
  for (let i = 0; i < relative.length; i++) relative[i] = values[i]! / scale;
  const drive = lag_s > 0 ? driveOf(relative, period_s, lag_s) : relative;
  return fitNoises(detrend(drive), { period_s, lag_s }, beliefs);
}

/** The recorded blocks that end by `end_s`; at least the first. */
export function blocksUntil(record: PlateauRecord, end_s: number): readonly Block[] {
  const all = [...record.blocks, ...record.pending];
  const kept = all.filter((block) => block.end_s <= end_s + 1e-4);
  return kept.length > 0 ? kept : all.slice(0, 1);
}

/** The plateau over some of its blocks. */
export function plateauOf(
  record: PlateauRecord,
  blocks: readonly Block[],
  readings: readonly (Reading | null)[],
): Plateau {
  const estimates: Record<string, Estimate> = {};
  readings.forEach((reading, column) => {
    if (reading !== null) estimates[COLUMNS[column]!] = reading.estimate;
  });
  const [start_s, end_s] = [blocks[0]!.start_s, blocks.at(-1)!.end_s];
  const windGusts = gustsIn(blocks.map(({ gusts }) => gusts), end_s - start_s);
  return {
    start_s,
    end_s,
    declared_s: record.declared_s,
    sampleCount: blocks.reduce((sum, block) => sum + block.sampleCount, 0),
    rotorStill: record.rotorStill,
    estimates,
    ...(windGusts === undefined ? {} : { windGusts }),
  };
}
