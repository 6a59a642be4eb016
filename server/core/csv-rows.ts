/** Rows and fields of comma-separated text (RFC 4180), streaming and bounded. */
import { separatorOf } from '#protocol/plain-header.ts';

/** RFC 4180 knows commas only; programs write the others where the comma is a decimal sign. */
export type CsvSeparator = ',' | ';' | '\t';

/** The separator of a file whose first row this is. */
export function separatorIn(header: string): CsvSeparator {
  const found = separatorOf(header);
  return found === ' ' ? ',' : found;
}

export interface CsvRow {
  /** Number of the line that the row begins on, from 1. */
  readonly line: number;
  /** Without its line end; line ends within quotes are kept as LF. */
  readonly text: string;
}

export interface CsvRowReader {
  /** The rows that `text` ends; empty lines are passed over. */
  push(text: string): CsvRow[];
  /** The row at the end of the file, which may lack its line end (RFC 4180, section 2, rule 2). */
  end(): CsvRow[];
}

/** A row that does not end within the limit; most likely a quotation mark lacks its partner. */
export class EndlessRow extends Error {
  readonly line: number;
  constructor(line: number) {
    super(`line ${line} begins a row that does not end`);
    this.line = line;
  }
}

/**
 * Cuts text into rows.
 * @param limit the most characters of a row; a longer one throws EndlessRow
 * @param onTooLong passes over rows that are too long but have no quote open, told by their line
 */
export function createRowReader(
  limit: number,
  onTooLong: ((line: number) => void) | null = null,
): CsvRowReader {
  let separator: CsvSeparator | null = null;
  let lineCount = 0;
  /** What comes is the rest of a line that is passed over. */
  let isPassing = false;
  /** The line whose end has not come yet. */
  let tail = '';
  /** A row with a quote that is still open. */
  let open: CsvRow | null = null;

  function refuse(row: CsvRow): void {
    // What lies beyond the limit may not have come yet, so it has no say.
    const isOpen = splitRow(row.text.slice(0, limit + 1), separator ?? ',') === null;
    if (onTooLong === null || isOpen) throw new EndlessRow(row.line);
    onTooLong(row.line);
  }

  function take(line: string, rows: CsvRow[]): void {
    lineCount += 1;
    if (isPassing) {
      isPassing = false;
      return;
    }
    const row = joined(open, line, lineCount);
    if (row.text.length > limit) {
      open = null;
      refuse(row);
      return;
    }
    separator ??= line === '' ? null : separatorIn(line);
    const isOpen = splitRow(row.text, separator ?? ',') === null;
    open = isOpen ? row : null;
    if (!isOpen && row.text !== '') rows.push(row);
  }

  return {
    push(text) {
      const whole = tail + text;
      // CR at the very end may be half of a CR LF.
      const held = whole.endsWith('\r') ? 1 : 0;
      const lines = whole.slice(0, whole.length - held).split(/\r\n|\r|\n/);
      tail = (lines.pop() ?? '') + (held === 1 ? '\r' : '');
      const rows: CsvRow[] = [];
      for (const line of lines) take(line, rows);
      if (tail.length > limit) {
        if (!isPassing) refuse(joined(open, tail, lineCount + 1));
        open = null;
        isPassing = true;
        tail = held === 1 ? '\r' : '';
      }
      return rows;
    },
    end() {
      const rows: CsvRow[] = [];
      take(tail.replace(/\r$/, ''), rows);
      if (open !== null) throw new EndlessRow(open.line);
      return rows;
    },
  };
}

/** The row that a line begins, or goes on with. */
function joined(open: CsvRow | null, line: string, number: number): CsvRow {
  return open === null
    ? { line: number, text: line }
    : { line: open.line, text: `${open.text}\n${line}` };
}

/** The fields of a row without their quotes; null when a quote is still open at its end. */
export function splitRow(text: string, separator: CsvSeparator): string[] | null {
  if (!text.includes('"')) return text.split(separator);
  const fields: string[] = [];
  for (let start = 0; ; ) {
    const quoted = text[start] === '"' ? readQuoted(text, start + 1) : { value: '', end: start };
    if (quoted === null) return null;
    const end = text.indexOf(separator, quoted.end);
    fields.push(quoted.value + text.slice(quoted.end, end === -1 ? text.length : end));
    if (end === -1) return fields;
    start = end + 1;
  }
}

/** Reads up to the closing quote, null when there is none; a doubled quote stands for one. */
function readQuoted(text: string, start: number): { value: string; end: number } | null {
  let value = '';
  for (let from = start; ; ) {
    const quote = text.indexOf('"', from);
    if (quote === -1) return null;
    value += text.slice(from, quote);
    if (text[quote + 1] !== '"') return { value, end: quote + 1 };
    value += '"';
    from = quote + 2;
  }
}
