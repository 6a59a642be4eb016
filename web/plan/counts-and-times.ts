/** Counts and times of day as people type them. */

/** A whole number from 1 up; null for anything else, and beyond `most`. */
export function readCount(text: string, most: number): number | null {
  const count = /^\d{1,4}$/.test(text.trim()) ? Number(text) : 0;
  return count >= 1 && count <= most ? count : null;
}

const TIME_OF_DAY = /^(\d{1,2})(?:\s*[:.hH]\s*|\s*)(\d{2})\s*(am|pm|a\.m\.|p\.m\.)?$/i;

/** "14:45", "14.45", "14h45", "1445" and "2:45 pm" are "14:45"; null for what is no time of day. */
export function readTimeOfDay(text: string): string | null {
  const [, hourText, minuteText, half] = TIME_OF_DAY.exec(text.trim()) ?? [];
  if (hourText === undefined || minuteText === undefined) return null;
  const [typed, minute] = [Number(hourText), Number(minuteText)];
  if (minute > 59 || typed > (half === undefined ? 23 : 12)) return null;
  const hour = half === undefined ? typed : (typed % 12) + (/^p/i.test(half) ? 12 : 0);
  return `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}
