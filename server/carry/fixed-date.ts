/**
 * The date of every file in an archive, so that the same content gives the same bytes. Dates in an
 * archive have no time zone: they are written as local time.
 */
export function fixedDate(): Date {
  return new Date(1980, 0, 1);
}
