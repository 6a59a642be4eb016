/**
 * The reader: one line with its arrival time in, a sample or counted faults out. Pure: all it knows
 * is what it was given.
 */
import type { FaultKind } from '#protocol/frame.ts';
import type { Configuration } from '../configuration.ts';
import type { Notice } from '../events.ts';
import type { Link } from '../link.ts';
import type { Sample } from '../signal/sample.ts';

/** Somebody pressed a button on the board. */
export interface BoardEvent {
  /** log: log now; strike: set the last trial aside; next: go on to the next run. */
  readonly button: 'log' | 'strike' | 'next';
  /** Stream time. */
  readonly time_s: number;
}

/** What one line told. Belongs to the reader, which fills it anew at every call: read it at once. */
export interface Reading {
  readonly sample: Sample | null;
  /** One entry for each thing wrong; a shared empty list when nothing is. */
  readonly faults: readonly FaultKind[];
  /** Samples that the sequence number shows were lost just before this line. */
  readonly lostLines: number;
  /** The board began anew, or its scale changed: what follows does not continue what was. */
  readonly restarted: boolean;
  readonly notices: readonly Notice[];
  readonly boardEvent: BoardEvent | null;
}

/** Owned by the caller, changed in place by the functions below. */
export interface Reader {
  /** Typical time between samples, learnt; null until known. */
  readonly samplePeriod_s: number | null;
  /** How much faster the board's clock runs than the laptop's; null until known well enough. */
  readonly clockDrift_ppm: number | null;
  /** Lines of numbers arrive and nothing says which column is what. */
  readonly unmapped: boolean;
}

const NOTHING: Reading = {
  sample: null,
  faults: [],
  lostLines: 0,
  restarted: false,
  notices: [],
  boardEvent: null,
};

export function createReader(_configuration: Configuration): Reader {
  return { samplePeriod_s: null, clockDrift_ppm: null, unmapped: false };
}

/** Another configuration from the next line on. */
export function configureReader(_reader: Reader, _configuration: Configuration): void {}

export function openLink(_reader: Reader, _link: Link, _at_s: number): void {}

export function closeLink(_reader: Reader): void {}

export function readLine(_reader: Reader, _text: string, _at_s: number): Reading {
  return NOTHING;
}
