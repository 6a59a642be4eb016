/** Stillmark lines: samples, announcements, buttons, troubles. */
import { GRAMMAR_VERSION, type Frame } from '#protocol/frame.ts';
import { parseFrame } from '#protocol/stillmark-line.ts';
import { readSample, startsLikeSample, WRONG_CHECKSUM } from '#protocol/stillmark-sample.ts';
import { adoptAnnouncement, forgetLayout } from './adopt.ts';
import { takeChannel } from './announcement.ts';
import { timeNear_s } from './device-clock.ts';
import { addFault } from './reading.ts';
import { createPeriodLearner } from './period.ts';
import { createIntroduction, notify, restart, type Reader } from './state.ts';
import { takeSample } from './take-sample.ts';
import {
  foreignNotice,
  misfitNotice,
  troubleNotice,
  UNANNOUNCED,
  UNANNOUNCED_FOR_S,
} from './stillmark-notices.ts';

/** A trouble that was not reported for this long is over. */
const TROUBLE_OVER_S = 10;

type FrameOf<K extends Frame['kind']> = Extract<Frame, { kind: K }>;

/** Reads a line that begins as only a Stillmark line does. */
export function readStillmark(reader: Reader, text: string, at_s: number): void {
  const { layout, connection } = reader;
  if (connection.troubles.size > 0) endTroubles(reader, at_s);
  if (layout !== null && layout.grammar === 'stillmark' && startsLikeSample(text)) {
    const channels = readSample(text, layout.values);
    if (channels < 0) {
      addFault(reader.reading, channels === WRONG_CHECKSUM ? 'checksum' : 'malformed');
      return;
    }
    reader.connection.speaksStillmark = true;
    if (channels === layout.fieldCount) takeSample(reader, layout, at_s);
    else takeMisfit(reader, channels, layout.fieldCount);
    return;
  }
  const frame = parseFrame(text);
  if (frame.kind === 'fault') addFault(reader.reading, frame.fault);
  else takeFrame(reader, frame, at_s);
}

function takeFrame(reader: Reader, frame: Frame, at_s: number): void {
  const { connection, facts } = reader;
  connection.speaksStillmark = true;
  if (frame.kind !== 'sample') reader.reading.frame = frame;
  if (reader.layout?.grammar === 'plain') forgetLayout(reader);
  switch (frame.kind) {
    case 'opening':
      takeOpening(reader, frame);
      break;
    case 'channel':
      takeChannelLine(reader, frame);
      break;
    case 'identity':
      facts.identity = frame;
      connection.introduced.identity = true;
      break;
    case 'pace':
      takePace(reader, frame);
      break;
    case 'sample':
      takeUnreadable(reader, at_s);
      break;
    case 'button':
      takePress(reader, frame, at_s);
      break;
    case 'beat':
      connection.introduced.grammar = true;
      connection.foreignVersion = null;
      break;
    case 'trouble':
      takeTrouble(reader, frame, at_s);
      break;
    case 'answer':
      break;
    case 'foreign':
      forgetLayout(reader);
      connection.foreignVersion = frame.version;
      connection.introduced = createIntroduction();
      notify(reader, foreignNotice(frame.version, GRAMMAR_VERSION));
      break;
  }
}

function takeOpening(reader: Reader, opening: FrameOf<'opening'>): void {
  const { connection } = reader;
  connection.foreignVersion = null;
  connection.announcing = { opening, channels: new Map() };
  if (opening.cause === 'boot') connection.introduced = createIntroduction();
  connection.introduced.grammar = true;
  if (opening.cause !== 'boot') return;
  restart(reader);
  // A board that has just started may hold another sketch: what it said before no longer counts.
  forgetLayout(reader);
}

/** Outside an announcement a channel line means nothing: its fellows may be of another one. */
function takeChannelLine(reader: Reader, frame: FrameOf<'channel'>): void {
  const { connection } = reader;
  const parts = connection.announcing;
  const announcement = parts === null ? null : takeChannel(parts, frame);
  if (announcement === null) return;
  connection.announcing = null;
  connection.introduced.channels = true;
  adoptAnnouncement(reader, announcement);
}

/** Readings at another pace are another story to whoever judges their noise. */
function takePace(reader: Reader, pace: FrameOf<'pace'>): void {
  const { facts, connection, period, reading } = reader;
  const before = facts.pace;
  facts.pace = pace;
  connection.introduced.pace = true;
  if (before !== null && before.period_us !== pace.period_us) {
    reading.restarted ||= connection.hasSampled;
    Object.assign(period, createPeriodLearner());
  }
  period.period_s ??= pace.period_us / 1e6;
}

/** A sample line while no announcement says what its numbers are. */
function takeUnreadable(reader: Reader, at_s: number): void {
  const { connection } = reader;
  if (connection.foreignVersion !== null) {
    addFault(reader.reading, 'malformed');
    return;
  }
  reader.unmapped = true;
  connection.unexplainedSince_s ??= at_s;
  const isLate = at_s - connection.unexplainedSince_s > UNANNOUNCED_FOR_S;
  if (isLate && !connection.introduced.channels) notify(reader, UNANNOUNCED);
}

function takeMisfit(reader: Reader, fields: number, channels: number): void {
  addFault(reader.reading, 'fieldCount');
  notify(reader, misfitNotice(fields, channels));
}

function takePress(
  reader: Reader,
  { number, time, button }: FrameOf<'button'>,
  at_s: number,
): void {
  if (number === reader.connection.pressNumber) return;
  reader.connection.pressNumber = number;
  reader.reading.boardEvent = { button, time_s: timeNear_s(reader.clock, time) ?? at_s };
}

function takeTrouble(reader: Reader, frame: FrameOf<'trouble'>, at_s: number): void {
  const { troubles } = reader.connection;
  const key = `${frame.channel} ${frame.trouble}`;
  const known = troubles.get(key);
  if (known !== undefined) {
    known.lastAt_s = at_s;
    return;
  }
  const notice = troubleNotice(frame, reader.facts.announcement);
  troubles.set(key, { lastAt_s: at_s, notice });
  reader.notices.push(notice);
}

/** Takes back what has not been reported any more by then. */
export function endTroubles(reader: Reader, at_s: number): void {
  const { troubles } = reader.connection;
  for (const [key, { lastAt_s, notice }] of troubles) {
    if (at_s - lastAt_s < TROUBLE_OVER_S) continue;
    troubles.delete(key);
    reader.notices.push({ ...notice, isOver: true });
  }
}
