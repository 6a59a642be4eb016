/**
 * The reader: one line with its arrival time in; a sample, or counted faults, out. It knows both
 * grammars, the board's own clock and what the operator has set. Pure: all it knows it was given.
 *
 * What it knows of a board outlives the connection: one that returns without saying its header
 * again is read as before, as long as its lines have as many fields.
 */
import { startsLikeFrame } from '#protocol/stillmark-sample.ts';
import type { Configuration } from '../configuration.ts';
import type { Link } from '../link.ts';
import { adoptConfigured, forgetLayout, recompile } from './adopt.ts';
import { createFacts } from './announcement.ts';
import { createDeviceClock } from './device-clock.ts';
import { createPeriodLearner } from './period.ts';
import { clearDraft, type Reading } from './reading.ts';
import { readPlain } from './read-plain.ts';
import { endTroubles, readStillmark } from './read-stillmark.ts';
import { createConnection, createIntroduction, createState, startAfresh, type Reader } from './state.ts';

export type { Reader } from './state.ts';

export function createReader(configuration: Configuration): Reader {
  return createState(configuration);
}

/** Another configuration from the next line on. */
export function configureReader(reader: Reader, configuration: Configuration): void {
  reader.configuration = configuration;
  recompile(reader);
}

/** A connection begins. Lines of the one before are not continued by its lines. */
export function openLink(reader: Reader, link: Link, _at_s: number): void {
  if (link.id !== reader.linkId) meetBoard(reader, link.id);
  endTroubles(reader, Infinity);
  reader.connection = createConnection(!link.wholeFromStart);
  reader.clock.mode = link.clock;
  reader.unmapped = false;
  startAfresh(reader);
  if (reader.layout === null) adoptConfigured(reader);
}

/** Another board: nothing that was known of the one before holds. */
function meetBoard(reader: Reader, id: string): void {
  reader.linkId = id;
  forgetLayout(reader);
  Object.assign(reader.facts, createFacts());
  Object.assign(reader.period, createPeriodLearner());
  Object.assign(reader.clock, createDeviceClock());
}

/** Time passed that the recording's clock does not know of: the next line is placed at its arrival. */
export function loseTime(reader: Reader): void {
  startAfresh(reader);
}

export function closeLink(reader: Reader): void {
  reader.unmapped = false;
  reader.connection.introduced = createIntroduction();
}

/** Reads one line, without its line end. The reading holds until the next call. */
export function readLine(reader: Reader, text: string, at_s: number): Reading {
  const { reading, connection } = reader;
  const { mayBeCut } = connection;
  connection.mayBeCut = false;
  clearDraft(reading);
  if (startsLikeFrame(text)) readStillmark(reader, text, at_s);
  else readPlain(reader, text, at_s, mayBeCut);
  if (reader.notices.length > 0) {
    reading.notices = reader.notices;
    reader.notices = [];
  }
  return reading;
}
