/** The words of the page on why, by language; other pages do not load them. */
import type { Language } from './catalogue.ts';
import type { WhyWords } from './why-words.ts';
import { deWhy } from './why/de.ts';
import { enWhy } from './why/en.ts';
import { esWhy } from './why/es.ts';
import { frWhy } from './why/fr.ts';

export const WHY_WORDS: Readonly<Record<Language, WhyWords>> = {
  en: enWhy,
  de: deWhy,
  es: esWhy,
  fr: frWhy,
};
