/** Which digits of a figure are certain. */
import { decimalAt } from '#core/metrology/format.ts';

/**
 * For each character of the text, whether it stands still: a digit does when every recent value,
 * written to the same place, has the same characters up to and including it. So a heavy digit
 * never changes under one's eyes. The last digit needs `settled` besides.
 * @param recent the values of the newest quarter of the window, in the unit shown
 */
export function stillCharacters(
  text: string,
  recent: readonly number[],
  as: { readonly place: number; readonly settled: boolean },
): readonly boolean[] {
  const characters = [...text];
  const last = lastSupported(characters, as.place);
  const written = recent.map((value) => decimalAt(value, as.place));
  const alike = written.filter((other) => other.length === text.length);
  const agree =
    alike.length === written.length && written.length > 0 ? commonStart(text, alike) : 0;
  return characters.map((_, i) => i < agree && (i < last || as.settled));
}

/** Index of the last digit that is more than a filling zero, as the 4 of 240 ± 30. */
function lastSupported(characters: readonly string[], place: number): number {
  return Math.max(characters.length - 1 - Math.max(place, 0), 0);
}

function commonStart(text: string, others: readonly string[]): number {
  let length = 0;
  while (length < text.length && others.every((other) => other[length] === text[length])) length++;
  return length;
}
