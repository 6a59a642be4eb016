/**
 * Stillmark lines: parser and formatter from one table of fields, so that they can't disagree.
 * The grammar with its reasons is in README.md beside this file.
 */
import { checksum } from './checksum.ts';
import { decimal, freeText, uncertainty, whole, word, type Field } from './field.ts';
import {
  ANSWERS,
  BUTTONS,
  GRAMMAR_VERSION,
  MOST_CHANNELS,
  REQUEST_NAMES,
  TROUBLES,
  type Fault,
  type Frame,
  type Request,
} from './frame.ts';
import {
  endOfBody,
  FIRST_COUNT_AT,
  LARGEST_I32,
  LARGEST_U16,
  LARGEST_U32,
  readSample,
  SAMPLE_FIELDS,
  SEQUENCE_AT,
  SMALLEST_I32,
  startsLikeSample,
  TIME_AT,
  WRONG_CHECKSUM,
} from './stillmark-sample.ts';

/** Frames with a fixed list of fields. */
type Tabled = Exclude<Frame, { kind: 'sample' | 'foreign' }>;
type FieldsOf<F> = { readonly [K in Exclude<keyof F, 'kind'>]: Field<F[K]> };

interface Line<F> {
  readonly tag: string;
  /** The grammar's version stands before the fields. */
  readonly versioned?: true;
  /** In the order of the line. */
  readonly fields: FieldsOf<F>;
}

const time = whole(0, LARGEST_U32);
const period = whole(1, LARGEST_U32);
const version = whole(0, LARGEST_U16);

const LINES: { readonly [K in Tabled['kind']]: Line<Extract<Tabled, { kind: K }>> } = {
  opening: {
    tag: 'stillmark',
    versioned: true,
    fields: {
      cause: word(['boot', 'again']),
      timeUnit: word(['us', 'ms']),
      channelCount: whole(1, MOST_CHANNELS),
    },
  },
  identity: {
    tag: 'identity',
    fields: { maker: freeText, model: freeText, serial: freeText, firmware: freeText },
  },
  channel: {
    tag: 'channel',
    fields: {
      number: whole(1, MOST_CHANNELS),
      quantity: freeText,
      unit: freeText,
      scale: decimal,
      zero: whole(SMALLEST_I32, LARGEST_I32),
      gain: decimal,
      offset: decimal,
      gainUncertainty: uncertainty,
      offsetUncertainty: uncertainty,
    },
  },
  pace: { tag: 'pace', fields: { period_us: period, shortest_us: period, longest_us: period } },
  button: {
    tag: 'button',
    fields: { number: whole(0, LARGEST_U16), time, button: word(BUTTONS) },
  },
  beat: { tag: 'beat', versioned: true, fields: { time } },
  trouble: {
    tag: 'trouble',
    fields: { channel: whole(0, MOST_CHANNELS), trouble: word(TROUBLES) },
  },
  answer: { tag: 'answer', fields: { request: word(REQUEST_NAMES), result: word(ANSWERS) } },
};

const KIND_OF_TAG = new Map(
  Object.entries(LINES).map(([kind, { tag }]) => [tag, kind as Tabled['kind']]),
);

const MALFORMED_FAULT: Fault = { kind: 'fault', fault: 'malformed' };
const CHECKSUM_FAULT: Fault = { kind: 'fault', fault: 'checksum' };

/** Reads one line that a board sent, without its line end. */
export function parseFrame(text: string): Frame | Fault {
  if (startsLikeSample(text)) return parseSample(text);
  const end = endOfBody(text);
  if (end < 0) return faultOf(end);
  const [tag = '', ...fields] = text.slice(1, end).split(',');
  const kind = KIND_OF_TAG.get(tag);
  return kind === undefined ? MALFORMED_FAULT : parseTabled(kind, fields);
}

function parseTabled(kind: Tabled['kind'], fields: readonly string[]): Frame | Fault {
  const line = LINES[kind];
  if (line.versioned !== true) return parseFields(kind, fields);
  const [first = '', ...rest] = fields;
  const spoken = version.read(first);
  if (spoken === undefined) return MALFORMED_FAULT;
  return spoken === GRAMMAR_VERSION
    ? parseFields(kind, rest)
    : { kind: 'foreign', version: spoken };
}

function parseFields(kind: Tabled['kind'], texts: readonly string[]): Frame | Fault {
  const fields = Object.entries(LINES[kind].fields) as [string, Field<unknown>][];
  if (texts.length !== fields.length) return MALFORMED_FAULT;
  const frame: Record<string, unknown> = { kind };
  for (const [index, [name, field]] of fields.entries()) {
    const value = field.read(texts[index] ?? '');
    if (value === undefined) return MALFORMED_FAULT;
    frame[name] = value;
  }
  return frame as Tabled;
}

function parseSample(text: string): Frame | Fault {
  const values = new Float64Array(SAMPLE_FIELDS);
  const channels = readSample(text, values);
  if (channels < 0) return faultOf(channels);
  const counts = Array.from(values.subarray(FIRST_COUNT_AT, FIRST_COUNT_AT + channels));
  return {
    kind: 'sample',
    sequence: values[SEQUENCE_AT] as number,
    time: values[TIME_AT] as number,
    counts: counts.map((count) => (Number.isNaN(count) ? null : count)),
  };
}

function faultOf(code: number): Fault {
  return code === WRONG_CHECKSUM ? CHECKSUM_FAULT : MALFORMED_FAULT;
}

/** The line that says `frame`, without line end: what a board sends. */
export function formatFrame(frame: Frame): string {
  if (frame.kind === 'foreign') return seal([LINES.opening.tag, frame.version]);
  if (frame.kind !== 'sample') return formatTabled(frame);
  return seal(['s', frame.sequence, frame.time, ...frame.counts.map((count) => count ?? '')]);
}

function formatTabled(frame: Tabled): string {
  const line = LINES[frame.kind];
  const values = frame as unknown as Record<string, unknown>;
  const fields = Object.entries(line.fields) as [string, Field<unknown>][];
  const texts = fields.map(([name, field]) => field.write(values[name]));
  return seal([line.tag, ...(line.versioned === true ? [GRAMMAR_VERSION] : []), ...texts]);
}

function seal(fields: readonly (string | number)[]): string {
  const body = fields.join(',');
  return `$${body}*${checksum(body).toString(16).toUpperCase().padStart(4, '0')}`;
}

const IDENTIFY = '*IDN?';
const ASK = 'ask';

/** The line that asks for `request`, without line end: what the host sends. */
export function formatRequest(request: Request): string {
  switch (request.kind) {
    case 'identify':
      return IDENTIFY;
    case 'pace':
      return seal([ASK, 'pace', request.period_us]);
    case 'zero':
      return seal([ASK, 'zero', request.channel]);
  }
}

/** Reads one line that the host sent, as a board does. */
export function parseRequest(text: string): Request | Fault {
  if (text === IDENTIFY) return { kind: 'identify' };
  const end = endOfBody(text);
  if (end < 0) return faultOf(end);
  const [tag, name, value = '', ...rest] = text.slice(1, end).split(',');
  if (tag !== ASK || rest.length > 0) return MALFORMED_FAULT;
  const period_us = name === 'pace' ? period.read(value) : undefined;
  if (period_us !== undefined) return { kind: 'pace', period_us };
  const channel = name === 'zero' ? whole(1, MOST_CHANNELS).read(value) : undefined;
  return channel === undefined ? MALFORMED_FAULT : { kind: 'zero', channel };
}
