/** The reader's state: what it knows of the board, of the connection and of time. */
import type { Column } from '#protocol/plain-header.ts';
import type { Configuration } from '../configuration.ts';
import type { Notice } from '../events.ts';
import { createFacts, type AnnouncementInParts, type BoardFacts } from './announcement.ts';
import { createArrivalClock, type ArrivalClock } from './arrival-clock.ts';
import { createDeviceClock, releaseClock, type DeviceClock } from './device-clock.ts';
import type { Layout } from './layout.ts';
import { createPeriodLearner, type PeriodLearner } from './period.ts';
import { resetPulseRate } from './pulse-rate.ts';
import { createDraft, type ReadingDraft } from './reading.ts';

/** Where the layout comes from. */
export type LayoutOrigin = 'header' | 'configured' | 'announced';

/** Owned by the caller of the reader, changed in place by the reader alone. */
export interface Reader {
  configuration: Configuration;
  /** The board's identity; what is known of the board holds as long as it stays the same. */
  linkId: string | null;

  // Of the board.
  layout: Layout | null;
  layoutOrigin: LayoutOrigin | null;
  /** The columns that the layout was made from, where it was made from columns. */
  columns: readonly Column[];
  readonly facts: BoardFacts;
  readonly period: PeriodLearner;
  readonly clock: DeviceClock;

  // Of the connection.
  connection: Connection;

  // Of the recording.
  /** The newest stream time given. */
  lastTime_s: number;

  /** Lines of numbers arrive and nothing says which column is what. */
  unmapped: boolean;
  /** Typical time between samples; null until known. */
  readonly samplePeriod_s: number | null;
  /** How much faster the board's clock runs than the laptop's; null until known well enough. */
  readonly clockDrift_ppm: number | null;

  readonly reading: ReadingDraft;
  /** Notices for the next reading. */
  notices: Notice[];
}

/** What ends with the connection. */
export interface Connection {
  /** The next line may be the tail of a line that was cut off by opening in mid-stream. */
  mayBeCut: boolean;
  /** A sample has been read since it began, or since the board was last reset. */
  hasSampled: boolean;
  /** A line has fitted the layout. */
  hasFitted: boolean;
  /** A line with the right checksum has come: the board speaks Stillmark lines. */
  speaksStillmark: boolean;
  /** When the first sample came that no announcement explained, arrival time. */
  unexplainedSince_s: number | null;
  /** The version of the grammar that it speaks, when it is not ours. */
  foreignVersion: number | null;
  announcing: AnnouncementInParts | null;
  /** What the board has said of itself since the connection began, or since it started anew. */
  introduced: Introduction;
  readonly arrival: ArrivalClock;
  /** Sequence number of the newest line. */
  sequence: number | null;
  /** The newest plain line of numbers that nothing named. */
  unnamedLine: string | null;
  /** Lines of numbers that did not fit the layout while none had fitted yet. */
  misfits: number;
  repeatedHeaders: number;
  /** Number of the newest press of a button. */
  pressNumber: number | null;
  /** Troubles that the board reports, and when it last did, arrival time. */
  readonly troubles: Map<string, { lastAt_s: number; readonly notice: Notice }>;
  /** Notices given, so that each is given once. */
  readonly told: Set<string>;
}

export interface Introduction {
  /** An opening or a beat of our version: the board understands requests. */
  grammar: boolean;
  channels: boolean;
  identity: boolean;
  pace: boolean;
}

export function createIntroduction(): Introduction {
  return { grammar: false, channels: false, identity: false, pace: false };
}

export function createState(configuration: Configuration): Reader {
  const period = createPeriodLearner();
  const clock = createDeviceClock();
  return {
    configuration,
    linkId: null,
    layout: null,
    layoutOrigin: null,
    columns: [],
    facts: createFacts(),
    period,
    clock,
    connection: createConnection(false),
    lastTime_s: -Infinity,
    unmapped: false,
    get samplePeriod_s() {
      return period.period_s;
    },
    get clockDrift_ppm() {
      return clock.drift.drift_ppm;
    },
    reading: createDraft(),
    notices: [],
  };
}

export function createConnection(mayBeCut: boolean): Connection {
  return {
    mayBeCut,
    hasSampled: false,
    hasFitted: false,
    speaksStillmark: false,
    unexplainedSince_s: null,
    foreignVersion: null,
    announcing: null,
    introduced: createIntroduction(),
    arrival: createArrivalClock(),
    sequence: null,
    unnamedLine: null,
    misfits: 0,
    repeatedHeaders: 0,
    pressNumber: null,
    troubles: new Map(),
    told: new Set(),
  };
}

/** Nothing that comes continues what came: clock, sequence and pulses start afresh. */
export function startAfresh(reader: Reader): void {
  releaseClock(reader.clock);
  reader.connection.sequence = null;
  reader.connection.pressNumber = null;
  resetPulses(reader.layout);
}

/** The board began anew, or says something else now. */
export function restart(reader: Reader): void {
  reader.reading.restarted ||= reader.connection.hasSampled;
  reader.connection.hasSampled = false;
  startAfresh(reader);
}

export function resetPulses(layout: Layout | null): void {
  if (layout === null) return;
  for (const source of Object.values(layout.sources)) {
    if (source?.pulses) resetPulseRate(source.pulses);
  }
}

/** No connection has more to say: a stream of ever new nonsense must not fill the page. */
const MOST_NOTICES = 50;

/** Says something once per connection. */
export function notify(reader: Reader, notice: Notice): void {
  const { told } = reader.connection;
  const key = `${notice.code} ${notice.message}`;
  if (told.has(key) || told.size === MOST_NOTICES) return;
  told.add(key);
  reader.notices.push(notice);
}
