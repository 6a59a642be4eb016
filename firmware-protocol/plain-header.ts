/** The header of plain lines: `time_ms,voltage_V,current_mA,wind_mps`. */
import {
  conversionOf,
  quantityNamed,
  unitsOf,
  type Conversion,
  type QuantityName,
} from './quantity.ts';

const TIME_UNITS = ['us', 'ms', 's'] as const;
export type TimeUnit = (typeof TIME_UNITS)[number];

/** What one column holds. */
export type Column =
  | { readonly role: 'time'; readonly name: string; readonly unit: TimeUnit }
  | { readonly role: 'sequence'; readonly name: string }
  | {
      readonly role: 'quantity';
      readonly name: string;
      readonly quantity: QuantityName;
      readonly conversion: Conversion;
    }
  /** Not ours to read. `units`: what could follow the name, when the name alone is known. */
  | { readonly role: 'ignored'; readonly name: string; readonly units: readonly string[] };

/** Separators in the order in which they are looked for; blanks only where no other is found. */
const SEPARATORS = [';', ',', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number] | ' ';

/** The separator that a line uses. A line without any is taken as one field. */
export function separatorOf(text: string): Separator {
  const unquoted = text.includes('"') ? text.replaceAll(/"[^"]*"/g, '') : text;
  return SEPARATORS.find((separator) => unquoted.includes(separator)) ?? ' ';
}

/** What a column of this name holds. */
export function columnNamed(name: string): Column {
  const split = name.lastIndexOf('_');
  const stem = name.slice(0, Math.max(split, 0));
  const unit = name.slice(split + 1);
  if (name === 'time' || stem === 'time') {
    return isTimeUnit(unit)
      ? { role: 'time', name, unit }
      : { role: 'ignored', name, units: TIME_UNITS };
  }
  if (name === 'seq') return { role: 'sequence', name };
  const quantity = quantityNamed(stem);
  const conversion = quantity === null ? null : conversionOf(quantity, unit);
  if (quantity !== null && conversion !== null) {
    return { role: 'quantity', name, quantity, conversion };
  }
  const meant = quantity ?? quantityNamed(name);
  return { role: 'ignored', name, units: meant === null ? [] : unitsOf(meant) };
}

function isTimeUnit(unit: string): unit is TimeUnit {
  return (TIME_UNITS as readonly string[]).includes(unit);
}

export interface Header {
  readonly columns: readonly Column[];
  /** The separator of the lines to come too; null where the header has none. */
  readonly separator: Separator | null;
}

/**
 * What a header line says; null when the line is no header. A header names at least
 * one quantity with its unit and holds no number. Where blanks separate, ordinary words would look
 * like names too, so there every field must have the form of a name with a unit.
 */
export function parseHeader(text: string): Header | null {
  if (!text.includes('_')) return null;
  const separator = separatorOf(text);
  const names = splitFields(text, separator);
  if (names.some(startsLikeNumber)) return null;
  const columns = names.map(columnNamed);
  if (!columns.some(({ role }) => role === 'quantity')) return null;
  const isProse = ({ role, name }: Column) =>
    role === 'ignored' && !/^[A-Za-z]\w*_[A-Za-z]+$/.test(name);
  if (separator === ' ' && columns.some(isProse)) return null;
  return { columns, separator: columns.length > 1 ? separator : null };
}

/** Fields without the blanks around them; quotes as in RFC 4180, section 2. */
export function splitFields(text: string, separator = separatorOf(text)): string[] {
  if (separator === ' ')
    return text
      .trim()
      .split(/[ \t]+/)
      .map(unquoted);
  const quoted = `"(?:[^"]|"")*"`;
  const field = new RegExp(`(?:\\s*${quoted}\\s*|[^${separator}]*)(?:${separator}|$)`, 'gy');
  const fields = (text + separator).match(field)?.slice(0, -1) ?? [];
  return fields.map((raw) => unquoted(raw.slice(0, -1).trim()));
}

function unquoted(field: string): string {
  const isQuoted = field.length >= 2 && field.startsWith('"') && field.endsWith('"');
  return isQuoted ? field.slice(1, -1).replaceAll('""', '"').trim() : field;
}

function startsLikeNumber(field: string): boolean {
  return /^[-+.]?\d/.test(field);
}
