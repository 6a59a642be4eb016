/** How the link is, judged from when lines and samples came. All times in seconds. */
import type { LinkHealth } from '../link.ts';
import type { Reader } from '../reading/reader.ts';

/** A board may need this long after opening before it says anything. */
export const STARTING_GRACE_S = 3;
/** Nothing readable for this long is worth telling. */
export const UNREADABLE_AFTER_S = 2;
/** Nothing at all for the longer of this and … */
export const SILENT_AFTER_S = 2;
/** … this many sample periods means that the board is gone. */
export const SILENT_AFTER_PERIODS = 5;

interface Watched {
  readonly reader: Reader;
  readonly health: LinkHealth;
  readonly openedAt_s: number | null;
  readonly lastLineAt_s: number | null;
  readonly lastSampleAt_s: number | null;
}

/** The longest pause between samples that is still one steady story. */
export function gapLimit_s(reader: Reader): number {
  return Math.max(SILENT_AFTER_S, SILENT_AFTER_PERIODS * (reader.samplePeriod_s ?? 0));
}

/** Health after a line, which was a sample or not. */
export function healthAfterLine(watched: Watched, wasSample: boolean, at_s: number): LinkHealth {
  if (wasSample) return 'reading';
  const since_s = Math.max(watched.openedAt_s ?? at_s, watched.lastSampleAt_s ?? 0);
  if (at_s - since_s <= UNREADABLE_AFTER_S) {
    return watched.health === 'silent' ? 'starting' : watched.health;
  }
  return watched.reader.unmapped ? 'unmapped' : 'unreadable';
}

/** Health when time passes though nothing arrives. */
export function healthAfterTick(watched: Watched, at_s: number): LinkHealth {
  const { openedAt_s, lastLineAt_s, reader } = watched;
  if (openedAt_s === null) return 'closed';
  if (lastLineAt_s === null) {
    return at_s - openedAt_s > STARTING_GRACE_S ? 'silent' : watched.health;
  }
  return at_s - lastLineAt_s > gapLimit_s(reader) ? 'silent' : watched.health;
}
