/**
 * Recorded inputs as bytes, without loss. One chunk is
 *
 *     byte     format version, 1
 *     rest     raw deflate (RFC 1951) of:
 *       varint           number of inputs n
 *       n × varint       arrival time, µs after the one before (the first: after 0), zigzag
 *       n × byte         form: 0 a line of printable ASCII, 1 any other input
 *       n texts          UTF-8, split by LF: the line, or the input as JSON without its time
 *
 * Varints are little-endian groups of 7 bits, zigzag maps 0, −1, 1, −2 … to 0, 1, 2, 3 … (both as
 * in protocol buffers). Times, forms and texts stand apart, because each compresses best among its
 * own.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { InputSchema, type Input } from '#core/inputs.ts';
import { StoreError } from './errors.ts';

const FORMAT_VERSION = 1;
const FORM_LINE = 0;
const FORM_JSON = 1;
/** A chunk is closed when it holds this much text: little is lost with one damaged chunk. */
const CHUNK_TEXT_LIMIT_bytes = 64 * 1024;
/** No chunk unpacks to more than this: what claims to is damaged. */
const UNPACKED_LIMIT_bytes = 4 * 1024 * 1024;
/** Times up to 71 years: their differences, doubled by zigzag, stay exact whole numbers. */
const TIME_LIMIT_us = 2 ** 51;
const PLAIN_LINE = /^[\t\x20-\x7e]*$/;

/** Splits inputs into pieces of one chunk each. */
export function splitInputs(inputs: readonly Input[]): Input[][] {
  const pieces: Input[][] = [];
  let piece: Input[] = [];
  let size_bytes = 0;
  for (const input of inputs) {
    piece.push(input);
    size_bytes += sizeOf(input);
    if (size_bytes < CHUNK_TEXT_LIMIT_bytes) continue;
    pieces.push(piece);
    piece = [];
    size_bytes = 0;
  }
  if (piece.length > 0) pieces.push(piece);
  return pieces;
}

/** About as much text as it will take; only a table that was brought in is worth measuring. */
function sizeOf(input: Input): number {
  if (input.kind === 'line') return input.text.length;
  if (input.kind !== 'command' || input.command.say !== 'bring-in') return 64;
  return JSON.stringify(input.command).length;
}

/**
 * The inner form of a chunk, not yet compressed (compressing is the costly part and can be done on
 * another thread).
 * @throws StoreError `not-storable` for a time that is not a whole number of µs, or too much text
 */
export function packInputs(inputs: readonly Input[]): Uint8Array {
  const head: number[] = [];
  const forms = new Uint8Array(inputs.length);
  const texts: string[] = [];
  let previous_us = 0;
  pushVarint(head, inputs.length);
  for (const [index, input] of inputs.entries()) {
    const at_us = wholeMicroseconds(input.at_s);
    pushVarint(head, zigzag(at_us - previous_us));
    previous_us = at_us;
    const isLine = input.kind === 'line' && PLAIN_LINE.test(input.text);
    forms[index] = isLine ? FORM_LINE : FORM_JSON;
    texts.push(isLine ? input.text : JSON.stringify({ ...input, at_s: undefined }));
  }
  const text = Buffer.from(texts.join('\n'), 'utf8');
  const packed = new Uint8Array(head.length + forms.length + text.length);
  if (packed.length > UNPACKED_LIMIT_bytes) {
    throw new StoreError('not-storable', `an input of ${packed.length} bytes is too large to store`);
  }
  packed.set(head);
  packed.set(forms, head.length);
  packed.set(text, head.length + forms.length);
  return packed;
}

export function compressPacked(packed: Uint8Array): Uint8Array {
  const deflated = deflateRawSync(packed);
  const bytes = new Uint8Array(deflated.length + 1);
  bytes[0] = FORMAT_VERSION;
  bytes.set(deflated, 1);
  return bytes;
}

/** All inputs as one chunk. */
export function encodeInputs(inputs: readonly Input[]): Uint8Array {
  return compressPacked(packInputs(inputs));
}

/**
 * The inputs of one chunk.
 * @throws StoreError `data-damaged` when the bytes are not a chunk
 */
export function decodeInputs(bytes: Uint8Array): Input[] {
  if (bytes[0] !== FORMAT_VERSION) throw damaged(`its format is ${bytes[0]}, known is ${FORMAT_VERSION}`);
  const reader = { packed: inflate(bytes.subarray(1)), offset: 0 };
  const count = readVarint(reader);
  if (count > reader.packed.length) throw damaged('it claims more inputs than it has bytes');
  const times_us = readTimes(reader, count);
  const forms = reader.packed.subarray(reader.offset, reader.offset + count);
  const texts = readTexts(reader.packed.subarray(reader.offset + count), count);
  return texts.map((text, index) => readInput(forms[index], (times_us[index] ?? NaN) / 1e6, text));
}

interface ByteReader {
  readonly packed: Uint8Array;
  offset: number;
}

function inflate(deflated: Uint8Array): Uint8Array {
  try {
    return inflateRawSync(deflated, { maxOutputLength: UNPACKED_LIMIT_bytes });
  } catch (error) {
    throw damaged('it does not unpack', error);
  }
}

function readTimes(reader: ByteReader, count: number): number[] {
  const times_us: number[] = [];
  let at_us = 0;
  for (let index = 0; index < count; index++) {
    at_us += unzigzag(readVarint(reader));
    times_us.push(at_us);
  }
  return times_us;
}

function readTexts(bytes: Uint8Array, count: number): string[] {
  const text = decodeUtf8(bytes);
  const texts = count === 0 && text === '' ? [] : text.split('\n');
  if (texts.length !== count) throw damaged(`it has ${texts.length} texts for ${count} inputs`);
  return texts;
}

function decodeUtf8(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    throw damaged('its text is not UTF-8', error);
  }
}

/** Lines, by far the most, are checked by one pattern; everything else by its schema. */
function readInput(form: number | undefined, at_s: number, text: string): Input {
  if (form === FORM_LINE) {
    if (!PLAIN_LINE.test(text)) throw damaged('a line holds a control byte');
    return { kind: 'line', at_s, text };
  }
  if (form !== FORM_JSON) throw damaged(`an input has the unknown form ${form}`);
  const parsed = InputSchema.safeParse({ ...parseObject(text), at_s });
  if (!parsed.success) throw damaged(`an input does not fit its schema: ${parsed.error.message}`);
  return parsed.data;
}

function parseObject(text: string): object {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === 'object' && value !== null) return value;
  } catch (error) {
    throw damaged('an input is not JSON', error);
  }
  throw damaged('an input is not a JSON object');
}

function wholeMicroseconds(at_s: number): number {
  const at_us = Math.round(at_s * 1e6);
  if (at_us / 1e6 === at_s && Math.abs(at_us) < TIME_LIMIT_us) return at_us;
  throw new StoreError('not-storable', `the arrival time ${at_s} s is not a whole number of µs`);
}

function zigzag(value: number): number {
  return value < 0 ? -2 * value - 1 : 2 * value;
}

function unzigzag(value: number): number {
  return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
}

// Arithmetic instead of shifts: bit operations stop at 32 bits, which is 71 minutes of µs.
function pushVarint(bytes: number[], value: number): void {
  let rest = value;
  while (rest >= 0x80) {
    bytes.push((rest % 0x80) + 0x80);
    rest = Math.floor(rest / 0x80);
  }
  bytes.push(rest);
}

function readVarint(reader: ByteReader): number {
  let value = 0;
  let unit = 1;
  for (;;) {
    const byte = reader.packed[reader.offset++];
    if (byte === undefined || unit > 2 ** 49) throw damaged('a number in it has no end');
    value += (byte % 0x80) * unit;
    if (byte < 0x80) return value;
    unit *= 0x80;
  }
}

function damaged(reason: string, cause?: unknown): StoreError {
  return new StoreError('data-damaged', `Recorded input can't be read: ${reason}.`, { cause });
}
