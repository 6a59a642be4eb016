/** What the program says, marked as English where the page speaks another language. */
import type { Sentence } from '../model/told.ts';

export function Program({ sentence }: { sentence: Sentence | null }) {
  if (sentence === null) return null;
  return <span {...(sentence.isEnglish && { lang: 'en' })}>{sentence.text}</span>;
}
