/** Tables as CSV (RFC 4180, UTF-8) that a spreadsheet can be trusted with. */

export type Cell = string | number | boolean | null;

/**
 * A text that a spreadsheet would take for a formula. `'` before it makes it a text there; the
 * untouched text is in the session's rows (session.jsonl).
 */
const LIKE_FORMULA = /^[=+\-@\t\r]/;

/** @returns one row with its line end */
export function csvRow(cells: readonly Cell[]): string {
  return `${cells.map(csvField).join(',')}\r\n`;
}

function csvField(cell: Cell): string {
  if (cell === null) return '';
  // Numbers in full, as they are: a minus sign before digits is no formula.
  if (typeof cell !== 'string') return String(cell);
  const text = LIKE_FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
