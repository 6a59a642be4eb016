/** Which catalogue a page speaks. */
import { LANGUAGES, type Catalogue, type Language } from './catalogue.ts';
import { de } from './de.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';

export const CATALOGUES: Readonly<Record<Language, Catalogue>> = { en, de, es, fr };

export function isLanguage(tag: string | null | undefined): tag is Language {
  return LANGUAGES.some((one) => one === tag);
}

/** The first of the person's languages that there is a catalogue for; English when none is. */
export function languageFor(preferred: readonly string[]): Language {
  const known = preferred.map((tag) => tag.toLowerCase().split('-')[0]).find(isLanguage);
  return known ?? 'en';
}
