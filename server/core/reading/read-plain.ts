/** Plain lines: header, data, and what is neither. */
import { parseHeader, separatorOf, type Header } from '#protocol/plain-header.ts';
import { countNumbers, NOT_NUMBERS, readFields, seemsDecimalComma } from '#protocol/plain-line.ts';
import type { Notice } from '../events.ts';
import { adoptColumns, forgetLayout } from './adopt.ts';
import type { Layout } from './layout.ts';
import { addFault } from './reading.ts';
import { notify, restart, type Reader } from './state.ts';
import { takeSample } from './take-sample.ts';

/** So many lines of numbers that don't fit, and none that does: the columns are wrong. */
const MISFITS_TO_FORGET = 10;
/** A header again so often is no reset. */
const REPEATS_TO_TELL = 3;

/** Reads a line that does not begin as a Stillmark line. `mayBeCut`: it may lack its beginning. */
export function readPlain(reader: Reader, text: string, at_s: number, mayBeCut: boolean): void {
  const { layout, connection } = reader;
  let count = NOT_NUMBERS;
  if (layout !== null && layout.grammar === 'plain' && !mayBeCut) {
    const separator = layout.separator ?? separatorOf(text);
    count = readFields(text, separator, layout.wanted, layout.values);
    if (count === layout.fieldCount) {
      layout.separator = separator;
      connection.hasFitted = true;
      takeSample(reader, layout, at_s);
      return;
    }
  }
  if (text.trim() === '') return;
  const header = parseHeader(text);
  if (header !== null && !(mayBeCut && header.columns.some(({ role }) => role === 'ignored'))) {
    takeHeader(reader, header);
  } else if (!mayBeCut) {
    takeMisfit(reader, text, count === NOT_NUMBERS ? 'malformed' : 'fieldCount');
  }
}

function takeHeader(reader: Reader, header: Header): void {
  const { layout, columns } = reader;
  const isKnown =
    layout?.grammar === 'plain' &&
    header.columns.length === columns.length &&
    header.columns.every(({ name }, index) => name === columns[index]?.name);
  if (isKnown) {
    takeHeaderAgain(reader, layout);
    return;
  }
  restart(reader);
  adoptColumns(reader, header, 'header');
}

/**
 * The same header again means a reset, or a sketch that repeats it. Where a device clock can tell
 * which, it is left to it.
 */
function takeHeaderAgain(reader: Reader, layout: Layout): void {
  const { connection, clock } = reader;
  if (!connection.hasSampled) return;
  if (layout.timeAt !== null) {
    clock.resetExpected = true;
    return;
  }
  restart(reader);
  connection.repeatedHeaders += 1;
  if (connection.repeatedHeaders === REPEATS_TO_TELL) {
    notify(reader, {
      code: 'header-repeated',
      message:
        'The board sends its header again and again, which reads as a reset each time. Send it once at the start, or add a time_ms column.',
    });
  }
}

/** A line that is no header and does not fit; `fault` is what it is where there is a layout. */
function takeMisfit(reader: Reader, text: string, fault: 'malformed' | 'fieldCount'): void {
  const { reading, connection, layout } = reader;
  if (seemsDecimalComma(text)) notify(reader, DECIMAL_COMMA);
  const fields = connection.speaksStillmark ? null : countNumbers(text, separatorOf(text));
  if (layout?.grammar === 'plain') {
    addFault(reading, fault);
    if (fields !== null && !connection.hasFitted) countMisfit(reader, layout, fields);
  } else if (fields !== null) {
    reader.unmapped = true;
    connection.unnamedLine = text;
  } else {
    addFault(reading, 'malformed');
  }
}

function countMisfit(reader: Reader, layout: Layout, fields: number): void {
  const { connection } = reader;
  connection.misfits += 1;
  if (connection.misfits < MISFITS_TO_FORGET) return;
  notify(reader, {
    code: 'columns-misfit',
    message: `The lines have ${fields} fields, but ${layout.fieldCount} columns are named, so nothing can be read. Reset the board to hear its header, and compare that with its lines.`,
    about: [String(fields), String(layout.fieldCount)],
  });
  // A header may have lost its first columns on the way, and what the operator named may have been
  // another sketch's; a file's header is what it is.
  if (reader.clock.mode === 'arrival') forgetLayout(reader);
}

const DECIMAL_COMMA: Notice = {
  code: 'decimal-comma',
  message:
    'Numbers seem to have a decimal comma, which could also separate thousands or columns. Send them with a decimal point.',
};
