/** What one line told. */
import type { FaultKind, Frame } from '#protocol/frame.ts';
import type { Notice } from '../events.ts';
import type { Channel, Sample } from '../signal/sample.ts';

/** Somebody pressed a button on the board. */
export interface BoardEvent {
  /** log: log now; strike: set the last trial aside; next: go on to the next run. */
  readonly button: 'log' | 'strike' | 'next';
  /** Stream time. */
  readonly time_s: number;
}

/** What a channel read, and its quantity can't have: SI. */
export interface BeyondLimits {
  readonly channel: Channel;
  readonly value: number;
}

/** Belongs to the reader, which fills it anew at every call: read it at once. */
export interface Reading {
  readonly sample: Sample | null;
  /** The last of the line that was left out for it. */
  readonly beyond: BeyondLimits | null;
  /** One entry for each thing wrong; a shared empty list when nothing is. */
  readonly faults: readonly FaultKind[];
  /** Samples that the sequence number shows were lost just before this line. */
  readonly lostLines: number;
  /** The board began anew, or its scale changed: what follows does not continue what was. */
  readonly restarted: boolean;
  readonly notices: readonly Notice[];
  readonly boardEvent: BoardEvent | null;
  /** What a Stillmark line said, unless it is a sample. */
  readonly frame: Frame | null;
}

/** A reading while it is being filled. */
export type ReadingDraft = { -readonly [K in keyof Reading]: Reading[K] };

const NO_FAULTS: readonly FaultKind[] = Object.freeze([]);
const NO_NOTICES: readonly Notice[] = Object.freeze([]);

export function createDraft(): ReadingDraft {
  return {
    sample: null,
    beyond: null,
    faults: NO_FAULTS,
    lostLines: 0,
    restarted: false,
    notices: NO_NOTICES,
    boardEvent: null,
    frame: null,
  };
}

export function clearDraft(draft: ReadingDraft): void {
  draft.sample = null;
  draft.beyond = null;
  draft.faults = NO_FAULTS;
  draft.lostLines = 0;
  draft.restarted = false;
  draft.notices = NO_NOTICES;
  draft.boardEvent = null;
  draft.frame = null;
}

export function addFault(draft: ReadingDraft, fault: FaultKind): void {
  draft.faults = [...draft.faults, fault];
}
