/**
 * How much faster the board's clock runs than the laptop's.
 *
 * A line's lateness is its arrival time less the device time that it states. Bursts, buffers and
 * busy laptops only ever make lines later, so the lower envelope of lateness is what the clocks do:
 * its slope is the drift. The envelope is taken as the smallest lateness of each block of time; the
 * slope as the median of the slopes between all pairs of blocks (Theil and Sen: P. K. Sen, Journal
 * of the American Statistical Association 63(324), 1968), which a few bad blocks can't pull away.
 */

const FIRST_BLOCK_S = 5;
/** When so many blocks are full, neighbours merge: bounded memory, ever longer blocks. */
const MOST_BLOCKS = 64;
const FEWEST_BLOCKS = 6;
/** Drift is said once its standard uncertainty is below this. */
const KNOWN_BELOW_PPM = 100;
/** Standard deviation of normal noise from its median absolute deviation. */
const MAD_TO_SIGMA = 1.4826;

export interface DriftEstimator {
  /** Null until known well enough. */
  drift_ppm: number | null;
  blockLength_s: number;
  /** Where the block that is filling began, arrival time; null before the first line. */
  blockStart_s: number | null;
  /** The smallest lateness in the block that is filling, and when it was seen. */
  least_s: number;
  leastAt_s: number;
  /** The full blocks. */
  blocks: { readonly at_s: number; readonly lateness_s: number }[];
}

export function createDriftEstimator(): DriftEstimator {
  return {
    drift_ppm: null,
    blockLength_s: FIRST_BLOCK_S,
    blockStart_s: null,
    least_s: Infinity,
    leastAt_s: 0,
    blocks: [],
  };
}

/** The clocks were set against each other anew; the drift found so far still holds. */
export function restartDrift(drift: DriftEstimator): void {
  Object.assign(drift, { ...createDriftEstimator(), drift_ppm: drift.drift_ppm });
}

export function observeLateness(drift: DriftEstimator, at_s: number, lateness_s: number): void {
  if (drift.blockStart_s === null) drift.blockStart_s = at_s;
  if (at_s - drift.blockStart_s >= drift.blockLength_s) closeBlock(drift, at_s);
  if (lateness_s < drift.least_s) {
    drift.least_s = lateness_s;
    drift.leastAt_s = at_s;
  }
}

function closeBlock(drift: DriftEstimator, at_s: number): void {
  drift.blocks.push({ at_s: drift.leastAt_s, lateness_s: drift.least_s });
  drift.blockStart_s = at_s;
  drift.least_s = Infinity;
  if (drift.blocks.length === MOST_BLOCKS) mergeBlocks(drift);
  drift.drift_ppm = estimate_ppm(drift.blocks) ?? drift.drift_ppm;
}

function mergeBlocks(drift: DriftEstimator): void {
  const { blocks } = drift;
  drift.blockLength_s *= 2;
  drift.blocks = blocks
    .filter((_, index) => index % 2 === 0)
    .map((even, index) => {
      const odd = blocks[2 * index + 1] ?? even;
      return odd.lateness_s < even.lateness_s ? odd : even;
    });
}

function estimate_ppm(blocks: DriftEstimator['blocks']): number | null {
  const first = blocks[0];
  const last = blocks.at(-1);
  if (first === undefined || last === undefined || blocks.length < FEWEST_BLOCKS) return null;
  const slope = median(slopesBetween(blocks));
  const residuals_s = blocks.map(
    ({ at_s, lateness_s }) => lateness_s - slope * (at_s - first.at_s),
  );
  const centre_s = median(residuals_s);
  const sigma_s = MAD_TO_SIGMA * median(residuals_s.map((r) => Math.abs(r - centre_s)));
  // Standard uncertainty of a slope through n evenly spaced points.
  const uncertainty = (sigma_s * Math.sqrt(12 / blocks.length)) / (last.at_s - first.at_s);
  // Lateness shrinks where the board's clock is fast.
  return uncertainty * 1e6 < KNOWN_BELOW_PPM ? -slope * 1e6 : null;
}

function slopesBetween(blocks: DriftEstimator['blocks']): number[] {
  return blocks.flatMap((a, index) =>
    blocks.slice(index + 1).map((b) => (b.lateness_s - a.lateness_s) / (b.at_s - a.at_s)),
  );
}

function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}
