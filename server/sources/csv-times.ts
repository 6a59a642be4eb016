/**
 * Time stamps in place of seconds: dates with times (ISO 8601, RFC 3339; a blank for the T) and
 * times of day. They are counted in seconds from the first, so that a stamp's own digits are kept.
 */

/** How the names of such columns are spelled, in lower case. */
const STAMP_COLUMNS: readonly string[] = ['time', 'timestamp', 'date_time', 'datetime', 'time_s'];

const CLOCK = String.raw`(\d{1,2}):(\d\d):(\d\d)(?:[.,](\d+))?`;
const STAMP = new RegExp(String.raw`^(?:(\d{4})-(\d\d)-(\d\d)[T ])?${CLOCK}\s*(Z|[+-]\d\d:?\d\d)?$`, 'i');

const DAY_S = 86_400;

interface Instant {
  readonly whole_s: number;
  readonly fraction_s: number;
  readonly isDated: boolean;
}

export function isStampColumn(name: string): boolean {
  return STAMP_COLUMNS.includes(name.toLowerCase());
}

/** Reads the stamps of one column, in order. */
export interface StampReader {
  /** Seconds since the first stamp, as text; null when the field is no stamp. */
  read(field: string): string | null;
  hasBegun(): boolean;
}

export function createStampReader(): StampReader {
  let first: Instant | null = null;
  let last_s = -Infinity;
  /** Midnights that times of day have passed. */
  let days = 0;
  return {
    read(field) {
      const at = instantOf(field.trim());
      if (at === null) return null;
      if (!at.isDated && at.whole_s + days * DAY_S < last_s - DAY_S / 2) days += 1;
      const whole_s = at.whole_s + days * DAY_S;
      last_s = whole_s;
      first ??= at;
      const since_s = whole_s - first.whole_s + (at.fraction_s - first.fraction_s);
      return String(Number(since_s.toFixed(6)));
    },
    hasBegun: () => first !== null,
  };
}

function instantOf(text: string): Instant | null {
  const found = STAMP.exec(text);
  if (found === null) return null;
  const [, year, month, day, hour, minute, second, decimals, zone] = found;
  const clock_s = 3600 * Number(hour) + 60 * Number(minute) + Number(second);
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 60) return null;
  const isDated = year !== undefined;
  const date_s = isDated ? Date.UTC(Number(year), Number(month) - 1, Number(day)) / 1000 : 0;
  return {
    whole_s: date_s + clock_s - zoneOf_s(zone),
    fraction_s: Number(`0.${decimals ?? 0}`),
    isDated,
  };
}

/** Seconds that a zone is ahead of UTC; a stamp without one is taken as it stands. */
function zoneOf_s(zone: string | undefined): number {
  if (zone === undefined || zone.toUpperCase() === 'Z') return 0;
  const [hours, minutes] = [zone.slice(1, 3), zone.slice(-2)].map(Number);
  return (zone.startsWith('-') ? -1 : 1) * (3600 * hours! + 60 * minutes!);
}
