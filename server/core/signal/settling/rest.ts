/** When a rotor that was called still had really stopped: it passes for still while it runs down. */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { VOLTAGE, type Block } from './block.ts';

/** A still rotor in the wind is watched for at least this long, and so much of it is kept. */
export const STILL_WINDOW_S = 5;
/** The voltage still falls where its mean over so long is not that of all that follows. */
const PART_S = 1;
/** In standard errors, and V: less than a microvolt is nothing. */
const FALLS_Z = 3;
const NOTHING_V = 1e-6;

/**
 * Blocks of a rotor at rest without those at their start in which it still ran down: looked back
 * upon, its voltage had not come to where it has stayed since.
 */
export function restOf(blocks: readonly Block[]): readonly Block[] {
  const read = blocks.filter(({ means }) => !Number.isNaN(means[VOLTAGE]!));
  const values = read.map(({ means }) => means[VOLTAGE]!);
  const [first, last] = [read[0], read.at(-1)];
  if (first === undefined || last === undefined) return blocks;
  const period_s = (last.end_s - first.start_s) / read.length;
  const part = Math.max(Math.round(PART_S / period_s), 1);
  const kept = Math.max(Math.round(STILL_WINDOW_S / period_s), part + 2);
  let from = 0;
  while (values.length - from > kept && falls(values, from, part)) from += 1;
  return from === 0 ? blocks : blocks.slice(blocks.indexOf(read[from]!));
}

function falls(values: readonly number[], from: number, part: number): boolean {
  const now = meanOf(values.slice(from, from + part));
  const after = values.slice(from + part);
  const level = meanOf(after);
  const error = standardDeviationOf(after, level) * Math.sqrt(1 / part + 1 / after.length);
  return Math.abs(now - level) > Math.max(FALLS_Z * error, NOTHING_V);
}
