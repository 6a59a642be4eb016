import type { Sample } from '#core/signal/sample.ts';
import { thin } from './thin.ts';

/** How far back a snapshot reaches, stream time. */
export const RECENT_S = 60;
/** Live stretch: about one frame of a screen, so what is left is what a screen could show. */
export const LIVE_STRETCH_S = 0.02;
/** Snapshot stretch: a minute on 600 columns of pixels. */
export const SNAPSHOT_STRETCH_S = 0.1;
/** More than a minute of the busiest thinned stream. */
const MAX_SAMPLES = 40_000;
/** Old samples are cut off in lots of this many, so that cutting costs little. */
const CUT_LOT = 2_000;

/** The last minute of samples, thinned for display, oldest first; bounded. */
export class Recent {
  #samples: Sample[] = [];

  /** Stream time of the newest sample; −∞ when there is none. */
  get newest_s(): number {
    return this.#samples.at(-1)?.time_s ?? -Infinity;
  }

  /** Takes in samples later than all before. */
  push(samples: readonly Sample[]): void {
    this.#samples.push(...thin(samples, LIVE_STRETCH_S));
    const old = Math.max(
      firstAfter(this.#samples, this.newest_s - RECENT_S),
      this.#samples.length - MAX_SAMPLES,
    );
    if (old >= CUT_LOT) this.#samples.splice(0, old);
  }

  /** What came after `time_s`, at most the last minute. */
  since(time_s: number): Sample[] {
    const from_s = Math.max(time_s, this.newest_s - RECENT_S);
    return this.#samples.slice(firstAfter(this.#samples, from_s));
  }

  clear(): void {
    this.#samples = [];
  }
}

/** Index of the first sample later than `time_s`, by bisection. */
function firstAfter(samples: readonly Sample[], time_s: number): number {
  let low = 0;
  let high = samples.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((samples[middle]?.time_s ?? Infinity) > time_s) high = middle;
    else low = middle + 1;
  }
  return low;
}
