import { estimateMean } from '../../metrology/type-a/mean-estimate.ts';
import type { Estimate, Plateau } from '../plateau.ts';
import { COLUMNS, type Block } from './block.ts';
import { columnOf } from './history.ts';

/** More blocks than this are merged in pairs: a plateau may last for hours. */
const CAPACITY = 600;

/** The blocks of an open plateau, in bounded memory. */
export interface PlateauRecord {
  declared_s: number;
  rotorStill: boolean;
  blocks: Block[];
  /** How many original blocks one kept block stands for. */
  merged: number;
  pending: Block[];
}

export function openRecord(blocks: readonly Block[], declared_s: number, rotorStill: boolean): PlateauRecord {
  return { declared_s, rotorStill, blocks: [...blocks], merged: 1, pending: [] };
}

function merge(blocks: readonly Block[]): Block {
  const means = new Float64Array(COLUMNS.length);
  for (let column = 0; column < COLUMNS.length; column++) {
    const values = columnOf(blocks, column);
    means[column] = values.length > 0 ? values.reduce((sum, value) => sum + value, 0) / values.length : NaN;
  }
  return {
    start_s: blocks[0]!.start_s,
    end_s: blocks.at(-1)!.end_s,
    sampleCount: blocks.reduce((sum, block) => sum + block.sampleCount, 0),
    means,
  };
}

/** Adds one block; when the record is full its blocks are merged in pairs. */
export function extendRecord(record: PlateauRecord, block: Block): void {
  record.pending.push(block);
  if (record.pending.length < record.merged) return;
  record.blocks.push(record.merged === 1 ? block : merge(record.pending));
  record.pending = [];
  if (record.blocks.length < CAPACITY) return;
  const pairs: Block[] = [];
  for (let at = 0; at + 1 < record.blocks.length; at += 2) pairs.push(merge(record.blocks.slice(at, at + 2)));
  record.blocks = pairs;
  record.merged *= 2;
}

/** The plateau over the recorded blocks that end by `end_s`. */
export function plateauOf(record: PlateauRecord, end_s: number, floors: readonly number[]): Plateau {
  const kept = [...record.blocks, ...record.pending].filter((block) => block.end_s <= end_s + 1e-4);
  const blocks = kept.length > 0 ? kept : record.blocks.slice(0, 1);
  const estimates: Record<string, Estimate> = {};
  COLUMNS.forEach((quantity, column) => {
    const values = columnOf(blocks, column);
    if (values.length > 0) estimates[quantity] = estimateMean(values, floors[column]!);
  });
  return {
    start_s: blocks[0]!.start_s,
    end_s: blocks.at(-1)!.end_s,
    declared_s: record.declared_s,
    sampleCount: blocks.reduce((sum, block) => sum + block.sampleCount, 0),
    rotorStill: record.rotorStill,
    estimates,
  };
}
