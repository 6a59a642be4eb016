/**
 * Names in a sentence: "10°, 25° and 40°" (Unicode Technical Standard 35, part 2, list patterns, as
 * `Intl.ListFormat` has them).
 */
export function listedIn(locale: string): (names: readonly string[]) => string {
  const format = new Intl.ListFormat(locale, { type: 'conjunction' });
  return (names) => format.format(names);
}
