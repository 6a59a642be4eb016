/** Columns as spreadsheets name them: `Voltage (V)`, `Current [mA]`, `Wind/km/h`, `Time (s)`. */
import { columnNamed } from '#protocol/plain-header.ts';

/** Units that the names of columns in plain lines spell otherwise. */
const UNITS: Readonly<Record<string, string>> = {
  'm/s': 'mps',
  'km/h': 'kmph',
  'rad/s': 'radps',
  'r/min': 'rpm',
  '1/min': 'rpm',
  µA: 'uA',
  μA: 'uA',
  '°C': 'degC',
  '%': 'pct',
};

/** A name, then its unit in brackets or behind a stroke (ISO 80000-1, 7.1.3; from memory). */
const WITH_UNIT = /^([^([/]+?)\s*(?:\((.+)\)|\[(.+)\]|\/\s*(.+))$/;

/** The same column as a header of plain lines names it; what is not understood stays. */
export function plainColumn(name: string): string {
  const found = WITH_UNIT.exec(name);
  if (columnNamed(name).role !== 'ignored' || found === null) return name;
  const [, called = '', round, square, stroke] = found;
  const unit = (round ?? square ?? stroke ?? '').trim();
  const stem = called.trim().replaceAll(/\s+/g, '_');
  const plain = `${/^time$/i.test(stem) ? 'time' : stem}_${UNITS[unit] ?? unit}`;
  return columnNamed(plain).role === 'ignored' ? name : plain;
}
